//! One piece: what stands in its record, what it lacks, what disagrees.

use crate::block::{Block, Key};
use crate::effect::{Effect, SheetSort};
use crate::msg::{Given, Msg};
use crate::paper::of_sheet;
use crate::saving::saving;
use crate::state::{Saved, State};
use cabinet::merge::{Kept, Shelf, differences};
use cabinet::record::{Profile, Record, Stamp, Uuid, Version, is_old, lacks};
use cabinet::sheets;

/// How the one record of a shelf stands.
pub(crate) fn stands(shelf: &Shelf) -> Option<Kept<'_>> {
    shelf.records().into_iter().next()
}

/// The state that follows others.
pub(crate) fn after(
    from: &[&Version],
    record: &Record,
    deleted: bool,
    device: &str,
    given: &mut Given,
) -> Version {
    let id = from.first().map_or_else(|| (given.fresh)(), |v| v.stamp.id);
    let stamp = Stamp {
        id,
        version: (given.fresh)(),
        time: given.now,
        device: device.to_string(),
        deleted,
        ..Stamp::default()
    };
    Version::after(from, stamp, record)
}

/// The record that is open, as it is shown.
pub(crate) fn record(state: &State) -> Option<(Uuid, Record)> {
    let (id, shelf) = state.open.as_ref()?;
    stands(shelf).map(|kept| (*id, kept.shown.record.clone()))
}

/// A state that follows all that stand, so that nothing disagrees with it.
pub(crate) fn settled(
    state: &State,
    shelf: &Shelf,
    deleted: bool,
    chosen: Option<Uuid>,
    given: &mut Given,
) -> Option<(Uuid, Version)> {
    let kept = stands(shelf).filter(|_| state.writes())?;
    let heads: Vec<&Version> = [kept.shown].into_iter().chain(kept.against.iter().copied()).collect();
    let holds = chosen.and_then(|id| heads.iter().find(|v| v.stamp.version == id)).unwrap_or(&heads[0]);
    let deleted = deleted || (chosen.is_some() && holds.stamp.deleted);
    Some((kept.shown.stamp.id, after(&heads, &holds.record, deleted, &state.device, given)))
}

/// The same for the piece that is open.
pub(crate) fn settle(
    state: &mut State,
    deleted: bool,
    chosen: Option<Uuid>,
    what: Saved,
    given: &mut Given,
) -> Vec<Effect> {
    let Some((_, shelf)) = &state.open else { return Vec::new() };
    let Some((_, version)) = settled(state, shelf, deleted, chosen, given) else { return Vec::new() };
    state.saving = Some(what);
    vec![Effect::Save(vec![saving(&version)])]
}

