//! What to check next: the look that parts two kinds best, among looks that hardly do.

use super::options::laid_out;
use super::{Offer, Sort, Task, Trainer};
use crate::item::Item;
use crate::pieces::apart;
use crate::words::inside;
use reason::Random;
use units::descending;

/// A wrong answer tells at most this share of what the right one tells. Basis: practice.
const HARDLY: f64 = 0.4;
/// The right one tells at least so many bits of which of the two it is, of one at most. Basis: practice.
const TELLS: f64 = 0.15;

impl Trainer<'_> {
    pub(super) fn next(&self, item: Item, (a, b): (usize, usize), seed: u64) -> Option<Task> {
        let core = &self.guide.core;
        let tells: Vec<f64> = (0..core.questions.len()).map(|q| self.parts(a, b, q)).collect();
        let order = descending(&tells);
        let best = *order.first().filter(|q| tells[**q] >= TELLS)?;
        let mut random = Random::seeded(seed);
        let mut wrong: Vec<usize> = order
            .iter()
            .copied()
            .filter(|q| tells[*q] <= tells[best] * HARDLY && self.comes_up(a, b, *q))
            .collect();
        // Not the idlest ones only: what newcomers ask first comes first, then any.
        let turn = random.below(wrong.len());
        wrong.rotate_left(turn);
        let (early, late): (Vec<usize>, Vec<usize>) =
            wrong.into_iter().partition(|q| core.opening.iter().any(|o| usize::from(*o) == *q));
        let offer = |q: usize| Offer { label: core.questions[q].ask.clone(), stands: q };
        let wrong = early.into_iter().take(2).chain(late).map(offer);
        let (offers, right) = laid_out(offer(best), wrong, &mut random);
        if offers.len() < 2 {
            return None;
        }
        let names = [a, b].map(|k| inside(&core.kinds[k].name));
        Some(Task {
            sort: Sort::Next,
            item,
            seed,
            ask: "What would you check next?".to_string(),
            hint: format!("It is one of these two: {}, or {}.", names[0], names[1]),
            piece: None,
            views: Vec::new(),
            spoken: Vec::new(),
            offers,
            right,
            by_words: true,
            about: best,
        })
    }

    /// Bits that a look tells of which of two kinds it is, times the chance that it can be told; none where it does not
    /// come up on both.
    pub(crate) fn parts(&self, a: usize, b: usize, question: usize) -> f64 {
        let tellable = f64::from(self.guide.core.questions[question].tellable) / 1000.0;
        let open = self.comes_up(a, b, question);
        if open { tellable * apart(&self.tables[a][question], &self.tables[b][question]) } else { 0.0 }
    }

    fn comes_up(&self, a: usize, b: usize, question: usize) -> bool {
        let open = |kind: usize| {
            self.guide.core.questions[question].gate.as_ref().is_none_or(|g| {
                let table = &self.tables[kind][usize::from(g.question)];
                g.choices.iter().map(|c| table[usize::from(*c)]).sum::<f64>() >= 0.5
            })
        };
        open(a) && open(b)
    }
}
