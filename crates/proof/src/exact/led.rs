//! Ten digits shown by seven segments, each of which fails with a known chance: every session can be enumerated, so
//! the figures are exact. Published by Breiman, Friedman, Olshen and Stone 1984 (pp. 43-49): Bayes rate 74 % at 10 %.

use crate::parts;
use anyhow::{Result, anyhow};
use reason::{Answer, Goal, Model, Plan, Reach, Told, rank, weigh};

/// Segments: top, upper left, upper right, middle, lower left, lower right, bottom.
const DIGITS: [[usize; 7]; 10] = [
    [1, 1, 1, 0, 1, 1, 1],
    [0, 0, 1, 0, 0, 1, 0],
    [1, 0, 1, 1, 1, 0, 1],
    [1, 0, 1, 1, 0, 1, 1],
    [0, 1, 1, 1, 0, 1, 0],
    [1, 1, 0, 1, 0, 1, 1],
    [1, 1, 0, 1, 1, 1, 1],
    [1, 0, 1, 0, 0, 1, 0],
    [1, 1, 1, 1, 1, 1, 1],
    [1, 1, 1, 1, 0, 1, 1],
];

/// What all sessions give together.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Sessions {
    /// Mean number of questions.
    pub questions: f64,
    /// P(the leader at the end is the digit).
    pub accuracy: f64,
    /// Mean probability of the leader at the end.
    pub claimed: f64,
}

/// The engine's model when it assumes that a segment fails with the chance `assumed`.
///
/// # Errors
/// The engine's own.
pub fn model(assumed: f64) -> Result<Model> {
    let segment = |s: usize| {
        let rows = DIGITS.map(|d| vec![1.0 - d[s] as f64, d[s] as f64]);
        parts::question(rows.to_vec(), assumed)
    };
    let parts = parts::model(10, (0..10).collect(), vec![1.0; 10], (0..7).map(segment).collect());
    Model::new(parts).map_err(|e| anyhow!(e))
}

/// All sessions: questions by information per cost, until one digit reaches `enough` or no segment is left, when
/// segments truly fail with the chance `fails`.
#[must_use]
pub fn sessions(model: &Model, enough: f64, fails: f64) -> Sessions {
    let plan = Plan::new(model, Goal::kind(model));
    let mut all = Sessions::default();
    descend(model, &plan, enough, fails, &mut Vec::new(), [0.1; 10], &mut all);
    all
}

/// `weights` is P(digit, answers so far) in truth.
fn descend(
    model: &Model,
    plan: &Plan,
    enough: f64,
    fails: f64,
    answers: &mut Vec<Answer>,
    weights: [f64; 10],
    all: &mut Sessions,
) {
    let posterior = weigh(model, 0, answers);
    let leader = (0..10).fold(0, |a, b| if posterior.p[b] > posterior.p[a] { b } else { a });
    let next = rank(model, plan, &posterior, answers, &Reach::default());
    let here: f64 = weights.iter().sum();
    let Some(look) = next.first().filter(|_| posterior.p[leader] < enough) else {
        all.questions += here * answers.len() as f64;
        all.accuracy += weights[leader];
        all.claimed += here * posterior.p[leader];
        return;
    };
    for choice in 0..2 {
        let mut then = weights;
        for (w, digit) in then.iter_mut().zip(DIGITS) {
            *w *= if digit[look.question] == choice { 1.0 - fails } else { fails };
        }
        answers.push(Answer { question: look.question, told: Told::OneOf(vec![choice]), sure: true });
        descend(model, plan, enough, fails, answers, then, all);
        answers.pop();
    }
}
