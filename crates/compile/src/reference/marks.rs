//! `marks/*.toml` and `words.toml`: what may stand on a piece.

use super::Context;
use crate::cursor::{Table, Value};
use crate::fault::quote;
use crate::text::Limit;
use pack::marks::{Mark, Proof, Role, Word};

const PROOFS: [(&str, Proof); 5] = [
    ("not-before", Proof::NotBefore),
    ("habit", Proof::Habit),
    ("between", Proof::Between),
    ("not-after", Proof::NotAfter),
    ("nothing", Proof::Nothing),
];
const HARD: [&str; 4] = ["none", "from", "to", "both"];
const ROLES: [(&str, Role); 12] = [
    ("patent", Role::Patent),
    ("number", Role::Number),
    ("and", Role::And),
    ("suffix", Role::Suffix),
    ("size", Role::Size),
    ("pounds", Role::Pounds),
    ("diamond", Role::Diamond),
    ("class", Role::Class),
    ("top", Role::Top),
    ("right", Role::Right),
    ("bottom", Role::Bottom),
    ("left", Role::Left),
];
/// The longest spelling, in bytes, that the reader of the tables takes.
const LONGEST: usize = 48;
/// The most spellings of one mark.
const MOST: usize = 40;

/// Reads one file of marks.
pub(crate) fn read(top: &Table<'_>, context: &Context<'_>, list: &mut Vec<Mark>) {
    for table in top.tables("mark") {
        if let Some(mark) = mark(&table, context) {
            if list.iter().any(|m| m.id == mark.id) {
                let says = format!("The mark {} is described twice.", quote(&mark.id));
                context.faults.add(&table.spot_of("id"), says, "Remove one, or give it another id.");
            }
            list.push(mark);
        }
    }
    top.done();
}

fn mark(table: &Table<'_>, context: &Context<'_>) -> Option<Mark> {
    let id = table.id("made-in-japan");
    let rests = context.rests_of(table);
    let habit_basis = table.need_text("habit_basis", Limit::NAME, "habit_basis = \"practice\"");
    let habit_basis = units::Basis::from_word(&habit_basis).unwrap_or_else(|| {
        let says = format!("{} is no basis.", quote(&habit_basis));
        let hint = "Write one of: published, practice, memory.";
        context.faults.add(&table.spot_of("habit_basis"), says, hint);
        units::Basis::Memory
    });
    let proof = one_of(table, "proves", &PROOFS.map(|(w, _)| w)).map(|at| PROOFS[at].1);
    let [legal_from, legal_to] = context.days_of(table, "legal");
    let [habit_from, habit_to] = context.years_of(table, "habit");
    let hard = one_of(table, "hard", &HARD).unwrap_or(0);
    let mark = Mark {
        id: id.clone().unwrap_or_default(),
        name: table.need_text("name", Limit::NAME, "name = \"Made in Japan\""),
        writes: spellings(table, "writes", is_spelling),
        shapes: spellings(table, "shapes", |_| true),
        weight: small(table, "weight", 4, 999),
        proof: proof.unwrap_or(Proof::Nothing),
        legal_from,
        legal_to,
        habit_from,
        habit_to,
        hard_from: hard == 1 || hard == 3,
        hard_to: hard >= 2,
        fades: small(table, "fades", 0, 200),
        says: table.need_text("says", Limit::SENTENCES, "says = \"What it proves.\""),
        caution: table.text("caution", Limit::SENTENCES).unwrap_or_default(),
        basis: rests.basis,
        source: rests.source,
        habit_basis,
    };
    table.done();
    if proof.is_some() {
        bounds(table, &mark, context);
    }
    id.map(|_| mark)
}

