//! `questions/*.toml`: questions and their choices.

use super::choices::{Choices, choices};
use super::{Context, answers, find};
use crate::checks::MOST_QUESTIONS;
use crate::cursor::{Table, Value};
use crate::fault::{meant, quote};
use crate::model::{Entry, Manifest, Question};
use crate::spread::Quantity;
use crate::text::Limit;
use pack::Gate;

/// Per cent of sure answers that are wrong where a question does not say (practice).
const MISREAD_SURE: f64 = 4.0;
/// Per cent of unsure answers that are wrong where a question does not say (practice).
const MISREAD_UNSURE: f64 = 20.0;

/// Reads the questions of a file behind those already read.
pub(super) fn read(file: &Table<'_>, context: &Context<'_>, manifest: &Manifest, read: &mut Vec<Question>) {
    for table in file.tables("question") {
        if read.len() > MOST_QUESTIONS {
            return;
        }
        if let Some(question) = question(&table, context, manifest, read) {
            read.push(question);
        }
        table.done();
    }
    file.done();
}

fn question(
    table: &Table<'_>,
    context: &Context<'_>,
    pack: &Manifest,
    read: &[Question],
) -> Option<Question> {
    let id = table.id("grip");
    let about = one_of(table, "about", &["form", "make"], "about = \"form\"");
    let answer = one_of(table, "answer", &["choice", "length", "heft"], "answer = \"choice\"");
    let (form, quantity) = match answer {
        Some(1) => (pack::Form::Length, Some(Quantity::Length)),
        Some(2) => (pack::Form::Heft, Some(Quantity::Heft)),
        _ => (pack::Form::Choice, None),
    };
    let named = |value: Option<Value<'_>>, things, what| {
        let value = value?;
        let id = value.text(Limit::NAME)?;
        find(things, &id, &value.spot, what, context.faults)
    };
    let per_cent = |table: &Table<'_>, name: &str, most: f64, usual: f64| {
        let value = table.get(name).and_then(|v| v.number(0.0, most));
        libm::round(value.unwrap_or(usual) * 10.0) as u16
    };
    let misread = table.table("misread");
    let rate = |name: &str, usual: f64| match &misread {
        Some(t) => per_cent(t, name, 50.0, usual),
        None => (usual * 10.0) as u16,
    };
    let (sure, unsure) = (rate("sure", MISREAD_SURE), rate("unsure", MISREAD_UNSURE));
    if let Some(t) = &misread {
        t.done();
        if sure > unsure {
            let says = "Sure answers are said to be wrong more often than unsure ones.";
            context.faults.add(&t.spot(), says, "Swap the two.");
        }
    }
    let Choices { list: choices, spots: choice_spots, altered } = choices(table, quantity, context);
    let wire = pack::Question {
        code: 0,
        id: id.clone().unwrap_or_default(),
        ask: table.need_text("ask", Limit::SENTENCE, "ask = \"What is the grip made like?\""),
        look: table.need_text("look", Limit::SENTENCES, "look = \"Look at it from the side.\""),
        part: named(table.need("part", "part = \"grip\""), &pack.parts, "part").unwrap_or(0),
        tool: named(table.get("tool"), &pack.tools, "tool"),
        seconds: table
            .need("seconds", "seconds = 5")
            .and_then(|v| v.whole(1, 3600))
            .and_then(|n| u16::try_from(n).ok())
            .unwrap_or(1),
        by_picture: table.need("picture", "picture = true").and_then(|v| v.flag()).unwrap_or(false),
        tellable: match table.need("tellable", "tellable = 95") {
            Some(_) => per_cent(table, "tellable", 100.0, 100.0),
            None => 1000,
        },
        misread_sure: sure,
        misread_unsure: unsure,
        group: table.get("group").and_then(|v| group(&v, pack)),
        gate: table.get("asked_if").and_then(|v| gate(&v, read)),
        form,
        choices,
        rows: Vec::new(),
    };
    let usual = table.get("usual").and_then(|v| usual(table, &v, context, pack, &wire, quantity));
    let seller = table.need_text("seller", Limit::SENTENCES, "seller = \"What is the handle made of?\"");
    let newcomers = table.text("newcomers", Limit::PARAGRAPH).unwrap_or_default();
    if quantity.is_some_and(|q| read.iter().any(|r| r.quantity == Some(q))) {
        let says = "There are two questions with this answer; kinds have one spread only.";
        context.faults.add(&table.spot_of("answer"), says, "Ask for choices instead.");
    }
    let id = id?;
    if read.iter().any(|q| q.id == id) {
        let says = format!("There are two questions {}.", quote(&id));
        context.faults.add(&table.spot_of("id"), says, "Give each its own id.");
        return None;
    }
    Some(Question {
        id,
        spot: table.spot(),
        choice_spots,
        // Behind a fault it may stand anywhere.
        about_make: about != Some(0),
        quantity,
        wire,
        usual,
        seller,
        newcomers,
        altered,
    })
}

/// Which of the words a field holds; that it holds none of them is a fault.
fn one_of(table: &Table<'_>, name: &str, words: &[&str], example: &str) -> Option<usize> {
    let value = table.need(name, example)?;
    let word = value.text(Limit::NAME)?;
    let found = words.iter().position(|w| *w == word);
    if found.is_none() {
        let hint = meant(&word, words.iter().copied(), "Write one of");
        value.fault(format!("{} cannot stand here.", quote(&word)), hint);
    }
    found
}

fn group(value: &Value<'_>, manifest: &Manifest) -> Option<u16> {
    let id = value.text(Limit::NAME)?;
    let at = manifest.groups.iter().position(|(g, _)| *g == id);
    if at.is_none() {
        let hint = meant(&id, manifest.groups.iter().map(|(g, _)| g.as_str()), "Groups");
        value.unknown(format!("pack.toml has no group {}.", quote(&id)), hint);
    }
    at.and_then(|i| u16::try_from(i).ok())
}

/// A gate names an earlier question only, so no gate can lead back to itself.
fn gate(value: &Value<'_>, read: &[Question]) -> Option<Gate> {
    let text = value.text(Limit::TABLE)?;
    let (question, choices) = answers(&text, &value.spot, read, " before this one", value.faults())?;
    let asked = &read[usize::from(question)];
    if asked.quantity.is_some() {
        value.fault("Only a question with choices can open another.", "Name one with answer = \"choice\".");
        return None;
    }
    if choices.len() == asked.wire.choices.len() {
        value.fault("Every answer opens this question.", "Leave asked_if out.");
    }
    (!choices.is_empty()).then_some(Gate { question, choices })
}

/// What is seen when nobody says otherwise.
fn usual(
    table: &Table<'_>,
    value: &Value<'_>,
    context: &Context<'_>,
    manifest: &Manifest,
    wire: &pack::Question,
    quantity: Option<Quantity>,
) -> Option<Entry> {
    if let Some(q) = quantity {
        value.fault("A measured question has no usual table.", format!("Kinds state their {}.", q.field()));
        return None;
    }
    let choices: Vec<&str> = wire.choices.iter().map(|c| c.id.as_str()).collect();
    let rests = context.rests(table, manifest.rests);
    Some(context.table_line(value, &choices, manifest, rests))
}
