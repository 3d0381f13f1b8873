//! Does the piece fit anything at all? One statistic, with a limit found by simulation.
//!
//! For the leading candidate: z = (ln L - mean) / sd over the answered questions, where mean and sd are those of
//! ln P(report) when reports are drawn from that candidate (a standardised log-likelihood, as in person-fit
//! statistics). A known piece seldom falls below the limit; a strange one often does.

use crate::answer::{Answer, Told, standing};
use crate::likelihood::misread;
use crate::model::{Model, Quantity};
use crate::next::{Reach, rank};
use crate::posterior::{Posterior, Weighing};
use crate::random::Random;
use crate::{Goal, Plan};
use pack::Core;

/// Known pieces simulated for each number of answers.
const DRAWS: usize = 1000;
/// The share of known pieces that falls below the limit.
const BELOW: f64 = 0.02;
/// By how much a misfit raises the odds of "not in this guide". On open data a stranger falls below such a limit
/// about half the time, a known case one time in fifty; the broad table has spoken already, so less than the
/// ratio of the two is taken. Basis: memory.
const MISFIT: f64 = 8.0;

/// How well the piece fits the leading candidate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// Standard deviations; `None` while nothing was answered.
    pub z: Option<f64>,
    /// Whether it is below the limit for so many answers.
    pub strange: bool,
}

/// The fit of a set of answers.
#[must_use]
pub fn fit(model: &Model, posterior: &Posterior, answers: &[Answer]) -> Fit {
    let (z, n) = statistic(model, posterior, answers);
    let limit = model.parts.fit_limits.get(n.wrapping_sub(1)).or(model.parts.fit_limits.last());
    Fit { z, strange: n >= 3 && z.zip(limit).is_some_and(|(z, l)| z < *l) }
}

/// The posterior with the odds of "not in this guide" raised where the piece does not fit.
#[must_use]
pub fn with_fit(model: &Model, posterior: Posterior, fit: Fit) -> Posterior {
    let Some(unknown) = model.parts.unknown.filter(|_| fit.strange) else {
        return posterior;
    };
    let mut p = posterior.p;
    for (p, kind) in p.iter_mut().zip(&model.parts.kind_of) {
        if *kind == unknown {
            *p *= MISFIT;
        }
    }
    let sum: f64 = p.iter().sum();
    p.iter_mut().for_each(|x| *x /= sum);
    Posterior { p }
}

/// z, and the number of answers it rests on. Either/or answers are left out: they are vague by intent.
fn statistic(model: &Model, posterior: &Posterior, answers: &[Answer]) -> (Option<f64>, usize) {
    let known = |c: &usize| Some(model.parts.kind_of[*c]) != model.parts.unknown;
    let leader = (0..model.candidates())
        .filter(known)
        .reduce(|a, b| if posterior.p[b] > posterior.p[a] { b } else { a });
    let Some(leader) = leader else { return (None, 0) };
    let (mut seen, mut mean, mut variance, mut n) = (0.0, 0.0, 0.0, 0);
    for answer in standing(answers) {
        let Some(report) = as_class(model, answer) else {
            continue;
        };
        let q = &model.questions[answer.question];
        let row = q.parts.row_of[leader];
        let e = misread(q, answer.sure);
        let (mut m, mut s) = (0.0, 0.0);
        for r in 0..q.parts.choices {
            let p = q.chance(row, &q.reads_any(&[r], e));
            let l = if p > 0.0 { libm::log(p) } else { 0.0 };
            m += p * l;
            s += p * l * l;
            if r == report {
                seen += if p > 0.0 { l } else { -50.0 };
            }
        }
        mean += m;
        variance += s - m * m;
        n += 1;
    }
    if n == 0 || variance <= 1e-12 {
        return (None, n);
    }
    (Some((seen - mean) / variance.sqrt()), n)
}

/// The choice told, or the class that a measured length falls in.
fn as_class(model: &Model, answer: &Answer) -> Option<usize> {
    match (&answer.told, &model.questions.get(answer.question)?.parts.quantity) {
        (Told::OneOf(set), _) if set.len() == 1 => Some(set[0]),
        (Told::Measured { value, .. }, Quantity::Length(bounds)) => {
            Some(bounds.iter().filter(|b| **b < *value).count())
        }
        _ => None,
    }
}

/// The limits of a pack by simulation; see [`simulated_limits`].
#[must_use]
pub fn fit_limits(core: &Core) -> Vec<i32> {
    Model::from_core(core).map_or_else(|_| vec![i32::MIN / 2], |model| simulated_limits(&model))
}

/// The lowest ordinary fit by simulation, in thousandths of a standard deviation, by number of answers from one to the
/// number of questions.
///
/// Pieces are drawn from the prior of the first place; questions are asked in the order that tells most, answers
/// are drawn from the piece's tables, misreadings included.
#[must_use]
pub fn simulated_limits(model: &Model) -> Vec<i32> {
    let plan = Plan::new(model, Goal::kind(model));
    let reach = Reach {
        tools: model.questions.iter().filter_map(|q| q.parts.tool).collect(),
        picture: false,
        without: Vec::new(),
    };
    let mut random = Random::seeded(0x1ed9_e5ee);
    let mut by_count: Vec<Vec<f64>> = vec![Vec::new(); model.questions.len()];
    let known: Vec<f64> = (model.parts.priors[0].iter().zip(&model.parts.kind_of))
        .map(|(p, k)| if Some(*k) == model.parts.unknown { 0.0 } else { *p })
        .collect();
    for _ in 0..DRAWS {
        let piece = random.pick(&known);
        let mut answers: Vec<Answer> = Vec::new();
        let mut weighing = Weighing::new(model, 0);
        loop {
            let posterior = weighing.posterior();
            if let (Some(z), n) = statistic(model, &posterior, &answers) {
                by_count[n - 1].push(z);
            }
            let Some(look) = rank(model, &plan, &posterior, &answers, &reach).into_iter().next() else {
                break;
            };
            let q = &model.questions[look.question];
            let row = q.parts.row_of[piece];
            let reports: Vec<f64> = (0..q.parts.choices).map(|r| q.reported(row, r)).collect();
            let report = random.pick(&reports);
            let answer = Answer { question: look.question, told: Told::OneOf(vec![report]), sure: true };
            weighing.add(&answer, &answers);
            answers.push(answer);
        }
    }
    let mut limits = Vec::new();
    for zs in by_count.iter_mut() {
        zs.sort_by(f64::total_cmp);
        match zs.get((zs.len() as f64 * BELOW) as usize) {
            Some(z) => limits.push((z * 1000.0) as i32),
            None => limits.push(limits.last().copied().unwrap_or(i32::MIN / 2)),
        }
    }
    limits
}
