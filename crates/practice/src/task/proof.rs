//! What a mark may prove: statements of the pack's writer.

use super::options::laid_out;
use super::{Feedback, Offer, Sort, Task, Trainer};
use crate::item::Item;
use crate::sight::View;
use reason::Random;

impl Trainer<'_> {
    pub(super) fn proof(&self, item: Item, code: u16, seed: u64) -> Option<Task> {
        let proofs = &self.guide.book.as_ref()?.lessons.proofs;
        let at = proofs.iter().position(|p| p.code == code)?;
        let proof = &proofs[at];
        let mut random = Random::seeded(seed);
        let mut wrong: Vec<&String> = proof.wrong.iter().collect();
        let turn = random.below(wrong.len());
        wrong.rotate_left(turn);
        let offer = |label: &String, stands: usize| Offer { label: label.clone(), stands };
        let wrong = wrong.into_iter().map(|w| offer(w, 1));
        let (offers, right) = laid_out(offer(&proof.right, 0), wrong, &mut random);
        let draw = crate::sight::unasked(&proof.draw);
        let view = self.sight.drawing(&draw).map(|drawing| View {
            name: "The mark".to_string(),
            says: drawing.alt(&self.sight.art),
            draw: draw.clone(),
            looks: Vec::new(),
            close: true,
        });
        Some(Task {
            sort: Sort::Proof,
            item,
            seed,
            ask: "What may this mark prove?".to_string(),
            hint: proof.mark.clone(),
            piece: None,
            spoken: view.iter().map(|v| v.says.clone()).collect(),
            views: view.into_iter().collect(),
            offers,
            right,
            by_words: true,
            about: at,
        })
    }

    pub(super) fn after_proof(&self, task: &Task, feedback: &mut Feedback) {
        let proofs = self.guide.book.as_ref().map_or(&[][..], |b| &b.lessons.proofs);
        if let Some(proof) = proofs.get(task.about) {
            feedback.mark = proof.draw.clone();
            feedback.why.push(proof.because.clone());
        }
    }
}
