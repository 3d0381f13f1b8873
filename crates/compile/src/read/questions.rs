//! `questions/*.toml`: questions and their choices.

use super::{Context, answers, find};
use crate::cursor::{Table, Value};
use crate::fault::{meant, quote};
use crate::model::{Entry, Manifest, Question};
use crate::shares::{self, Of};
use crate::spread::Quantity;
use crate::text::Limit;
use pack::{Choice, Gate};

/// The most choices that fit on the keys of a small screen.
const MOST_CHOICES: usize = 6;
/// Per cent of sure answers that are wrong where a question does not say (practice).
const MISREAD_SURE: f64 = 4.0;
/// Per cent of unsure answers that are wrong where a question does not say (practice).
const MISREAD_UNSURE: f64 = 20.0;

/// Reads the questions of a file behind those already read.
pub(super) fn read(file: &Table<'_>, context: &Context<'_>, manifest: &Manifest, read: &mut Vec<Question>) {
    for table in file.tables("question") {
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
    let answer = one_of(
        table,
        "answer",
        &["choice", "length", "heft"],
        "answer = \"choice\"",
    );
    let (form, quantity) = match answer {
        1 => (pack::Form::Length, Some(Quantity::Length)),
        2 => (pack::Form::Heft, Some(Quantity::Heft)),
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
    let choices = choices(table, quantity);
    let wire = pack::Question {
        code: 0,
        id: id.clone().unwrap_or_default(),
        ask: table.need_text("ask", Limit::SENTENCE, "ask = \"What is the grip made like?\""),
        look: table.need_text("look", Limit::SENTENCES, "look = \"Look at it from the side.\""),
        seller: table.need_text(
            "seller",
            Limit::SENTENCES,
            "seller = \"What is the handle made of?\"",
        ),
        part: named(table.need("part", "part = \"grip\""), &pack.parts, "part").unwrap_or(0),
        tool: named(table.get("tool"), &pack.tools, "tool"),
        seconds: table
            .need("seconds", "seconds = 5")
            .and_then(|v| v.whole(1, 3600))
            .and_then(|n| u16::try_from(n).ok())
            .unwrap_or(1),
        by_picture: table
            .need("picture", "picture = true")
            .and_then(|v| v.flag())
            .unwrap_or(false),
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
    let usual = table
        .get("usual")
        .and_then(|v| usual(table, &v, context, pack, &wire, quantity));
    let newcomers = table.text("newcomers", Limit::PAGES).unwrap_or_default();
    if quantity.is_some_and(|q| read.iter().any(|r| r.quantity == Some(q))) {
        let says = "There are two questions with this answer; kinds have one spread only.";
        context
            .faults
            .add(&table.spot_of("answer"), says, "Ask for choices instead.");
    }
    let id = id?;
    if read.iter().any(|q| q.id == id) {
        let says = format!("There are two questions {}.", quote(&id));
        context
            .faults
            .add(&table.spot_of("id"), says, "Give each its own id.");
        return None;
    }
    Some(Question {
        id,
        spot: table.spot(),
        about_make: about == 1,
        quantity,
        wire,
        usual,
        newcomers,
    })
}

/// Which of the words a field holds; the first when it holds none of them, which is a fault.
fn one_of(table: &Table<'_>, name: &str, words: &[&str], example: &str) -> usize {
    let Some(value) = table.need(name, example) else {
        return 0;
    };
    let Some(word) = value.text(Limit::NAME) else {
        return 0;
    };
    words.iter().position(|w| *w == word).unwrap_or_else(|| {
        let hint = meant(&word, words.iter().copied(), "Write one of");
        value.fault(format!("{} cannot stand here.", quote(&word)), hint);
        0
    })
}

fn choices(table: &Table<'_>, quantity: Option<Quantity>) -> Vec<Choice> {
    let tables = table.tables("choice");
    let mut list: Vec<Choice> = Vec::new();
    let mut confused = Vec::new();
    for t in &tables {
        let id = t.id("bar");
        let upper = t.get("upper");
        let upper = match (quantity, &upper) {
            (None, Some(v)) => {
                v.fault(
                    "Only choices of a measured question have an upper bound.",
                    "Leave it out.",
                );
                None
            }
            (Some(q), Some(v)) => v.number(q.bounds().0, q.bounds().1).map(|n| {
                let scale = if q == Quantity::Length { 10.0 } else { 1000.0 };
                libm::round(n * scale) as u32
            }),
            (_, None) => None,
        };
        let choice = Choice {
            code: 0,
            id: id.clone().unwrap_or_default(),
            label: t.need_text("label", Limit::LABEL, "label = \"Cast in one\""),
            clue: t.need_text(
                "clue",
                Limit::SENTENCE,
                "clue = \"The grip is cast in one with the body\"",
            ),
            draw: drawing(t),
            confused: Vec::new(),
            upper,
        };
        let names = t
            .get("confused")
            .map(|v| v.texts(Limit::NAME))
            .unwrap_or_default();
        t.done();
        let Some(id) = id else { continue };
        if list.iter().any(|c| c.id == id) {
            let says = format!("There are two choices {}.", quote(&id));
            t.faults().add(&t.spot_of("id"), says, "Give each its own id.");
            continue;
        }
        confused.push(names);
        list.push(choice);
    }
    for (i, names) in confused.into_iter().enumerate() {
        for (id, spot) in names {
            match list.iter().position(|c| c.id == id) {
                Some(at) if at != i => list[i].confused.extend(u16::try_from(at)),
                Some(_) => {
                    table
                        .faults()
                        .add(&spot, "A choice cannot be taken for itself.", "Name the others.")
                }
                None => {
                    let hint = meant(&id, list.iter().map(|c| c.id.as_str()), "Choices");
                    table.faults().add(
                        &spot,
                        format!("{} is not a choice of this question.", quote(&id)),
                        hint,
                    );
                }
            }
        }
        list[i].confused.sort_unstable();
        list[i].confused.dedup();
    }
    counted(table, &list, quantity);
    list
}

/// The number of choices, and the order of the classes of a measured question.
fn counted(table: &Table<'_>, list: &[Choice], quantity: Option<Quantity>) {
    let spot = table.spot_of("choice");
    if list.len() < 2 {
        table.faults().add(
            &spot,
            "A question needs at least two choices.",
            "Add [[question.choice]].",
        );
        return;
    }
    if list.len() > MOST_CHOICES {
        let says = format!(
            "There are {} choices; at most {MOST_CHOICES} fit on a screen.",
            list.len()
        );
        table
            .faults()
            .add(&spot, says, "Join some, or ask in two questions.");
    }
    if quantity.is_none() {
        return;
    }
    let (last, others) = list.split_last().map_or((None, list), |(l, o)| (l.upper, o));
    let bounds: Vec<u32> = others.iter().filter_map(|c| c.upper).collect();
    if last.is_some() || bounds.len() < others.len() || bounds.windows(2).any(|w| w[0] >= w[1]) {
        let says = "The classes of a measured question are not in order.";
        let hint = "Give each choice but the last an upper bound, each larger than the one before.";
        table.faults().add(&spot, says, hint);
    }
}

/// What to draw; empty when nothing is.
pub(super) fn drawing(table: &Table<'_>) -> String {
    let Some(value) = table.get("draw") else {
        return String::new();
    };
    let text = value.text(Limit::DRAWING).unwrap_or_default();
    if let Err(says) = sketch::Drawing::parse(&text) {
        value.fault(says, "`workshop words` lists the words of drawings.");
    }
    text
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
    let (question, choices) = answers(&text, &value.spot, read, value.faults())?;
    let asked = &read[usize::from(question)];
    if asked.quantity.is_some() {
        value.fault(
            "Only a question with choices can open another.",
            "Name one with answer = \"choice\".",
        );
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
        value.fault(
            "A measured question has no usual table.",
            format!("Kinds state their {}.", q.field()),
        );
        return None;
    }
    let choices: Vec<&str> = wire.choices.iter().map(|c| c.id.as_str()).collect();
    context.table_line(value, &choices, manifest, context.rests(table, manifest.rests))
}

impl Context<'_> {
    /// A line of a table, or `{ says = ..., basis = ..., source = ... }`.
    pub(super) fn table_line(
        &self,
        value: &Value<'_>,
        choices: &[&str],
        manifest: &Manifest,
        above: crate::model::Rests,
    ) -> Option<Entry> {
        let (says, rests) = if value.is_table() {
            let table = value.table()?;
            let says = table.need("says", "says = \"bar usually\"");
            let rests = self.rests(&table, above);
            table.done();
            (says?, rests)
        } else {
            return self.line(value, choices, manifest, above);
        };
        self.line(&says, choices, manifest, rests)
    }

    fn line(
        &self,
        value: &Value<'_>,
        choices: &[&str],
        manifest: &Manifest,
        rests: crate::model::Rests,
    ) -> Option<Entry> {
        let text = value.text(Limit::TABLE)?;
        match shares::read(&text, Of::Choices, choices, &manifest.words) {
            Ok(line) => {
                self.count(rests);
                Some(Entry {
                    says: pack::Says::Shares(line.shares(rests.basis)),
                    rests,
                })
            }
            Err(refused) => {
                refused.tell(value);
                None
            }
        }
    }
}
