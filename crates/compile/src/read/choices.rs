//! The choices of a question.

use super::Context;
use crate::cursor::Table;
use crate::fault::{Spot, meant, quote};
use crate::spread::Quantity;
use crate::text::Limit;
use pack::Choice;

/// The most choices that fit on the keys of a small screen.
const MOST_CHOICES: usize = 6;

/// Beyond so many choices no more are read.
const READ_ON: usize = 12;

/// The choices of a question.
#[derive(Default)]
pub(super) struct Choices {
    pub(super) list: Vec<Choice>,
    /// Where each stands.
    pub(super) spots: Vec<Spot>,
    /// What each says of parts put on or worked over later; may be empty.
    pub(super) altered: Vec<String>,
}

/// Reads them.
pub(super) fn choices(table: &Table<'_>, quantity: Option<Quantity>, context: &Context<'_>) -> Choices {
    let tables = table.tables("choice");
    let mut list: Vec<Choice> = Vec::new();
    let (mut confused, mut spots, mut altered) = (Vec::new(), Vec::new(), Vec::new());
    for t in &tables {
        let id = t.id("bar");
        let upper = t.get("upper");
        let upper = match (quantity, &upper) {
            (None, Some(v)) => {
                v.fault("Only choices of a measured question have an upper bound.", "Leave it out.");
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
            clue: t.need_text("clue", Limit::SENTENCE, "clue = \"The grip is cast in one with the body\""),
            draw: context.drawing(t),
            confused: Vec::new(),
            upper,
        };
        let says_altered = t.text("altered", Limit::SENTENCES).unwrap_or_default();
        let names = t.get("confused").map(|v| v.texts(Limit::NAME)).unwrap_or_default();
        t.done();
        let Some(id) = id.filter(|_| list.len() < READ_ON) else {
            continue;
        };
        if list.iter().any(|c| c.id == id) {
            let says = format!("There are two choices {}.", quote(&id));
            t.faults().add(&t.spot_of("id"), says, "Give each its own id.");
            continue;
        }
        confused.push(names);
        spots.push(t.spot_of("id"));
        altered.push(says_altered);
        list.push(choice);
    }
    for (i, names) in confused.into_iter().enumerate() {
        for (id, spot) in names {
            match list.iter().position(|c| c.id == id) {
                Some(at) if at != i => list[i].confused.extend(u16::try_from(at)),
                Some(_) => {
                    table.faults().add(&spot, "A choice cannot be taken for itself.", "Name the others.")
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
    Choices { list, spots, altered }
}

/// The number of choices, and the order of the classes of a measured question.
fn counted(table: &Table<'_>, list: &[Choice], quantity: Option<Quantity>) {
    let spot = table.spot_of("choice");
    if list.len() < 2 {
        table.faults().add(&spot, "A question needs at least two choices.", "Add [[question.choice]].");
        return;
    }
    if list.len() > MOST_CHOICES {
        let says = format!("There are {} choices; at most {MOST_CHOICES} fit on a screen.", list.len());
        table.faults().add(&spot, says, "Join some, or ask in two questions.");
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
