//! What of a core waits for the book: the words and tables of all questions outside the opening.
//!
//! The first question needs none of them, and by the time the opening is answered they have come.

use crate::check::check_core;
use crate::frame::Fault;
use crate::wire::{Core, Rest, Saying};
use alloc::string::String;
use alloc::vec::Vec;
use core::mem::take;

/// Takes the words and tables of all questions outside the opening out of a core.
pub fn part(core: &mut Core) -> Vec<Rest> {
    let mut all = Vec::new();
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
        all.push(Rest {
            choices: choices.collect(),
            id: take(&mut q.id),
            ask: take(&mut q.ask),
            look: take(&mut q.look),
            rows: take(&mut q.rows),
            of: core.candidates.iter_mut().map(|c| take(&mut c.rows[at])).collect(),
        });
    }
    all
}

/// Puts back what [`part`] took, and checks the whole. A core that lacks nothing is left as it is.
///
/// # Errors
/// A sentence when the two do not belong together; the core is then of no use.
pub fn join(core: &mut Core, rest: Vec<Rest>) -> Result<(), Fault> {
    let other = || Fault(String::from("The two halves of this pack belong to different editions."));
    let mut rest = rest.into_iter();
    for at in 0..core.questions.len() {
        if core.questions[at].is_whole() {
            continue;
        }
        let r = rest.next().ok_or_else(other)?;
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
    check_core(core)
}
