//! All folds of a table: rows with wrong answers, sessions, scores.

use crate::data::{Data, Row};
use crate::learn::{Choice, Lesson, choose};
use crate::measure::{Score, score};
use crate::session::{self, Ends};
use crate::settings;
use anyhow::Result;
use reason::Random;

/// A held-out row as it was told.
#[derive(Debug, Clone)]
pub struct Told {
    /// Its index.
    pub row: usize,
    /// What was told.
    pub shown: Row,
}

/// Every row `times` over with this share of answers wrong.
#[must_use]
pub fn told(data: &Data, wrong: f64, times: usize) -> Vec<Told> {
    let mut random = Random::seeded(settings::SEED ^ (wrong * 1000.0) as u64);
    let times = if wrong > 0.0 { times } else { 1 };
    (0..times)
        .flat_map(|_| 0..data.rows.len())
        .map(|row| Told { row, shown: data.misread(&data.rows[row], wrong, &mut random) })
        .collect()
}

/// How often each row of a table is told with wrong answers.
#[must_use]
pub fn times(data: &Data) -> usize {
    (settings::LEAST_TOLD / data.rows.len().max(1)).max(1)
}

/// Writes told rows for the peers: the row, then what was told.
///
/// # Errors
/// When the file cannot be written.
pub fn write(path: &std::path::Path, told: &[Told]) -> Result<()> {
    let mut text = String::from("row");
    (0..told.first().map_or(0, |t| t.shown.len())).for_each(|c| text += &format!(",c{c}"));
    text.push('\n');
    for t in told {
        text += &t.row.to_string();
        for v in &t.shown {
            text.push(',');
            if !v.is_nan() {
                text += &v.to_string();
            }
        }
        text.push('\n');
    }
    std::fs::write(path, text)?;
    Ok(())
}

/// What a table gave at one share of wrong answers.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// After each budget.
    pub budgets: Vec<Score>,
    /// At each threshold.
    pub thresholds: Vec<Score>,
    /// When all was answered.
    pub all: Score,
    /// Calibration error of one pass over the rows, mean over the passes, all answered. (Passes are not independent of
    /// each other, so that pooling them would ask too much.)
    pub pass_ece: f64,
    /// 5 % and 95 % points of that error for a calibrated model, mean over the passes.
    pub pass_range: (f64, f64),
}

/// The choice for every fold.
///
/// # Errors
/// The engine's own.
pub fn choices(data: &Data) -> Result<Vec<Choice>> {
    spread(data.folds(), |fold| Ok(choose(&Lesson::without(data, fold), fold as u64)?.0))
}

/// Sessions with every told row, each by the model of its fold.
///
/// # Errors
/// The engine's own.
pub fn outcome(data: &Data, choices: &[Choice], told: &[Told]) -> Result<Outcome> {
    let by_fold: Vec<Vec<(usize, Ends)>> = spread(data.folds(), |fold| {
        let model = choices[fold].model(&Lesson::without(data, fold), settings::ASSUMED)?;
        let mut ways = session::Ways::default();
        let held = told.iter().filter(|t| data.fold_of[t.row] == fold);
        Ok(held.map(|t| (data.class_of[t.row], session::run(&model, data, &t.shown, &mut ways))).collect())
    })?;
    let counts: Vec<usize> = by_fold.iter().map(Vec::len).collect();
    let all: Vec<(usize, Ends)> = by_fold.into_iter().flatten().collect();
    let at = |of: &dyn Fn(&Ends) -> &session::End| -> Score {
        let rows: Vec<(usize, &[f64], usize)> = all
            .iter()
            .map(|(t, e)| {
                let e = of(e);
                (e.asked, e.p.as_slice(), *t)
            })
            .collect();
        score(&rows)
    };
    // Rows of a fold come pass by pass: the n-th of a row belongs to the n-th pass.
    let times = (all.len() / data.rows.len()).max(1);
    let passes: Vec<Score> = (0..times.min(settings::MOST_PASSES))
        .map(|pass| {
            let mut from = 0;
            let mut rows: Vec<(usize, &[f64], usize)> = Vec::new();
            for count in &counts {
                let size = count / times;
                let here = all[from + pass * size..from + (pass + 1) * size].iter();
                rows.extend(here.map(|(t, e)| (e.all.asked, e.all.p.as_slice(), *t)));
                from += count;
            }
            score(&rows)
        })
        .collect();
    Ok(Outcome {
        budgets: (0..settings::BUDGETS.len()).map(|b| at(&|e| &e.budgets[b])).collect(),
        thresholds: (0..settings::THRESHOLDS.len()).map(|b| at(&|e| &e.thresholds[b])).collect(),
        all: at(&|e| &e.all),
        pass_ece: passes.iter().map(|s| s.ece).sum::<f64>() / passes.len() as f64,
        pass_range: (
            passes.iter().map(|s| s.ece_range.0).sum::<f64>() / passes.len() as f64,
            passes.iter().map(|s| s.ece_range.1).sum::<f64>() / passes.len() as f64,
        ),
    })
}

/// Does `work` for 0..n on all cores; results in order.
///
/// # Errors
/// The first of the works'.
pub fn spread<T: Send>(n: usize, work: impl Fn(usize) -> Result<T> + Sync) -> Result<Vec<T>> {
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let mut found: Vec<(usize, Result<T>)> = std::thread::scope(|scope| {
        let work = &work;
        let hands: Vec<_> = (0..cores)
            .map(|core| {
                scope.spawn(move || (core..n).step_by(cores).map(|i| (i, work(i))).collect::<Vec<_>>())
            })
            .collect();
        hands.into_iter().flat_map(|h| h.join().unwrap_or_default()).collect()
    });
    found.sort_by_key(|f| f.0);
    anyhow::ensure!(found.len() == n, "A part of the work was lost.");
    found.into_iter().map(|f| f.1).collect()
}
