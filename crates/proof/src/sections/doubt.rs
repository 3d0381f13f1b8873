//! Strangers, "can't tell", and one of two.

use super::{Measured, line};
use crate::data::Character;
use crate::learn::Lesson;
use crate::learn::{Choice, Shape};
use crate::measure::score;
use crate::novelty::novelty;
use crate::page::{Grid, Section};
use crate::session;
use crate::settings::{ASSUMED, BUDGETS, SEED};
use crate::trial::{Told, spread};
use anyhow::Result;
use reason::Random;

/// The way of learning behind the fit: one for all models, since their fits are compared.
const BEHIND_FIT: Choice = Choice { shape: Shape::Mixture, rho: 0.0 };

/// Things of a class that was never learned.
///
/// # Errors
/// The engine's own.
pub fn strangers(all: &[Measured]) -> Result<Section> {
    let mut rows = Vec::new();
    for (name, least) in [("zoo", 0.93), ("soybean", 0.90)] {
        let Some(m) = all.iter().find(|m| m.raw.name == name) else { continue };
        let same = vec![BEHIND_FIT; m.choices.len()];
        for (wrong, asked, times) in [(0.0, None, 1), (0.05, None, 3), (0.0, Some(8), 1), (0.05, Some(8), 3)]
        {
            let told = m.told(wrong, times);
            let got = novelty(&m.data, &same, &told, asked)?;
            let limit = (wrong == 0.0 && asked.is_none()).then_some(least);
            let how = asked.map_or("all answered".to_owned(), |n| format!("{n} answers"));
            rows.push(line(
                format!("{name}: area under the curve of the fit, {:.0} % wrong, {how} (beside that of the leader's probability)", wrong * 100.0),
                got.fit,
                got.leader,
                limit.map_or_else(String::new, |l| format!("at least {l}")),
                limit.map(|l| got.fit >= l),
            ));
        }
    }
    Ok(Section {
        title: "Strangers".into(),
        text: "Each class in turn is not learned; its things are strangers to that model. Known things are held out as ever. Mixtures of forms behind every fit.".into(),
        rows,
        ..Section::default()
    })
}

/// "Can't tell" for a share of the questions, and one of two for a share of the answers, 5 % wrong.
///
/// # Errors
/// The engine's own.
pub fn answers(all: &[Measured]) -> Result<Section> {
    let mut rows = Vec::new();
    for m in all {
        for (untold, either) in [(0.0, 0.0), (0.1, 0.0), (0.2, 0.0), (0.3, 0.0), (0.0, 0.2), (0.0, 0.4)] {
            let told = m.told(ASSUMED, if m.raw.rows.len() > 1000 { 1 } else { 5 });
            let by_fold = spread(m.data.folds(), |fold| fold_scores(m, fold, &told, untold, either))?;
            let flat: Vec<Stood> = by_fold.into_iter().flatten().collect();
            let mut line = vec![
                m.raw.name.clone(),
                format!("{:.0} %", untold * 100.0),
                format!("{:.0} %", either * 100.0),
            ];
            for at in 0..=BUDGETS.len() {
                let here: Vec<(usize, &[f64], usize)> =
                    flat.iter().filter(|f| f.3 == at).map(|f| (f.0, f.1.as_slice(), f.2)).collect();
                let s = score(&here);
                line.push(if at < BUDGETS.len() {
                    format!("{:.4}", s.accuracy)
                } else {
                    format!("{:.4} ({:.1})", s.accuracy, s.questions)
                });
            }
            rows.push(line);
        }
    }
    let mut head: Vec<String> = ["table", "can't tell", "one of two"].map(String::from).to_vec();
    head.extend(BUDGETS.map(|b| format!("after {b}")));
    head.push("at 0.95 (mean questions)".into());
    Ok(Section {
        title: "Can't tell, one of two".into(),
        text: "5 % of the answers are wrong; of the rest a share cannot be told, or names one state too many. A question that cannot be told counts as asked.".into(),
        tables: vec![Grid { caption: "Accuracy".into(), head, rows }],
        ..Section::default()
    })
}

/// Questions asked, P(class), the true class, and which end: a budget's, or (the last) that at the threshold 0.95.
type Stood = (usize, Vec<f64>, usize, usize);

/// Where the sessions of a fold stood.
fn fold_scores(m: &Measured, fold: usize, told: &[Told], untold: f64, either: f64) -> Result<Vec<Stood>> {
    let model = m.choices[fold].model(&Lesson::without(&m.data, fold), ASSUMED)?;
    let mut random = Random::seeded(SEED ^ fold as u64);
    let mut found = Vec::new();
    for t in told.iter().filter(|t| m.data.fold_of[t.row] == fold) {
        let mut shown = t.shown.clone();
        shown.iter_mut().for_each(|v| {
            if random.unit() < untold {
                *v = f64::NAN
            }
        });
        let more: Vec<Option<usize>> = (m.data.characters.iter())
            .map(|c| match c {
                Character::States(k) if *k > 1 && random.unit() < either => Some(random.below(*k)),
                _ => None,
            })
            .collect();
        let ends = session::run_with(&model, &m.data, &shown, &more, &mut session::Ways::default());
        let truth = m.data.class_of[t.row];
        let each = ends.budgets.into_iter().chain([ends.thresholds[2].clone()]).enumerate();
        found.extend(each.map(|(at, e)| (e.asked, e.p, truth, at)));
    }
    Ok(found)
}
