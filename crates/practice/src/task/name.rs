//! What kind it is, and which of two.

use super::options::laid_out;
use super::{OPTIONS, Offer, Sort, TRIES, Task, Trainer, seeded};
use crate::item::Item;
use crate::pieces::{Handed, Of, apart};
use crate::sight::View;
use reason::Random;
use units::descending;

/// What is shown must give the right answer at least this share among the answers, each as likely beforehand as any
/// other: else the task would not be fair. Basis: practice.
const FAIR: f64 = 0.60;
/// The same where only two are asked about.
const FAIR_PAIR: f64 = 0.80;
/// So many closer looks go with the piece.
const CLOSER: usize = 3;

impl Trainer<'_> {
    pub(super) fn name(&self, item: Item, kind: usize, seed: u64) -> Option<Task> {
        let wrong: Vec<usize> = self.alike[kind].iter().copied().take(OPTIONS - 1).collect();
        self.among(Sort::Name, item, kind, &wrong, FAIR, seed)
    }

    pub(super) fn pair(&self, item: Item, (a, b): (usize, usize), seed: u64) -> Option<Task> {
        let (kind, other) = if Random::seeded(seed).unit() < 0.5 { (a, b) } else { (b, a) };
        self.among(Sort::Pair, item, kind, &[other], FAIR_PAIR, seed)
    }

    /// A piece of a kind, to be told from others; of the pieces drawn the first that is fair.
    fn among(
        &self,
        sort: Sort,
        item: Item,
        kind: usize,
        wrong: &[usize],
        fair: f64,
        seed: u64,
    ) -> Option<Task> {
        if wrong.is_empty() {
            return None;
        }
        let mut kinds = vec![kind];
        kinds.extend(wrong);
        for at in 0..TRIES {
            let seed = seeded(seed, at);
            let piece = self.maker.hand(&Of { kinds: vec![kind], period: None }, seed);
            let views = self.shown(&piece, &kinds);
            let looks: Vec<usize> = views.iter().flat_map(|v| v.looks.iter().copied()).collect();
            if self.shares(&piece.answers(self.guide, &looks, true), &kinds)[0] < fair {
                continue;
            }
            let offer = |k: usize| Offer { label: self.guide.core.kinds[k].name.clone(), stands: k };
            let mut random = Random::seeded(seed);
            let (offers, right) = laid_out(offer(kind), wrong.iter().map(|k| offer(*k)), &mut random);
            if offers.len() < 2 {
                return None;
            }
            let ask = if sort == Sort::Pair { "Which of these two is it?" } else { "What is it?" };
            return Some(Task {
                sort,
                item,
                seed,
                ask: ask.to_string(),
                hint: "Turn it over before you decide.".to_string(),
                spoken: views.iter().map(|v| v.says.clone()).collect(),
                views,
                piece: Some(piece),
                offers,
                right,
                by_words: true,
                about: kind,
            });
        }
        None
    }

    /// The piece all round, and the closer looks that part these kinds most.
    pub(crate) fn shown(&self, piece: &Handed, kinds: &[usize]) -> Vec<View> {
        let all = self.sight.views(self.guide, piece).all;
        let parts = |v: &View| -> f64 {
            let tells = |q: &usize| {
                let of = |k: &usize| &self.tables[*k][*q];
                kinds.iter().skip(1).map(|k| apart(of(&kinds[0]), of(k))).sum::<f64>()
            };
            if v.close { v.looks.iter().map(tells).sum() } else { 0.0 }
        };
        let weights: Vec<f64> = all.iter().map(parts).collect();
        let mut closer: Vec<usize> = descending(&weights).into_iter().filter(|v| weights[*v] > 0.0).collect();
        closer.truncate(CLOSER);
        let chosen = all.iter().enumerate().filter(|(i, v)| !v.close || closer.contains(i));
        chosen.map(|(_, v)| v.clone()).collect()
    }
}
