//! Looking ahead, where the best looks are close to each other.

use crate::answer::{Answer, Told};
use crate::gain::Plan;
use crate::model::Model;
use crate::next::{Look, Reach, rank};
use crate::posterior::weigh;

/// Looks with at least this share of the best score are near ties. Basis: the best of five shares tried on generated
/// tables of costs and on the patterns of zoo (seeds 77 to 79; the page of `cargo xtask bench engine` uses another).
const NEAR: f64 = 0.6;
/// What a bit is worth, in the seconds that it costs by the best look now. More than one, since the cheap looks are
/// used up first and the last bits are the dearest. It counts where ways end before all is told. Basis: as above.
const WORTH: f64 = 5.0;
/// At most so many of them are followed.
const WIDE: usize = 8;
/// A way that is rarer than this is not followed on. Basis: as above; two or three looks instead leave zoo at half a per
/// cent over the cheapest.
const RARE: f64 = 0.005;

/// Of the looks that `rank` found, the one that does best together with the best looks after it, to the end: most worth
/// told, less seconds. Only near ties of the best are followed. `None` when there are no looks.
///
/// It weighs the answers anew for every choice and every choice after it: for keys and benches, not for each tap.
#[must_use]
pub fn ahead(
    model: &Model,
    plan: &Plan,
    place: usize,
    answers: &[Answer],
    reach: &Reach,
    looks: &[Look],
) -> Option<Look> {
    let best = looks.first().copied()?;
    let near: Vec<Look> = looks.iter().take(WIDE).filter(|l| l.score >= NEAR * best.score).copied().collect();
    if near.len() < 2 {
        return Some(best);
    }
    let way = Way { model, plan, place, reach };
    let mut chosen: Option<(f64, Look)> = None;
    for look in near {
        let (told, seconds) = way.follow(&mut answers.to_vec(), look, 1.0);
        let value = WORTH * told / best.score - seconds;
        if chosen.is_none_or(|(most, _)| value > most + 1e-12) {
            chosen = Some((value, look));
        }
    }
    chosen.map(|(_, look)| look)
}

/// What stays the same along the way.
struct Way<'a> {
    model: &'a Model,
    plan: &'a Plan,
    place: usize,
    reach: &'a Reach,
}

impl Way<'_> {
    /// Bits and seconds to be expected of a look and of the best looks after it, on a way that is taken so often.
    fn follow(&self, answers: &mut Vec<Answer>, look: Look, taken: f64) -> (f64, f64) {
        let q = &self.model.questions[look.question];
        let (mut told, mut seconds) = (look.gain * q.parts.tellable, q.parts.seconds);
        let posterior = weigh(self.model, self.place, answers);
        for choice in 0..q.parts.choices {
            let chance: f64 =
                (posterior.p.iter().zip(&q.parts.row_of)).map(|(p, row)| p * q.reported(*row, choice)).sum();
            if taken * chance < RARE {
                continue;
            }
            answers.push(Answer { question: look.question, told: Told::OneOf(vec![choice]), sure: true });
            let after = weigh(self.model, self.place, answers);
            let next = rank(self.model, self.plan, &after, answers, self.reach).first().copied();
            if let Some(next) = next.filter(|n| n.gain > 1e-9) {
                let (then, took) = self.follow(answers, next, taken * chance);
                told += chance * then;
                seconds += chance * took;
            }
            answers.pop();
        }
        (told, seconds)
    }
}
