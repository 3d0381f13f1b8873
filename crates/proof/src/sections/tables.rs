//! Accuracy and calibration on the open tables, beside the peers.

use super::line;
use crate::data::Data;
use crate::learn::{Choice, Shape};
use crate::measure::Score;
use crate::page::{Grid, Line, Plot, Section};
use crate::peers::Peers;
use crate::settings::{BUDGETS, THRESHOLDS, WRONG};
use crate::trial::{self, Outcome, Told};
use anyhow::Result;

/// A table with what the engine made of it.
#[derive(Debug)]
pub struct Measured {
    /// As it was read.
    pub raw: Data,
    /// With "unknown" as a state.
    pub data: Data,
    /// What was chosen, by fold.
    pub choices: Vec<Choice>,
    /// By share of wrong answers.
    pub outcomes: Vec<Outcome>,
    /// The peers' figures, by share of wrong answers.
    pub peers: Vec<Peers>,
}

impl Measured {
    /// Rows as they are told at a share of wrong answers.
    #[must_use]
    pub fn told(&self, wrong: f64, times: usize) -> Vec<Told> {
        told(&self.raw, wrong, times)
    }
}

fn told(raw: &Data, wrong: f64, times: usize) -> Vec<Told> {
    let mut told = trial::told(raw, wrong, times);
    told.iter_mut().for_each(|t| t.shown = raw.told_unknown(&t.shown));
    told
}

/// Learns and measures one table.
///
/// # Errors
/// The engine's own.
pub fn measured(raw: Data, peers: Vec<Peers>) -> Result<Measured> {
    let data = raw.with_unknown_as_state();
    let choices = trial::choices(&data)?;
    let outcomes = (WRONG.iter())
        .map(|wrong| trial::outcome(&data, &choices, &told(&raw, *wrong, trial::times(&raw))))
        .collect::<Result<Vec<Outcome>>>()?;
    Ok(Measured { raw, data, choices, outcomes, peers })
}

/// The section of one table.
#[must_use]
pub fn tables(m: &Measured) -> Section {
    let mut rows = Vec::new();
    for ((wrong, outcome), peers) in WRONG.iter().zip(&m.outcomes).zip(&m.peers) {
        rows.extend(budgets(*wrong, outcome, peers));
        if *wrong == 0.05 {
            rows.extend(calibration(&m.raw.name, &outcome.all, outcome, peers));
        }
    }
    Section {
        title: format!(
            "{}: {} rows, {} characters, {} classes",
            m.raw.name,
            m.raw.rows.len(),
            m.raw.characters.len(),
            m.raw.classes
        ),
        text: format!("Learned as: {}.", learned(&m.choices)),
        rows,
        tables: vec![thresholds(m), losses(m)],
        plots: vec![plot(m)],
    }
}

/// How often each way of learning was chosen.
fn learned(choices: &[Choice]) -> String {
    let mut names: Vec<String> = (choices.iter())
        .map(|c| {
            let shape = match c.shape {
                Shape::One => "one table a class".to_owned(),
                Shape::Mixture => "a mixture of forms".to_owned(),
                Shape::Around(spread) => format!("forms around patterns, spread {spread}"),
            };
            format!("{shape}, overlap {}", c.rho)
        })
        .collect();
    names.sort();
    let mut kinds = names.clone();
    kinds.dedup();
    let count = |k: &String| names.iter().filter(|n| *n == k).count();
    kinds.iter().map(|k| format!("{k} ({} folds)", count(k))).collect::<Vec<_>>().join("; ")
}

fn percent(wrong: f64) -> String {
    format!("{:.0} % wrong", wrong * 100.0)
}

