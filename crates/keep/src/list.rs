//! The list of pieces: which of them, in which order, as rows or as a wall of pictures.

use crate::block::{Block, Does, Field, Key, Row, Sort as FieldSort};
use crate::bulk;
use crate::msg::{Msg, Spot};
use crate::state::State;
use crate::store::FORGETS;
use cabinet::find::{Card, Filter, Query, Sort};
use cabinet::record::{Standing, Value};

/// So many pieces saved since the last export call for another. Basis: practice.
const DUE: usize = 5;

const STANDINGS: [(&str, Option<Standing>); 5] = [
    ("Owned", Some(Standing::Owned)),
    ("Wanted", Some(Standing::Wanted)),
    ("Passed over", Some(Standing::PassedOver)),
    ("Sold", Some(Standing::Sold)),
    ("Taken out", None),
];
const SORTS: [(&str, Sort); 7] = [
    ("Number", Sort::Number),
    ("Title", Sort::Title),
    ("Date", Sort::Date),
    ("Length", Sort::Length),
    ("Weight", Sort::Weight),
    ("Saved", Sort::Saved),
    ("Value", Sort::Value),
];
const FILTERS: [(&str, Filter); 6] = [
    ("Without a photograph", Filter::NoPhoto),
    ("Without a value", Filter::NoValue),
    ("Value over three years old", Filter::OldValue),
    ("Lacks something", Filter::Lacking),
    ("To be sold singly", Filter::Singly),
    ("Versions disagree", Filter::Disagreeing),
];

/// The first line of a piece.
pub(crate) fn title(card: &Card) -> String {
    let names = [&card.title, &card.kind, &card.class];
    names.into_iter().find(|t| !t.is_empty()).map_or("A piece without a title", String::as_str).to_string()
}

/// How a piece is called in a sentence.
pub(crate) fn called(card: &Card) -> String {
    match &card.number {
        Some(number) => format!("{}, {}", number.text(), title(card)),
        None => title(card),
    }
}

/// The places in the index that are listed now.
pub(crate) fn listed(state: &State) -> Vec<usize> {
    let which = state.standing.map_or(Filter::Gone(true), Filter::Standing);
    let filters = state.query.filters.iter().cloned().chain([which]).collect();
    state.index.find(&Query { filters, ..state.query.clone() })
}

/// How many pieces were saved since everything was exported last.
pub(crate) fn unexported(state: &State) -> usize {
    let since = state.exported.unwrap_or_default();
    state.index.cards().filter(|c| c.saved > since).count()
}

pub(crate) fn blocks(state: &State) -> Vec<Block> {
    let mut out = Vec::new();
    if !state.loaded {
        out.push(Block::Hint("Opening the cabinet.".to_string()));
        return out;
    }
    if let Some((time, link)) = &state.last {
        out.push(Block::Keys(
            format!("The piece in your hand, last looked at on {}:", time.date().shown()),
            vec![Key::to("Go on with it", &format!("./#{link}"))],
        ));
    }
    let due = unexported(state);
    if due >= DUE {
        let since = if state.exported.is_some() { "since the last export" } else { "and never exported" };
        out.push(Block::Keys(
            format!("{due} pieces were saved {since}. A copy elsewhere keeps them when this device forgets."),
            vec![Key::to("Export", "#out")],
        ));
    }
    if state.index.is_empty() {
        out.push(Block::Says(
            "Nothing is kept yet. Look at a piece and press \u{201c}Keep this piece\u{201d} at its finding, write a record by \
             hand, or take in a file."
                .to_string(),
        ));
        out.push(Block::Keys(String::new(), vec![Key::to("Take in a file", "#in")]));
    } else {
        found(state, &mut out);
    }
    foot(state, &mut out);
    out
}

