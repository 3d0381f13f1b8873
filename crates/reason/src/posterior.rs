//! The posterior over candidates.

use crate::answer::Answer;
use crate::likelihood::log_likelihood;
use crate::model::Model;
use units::{arranged, order};

/// P(candidate | answers).
#[derive(Debug, Clone, PartialEq)]
pub struct Posterior {
    /// One probability a candidate, summing to 1.
    pub p: Vec<f64>,
}

/// Weighs answers against a model: prior of the `place`, times each answer's likelihood, tempered within groups.
///
/// Within a group the answers are ordered by information, the Kullback-Leibler divergence of the prior updated by
/// that answer alone from the prior, and raised to 1, (1-rho), (1-rho)^2... So the order of answering does not
/// matter, and of two candidates alone the one a clue speaks for never loses by it.
/// A question answered twice counts once: the later answer replaces.
#[must_use]
pub fn weigh(model: &Model, place: usize, answers: &[Answer]) -> Posterior {
    let prior = &model.parts.priors[place.min(model.parts.priors.len() - 1)];
    let log_prior: Vec<f64> = prior.iter().map(|p| libm::log(*p)).collect();
    let mut lines: Vec<Line> = Vec::new();
    for (i, answer) in answers.iter().enumerate() {
        if answers[i + 1..]
            .iter()
            .any(|later| later.question == answer.question)
        {
            continue;
        }
        if let Some(log_l) = log_likelihood(model, answer, answers) {
            let group = model.questions[answer.question].parts.group;
            lines.push(Line {
                question: answer.question,
                group,
                information: 0.0,
                log_l,
            });
        }
    }
    for i in 0..lines.len() {
        if lines[i].group.is_some() && lines.iter().filter(|l| l.group == lines[i].group).count() > 1 {
            lines[i].information = information(prior, &lines[i].log_l);
        }
    }
    // The order of summing is fixed by the pack, not by the user: group, then information, then question.
    let by_rank = order(lines.len(), &|a, b| {
        let (a, b) = (&lines[a], &lines[b]);
        a.group
            .cmp(&b.group)
            .then(b.information.total_cmp(&a.information))
            .then(a.question.cmp(&b.question))
    });
    let lines = arranged(lines, &by_rank);
    let mut log_p = log_prior;
    let mut rank = 0;
    for (i, line) in lines.iter().enumerate() {
        rank = if i > 0 && lines[i - 1].group == line.group {
            rank + 1
        } else {
            0
        };
        let keep = line.group.map_or(1.0, |g| 1.0 - model.parts.overlaps[g]);
        let weight = if line.group.is_some() {
            (0..rank).fold(1.0, |w, _| w * keep)
        } else {
            1.0
        };
        for (p, l) in log_p.iter_mut().zip(&line.log_l) {
            *p += weight * l;
        }
    }
    Posterior { p: normalised(log_p) }
}

struct Line {
    question: usize,
    group: Option<usize>,
    information: f64,
    log_l: Vec<f64>,
}

/// Kullback-Leibler divergence, in nats, of the prior updated by one answer from the prior: sum a d - ln sum p e^d
/// with d = ln L - its top. By expm1 and log1p a clue that is the same for all has exactly none, so that it stands
/// behind every other and tempers nothing.
fn information(prior: &[f64], log_l: &[f64]) -> f64 {
    let possible = || prior.iter().zip(log_l).filter(|(p, _)| **p > 0.0);
    let top = possible().map(|(_, l)| *l).fold(f64::NEG_INFINITY, f64::max);
    if !top.is_finite() {
        return 0.0;
    }
    let (mut growth, mut spoken) = (0.0, 0.0);
    for (p, l) in possible() {
        let grown = libm::expm1(l - top);
        growth += p * grown;
        if grown > -1.0 {
            spoken += p * (1.0 + grown) * (l - top);
        }
    }
    spoken / (1.0 + growth) - libm::log1p(growth)
}

/// exp of logs, summing to 1. All minus infinity (a table of zeros): nothing is known, so uniform.
fn normalised(log_p: Vec<f64>) -> Vec<f64> {
    let top = log_p.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let n = log_p.len() as f64;
    let mut p: Vec<f64> = log_p
        .into_iter()
        .map(|l| {
            if top.is_finite() {
                libm::exp(l - top)
            } else {
                1.0 / n
            }
        })
        .collect();
    let sum: f64 = p.iter().sum();
    p.iter_mut().for_each(|x| *x /= sum);
    p
}

impl Posterior {
    /// P(kind), in pack order.
    #[must_use]
    pub fn kinds(&self, model: &Model) -> Vec<f64> {
        gather(&self.p, &model.parts.kind_of, model.parts.kinds)
    }

    /// P(make), in pack order.
    #[must_use]
    pub fn makes(&self, model: &Model) -> Vec<f64> {
        gather(&self.p, &model.parts.make_of, model.parts.makes)
    }

    /// P(role), in pack order.
    #[must_use]
    pub fn roles(&self, model: &Model) -> Vec<f64> {
        let mut shares = vec![0.0; model.parts.roles.first().map_or(0, Vec::len)];
        for (p, roles) in self.p.iter().zip(&model.parts.roles) {
            shares.iter_mut().zip(roles).for_each(|(s, r)| *s += p * r);
        }
        shares
    }
}

fn gather(p: &[f64], of: &[usize], n: usize) -> Vec<f64> {
    let mut shares = vec![0.0; n];
    p.iter().zip(of).for_each(|(p, t)| shares[*t] += p);
    shares
}
