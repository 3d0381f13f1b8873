//! What must hold in a core before anybody computes with it: counts, indices, sums. One pass, first fault wins
//! (the compiler reports all faults of a source; here the bytes are simply refused). Texts are checked as they are read.

use crate::frame::Fault;
use crate::lessons::{Lessons, Step};
use crate::wire::{Book, Candidate, Confusion, Core, Form, Kind, Question, Row, Says, Standing};
use alloc::format;

/// Counts that no honest pack exceeds. They bound the work a hostile one can cause.
const MOST_QUESTIONS: usize = 400;
const MOST_KINDS: usize = 20_000;
const MOST_CANDIDATES: usize = 60_000;
const MOST_CHOICES: usize = 12;
const MOST_ROWS: usize = 60_000;
const MOST_NAMED: usize = 64;
const MOST_FIGURES: usize = 1_000;
const MOST_TAUGHT: usize = 500;

/// Checks a core.
///
/// # Errors
/// A sentence about the first thing that does not hold.
pub fn check_core(core: &Core) -> Result<(), Fault> {
    count("kinds", core.kinds.len(), 2, MOST_KINDS)?;
    count("questions", core.questions.len(), 1, MOST_QUESTIONS)?;
    count("candidates", core.candidates.len(), 2, MOST_CANDIDATES)?;
    for (what, len, least) in [
        ("places", core.places.len(), 1),
        ("parts", core.parts.len(), 1),
        ("roles", core.roles.len(), 1),
        ("makes", core.makes.len(), 1),
        ("tools", core.tools.len(), 0),
        ("cautions", core.cautions.len(), 0),
        ("groups", core.groups.len(), 0),
        ("fit limits", core.fit_limits.len(), 1),
    ] {
        count(what, len, least, if what == "fit limits" { MOST_QUESTIONS } else { MOST_NAMED })?;
    }
    count("role tables", core.role_rows.len(), 1, MOST_CANDIDATES)?;
    let h = &core.head;
    must(
        h.id.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit()) && (1..=40).contains(&h.id.len()),
        "the pack id",
    )?;
    must(once(core.places.iter().map(|p| p.code)), "the codes of places")?;
    must(once(core.questions.iter().map(|q| q.code)), "the codes of questions")?;
    must(core.groups.iter().all(|g| *g < 1000), "a group's overlap")?;
    must(core.mixed < 1000, "the share of mixed looks")?;
    for row in &core.role_rows {
        must(row.shares.len() == core.roles.len() && sums(&row.shares), "a role table")?;
    }
    for (i, q) in core.questions.iter().enumerate() {
        question(core, i, q)?;
    }
    must(core.opening.iter().all(|q| usize::from(*q) < core.questions.len()), "the opening list")?;
    for kind in &core.kinds {
        check_kind(core, kind)?;
    }
    let unknown = core.kinds.iter().filter(|k| k.standing == Standing::Unknown).count();
    let last = core.kinds.last().is_some_and(|k| k.standing == Standing::Unknown);
    must(unknown == 1 && last, "the kind for pieces outside the guide")?;
    for c in &core.cautions {
        let known = |&(q, c): &(u16, u16)| {
            core.questions.get(usize::from(q)).is_some_and(|q| usize::from(c) < q.choices.len())
        };
        must(c.raised_by.iter().all(known), "a caution")?;
    }
    count("figures", core.art.len(), 0, MOST_FIGURES)?;
    core.candidates.iter().try_for_each(|c| candidate(core, c))?;
    for place in 0..core.places.len() {
        must(core.candidates.iter().any(|c| c.prior[place] > 0), "the prior of a place")?;
    }
    Ok(())
}

fn question(core: &Core, at: usize, q: &Question) -> Result<(), Fault> {
    count("choices", q.choices.len(), 2, MOST_CHOICES)?;
    let opens = core.opening.iter().any(|o| usize::from(*o) == at);
    count("tables of a question", q.rows.len(), usize::from(opens), MOST_ROWS)?;
    must(usize::from(q.part) < core.parts.len(), "the part of a question")?;
    must(q.tool.is_none_or(|t| usize::from(t) < core.tools.len()), "the tool of a question")?;
    must(q.group.is_none_or(|g| usize::from(g) < core.groups.len()), "the group of a question")?;
    must(q.seconds > 0 && q.tellable <= 1000, "the cost of a question")?;
    must(q.misread_sure < 1000 && q.misread_unsure < 1000, "the misreading of a question")?;
    if let Some(gate) = &q.gate {
        let asked =
            core.questions.get(usize::from(gate.question)).filter(|_| usize::from(gate.question) < at);
        let asked = asked.ok_or_else(|| fault("the gate of a question"))?;
        must(!gate.choices.is_empty(), "the gate of a question")?;
        must(gate.choices.iter().all(|c| usize::from(*c) < asked.choices.len()), "the gate of a question")?;
        must(asked.form == Form::Choice, "the gate of a question")?;
    }
    must(once(q.choices.iter().map(|c| c.code)), "the codes of choices")?;
    let mut below = 0;
    for (i, c) in q.choices.iter().enumerate() {
        let all_known = c.confused.iter().all(|o| usize::from(*o) < q.choices.len() && usize::from(*o) != i);
        must(all_known, "the confusions of a choice")?;
        let last = i + 1 == q.choices.len();
        match (q.form, c.upper) {
            (Form::Choice, None) => {}
            (Form::Length | Form::Heft, None) if last => {}
            (Form::Length | Form::Heft, Some(upper)) if !last && upper > below && upper < 100_000 => {
                below = upper
            }
            _ => return Err(fault("the classes of a measured question")),
        }
    }
    q.rows.iter().try_for_each(|r| row(q, r))
}