/// What a mark proves must stand in its bounds.
fn bounds(table: &Table<'_>, m: &Mark, context: &Context<'_>) {
    let lower = m.legal_from.is_some() || m.habit_from.is_some();
    let upper = m.legal_to.is_some() || m.habit_to.is_some();
    let wants = match m.proof {
        Proof::NotBefore if m.legal_from.is_none() => "a legal start",
        Proof::Habit if !lower && !upper => "a bound of law or habit",
        Proof::Between if !lower || !upper => "a start and an end",
        Proof::NotAfter if m.legal_to.is_none() => "a legal end",
        _ => "",
    };
    if !wants.is_empty() {
        let hint = "Fill in legal or habit, or change what it proves.";
        context.faults.add(&table.spot_of("proves"), format!("This needs {wants}."), hint);
    }
    if m.proof == Proof::Nothing && (lower || upper) {
        let hint = "Leave legal and habit empty, or change what it proves.";
        context.faults.add(&table.spot_of("proves"), "What proves nothing has no bounds.", hint);
    }
    if (m.hard_from && m.legal_from.is_none()) || (m.hard_to && m.legal_to.is_none()) {
        let hint = "Give the date in legal, or write hard = \"none\".";
        context.faults.add(&table.spot_of("hard"), "There is no legal bound that could be hard.", hint);
    }
}

/// `words.toml`.
pub(crate) fn words(top: &Table<'_>) -> Vec<Word> {
    let mut list = Vec::new();
    for (name, role) in ROLES {
        if let Some(table) = top.table(name) {
            let weight = small(&table, "weight", 4, 999);
            let writes = spellings(&table, "writes", is_spelling);
            list.push(Word { role, which: 0, weight, writes });
            table.done();
        }
    }
    if let Some(table) = top.table("months") {
        let weight = small(&table, "weight", 4, 999);
        let months = table.need("writes", "writes = [[\"JAN\"], ...]").map(|v| v.list()).unwrap_or_default();
        if months.len() != 12 {
            table.faults().add(&table.spot_of("writes"), "There must be twelve months.", "");
        }
        for (month, which) in months.iter().take(12).zip(1..) {
            let writes = checked(month, month.texts(Limit::NAME), is_spelling);
            list.push(Word { role: Role::Month, which, weight, writes });
        }
        table.done();
    }
    top.done();
    list
}

/// Where a field's word stands in a list.
fn one_of(table: &Table<'_>, name: &str, words: &[&str]) -> Option<usize> {
    let word = table.need_text(name, Limit::NAME, &format!("{name} = {}", quote(words[0])));
    let at = words.iter().position(|w| *w == word);
    if at.is_none() && !word.is_empty() {
        let hint = table.faults().meant(&word, words.iter().copied(), "Write one of");
        table.faults().add(&table.spot_of(name), format!("{} cannot stand here.", quote(&word)), hint);
    }
    at
}

/// A small whole number that may be missing.
pub(crate) fn small(table: &Table<'_>, name: &str, usual: u16, most: i64) -> u16 {
    let found = table.get(name).and_then(|v| v.whole(0, most));
    found.and_then(|n| u16::try_from(n).ok()).unwrap_or(usual)
}

pub(crate) fn spellings(table: &Table<'_>, name: &str, sound: fn(&str) -> bool) -> Vec<String> {
    table.get(name).map(|v| checked(&v, v.texts(Limit::NAME), sound)).unwrap_or_default()
}

fn checked(
    value: &Value<'_>,
    texts: Vec<(String, crate::fault::Spot)>,
    sound: fn(&str) -> bool,
) -> Vec<String> {
    if texts.len() > MOST {
        value.fault(format!("There are more than {MOST} spellings."), "Keep those that are met.");
    }
    let mut seen: Vec<String> = Vec::new();
    for (text, spot) in texts {
        if !sound(&text) || text.trim().is_empty() || text.len() > LONGEST {
            let hint =
                format!("Write capitals, digits and spaces, without accents, at most {LONGEST} of them.");
            value.faults().add(&spot, format!("{} is no spelling.", quote(&text)), hint);
        } else if seen.contains(&text) {
            value.faults().add(&spot, format!("{} stands here twice.", quote(&text)), "Remove one.");
        } else {
            seen.push(text);
        }
    }
    seen
}

/// Capitals, digits, spaces, or one of the signs that are written as such.
pub(crate) fn is_spelling(text: &str) -> bool {
    text.chars()
        .all(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || matches!(c, ' ' | '&' | '®' | '™' | '©'))
}
