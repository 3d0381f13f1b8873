//! The likelihood of one answer under each candidate.

use crate::answer::{Answer, Told};
use crate::model::{Model, Quantity, Question, RowParts};
use crate::normal;

/// ln L of one answer under every candidate; `None` for an answer that says nothing.
///
/// `all` are all answers: a mass is judged as heft by the length that was measured, if any was (by the last answer
/// to the first question about a length).
/// Every value is finite as long as answers can be misread (misread above zero) or no table holds a zero.
#[must_use]
pub fn log_likelihood(model: &Model, answer: &Answer, all: &[Answer]) -> Option<Vec<f64>> {
    let q = model.questions.get(answer.question)?;
    if !answer.told.speaks() {
        return None;
    }
    let e = misread(q, answer.sure);
    let n = model.candidates();
    Some(match &answer.told {
        Told::Cannot => return None,
        Told::OneOf(set) => {
            let by_row: Vec<f64> = (0..q.parts.rows.len())
                .map(|r| libm::log(of_set(q, r, set, e)))
                .collect();
            q.parts.row_of.iter().map(|r| by_row[*r]).collect()
        }
        Told::Measured { value, uncertainty } => {
            let mut l: Vec<f64> = match &q.parts.quantity {
                Quantity::None => return None,
                Quantity::Length(_) => (0..n)
                    .map(|c| measured(q, c, *value, *uncertainty, 0.0, e))
                    .collect(),
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
            l.into_iter().map(libm::log).collect()
        }
    })
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
    if sure {
        q.parts.misread.0
    } else {
        q.parts.misread.1
    }
}

/// P(the report is in `set` | row).
pub(crate) fn of_set(q: &Question, row: usize, set: &[usize], e: f64) -> f64 {
    let k = q.parts.choices;
    let truth = &q.truth[row * k..(row + 1) * k];
    truth
        .iter()
        .enumerate()
        .map(|(t, p)| p * set.iter().map(|r| q.reads(*r, t, e)).sum::<f64>())
        .sum()
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
        Some((mean, sd)) => (
            libm::log(grams) - 3.0 * libm::log(mean / 10.0),
            relative,
            3.0 * sd / mean,
        ),
        None => (libm::log(grams), relative, 3.0),
    }
}

/// The piece's length is what the pack's first question about a length asks.
fn length_question(model: &Model) -> Option<usize> {
    model
        .questions
        .iter()
        .position(|q| matches!(q.parts.quantity, Quantity::Length(_)))
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
