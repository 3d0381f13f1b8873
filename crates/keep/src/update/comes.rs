//! What has come from the store: notes, the states of a piece, word that a save is complete, all records.

use super::keeps::{draft_name, number, settle_handed};
use super::ways::go;
use super::{BETWEEN, DEVICE, EXPORTED, HEIRS};
use crate::effect::{Effect, Gather};
use crate::form::{Form, day};
use crate::handed::{LAST, drafted, handed};
use crate::msg::Given;
use crate::piece::{self, stands};
use crate::saving::states;
use crate::state::{Notice, Saved, Screen, State};
use crate::{list, out, paper};
use cabinet::find::Card;
use cabinet::merge::Shelf;
use cabinet::record::{Moment, Record, Uuid, Value};

/// A draft or note has come.
pub(super) fn noted(state: &mut State, name: &str, text: &str, given: &mut Given) -> Vec<Effect> {
    match name {
        EXPORTED => state.exported = text.parse().ok().map(Moment),
        DEVICE => state.device = text.to_string(),
        LAST => state.last = drafted(text),
        HEIRS => {
            for (place, text) in state.heirs.iter_mut().zip(text.split(BETWEEN)) {
                *place = text.to_string();
            }
        }
        _ if name.starts_with("keep/") => {
            if text.is_empty() {
                return Vec::new();
            }
            match handed(text) {
                Ok(record) => {
                    state.handed = Some((name.to_string(), record));
                    return settle_handed(state, given);
                }
                Err(says) => state.says(says),
            }
        }
        _ => {
            if let Some(form) = state.form.as_mut().filter(|f| draft_name(f.id) == name && !f.touched)
                && form.restore(text)
            {
                state.says("What you had typed here before is back. Save it, or leave it.");
            }
        }
    }
    Vec::new()
}

/// The states of a piece have come.
pub(super) fn opened(state: &mut State, id: Uuid, texts: &[String], given: &mut Given) -> Vec<Effect> {
    let (versions, lost) = states(texts);
    if lost > 0 {
        let how = if lost == 1 {
            "One state of this record was".to_string()
        } else {
            format!("{lost} states of this record were")
        };
        state.says(format!(
            "{how} written by a newer edition and cannot be shown here. It stays in the cabinet."
        ));
    }
    let shelf = Shelf::of(versions);
    let wanted = match state.screen {
        Screen::Piece(own) | Screen::Edit(own) | Screen::Again(own) | Screen::Paper(_, Some(own)) => {
            own == id
        }
        _ => false,
    };
    if !wanted {
        return Vec::new();
    }
    let mut effects = Vec::new();
    if state.screen == Screen::Edit(id) && state.form.is_none() {
        let kept = stands(&shelf);
        let form = match &kept {
            Some(kept) => Form::new(id, vec![kept.shown.clone()], &kept.shown.record),
            None => {
                let record =
                    Record { recorded: Some(day(given.now)), number: number(state), ..Record::default() };
                Form::new(id, Vec::new(), &record)
            }
        };
        state.form = Some(form);
        effects.push(Effect::Note(draft_name(id)));
    }
    state.open = Some((id, shelf));
    if let (Screen::Paper(sort, Some(_)), Some((id, record))) = (state.screen, piece::record(state)) {
        state.sheet = Some(paper::of_one(state, sort, id, &record));
    }
    effects
}

/// A save is complete.
pub(super) fn saved(state: &mut State, cards: &[String]) -> Vec<Effect> {
    put_cards(state, cards);
    state.busy = None;
    let mut effects = vec![Effect::Persist { ask: true }];
    let name = |state: &State, id: Uuid| state.index.card_of(id).map_or_else(String::new, list::called);
    match state.saving.take() {
        Some(Saved::Form(id)) => {
            state.form = None;
            state.says(format!("Saved: {}.", name(state, id)));
            effects.push(Effect::Keep(draft_name(id), String::new()));
            effects.extend(go(state, Screen::Piece(id), false));
            effects.push(Effect::Read(id));
        }
        Some(Saved::Kept(id)) => {
            if let Some((note, _)) = state.handed.take() {
                effects.push(Effect::Keep(note, String::new()));
            }
            state.says(format!("Kept: {}.", name(state, id)));
            effects.extend(go(state, Screen::Piece(id), false));
            effects.push(Effect::Read(id));
        }
        Some(Saved::Gone(id)) => {
            let says = format!("Taken out: {}. Nothing of it is lost.", name(state, id));
            state.notice = Some(Notice { says, back: Some(id) });
            effects.extend(go(state, Screen::List, false));
        }
        Some(Saved::Back(id)) => {
            state.says(format!("Back in the cabinet: {}.", name(state, id)));
            if state.screen == Screen::Piece(id) {
                effects.push(Effect::Read(id));
            }
            state.standing = state.index.card_of(id).map(|c| c.standing);
        }
        Some(Saved::Holds(id)) => {
            state.says("Settled. The other version stays in the past of the record.");
            effects.push(Effect::Read(id));
        }
        Some(Saved::Several(n)) => {
            state.bulk = None;
            state.says(if n == 1 { "1 piece changed.".to_string() } else { format!("{n} pieces changed.") });
        }
        Some(Saved::Taken) => {
            (state.preview, state.table) = (None, None);
            let conflicts = cards.iter().filter_map(|c| Card::read(c)).filter(|c| c.against > 0).count();
            let mut says = format!("Taken in: {} pieces new or changed.", cards.len());
            if conflicts > 0 {
                says.push_str(&format!(
                    " {conflicts} of them now have versions that disagree: look under \u{201c}Order, filters\u{201d}."
                ));
            }
            state.says(says);
            effects.extend(go(state, Screen::List, false));
        }
        None => {}
    }
    effects
}

/// All records have come.
pub(super) fn gathered(state: &mut State, gather: Gather, all: &[(Uuid, Record)]) -> Vec<Effect> {
    state.busy = None;
    match gather {
        Gather::Sheet(sort) => {
            if state.screen == Screen::Paper(sort, None) {
                state.sheet = Some(paper::of_all(state, sort, all));
            }
            Vec::new()
        }
        Gather::Csv(_) | Gather::Linked => {
            let file = out::file(gather, all, &state.today.shown());
            file.map(|(name, sort, text)| Effect::HandOver(name, sort, text)).into_iter().collect()
        }
    }
}

pub(super) fn put_cards(state: &mut State, cards: &[String]) {
    for card in cards.iter().filter_map(|c| Card::read(c)) {
        state.index.put(card, state.today);
    }
}