fn budgets(wrong: f64, outcome: &Outcome, peers: &Peers) -> Vec<Line> {
    let below = if wrong > 0.0 { 0.0 } else { 0.01 };
    let limit = if wrong > 0.0 { "the best peer or better" } else { "at most one point below the best peer" };
    (BUDGETS.iter().zip(&outcome.budgets))
        .map(|(budget, score)| {
            let (name, best) = peers.best(*budget);
            let met = best.is_finite().then_some(score.accuracy >= best - below);
            let what = format!("accuracy, {}, {budget} questions ({name})", percent(wrong));
            line(what, score.accuracy, best, limit.into(), met)
        })
        .collect()
}

fn calibration(name: &str, all: &Score, outcome: &Outcome, peers: &Peers) -> Vec<Line> {
    let (low, high) = outcome.pass_range;
    let fixed = ["soybean", "mushroom"].contains(&name);
    let (ours, limit, met) = if fixed {
        (all.ece, "at most 0.03".to_owned(), all.ece <= 0.03)
    } else {
        let got = outcome.pass_ece;
        (got, format!("{low:.4} to {high:.4}: a calibrated model's"), got <= high)
    };
    let (peer, loss) = peers.least_loss();
    vec![
        line("expected calibration error, 5 % wrong, all answered".into(), ours, f64::NAN, limit, Some(met)),
        line(
            format!("log loss, 5 % wrong, all answered ({peer})"),
            all.log_loss,
            loss,
            "every peer or less".into(),
            loss.is_finite().then_some(all.log_loss <= loss),
        ),
    ]
}

fn thresholds(m: &Measured) -> Grid {
    let rows = (WRONG.iter().zip(&m.outcomes)).flat_map(|(wrong, o)| {
        (THRESHOLDS.iter().zip(&o.thresholds)).map(|(t, s)| {
            vec![
                percent(*wrong),
                format!("{t:.2}"),
                format!("{:.4}", s.accuracy),
                format!("{:.2}", s.questions),
                format!("{:.4}", s.log_loss),
                format!("{:.4}", s.ece),
            ]
        })
    });
    Grid {
        caption: "Sessions that end when the leader reaches a threshold".into(),
        head: ["answers", "threshold", "accuracy", "mean questions", "log loss", "calibration error"]
            .map(String::from)
            .to_vec(),
        rows: rows.collect(),
    }
}

fn losses(m: &Measured) -> Grid {
    let rows = (WRONG.iter().zip(&m.outcomes)).flat_map(|(wrong, o)| {
        let budgets = BUDGETS.iter().map(usize::to_string).chain(["all".to_owned()]);
        budgets.zip(o.budgets.iter().chain([&o.all])).map(|(b, s)| {
            let range = format!("{:.4} to {:.4}", s.ece_range.0, s.ece_range.1);
            vec![
                percent(*wrong),
                b,
                format!("{:.4}", s.log_loss),
                format!("{:.4}", s.brier),
                format!("{:.4}", s.ece),
                range,
            ]
        })
    });
    Grid {
        caption:
            "Log loss (nats), Brier score (0 to 2) and calibration error of the engine, all passes pooled"
                .into(),
        head: ["answers", "questions", "log loss", "Brier", "calibration error", "a calibrated model's"]
            .map(String::from)
            .to_vec(),
        rows: rows.collect(),
    }
}

fn plot(m: &Measured) -> Plot {
    let mut lines = Vec::new();
    for ((wrong, o), peers) in WRONG.iter().zip(&m.outcomes).zip(&m.peers) {
        let ours = BUDGETS.iter().zip(&o.budgets).map(|(b, s)| (*b as f64, s.accuracy));
        lines.push((format!("engine, {}", percent(*wrong)), ours.collect()));
        let best = BUDGETS.iter().map(|b| (*b as f64, peers.best(*b).1)).filter(|p| p.1.is_finite());
        lines.push((format!("best peer, {}", percent(*wrong)), best.collect()));
    }
    Plot {
        caption: "Accuracy by number of questions".into(),
        x: "questions".into(),
        y: "accuracy".into(),
        lines,
    }
}
