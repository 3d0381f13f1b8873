//! How few questions a key can do with.
//!
//! What a key tells of the kind is the sum, over its entries, of what each tells there, times how often one comes by.
//! Nowhere can a question tell more than its capacity, the most that it could tell of the candidates whatever their
//! odds; and on one way it is asked once. So a way of n questions tells at most the n greatest capacities together, and
//! as these fall, so does the mean over all ways: a key that tells t bits takes at least as many questions as it takes of
//! the greatest capacities to come to t. What the first question tells is known better: its odds are those of the pack.

use reason::{Model, Posterior};

/// Rounds of the search for a capacity. Each gives a true upper bound; more rounds only press it down.
const ROUNDS: usize = 60;

/// The fewest questions, on the average, that tell so many bits, the first of them so many at most.
pub(super) fn fewest(model: &Model, questions: usize, told: f64, first: f64) -> f64 {
    let mut capacities: Vec<f64> = (0..questions).map(|q| capacity(model, q)).collect();
    capacities.sort_by(|a, b| b.total_cmp(a));
    if told <= 0.0 {
        return 0.0;
    }
    // Every way has a first question.
    let (mut left, mut n) = ((told - first).max(0.0), 1.0);
    for capacity in capacities.into_iter().filter(|c| *c > 0.0) {
        if left <= capacity {
            return n + left / capacity;
        }
        left -= capacity;
        n += 1.0;
    }
    n
}

/// The most bits that any question tells of the kind before another is asked.
pub(super) fn at_first(model: &Model, questions: usize, prior: &Posterior) -> f64 {
    let kinds = prior.kinds(model);
    let told = |question: usize| {
        let choices = model.truth(question, 0).len();
        let left: f64 = (0..choices)
            .map(|choice| {
                let shown = |(c, p): (usize, &f64)| p * model.truth(question, c)[choice];
                let p: Vec<f64> = prior.p.iter().enumerate().map(shown).collect();
                let share: f64 = p.iter().sum();
                let after = Posterior { p: p.iter().map(|x| x / share.max(1e-300)).collect() };
                share * entropy(&after.kinds(model))
            })
            .sum();
        entropy(&kinds) - left
    };
    (0..questions).map(told).fold(0.0, f64::max)
}

/// Entropy in bits.
pub(super) fn entropy(shares: &[f64]) -> f64 {
    -shares.iter().filter(|s| **s > 0.0).map(|s| s * libm::log2(*s)).sum::<f64>()
}

/// The most bits that the answer to a question can tell of the candidates: from above, by the alternating search of
/// Blahut and Arimoto (1972). For any odds of the answers, the greatest divergence of a row from them is a bound.
fn capacity(model: &Model, question: usize) -> f64 {
    let mut rows: Vec<&[f64]> = (0..model.candidates()).map(|c| model.truth(question, c)).collect();
    rows.sort_by(|a, b| a.partial_cmp(b).unwrap_or(std::cmp::Ordering::Equal));
    rows.dedup();
    let mut odds = vec![1.0 / rows.len() as f64; rows.len()];
    let mut least = f64::INFINITY;
    for _ in 0..ROUNDS {
        let mut answers = vec![0.0; rows[0].len()];
        for (row, p) in rows.iter().zip(&odds) {
            answers.iter_mut().zip(*row).for_each(|(a, r)| *a += p * r);
        }
        let tells: Vec<f64> = rows.iter().map(|row| divergence(row, &answers)).collect();
        least = tells.iter().copied().fold(0.0, f64::max).min(least);
        odds.iter_mut().zip(&tells).for_each(|(p, t)| *p *= libm::exp2(*t));
        let sum: f64 = odds.iter().sum();
        odds.iter_mut().for_each(|p| *p /= sum);
    }
    least
}

/// Kullback-Leibler divergence of a row from the odds of the answers, in bits.
fn divergence(row: &[f64], answers: &[f64]) -> f64 {
    row.iter().zip(answers).filter(|(r, _)| **r > 0.0).map(|(r, a)| r * libm::log2(r / a)).sum()
}
