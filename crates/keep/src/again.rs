//! A finding that is kept beside the record that its piece has already: what the guide said, what it says now, and why it may
//! differ.

use crate::block::{Block, Key};
use crate::list::called;
use crate::msg::Msg;
use crate::state::State;
use cabinet::find::answers;
use cabinet::record::{Record, Uuid};

/// The piece whose answers are all among those of a record: it is most likely the same piece.
pub(crate) fn same(state: &State, record: &Record) -> Option<Uuid> {
    let now = answers(&record.answers);
    let within = |card: &&cabinet::find::Card| {
        let then = answers(&card.answers);
        !card.gone && !then.is_empty() && then.iter().all(|a| now.contains(a))
    };
    // The one with the most answers in common.
    state.index.cards().filter(within).max_by_key(|c| answers(&c.answers).len()).map(|c| c.id)
}

/// The record with what the guide says now; what its owner wrote stays.
pub(crate) fn taken(old: &Record, now: &Record) -> Record {
    let mut record = old.clone();
    record.kind.clone_from(&now.kind);
    record.class.clone_from(&now.class);
    record.date.clone_from(&now.date);
    record.edtf.clone_from(&now.edtf);
    record.finding.clone_from(&now.finding);
    record.answers.clone_from(&now.answers);
    record.pack.clone_from(&now.pack);
    for caution in now.cautions.lines().filter(|c| !old.cautions.contains(c)) {
        if !record.cautions.is_empty() {
            record.cautions.push('\n');
        }
        record.cautions.push_str(caution);
    }
    let new = now.measurements.iter().filter(|m| old.measured(&m.what).is_none());
    record.measurements.extend(new.cloned());
    let has = |text: &str| old.marks.iter().any(|m| m.text == text);
    record.marks.extend(now.marks.iter().filter(|m| !has(&m.text)).cloned());
    record
}

pub(crate) fn blocks(state: &State, id: Uuid) -> Vec<Block> {
    let Some((_, now)) = &state.handed else {
        return vec![Block::Says("There is no new finding to compare.".to_string())];
    };
    let Some((_, old)) = &crate::piece::record(state) else {
        return vec![Block::Hint("Opening the record.".to_string())];
    };
    let name = state.index.card_of(id).map_or_else(String::new, called);
    let mut out = vec![Block::Says(format!(
        "Every answer of {name} is among those of this finding, so it is most likely the same piece."
    ))];
    let more = answers(&now.answers).len().saturating_sub(answers(&old.answers).len());
    let revised = !old.pack.is_empty() && old.pack != now.pack;
    out.push(Block::Says(match (revised, more) {
        (true, 0) => {
            "The guide was revised since; the answers are the same. What differs comes from the guide."
                .to_string()
        }
        (true, n) => format!(
            "The guide was revised since, and there are {n} answers more. Either may be why it differs."
        ),
        (false, 0) => "The guide is the same as then, and so are the answers.".to_string(),
        (false, n) => format!("The guide is the same as then. What differs comes from {n} answers more."),
    }));
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut compare = |name: &str, was: &str, is: &str| {
        if was != is {
            rows.push(vec![name.to_string(), was.to_string(), is.to_string()]);
        }
    };
    compare("kind", &old.kind, &now.kind);
    compare("made as", &old.class, &now.class);
    compare("date", &old.date, &now.date);
    let line = |record: &Record, head: &str| {
        let found = record.finding.lines().find_map(|l| l.strip_prefix(head)?.strip_prefix(": "));
        found.unwrap_or_default().to_string()
    };
    let heads = |r: &Record| -> Vec<String> {
        r.finding.lines().filter_map(|l| l.split_once(": ")).map(|(h, _)| h.to_string()).collect()
    };
    let mut all = heads(now);
    all.extend(heads(old).into_iter().filter(|h| !heads(now).contains(h)));
    for head in all {
        compare(&head, &line(old, &head), &line(now, &head));
    }
    if rows.is_empty() {
        out.push(Block::Says("Nothing differs.".to_string()));
    } else {
        out.push(Block::Table(["", "was", "is now"].map(String::from).to_vec(), rows));
    }
    let mut keys = vec![
        Key::new("Leave the record as it is", Msg::LeaveFinding),
        Key::new("It is another piece", Msg::Another),
    ];
    if state.writes() {
        keys.insert(0, Key::new("Take this into the record", Msg::TakeFinding).strong());
    }
    out.push(Block::Keys(String::new(), keys));
    out
}