fn found(state: &State, out: &mut Vec<Block>) {
    out.push(Block::Fields(vec![Field {
        spot: Spot::Search,
        label: "Look for".to_string(),
        text: state.query.words.clone(),
        fault: None,
        sort: FieldSort::Search,
    }]));
    let count = |which: Option<Standing>| {
        state.index.cards().filter(|c| which.map_or(c.gone, |s| c.standing == s && !c.gone)).count()
    };
    let which = STANDINGS.iter().map(|(label, which)| (label, *which, count(*which)));
    // What there is none of is no choice, except the first.
    let which =
        which.filter(|(_, which, n)| *n > 0 || *which == state.standing || *which == Some(Standing::Owned));
    let which = which.map(|(label, which, n)| {
        Key::toggle(&format!("{label} {n}"), which == state.standing, Msg::Standing(which))
    });
    out.push(Block::Keys("Which".to_string(), which.collect()));
    let mut how = vec![
        Key::toggle("Pictures", state.wall, Msg::Wall(!state.wall)),
        Key::toggle("Order, filters", state.filters_open, Msg::Filters),
        Key::toggle("Several", state.bulk.is_some(), Msg::Several),
    ];
    how.push(Key::to("Series", "#series"));
    out.push(Block::Keys("How".to_string(), how));
    if state.filters_open {
        let sorts = SORTS.iter().map(|(label, sort)| {
            let on = state.query.sort == *sort;
            let label = if on && state.query.backwards {
                format!("{label}, backwards")
            } else {
                (*label).to_string()
            };
            Key::toggle(&label, on, Msg::Sort(*sort))
        });
        let filters = FILTERS.iter().map(|(label, filter)| {
            Key::toggle(label, state.query.filters.contains(filter), Msg::Filter(filter.clone()))
        });
        out.push(Block::Card(vec![
            Block::Keys("Order".to_string(), sorts.collect()),
            Block::Keys("Only those".to_string(), filters.collect()),
        ]));
    }
    if let Some(bulk) = &state.bulk {
        bulk::blocks(state, bulk, out);
    }
    let listed = listed(state);
    let narrowed = !state.query.words.trim().is_empty() || !state.query.filters.is_empty();
    out.push(Block::Hint(match listed.len() {
        0 if narrowed => "No piece answers to that.".to_string(),
        0 => "There is none here.".to_string(),
        1 => "1 piece.".to_string(),
        n => format!("{n} pieces."),
    }));
    let rows: Vec<Row> =
        listed.iter().take(state.shown).map(|at| row(state, state.index.card(*at))).collect();
    let more = listed.len() > rows.len();
    if !rows.is_empty() {
        out.push(if state.wall { Block::Wall(rows) } else { Block::Rows(rows) });
    }
    if more {
        out.push(Block::Keys(String::new(), vec![Key::new("Show more", Msg::More)]));
    }
}

fn row(state: &State, card: &Card) -> Row {
    let number = card.number.as_ref().map_or_else(|| "no number".to_string(), |n| n.text().to_string());
    let size = card.length.map_or_else(String::new, |l| format!("{} mm", (l + 5) / 10));
    let kind = if card.title.is_empty() { String::new() } else { card.kind.clone() };
    let says: Vec<String> =
        [number, kind, card.date.clone(), size].into_iter().filter(|t| !t.is_empty()).collect();
    let chosen = state.bulk.as_ref().map(|b| b.chosen.contains(&card.id));
    let does = match chosen {
        Some(_) => Does::Msg(Msg::Choose(card.id)),
        None => Does::To(format!("#piece/{}", card.id)),
    };
    let care = if card.against > 0 { "Versions disagree." } else { "" }.to_string();
    Row { photo: card.photo.clone(), title: title(card), says: says.join(" \u{b7} "), care, does, chosen }
}

/// What is true of every list: that a phone forgets, and how things stand.
fn foot(state: &State, out: &mut Vec<Block>) {
    out.push(Block::Heading("Kept on this device only".to_string()));
    let mut says = vec![Block::Says(FORGETS.to_string())];
    says.extend(state.room.says().into_iter().map(Block::Says));
    let exported = match state.exported {
        Some(time) => format!("Last exported {}; saved since: {}.", time.date().shown(), unexported(state)),
        None => "Never exported from this device.".to_string(),
    };
    says.push(Block::Says(exported));
    says.push(Block::Keys(
        String::new(),
        vec![Key::to("Out of the cabinet", "#out"), Key::to("Into the cabinet", "#in")],
    ));
    out.push(Block::Card(says));
}