pub(crate) fn blocks(state: &State, id: Uuid) -> Vec<Block> {
    let Some((_, shelf)) = state.open.as_ref().filter(|(open, _)| *open == id) else {
        return vec![Block::Hint("Opening the record.".to_string())];
    };
    let Some(kept) = stands(shelf) else {
        return vec![Block::Says(
            "This record is not in the cabinet of this device. It may have been kept on another one."
                .to_string(),
        )];
    };
    let mut out = Vec::new();
    let record = &kept.shown.record;
    if kept.is_gone() {
        out.push(Block::Care("This piece was taken out of the cabinet. Nothing of it is lost.".to_string()));
        if state.writes() {
            out.push(Block::Keys(String::new(), vec![Key::new("Put it back", Msg::PutBack(id)).strong()]));
        }
    }
    against(state, &kept, &mut out);
    let mut seen = record.clone();
    let figures = !record.valuations.is_empty()
        || [&record.acquired, &record.parted].iter().any(|d| d.as_ref().is_some_and(|d| d.price.is_some()));
    if !state.money {
        seen.valuations.clear();
        seen.acquired.iter_mut().chain(&mut seen.parted).for_each(|d| d.price = None);
    }
    let sheet = sheets::one(id, &seen, Profile::Insurance, state.today);
    out.extend(sheet.blocks.iter().map(of_sheet));
    if figures {
        let label = if state.money { "Hide the money" } else { "Show the money" };
        out.push(Block::Keys(String::new(), vec![Key::toggle(label, state.money, Msg::Money)]));
        if is_old(record, state.today) {
            out.push(Block::Care("Its latest valuation is more than three years old.".to_string()));
        }
    }
    guide(state, record, &mut out);
    let lacks = lacks(record, state.today);
    if !lacks.is_empty() && !kept.is_gone() {
        out.push(Block::Heading("What this record lacks".to_string()));
        out.push(Block::Card(lacks.into_iter().map(Block::Says).collect()));
    }
    out.push(Block::Heading("On paper and to others".to_string()));
    out.push(Block::Hint(
        "Each sheet can be printed, saved as PDF by the browser, or copied as text.".to_string(),
    ));
    let sheet = |label: &str, sort| Key::new(label, Msg::Sheet(sort));
    out.push(Block::Keys(
        String::new(),
        vec![
            sheet("Record, everything", SheetSort::One(Profile::Insurance)),
            sheet("Record, for anybody", SheetSort::One(Profile::Public)),
            sheet("Ask a specialist", SheetSort::Opinion),
            sheet("Text for a sale", SheetSort::Sale),
            sheet("Label", SheetSort::Labels),
        ],
    ));
    if state.writes() && !kept.is_gone() {
        out.push(Block::Keys(String::new(), vec![Key::new("Take it out of the cabinet", Msg::Delete)]));
    }
    out
}

/// What the guide said, and how to ask it again.
fn guide(state: &State, record: &Record, out: &mut Vec<Block>) {
    if record.answers.is_empty() {
        return;
    }
    out.push(Block::Heading("The guide".to_string()));
    let revised = !record.pack.is_empty() && !state.pack.is_empty() && record.pack != state.pack;
    let says = if revised {
        "The guide was revised since it was asked about this piece. Open its finding to see what it says now; keep it from \
         there, and both are laid side by side."
    } else {
        "The answers of this piece are kept. Open its finding to go on; keep it from there, and both are laid side by side."
    };
    out.push(Block::Says(says.to_string()));
    let label = if revised { "Ask the guide again" } else { "Open its finding" };
    out.push(Block::Keys(String::new(), vec![Key::to(label, &format!("./#{}", record.answers))]));
}

/// Versions that disagree with the one that is shown.
fn against(state: &State, kept: &Kept<'_>, out: &mut Vec<Block>) {
    if kept.against.is_empty() {
        return;
    }
    out.push(Block::Care(
        "Two devices or windows changed this record apart from each other. Nothing was chosen for you: look at what differs \
         and say which holds. The other stays in the cabinet's past."
            .to_string(),
    ));
    let told = |v: &Version| {
        let device =
            if v.stamp.device.is_empty() { String::new() } else { format!(" on {}", v.stamp.device) };
        format!("{}{device}", cabinet::record::Value::shown(&v.stamp.time))
    };
    for other in &kept.against {
        let mut card = vec![Block::Heading(format!("Saved {}", told(other)))];
        if other.stamp.deleted {
            card.push(Block::Says("There the piece was taken out of the cabinet.".to_string()));
        }
        let rows: Vec<Vec<String>> = differences(&kept.shown.record, &other.record)
            .into_iter()
            .map(|(key, here, there)| vec![key, here, there])
            .collect();
        if !rows.is_empty() {
            let heads = ["line", "shown here", "there"].map(String::from).to_vec();
            card.push(Block::Table(heads, rows));
        }
        if state.writes() {
            card.push(Block::Keys(
                String::new(),
                vec![Key::new("That one holds", Msg::Holds(other.stamp.version))],
            ));
        }
        out.push(Block::Card(card));
    }
    if state.writes() {
        let own = kept.shown.stamp.version;
        out.push(Block::Keys(
            String::new(),
            vec![Key::new("What is shown here holds", Msg::Holds(own)).strong()],
        ));
    }
}
