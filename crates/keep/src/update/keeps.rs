//! What is given to the store: drafts, a piece from the question page, a form.

use super::ways::{go, shown};
use crate::effect::Effect;
use crate::form::day;
use crate::msg::Given;
use crate::piece::{after, stands};
use crate::saving::saving;
use crate::state::{Saved, Screen, State};
use crate::{again, list};
use cabinet::find::Card;
use cabinet::record::{Number, Stamp, Uuid, Version};

pub(super) fn draft_name(id: Uuid) -> String {
    format!("edit/{id}")
}

pub(super) fn keep_draft(state: &State) -> Vec<Effect> {
    match &state.form {
        Some(form) if state.writes() => vec![Effect::Keep(draft_name(form.id), form.draft())],
        _ => Vec::new(),
    }
}

/// A record from the question page: kept as a new piece, unless a piece with just these answers is here.
pub(super) fn settle_handed(state: &mut State, given: &mut Given) -> Vec<Effect> {
    if !state.loaded || state.handed.is_none() {
        return Vec::new();
    }
    if !state.writes() {
        if let Some(says) = state.store.says() {
            state.says(says);
        }
        return Vec::new();
    }
    let same = state.handed.as_ref().and_then(|(_, record)| again::same(state, record));
    match same {
        Some(id) => {
            let mut effects = go(state, Screen::Again(id), false);
            effects.extend(shown(state));
            effects
        }
        None => keep_handed(state, given),
    }
}

pub(super) fn keep_handed(state: &mut State, given: &mut Given) -> Vec<Effect> {
    let Some((_, record)) = state.handed.as_ref().filter(|_| state.writes()) else { return Vec::new() };
    let mut record = record.clone();
    record.number = number(state);
    record.recorded = Some(day(given.now));
    let version = after(&[], &record, false, &state.device, given);
    state.saving = Some(Saved::Kept(version.stamp.id));
    vec![Effect::Save(vec![saving(&version)])]
}

pub(super) fn take_finding(state: &mut State, given: &mut Given) -> Vec<Effect> {
    let (Some((_, now)), Some((id, shelf))) = (&state.handed, &state.open) else { return Vec::new() };
    let Some(kept) = stands(shelf).filter(|_| state.writes()) else { return Vec::new() };
    let record = again::taken(&kept.shown.record, now);
    let version = after(&[kept.shown], &record, false, &state.device, given);
    state.saving = Some(Saved::Kept(*id));
    vec![Effect::Save(vec![saving(&version)])]
}

/// The next free number of the year.
pub(super) fn number(state: &State) -> Option<Number> {
    let used: Vec<&Number> = state.index.cards().filter_map(|c| c.number.as_ref()).collect();
    Number::next(&used, state.today.year)
}

/// The form is saved: as a state that names those it was begun from.
pub(super) fn save(state: &mut State, given: &mut Given) -> Vec<Effect> {
    if !state.writes() || state.saving.is_some() {
        return Vec::new();
    }
    let Some(mut form) = state.form.take() else { return Vec::new() };
    let id = form.id;
    let taken = |number: &str| {
        let other = |c: &&Card| c.id != id && c.number.as_ref().is_some_and(|n| n.text() == number);
        state.index.cards().find(other).filter(|_| !number.is_empty()).map(list::title)
    };
    let record = form.record(state.today, &taken);
    let mut effects = Vec::new();
    match record {
        Some(record) => {
            let from: Vec<&Version> = form.from.iter().collect();
            let version = if from.is_empty() {
                let version = (given.fresh)();
                let device = state.device.clone();
                Version::after(
                    &[],
                    Stamp { id, version, time: given.now, device, ..Stamp::default() },
                    &record,
                )
            } else {
                after(&from, &record, false, &state.device, given)
            };
            state.saving = Some(Saved::Form(id));
            effects.push(Effect::Save(vec![saving(&version)]));
        }
        None => effects.push(Effect::Say("Not saved: something cannot be used yet.".to_string())),
    }
    state.form = Some(form);
    effects
}
