//! How far any two kinds stand apart, and which looks part them.
//!
//! For two tables p and q the Bhattacharyya distance is -ln of the sum of the square roots of p times q. Over
//! independent looks distances add up; of the looks of a group the second, third... count less, as they do when answers
//! are weighed. With equal odds before, the chance to take one for the other is at most half of e to the minus distance.

use crate::kin::distributions;
use consult::Guide;
use pack::{Form, Standing};
use practice::mean_tables;

/// The distance of two kinds by one question.
#[derive(Debug, Clone, Copy)]
pub struct Telling {
    /// The question.
    pub question: usize,
    /// Its part of the distance, after the discount of its group.
    pub distance: f64,
}

/// Two kinds.
#[derive(Debug, Clone)]
pub struct Pair {
    /// Indices of the kinds, in the order of the pack.
    pub kinds: (usize, usize),
    /// The distance by all looks that need no other tools than those at hand.
    pub distance: f64,
    /// The questions that tell most, most first.
    pub by: Vec<Telling>,
    /// Whether the pack says that nothing but further evidence parts them.
    pub declared: bool,
}

impl Pair {
    /// The chance to tell the two apart when every look is taken, as far as the distance promises.
    #[must_use]
    pub fn told_apart(&self) -> f64 {
        1.0 - 0.5 * libm::exp(-self.distance)
    }
}

/// All pairs of known kinds, the nearest first.
#[must_use]
pub(super) fn pairs(guide: &Guide, tools: &[usize]) -> Vec<Pair> {
    let core = &guide.core;
    let tables = mean_tables(guide);
    let reports: Vec<Vec<Vec<f64>>> = tables.iter().map(|t| distributions(guide, t)).collect();
    let lengths = crate::kin::lengths(guide);
    let at_hand = |q: usize| core.questions[q].tool.is_none_or(|t| tools.contains(&usize::from(t)));
    let known: Vec<usize> =
        (0..core.kinds.len()).filter(|k| core.kinds[*k].standing != Standing::Unknown).collect();
    let open = |kind: usize, question: usize| match &core.questions[question].gate {
        None => 1.0,
        Some(gate) => {
            let asked = &tables[kind][usize::from(gate.question)];
            gate.choices.iter().map(|c| asked[usize::from(*c)]).sum::<f64>()
        }
    };
    let apart = |a: usize, b: usize, q: usize| {
        let share = f64::from(core.questions[q].tellable) / 1000.0 * (open(a, q) * open(b, q)).sqrt();
        let (x, y) = match core.questions[q].form {
            Form::Length => (&lengths[a][q], &lengths[b][q]),
            _ => (&reports[a][q], &reports[b][q]),
        };
        share * bhattacharyya(x, y)
    };
    let mut list = Vec::new();
    for (i, a) in known.iter().enumerate() {
        for b in &known[i + 1..] {
            let by: Vec<Telling> = (0..core.questions.len())
                .filter(|q| at_hand(*q))
                .map(|question| Telling { question, distance: apart(*a, *b, question) })
                .collect();
            let by = discounted(guide, by);
            list.push(Pair {
                kinds: (*a, *b),
                distance: by.iter().map(|t| t.distance).sum(),
                by,
                declared: practice::twins(guide, *a, *b),
            });
        }
    }
    list.sort_by(|a, b| a.distance.total_cmp(&b.distance));
    list
}

/// -ln of the sum of the roots of the products.
fn bhattacharyya(a: &[f64], b: &[f64]) -> f64 {
    let common: f64 = a.iter().zip(b).map(|(x, y)| (x * y).sqrt()).sum();
    -libm::log(common.clamp(1e-9, 1.0))
}

/// Most telling first; within a group the second counts for 1 - rho, the third for its square, and so on.
fn discounted(guide: &Guide, mut by: Vec<Telling>) -> Vec<Telling> {
    let core = &guide.core;
    by.sort_by(|a, b| b.distance.total_cmp(&a.distance));
    let mut weights = vec![1.0; core.groups.len()];
    for telling in &mut by {
        if let Some(group) = core.questions[telling.question].group.map(usize::from) {
            telling.distance *= weights[group];
            weights[group] *= 1.0 - f64::from(core.groups[group]) / 1000.0;
        }
    }
    by.sort_by(|a, b| b.distance.total_cmp(&a.distance));
    by
}
