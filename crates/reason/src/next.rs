//! What to ask next, and how far it still is.

use crate::answer::{Answer, Told, standing};
use crate::gain::{Plan, entropy};
use crate::model::Model;
use crate::posterior::{Posterior, Weighing};
use units::{arranged, order};

/// What the user can do now.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Reach {
    /// Indices of the tools at hand.
    pub tools: Vec<usize>,
    /// Only a picture is there: looks that need the hand are out.
    pub picture: bool,
    /// Questions not to offer, whatever they would tell.
    pub without: Vec<usize>,
}

/// One question that could be asked now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Index of the question.
    pub question: usize,
    /// Expected information about the goal, in bits.
    pub gain: f64,
    /// Gain times the chance that it can be told, per second.
    pub score: f64,
}

/// The open questions, best first (ties in pack order).
#[must_use]
pub fn rank(
    model: &Model,
    plan: &Plan,
    posterior: &Posterior,
    answers: &[Answer],
    reach: &Reach,
) -> Vec<Look> {
    let open: Vec<usize> =
        (0..model.questions.len()).filter(|q| is_open(model, *q, answers, reach)).collect();
    let gains = plan.gains(model, posterior, &open);
    let looks: Vec<Look> = open
        .into_iter()
        .zip(gains)
        .map(|(question, gain)| {
            let q = &model.questions[question].parts;
            Look { question, gain, score: gain * q.tellable / q.seconds }
        })
        .collect();
    // Stable, and the open ones stand in pack order: ties stay in pack order. Two sums that are equal on paper differ
    // in their last bits, so scores are compared in thousand millionths.
    let grain = |look: usize| (looks[look].score * 1e9 + 0.5) as i64;
    let best_first = order(looks.len(), &|a, b| grain(b).cmp(&grain(a)));
    arranged(looks, &best_first)
}

/// Not yet answered, its gate open, its tool at hand.
fn is_open(model: &Model, question: usize, answers: &[Answer], reach: &Reach) -> bool {
    let q = &model.questions[question].parts;
    let told = |at: usize| answers.iter().rev().find(|a| a.question == at).map(|a| &a.told);
    let gate = q.gate.as_ref().is_none_or(|(asked, open)| match told(*asked) {
        Some(Told::OneOf(set)) => !set.is_empty() && set.iter().all(|c| open.contains(c)),
        _ => false,
    });
    told(question).is_none()
        && gate
        && q.tool.is_none_or(|t| reach.tools.contains(&t))
        && (!reach.picture || q.by_picture)
        && !reach.without.contains(&question)
}

/// About how many more looks until the top share of the goal reaches `enough`, following the most probable answers:
/// `None` when the way is longer than `most` looks or nothing open tells at least `least` bits.
#[must_use]
pub fn looks_left(
    model: &Model,
    plan: &Plan,
    place: usize,
    answers: &[Answer],
    reach: &Reach,
    (enough, least, most): (f64, f64, usize),
) -> Option<usize> {
    let mut way = answers.to_vec();
    let mut weighing = Weighing::new(model, place);
    standing(answers).for_each(|answer| weighing.add(answer, answers));
    for steps in 0..=most {
        let posterior = weighing.posterior();
        let shares = plan.goal().shares(&posterior);
        if shares.iter().copied().fold(0.0, f64::max) >= enough || entropy(&shares) < least {
            return Some(steps);
        }
        let best =
            rank(model, plan, &posterior, &way, reach).into_iter().next().filter(|l| l.gain >= least)?;
        let choice = most_probable(model, &posterior, best.question);
        let answer = Answer { question: best.question, told: Told::OneOf(vec![choice]), sure: true };
        weighing.add(&answer, &way);
        way.push(answer);
    }
    None
}

fn most_probable(model: &Model, posterior: &Posterior, question: usize) -> usize {
    let q = &model.questions[question];
    let k = q.parts.choices;
    let mut p = vec![0.0; k];
    for (weight, row) in posterior.p.iter().zip(&q.parts.row_of) {
        (0..k).for_each(|a| p[a] += weight * q.reported(*row, a));
    }
    (0..k).fold(0, |best, a| if p[a] > p[best] { a } else { best })
}
