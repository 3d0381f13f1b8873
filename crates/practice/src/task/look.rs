//! A look: one feature of one piece.

use super::options::laid_out;
use super::{Offer, Sort, TRIES, Task, Trainer, seeded};
use crate::item::Item;
use crate::pieces::Of;
use reason::Random;
use units::descending;

impl Trainer<'_> {
    pub(super) fn look(&self, item: Item, question: usize, kinds: &[usize], seed: u64) -> Option<Task> {
        let q = &self.guide.core.questions[question];
        for at in 0..TRIES {
            let seed = seeded(seed, at);
            let piece = self.maker.hand(&Of { kinds: kinds.to_vec(), period: None }, seed);
            let Some(choice) = piece.truth[question] else { continue };
            let views = self.sight.views(self.guide, &piece);
            let Some(view) = views.of(question) else { continue };
            let offer = |c: usize| Offer { label: q.choices[c].label.clone(), stands: c };
            let wrong = self.misleading(piece.kind, question, choice);
            let mut random = Random::seeded(seed);
            let (offers, right) = laid_out(offer(choice), wrong.into_iter().map(offer), &mut random);
            if offers.len() < 2 {
                return None;
            }
            let right_words = [q.choices[choice].label.as_str(), q.choices[choice].clue.as_str()];
            let by_words = view.tells() && !right_words.iter().any(|r| view.repeats(r));
            return Some(Task {
                sort: Sort::Look,
                item,
                seed,
                ask: q.ask.clone(),
                hint: q.look.clone(),
                views: vec![view.guarded(&right_words)],
                spoken: vec![view.says.clone()],
                piece: Some(piece),
                offers,
                right,
                by_words,
                about: question,
            });
        }
        None
    }

    /// The other choices, those first that mislead most: easily taken for the true one, or what look-alikes show.
    fn misleading(&self, kind: usize, question: usize, choice: usize) -> Vec<usize> {
        let q = &self.guide.core.questions[question];
        let weight = |c: usize| {
            let near = q.choices[choice].confused.iter().any(|o| usize::from(*o) == c);
            let shown = self.alike[kind].iter().map(|k| self.tables[*k][question][c]).fold(0.0, f64::max);
            if near { 1.0 + shown } else { shown }
        };
        let weights: Vec<f64> = (0..q.choices.len()).map(weight).collect();
        descending(&weights).into_iter().filter(|c| *c != choice).collect()
    }
}
