//! Why: the strength of a clue, and which answer may have been misread.

use crate::answer::{Answer, Told};
use crate::likelihood::{log_likelihood, misread};
use crate::model::{Model, Quantity};
use crate::posterior::Posterior;

/// log10 of the odds of one share against another, held within +-12 so that it can always be shown.
#[must_use]
pub fn log10_odds(one: f64, other: f64) -> f64 {
    libm::log10(one.max(1e-300) / other.max(1e-300)).clamp(-12.0, 12.0)
}

/// The posterior probability that an answer was misread: that the truth is none of what was told.
///
/// `posterior` is that of all answers, the suspected one included. 0 for "can't tell". It takes the looks for the
/// piece's own: that they may be another's stands in the posterior only.
#[must_use]
pub fn chance_misread(model: &Model, posterior: &Posterior, answer: &Answer, all: &[Answer]) -> f64 {
    let q = &model.questions[answer.question];
    let e = misread(q, answer.sure);
    match &answer.told {
        Told::Cannot => 0.0,
        Told::OneOf(set) => {
            let right: f64 = posterior
                .p
                .iter()
                .zip(&q.parts.row_of)
                .map(|(p, row)| {
                    let k = q.parts.choices;
                    let truth = &q.truth[row * k..(row + 1) * k];
                    let told = |t: usize| truth[t] * set.iter().map(|r| q.reads(*r, t, e)).sum::<f64>();
                    let all: f64 = (0..k).map(told).sum();
                    if all > 0.0 { p * set.iter().map(|t| told(*t)).sum::<f64>() / all } else { 0.0 }
                })
                .sum();
            (1.0 - right).clamp(0.0, 1.0)
        }
        Told::Measured { .. } if q.parts.quantity == Quantity::None => 0.0,
        Told::Measured { .. } => match log_likelihood(model, answer, all) {
            None => 0.0,
            Some(log_l) => {
                let floor = e / q.range;
                posterior.p.iter().zip(log_l).map(|(p, l)| p * (floor / libm::exp(l)).min(1.0)).sum()
            }
        },
    }
}
