//! Things of a class that was never learned: does the fit tell them from known ones?

use crate::data::Data;
use crate::learn::{Choice, Lesson};
use crate::measure::auc;
use crate::session::{self, Ways};
use crate::settings;
use crate::trial::{Told, spread};
use anyhow::Result;
use reason::{Model, fit, weigh};

/// Areas under the curve, strangers against known things.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Novelty {
    /// By the engine's fit.
    pub fit: f64,
    /// By the leader's probability alone.
    pub leader: f64,
}

/// Known things are held out as ever; strangers are met by a model that never saw their class. After `asked` questions
/// (none: all).
///
/// # Errors
/// The engine's own.
pub fn novelty(data: &Data, choices: &[Choice], told: &[Told], asked: Option<usize>) -> Result<Novelty> {
    let known = spread(data.folds(), |fold| {
        let model = choices[fold].model(&Lesson::without(data, fold), settings::ASSUMED)?;
        Ok(signs(&model, data, told.iter().filter(|t| data.fold_of[t.row] == fold), asked))
    })?;
    let strange = spread(data.classes, |class| {
        let rows = (0..data.rows.len()).filter(|r| data.class_of[*r] != class).collect();
        let model = choices[0].model(&Lesson { data, rows }, settings::ASSUMED)?;
        Ok(signs(&model, data, told.iter().filter(|t| data.class_of[t.row] == class), asked))
    })?;
    let (known, strange) = (known.concat(), strange.concat());
    let by = |of: fn(&(f64, f64)) -> f64| {
        auc(&strange.iter().map(of).collect::<Vec<_>>(), &known.iter().map(of).collect::<Vec<_>>())
    };
    Ok(Novelty { fit: by(|s| s.0), leader: by(|s| s.1) })
}

/// How strange each looks: by the fit, and by what is left beside the leader.
fn signs<'a>(
    model: &Model,
    data: &Data,
    told: impl Iterator<Item = &'a Told>,
    asked: Option<usize>,
) -> Vec<(f64, f64)> {
    let mut ways = Ways::default();
    told.map(|t| {
        let mut answers = session::run(model, data, &t.shown, &mut ways).answers;
        answers.truncate(asked.unwrap_or(usize::MAX));
        let posterior = weigh(model, 0, &answers);
        let top = posterior.kinds(model).into_iter().fold(0.0, f64::max);
        (-fit(model, &posterior, &answers).z.unwrap_or(0.0), 1.0 - top)
    })
    .collect()
}
