//! Problems with exact answers: the digits, the traces, the keys.

use super::line;
use crate::data::Data;
use crate::exact::key::{Rule, cost, drawn};
use crate::exact::led;
use crate::exact::optimal::{self, Table};
use crate::page::{Line, Section};
use crate::traces;
use anyhow::Result;
use reason::Random;

/// Seed of the generated tables on the page; the look-ahead was settled with others.
const SEED: u64 = 20_261_125;
/// Generated tables, their items and questions; and how often costs are drawn for the patterns of zoo.
const TABLES: (usize, usize, usize, usize) = (200, 24, 12, 40);

/// Ten digits by seven segments.
///
/// # Errors
/// The engine's own.
pub fn digits() -> Result<Section> {
    let mut rows = Vec::new();
    for (fails, rate) in [(0.05, 0.867_032_26), (0.10, 0.740_022_48)] {
        let model = led::model(fails)?;
        let all = led::sessions(&model, 2.0, fails);
        let off = (all.accuracy - rate).abs();
        rows.push(line(
            format!("accuracy, all seven answers, {:.0} % fail", fails * 100.0),
            all.accuracy,
            rate,
            "the exact rate, to 1e-8".into(),
            Some(off < 1e-8),
        ));
        for enough in [0.8, 0.9, 0.95] {
            let some = led::sessions(&model, enough, fails);
            rows.push(line(
                format!(
                    "mean claim at {enough}, {:.0} % fail, {:.3} questions",
                    fails * 100.0,
                    some.questions
                ),
                some.claimed,
                some.accuracy,
                "equals the accuracy, to 1e-9".into(),
                Some((some.claimed - some.accuracy).abs() < 1e-9),
            ));
        }
    }
    Ok(Section {
        title: "Ten digits by seven segments".into(),
        text: "Every session is enumerated, so these figures are exact. Published by Breiman, Friedman, Olshen and Stone (1984): \
               Bayes rate 74 % at 10 %. When the assumed failing is the true one, the leader's probability is its accuracy."
            .into(),
        rows,
        ..Section::default()
    })
}

/// The traced sessions, where a file of them is given.
///
/// # Errors
/// When the file is not of the expected shape.
pub fn traces(zoo: Option<&Data>, text: Option<&str>) -> Result<Section> {
    let mut section = Section {
        title: "Traced sessions".into(),
        text: "Sessions on zoo that another program traced: the same questions in the same order, gains and posteriors to ten digits.".into(),
        ..Section::default()
    };
    match zoo.zip(text) {
        None => section.text += " Left out: PRESSMARK_TRACES names no file of traces, or zoo is missing.",
        Some((zoo, text)) => {
            let got = traces::compare(zoo, text)?;
            section.rows = vec![
                line(
                    format!("sessions with the same questions, of {}", got.sessions),
                    got.same as f64,
                    got.sessions as f64,
                    "all".into(),
                    Some(got.same == got.sessions && got.sessions > 0),
                ),
                line(
                    "largest difference".into(),
                    got.off,
                    f64::NAN,
                    "at most 1e-9".into(),
                    Some(got.off <= 1e-9),
                ),
            ];
        }
    }
    Ok(section)
}

/// Keys against the cheapest.
///
/// # Errors
/// The engine's own.
pub fn keys(zoo: Option<&Data>) -> Result<Section> {
    let mut random = Random::seeded(SEED);
    let generated: Vec<Table> = (0..TABLES.0).map(|_| drawn(TABLES.1, TABLES.2, &mut random)).collect();
    let mut rows = Vec::new();
    compare("generated tables", &generated, 1.01, &mut rows)?;
    if let Some(zoo) = zoo {
        let patterns: Vec<Table> =
            (0..TABLES.3).map(|_| patterns(zoo, |r| [1.0, 2.0, 4.0][r.below(3)], &mut random)).collect();
        compare("zoo patterns", &patterns, 1.02, &mut rows)?;
        let even = patterns_even(zoo, &mut random);
        let best = optimal::cost(&even);
        let bound = libm::log2(even.items() as f64);
        rows.push(line(
            "zoo patterns, equal costs, questions: cheapest, beside the entropy in bits".into(),
            best,
            bound,
            String::new(),
            None,
        ));
        for (name, rule) in [("information per cost", Rule::PerCost), ("look-ahead", Rule::LookAhead)] {
            rows.push(line(
                format!("zoo patterns, equal costs, questions: {name}"),
                cost(&even, rule)?,
                best,
                String::new(),
                None,
            ));
        }
    }
    Ok(Section {
        title: "Keys against the cheapest".into(),
        text: format!(
            "{} tables of {} items and {} two-state questions of cost 1, 2 or 4 (seed {SEED}), and the 59 patterns of zoo with costs drawn \
             {} times. The cheapest key is found by branch and bound. Each figure is the mean cost over the cheapest's mean.",
            TABLES.0, TABLES.1, TABLES.2, TABLES.3
        ),
        rows,
        ..Section::default()
    })
}

fn compare(name: &str, tables: &[Table], limit: f64, rows: &mut Vec<Line>) -> Result<()> {
    let best: Vec<f64> = tables.iter().map(optimal::cost).collect();
    let rules = [
        ("most information", Rule::Information, None),
        ("information per cost", Rule::PerCost, Some(limit)),
        ("look-ahead on near ties", Rule::LookAhead, Some(1.005)),
    ];
    for (what, rule, limit) in rules {
        let costs = tables.iter().map(|t| cost(t, rule)).collect::<Result<Vec<f64>>>()?;
        let ratios: Vec<f64> = costs.iter().zip(&best).map(|(c, b)| c / b).collect();
        let mean = |x: &[f64]| x.iter().sum::<f64>() / x.len() as f64;
        let most = ratios.iter().copied().fold(0.0, f64::max);
        rows.push(Line {
            what: format!("{name}: {what} (worst {most:.3})"),
            ours: mean(&costs),
            peer: mean(&best),
            limit: limit.map_or_else(String::new, |l| format!("at most {l} in the mean")),
            ratio: mean(&ratios),
            met: limit.map(|l| mean(&ratios) <= l),
        });
    }
    Ok(())
}

fn patterns(zoo: &Data, mut costs: impl FnMut(&mut Random) -> f64, random: &mut Random) -> Table {
    let mut rows: Vec<Vec<usize>> =
        zoo.rows.iter().map(|r| r.iter().map(|v| *v as usize).collect()).collect();
    rows.sort();
    rows.dedup();
    let questions = zoo.characters.len();
    Table {
        states: (0..questions).map(|q| rows.iter().map(|r| r[q]).collect()).collect(),
        costs: (0..questions).map(|_| costs(random)).collect(),
    }
}

fn patterns_even(zoo: &Data, random: &mut Random) -> Table {
    patterns(zoo, |_| 1.0, random)
}
