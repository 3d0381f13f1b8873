//! Old or later: what the foundry's care and a long life leave, and what they do not.

use super::{Offer, Sort, TRIES, Task, Trainer, seeded};
use crate::item::Item;
use crate::pieces::Of;
use reason::{Random, log10_odds};
use units::descending;

/// So many looks are shown.
const SHOWN: usize = 4;
/// They must raise the odds of what it is by this, as log10; 0.7 is five to one. Basis: practice.
const FAIR: f64 = 0.7;

impl Trainer<'_> {
    pub(super) fn old(&self, item: Item, kind: usize, seed: u64) -> Option<Task> {
        let has = |period: bool| {
            let own =
                self.guide.core.candidates.iter().filter(|c| usize::from(c.kind) == kind && c.prior[0] > 0);
            own.filter(|c| (c.make == 0) == period).count() > 0
        };
        if !has(true) || !has(false) {
            return None;
        }
        for at in 0..TRIES {
            let seed = seeded(seed, at);
            let period = Random::seeded(seed).unit() < 0.5;
            let piece = self.maker.hand(&Of { kinds: vec![kind], period: Some(period) }, seed);
            let all = self.sight.views(self.guide, &piece).all;
            let strength = |q: usize| self.strength_old(&piece.answers(self.guide, &[q], true), kind);
            let seen: Vec<usize> =
                piece.looks().into_iter().filter(|q| all.iter().any(|v| v.looks.contains(q))).collect();
            let strengths: Vec<f64> = seen.iter().map(|q| strength(*q).abs()).collect();
            let looks: Vec<usize> = descending(&strengths).into_iter().take(SHOWN).map(|i| seen[i]).collect();
            let views = self.views_of(&all, &looks);
            let shown: Vec<usize> = views.iter().flat_map(|v| v.looks.iter().copied()).collect();
            let says = self.strength_old(&piece.answers(self.guide, &shown, true), kind);
            if if period { says } else { -says } < FAIR {
                continue;
            }
            return Some(Task {
                sort: Sort::Old,
                item,
                seed,
                ask: "Does it lean towards old, or towards later?".to_string(),
                hint: format!(
                    "In form it is this: {}.",
                    crate::words::inside(&self.guide.core.kinds[kind].name)
                ),
                spoken: views.iter().map(|v| v.says.clone()).collect(),
                views,
                piece: Some(piece),
                offers: vec![
                    Offer { label: "Old: a period piece".to_string(), stands: 0 },
                    Offer { label: "Later: cast after an old one".to_string(), stands: 1 },
                ],
                right: usize::from(!period),
                by_words: true,
                about: kind,
            });
        }
        None
    }

    /// The look of those shown that decides most between old and later, towards what it is.
    pub(super) fn decides_old(&self, task: &Task) -> Option<(usize, f64)> {
        let piece = task.piece.as_ref()?;
        let towards = if piece.make == 0 { 1.0 } else { -1.0 };
        let looks = task.views.iter().flat_map(|v| v.looks.iter().copied());
        let one =
            |q: usize| (q, towards * self.strength_old(&piece.answers(self.guide, &[q], true), piece.kind));
        looks.map(one).reduce(|a, b| if b.1 > a.1 { b } else { a })
    }

    /// The same between two kinds.
    pub(super) fn decides(&self, task: &Task, other: usize) -> Option<(usize, f64)> {
        let piece = task.piece.as_ref()?;
        let looks = task.views.iter().flat_map(|v| v.looks.iter().copied());
        let one = |q: usize| {
            let shares = self.shares(&piece.answers(self.guide, &[q], true), &[piece.kind, other]);
            (q, log10_odds(shares[0], shares[1]))
        };
        looks.map(one).reduce(|a, b| if b.1 > a.1 { b } else { a })
    }
}
