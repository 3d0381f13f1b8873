//! Two looks ahead, where the best looks are close to each other.

use crate::answer::{Answer, Told};
use crate::gain::Plan;
use crate::model::Model;
use crate::next::{Look, Reach, rank};
use crate::posterior::weigh;

/// Looks with at least this share of the best score are near ties. Basis: the best of five shares tried on generated
/// tables of costs (seeds 77 and 78; the page of `cargo xtask bench engine` uses another).
const NEAR: f64 = 0.7;
/// What a bit is worth, in the seconds that it costs by the best look now. More than one, since the cheap looks are
/// used up first and the last bits are the dearest. Basis: as above, of nine values.
const WORTH: f64 = 4.0;
/// At most so many of them are followed.
const WIDE: usize = 6;

/// Of the looks that `rank` found, the one that does best together with the best look after it: most worth told, less
/// seconds. Only near ties of the best are followed. `None` when there are no looks.
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
    let posterior = weigh(model, place, answers);
    let mut chosen: Option<(f64, Look)> = None;
    for look in near {
        let q = &model.questions[look.question];
        let (mut told, mut seconds) = (look.gain * q.parts.tellable, q.parts.seconds);
        for choice in 0..q.parts.choices {
            let chance: f64 =
                (posterior.p.iter().zip(&q.parts.row_of)).map(|(p, row)| p * q.reported(*row, choice)).sum();
            if chance <= 0.0 {
                continue;
            }
            let mut then = answers.to_vec();
            then.push(Answer { question: look.question, told: Told::OneOf(vec![choice]), sure: true });
            let after = weigh(model, place, &then);
            if let Some(next) = rank(model, plan, &after, &then, reach).first().filter(|n| n.gain > 1e-9) {
                let next_q = &model.questions[next.question].parts;
                told += chance * next.gain * next_q.tellable;
                seconds += chance * next_q.seconds;
            }
        }
        let value = WORTH * told / best.score - seconds;
        if chosen.is_none_or(|(most, _)| value > most + 1e-12) {
            chosen = Some((value, look));
        }
    }
    chosen.map(|(_, look)| look)
}
