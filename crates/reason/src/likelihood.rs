//! The likelihood of one answer under each candidate.

use crate::answer::{Answer, Told};
use crate::model::{Model, Quantity, Question, RowParts};
use crate::normal;

/// An answer's likelihood under every candidate, and its logarithm.
pub(crate) struct Clue {
    pub(crate) l: Vec<f64>,
    pub(crate) log_l: Vec<f64>,
}

/// ln L of one answer under every candidate; `None` for an answer that says nothing.
///
/// `all` are all answers: a mass is judged as heft by the length that was measured, if any was (by the last answer
/// to the first question about a length).
/// Every value is finite as long as answers can be misread (misread above zero) or no table holds a zero.
#[must_use]
pub fn log_likelihood(model: &Model, answer: &Answer, all: &[Answer]) -> Option<Vec<f64>> {
    Some(clue(model, answer, all)?.log_l)
}

pub(crate) fn clue(model: &Model, answer: &Answer, all: &[Answer]) -> Option<Clue> {
    let q = model.questions.get(answer.question)?;
    if !answer.told.speaks() {
        return None;
    }
    let e = misread(q, answer.sure);
    match &answer.told {
        Told::Cannot => None,
        Told::OneOf(set) => {
            // One logarithm a row: candidates share rows.
            let reads = q.reads_any(set, e);
            let l: Vec<f64> = (0..q.parts.rows.len()).map(|r| q.chance(r, &reads)).collect();
            let log_l: Vec<f64> = l.iter().map(|l| libm::log(*l)).collect();
            let by_candidate = |rows: &[f64]| q.parts.row_of.iter().map(|r| rows[*r]).collect();
            Some(Clue { l: by_candidate(&l), log_l: by_candidate(&log_l) })
        }
        Told::Measured { value, uncertainty } => {
            let n = model.candidates();
            let mut l: Vec<f64> = match &q.parts.quantity {
                Quantity::None => return None,
                Quantity::Length(_) => (0..n).map(|c| measured(q, c, *value, *uncertainty, 0.0, e)).collect(),
                Quantity::Heft(_) => {
                    let length = measured_length(model, all);
                    (0..n)
                        .map(|c| {
                            let (x, u, extra) = heft(model, c, *value, *uncertainty, length);
                            measured(q, c, x, u, extra, e)
                        })
                        .collect()
                }
            };
            level_closed(q, &model.parts.priors[0], &mut l);
            let log_l = l.iter().map(|l| libm::log(*l)).collect();
            Some(Clue { l, log_l })
        }
    }
}

/// Behind a closed gate: the mean likelihood over the candidates for which it is open.
fn level_closed(q: &Question, prior: &[f64], l: &mut [f64]) {
    if q.closed.is_empty() {
        return;
    }
    let (mut mean, mut weight) = (0.0, 0.0);
    for (c, (p, l)) in prior.iter().zip(l.iter()).enumerate() {
        if q.closed.binary_search(&c).is_err() {
            mean += p * l;
            weight += p;
        }
    }
    if weight > 0.0 {
        q.closed.iter().for_each(|c| l[*c] = mean / weight);
    }
}

/// P(misread) of a sure or an unsure answer.
pub(crate) fn misread(q: &Question, sure: bool) -> f64 {
    if sure { q.parts.misread.0 } else { q.parts.misread.1 }
}

/// (1-e) normal + e / range: never without the floor for gross errors.
fn measured(q: &Question, candidate: usize, x: f64, u: f64, extra: f64, e: f64) -> f64 {
    let floor = e / q.range;
    match &q.parts.rows[q.parts.row_of[candidate]] {
        RowParts::Spread { mean, sd } => {
            (1.0 - e) * normal::density(x, *mean, (sd * sd + u * u + extra * extra).sqrt()) + floor
        }
        RowParts::Shares(_) => 1.0 / q.range,
    }
}

/// Mass over length cubed as (value, its uncertainty, spread added by an unmeasured length), all in ln.
///
/// Measured length: u^2 = (u_m/m)^2 + (3 u_L/L)^2 (GUM, 5.1.6). Otherwise the candidate's own lengths, taken as
/// log-normal with the same relative spread.
fn heft(model: &Model, candidate: usize, grams: f64, u: f64, length: Option<(f64, f64)>) -> (f64, f64, f64) {
    let relative = u / grams;
    if let Some((mm, u_mm)) = length {
        let both = (relative * relative + 9.0 * (u_mm / mm) * (u_mm / mm)).sqrt();
        return (libm::log(grams) - 3.0 * libm::log(mm / 10.0), both, 0.0);
    }
    match own_length(model, candidate) {
        Some((mean, sd)) => (libm::log(grams) - 3.0 * libm::log(mean / 10.0), relative, 3.0 * sd / mean),
        None => (libm::log(grams), relative, 3.0),
    }
}

/// The piece's length is what the pack's first question about a length asks.
fn length_question(model: &Model) -> Option<usize> {
    model.questions.iter().position(|q| matches!(q.parts.quantity, Quantity::Length(_)))
}

fn own_length(model: &Model, candidate: usize) -> Option<(f64, f64)> {
    let q = &model.questions[length_question(model)?];
    match q.parts.rows[q.parts.row_of[candidate]] {
        RowParts::Spread { mean, sd } if mean > 0.0 => Some((mean, sd)),
        _ => None,
    }
}

fn measured_length(model: &Model, all: &[Answer]) -> Option<(f64, f64)> {
    let asked = length_question(model)?;
    match all.iter().rev().find(|a| a.question == asked)?.told {
        Told::Measured { value, uncertainty } => Some((value, uncertainty)),
        _ => None,
    }
}