fn row(q: &Question, row: &Row) -> Result<(), Fault> {
    match (&row.says, q.form) {
        (Says::Shares(shares), Form::Choice) => {
            must(shares.len() == q.choices.len() && sums(shares), "a table of a question")
        }
        (Says::Spread { mean, sd }, Form::Length | Form::Heft) => {
            must(*sd > 0 && *sd < 1_000_000 && mean.unsigned_abs() < 1_000_000, "a spread of a question")
        }
        _ => Err(fault("the sort of a table")),
    }
}

fn check_kind(core: &Core, kind: &Kind) -> Result<(), Fault> {
    must(kind.makes.len() == core.makes.len(), "the makes of a kind")?;
    must(kind.serves.iter().all(|r| usize::from(*r) < core.roles.len()), "the uses of a kind")?;
    must(kind.cautions.iter().all(|c| usize::from(*c) < core.cautions.len()), "the cautions of a kind")?;
    must(kind.either.iter().all(|k| usize::from(*k) < core.kinds.len()), "the twins of a kind")?;
    for facts in kind.makes.iter().flatten() {
        must(facts.period.is_sound(), "the years of a kind")?;
        if let Some(w) = &facts.worth {
            let ordered = 0 < w.low.minor && w.low.minor < w.high.minor && w.high.minor < 1_000_000_000_000;
            let one_currency = w.low.currency == w.high.currency && w.low.currency.is_sound();
            must(ordered && one_currency, "the worth of a kind")?;
        }
    }
    Ok(())
}

fn candidate(core: &Core, c: &Candidate) -> Result<(), Fault> {
    let kind = core.kinds.get(usize::from(c.kind)).ok_or_else(|| fault("the kind of a candidate"))?;
    let facts = kind.makes.get(usize::from(c.make)).and_then(Option::as_ref);
    must(facts.is_some(), "the make of a candidate")?;
    must(usize::from(c.roles) < core.role_rows.len(), "the roles of a candidate")?;
    must(c.prior.len() == core.places.len(), "the prior of a candidate")?;
    must(c.prior.iter().all(|p| *p <= 1_000_000_000), "the prior of a candidate")?;
    must(c.rows.len() == core.questions.len(), "the tables of a candidate")?;
    let known = |(r, q): (&u16, &Question)| usize::from(*r) < q.rows.len() || !q.is_whole() && *r == 0;
    let known = c.rows.iter().zip(&core.questions).all(known);
    must(known, "the tables of a candidate")
}

fn sums(shares: &[u16]) -> bool {
    shares.iter().map(|s| u32::from(*s)).sum::<u32>() == 1000
}

/// A link names things by their codes: two of one code could not be told apart.
fn once(codes: impl Iterator<Item = u16> + Clone) -> bool {
    let mut before = codes.clone().enumerate();
    before.all(|(i, code)| codes.clone().take(i).all(|c| c != code))
}

pub(crate) fn count(what: &str, n: usize, least: usize, most: usize) -> Result<(), Fault> {
    if n < least || n > most {
        return Err(Fault(format!("This pack has {n} {what}; between {least} and {most} can be read.")));
    }
    Ok(())
}

pub(crate) fn must(holds: bool, what: &str) -> Result<(), Fault> {
    if holds { Ok(()) } else { Err(fault(what)) }
}

fn fault(what: &str) -> Fault {
    Fault(format!(
        "This pack is damaged or was made by another program. This does not hold together: {what}."
    ))
}

/// Checks a book against nothing but itself; whether it belongs to a core is for the one who has both.
///
/// # Errors
/// A sentence about the first thing that does not hold.
pub(crate) fn check_book(book: &Book) -> Result<(), Fault> {
    count("kinds", book.kinds.len(), 2, MOST_KINDS)?;
    count("questions", book.questions.len(), 1, MOST_QUESTIONS)?;
    count("figures", book.art.len(), 0, MOST_FIGURES)?;
    let inside = |c: &Confusion| usize::from(c.kind) < book.kinds.len();
    must(book.kinds.iter().flat_map(|k| &k.confusions).all(inside), "a confusion of a kind")?;
    let taught = &book.lessons;
    for (what, n) in
        [("lessons", taught.steps.len()), ("blocks", taught.blocks.len()), ("proofs", taught.proofs.len())]
    {
        count(what, n, 0, MOST_TAUGHT)?;
    }
    must(once(taught.steps.iter().map(|l| l.code)), "the codes of lessons")?;
    must(once(taught.proofs.iter().map(|p| p.code)), "the codes of proofs")?;
    let kind = |k: &u16| usize::from(*k) < book.kinds.len();
    must(taught.blocks.iter().all(|b| !b.kinds.is_empty() && b.kinds.iter().all(kind)), "a block of kinds")?;
    must(taught.proofs.iter().all(|p| !p.wrong.is_empty()), "the wrong answers of a proof")?;
    for lesson in &taught.steps {
        let asked = |s: &Step| lesson.answers.iter().any(|(q, _)| *q == s.question);
        must(kind(&lesson.kind) && lesson.steps.iter().all(asked), "a lesson")?;
    }
    Ok(())
}

/// Checks what a book teaches against its core.
///
/// # Errors
/// A sentence about the first thing that does not hold.
pub fn check_lessons(core: &Core, lessons: &Lessons) -> Result<(), Fault> {
    let known = |(q, c): &(u16, u16)| {
        core.questions.get(usize::from(*q)).is_some_and(|q| usize::from(*c) < q.choices.len())
    };
    for lesson in &lessons.steps {
        must(
            once(lesson.answers.iter().map(|a| a.0)) && lesson.answers.iter().all(known),
            "the looks of a lesson",
        )?;
        must(usize::from(lesson.make) < core.makes.len(), "the make of a lesson")?;
    }
    Ok(())
}
