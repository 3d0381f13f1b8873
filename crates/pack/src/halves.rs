//! What of a core waits for the book: the words and tables of all questions outside the opening, how often kinds are met
//! at a named place, ids.
//!
//! The first question needs none of them, and by the time the opening is answered they have come. Until then every place
//! counts as the first, "not said".

use crate::check::check_core;
use crate::frame::Fault;
use crate::wire::{Core, Late, Rest, Saying};
use alloc::string::String;
use alloc::vec::Vec;
use core::mem::take;

/// Takes out of a core what travels with the book.
pub fn part(core: &mut Core) -> Late {
    let mut questions = Vec::new();
    for at in 0..core.questions.len() {
        if core.opening.iter().any(|o| usize::from(*o) == at) {
            continue;
        }
        let q = &mut core.questions[at];
        let choices = q.choices.iter_mut().map(|c| Saying {
            id: take(&mut c.id),
            label: take(&mut c.label),
            clue: take(&mut c.clue),
            draw: take(&mut c.draw),
        });
        questions.push(Rest {
            choices: choices.collect(),
            id: take(&mut q.id),
            ask: take(&mut q.ask),
            look: take(&mut q.look),
            rows: take(&mut q.rows),
            of: core.candidates.iter_mut().map(|c| take(&mut c.rows[at])).collect(),
        });
    }
    let priors = core.candidates.iter_mut().map(|c| {
        let named = c.prior.split_off(1);
        c.prior.resize(1 + named.len(), c.prior[0]);
        named
    });
    Late {
        questions,
        priors: priors.collect(),
        kinds: core.kinds.iter_mut().map(|k| take(&mut k.id)).collect(),
    }
}

/// Puts back what [`part`] took, and checks the whole. Nothing is put back from a book that carries nothing.
///
/// # Errors
/// A sentence when the two do not belong together; the core is then of no use.
pub fn join(core: &mut Core, late: Late) -> Result<(), Fault> {
    let other = || Fault(String::from("The two halves of this pack belong to different editions."));
    let mut questions = late.questions.into_iter();
    for at in 0..core.questions.len() {
        if core.questions[at].is_whole() {
            continue;
        }
        let r = questions.next().ok_or_else(other)?;
        let q = &mut core.questions[at];
        if r.choices.len() != q.choices.len() || r.of.len() != core.candidates.len() || r.rows.is_empty() {
            return Err(other());
        }
        (q.id, q.ask, q.look, q.rows) = (r.id, r.ask, r.look, r.rows);
        for (c, s) in q.choices.iter_mut().zip(r.choices) {
            (c.id, c.label, c.clue, c.draw) = (s.id, s.label, s.clue, s.draw);
        }
        core.candidates.iter_mut().zip(r.of).for_each(|(c, row)| c.rows[at] = row);
    }
    if late.priors.len() != core.candidates.len() || late.kinds.len() != core.kinds.len() {
        return Err(other());
    }
    for (c, named) in core.candidates.iter_mut().zip(late.priors) {
        c.prior.truncate(1);
        c.prior.extend(named);
    }
    core.kinds.iter_mut().zip(late.kinds).for_each(|(k, id)| k.id = id);
    check_core(core)
}
