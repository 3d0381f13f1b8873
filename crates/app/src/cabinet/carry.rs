//! Carrying out effects.

use super::{Cabinet, Happened, long};
use crate::browser::database::{CARDS, Database, Fault, STATES};
use crate::browser::photo::blob;
use crate::browser::{address, clipboard, events, page, room, save};
use keep::{Effect, Failure, Msg, Room, Saving, card};
use yew::prelude::*;

/// The ids of the pieces of some states, each once.
pub(super) fn pieces(states: &[Saving]) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for piece in states.iter().map(Saving::piece) {
        // States of one piece stand together.
        if out.last().is_none_or(|last| last != piece) {
            out.push(piece.to_string());
        }
    }
    out
}

/// Names and texts of states.
pub(super) fn texts(states: &[Saving]) -> Vec<(String, String)> {
    states.iter().map(|s| (s.key.clone(), s.text.clone())).collect()
}

fn failed(fault: &Fault) -> Msg {
    Msg::Failed(Failure::named(&fault.0))
}

impl Cabinet {
    pub(super) fn carry_out(&mut self, ctx: &Context<Self>, effect: Effect) {
        let come = ctx.link().callback(Happened::Do);
        match effect {
            Effect::Address { fragment, push } => address::set(&fragment, push),
            Effect::Heading => page::to_heading(),
            Effect::Print => page::print(),
            Effect::AcceptUpdate => events::tell("accept-update", None),
            Effect::Say(text) => ctx.link().send_message(Happened::Said(text)),
            Effect::Copy(text) => {
                wasm_bindgen_futures::spawn_local(async move {
                    come.emit(Msg::Copied(clipboard::copy(text).await))
                });
            }
            Effect::HandOver(name, sort, text) => {
                let done = blob(text.as_bytes(), sort).is_some_and(|b| save::blob(&name, &b));
                if !done {
                    come.emit(Msg::NoPhoto("This browser does not let pages hand over files.".to_string()));
                }
            }
            Effect::Persist { ask } => wasm_bindgen_futures::spawn_local(async move {
                let told = room::room(ask).await;
                let (used, most) = told.kilobytes;
                come.emit(Msg::Room(Room { lasting: told.lasting, used, most }));
            }),
            Effect::Stop => self.stop.set(true),
            Effect::LeaveIn => self.pending = None,
            Effect::Export | Effect::TakeIn | Effect::Gather(_) | Effect::ReadMany(..) => {
                self.long(ctx, effect)
            }
            Effect::Read(_) | Effect::Note(_) | Effect::Keep(..) | Effect::Save(_) | Effect::Cards(_) => {
                let Some(db) = self.db.clone() else {
                    // Asked for before the store is open: once more when it is.
                    if !matches!(effect, Effect::Keep(..)) && self.state.is_opening() {
                        self.later.push(effect);
                    }
                    return;
                };
                self.ask(db, effect, come);
            }
        }
    }

    fn ask(&self, db: Database, effect: Effect, come: Callback<Msg>) {
        let windows = self.windows.clone();
        wasm_bindgen_futures::spawn_local(async move {
            match effect {
                Effect::Read(id) => match db.texts(STATES, &format!("{id}/")).await {
                    Ok(texts) => come.emit(Msg::States(id, texts)),
                    Err(fault) => come.emit(failed(&fault)),
                },
                Effect::Note(name) => {
                    if let Ok(text) = db.note(&name).await {
                        come.emit(Msg::Noted(name, text));
                    }
                }
                Effect::Keep(name, text) => {
                    // What is lost with it is a draft.
                    let _kept = db.keep(&name, &text, false).await;
                }
                Effect::Cards(ids) => {
                    let mut cards = Vec::new();
                    for id in &ids {
                        cards.extend(db.texts(CARDS, id).await.unwrap_or_default());
                    }
                    come.emit(Msg::Others(cards));
                }
                Effect::Save(states) => {
                    let pieces = pieces(&states);
                    match db.save(&texts(&states), &pieces, card).await {
                        Ok(cards) => {
                            windows.tell(&pieces);
                            come.emit(Msg::Saved(cards));
                        }
                        Err(fault) => come.emit(failed(&fault)),
                    }
                }
                _ => {}
            }
        });
    }

    pub(super) fn long(&mut self, ctx: &Context<Self>, effect: Effect) {
        let come = ctx.link().callback(Happened::Do);
        let Some(db) = self.db.clone() else {
            if self.state.is_opening() {
                self.later.push(effect);
            }
            return;
        };
        self.stop.set(false);
        let stop = self.stop.clone();
        match effect {
            Effect::Export => wasm_bindgen_futures::spawn_local(long::export(db, stop, come)),
            Effect::Gather(gather) => wasm_bindgen_futures::spawn_local(long::gather(db, gather, come)),
            Effect::ReadMany(why, ids) => wasm_bindgen_futures::spawn_local(async move {
                let mut all = Vec::new();
                for id in &ids {
                    match db.texts(STATES, &format!("{id}/")).await {
                        Ok(texts) => all.push(texts),
                        Err(fault) => return come.emit(failed(&fault)),
                    }
                }
                come.emit(Msg::Many(why, all));
            }),
            Effect::TakeIn => {
                if let Some(pending) = self.pending.take() {
                    let windows = self.windows.clone();
                    wasm_bindgen_futures::spawn_local(long::take_in(db, pending, stop, windows, come));
                }
            }
            _ => {}
        }
    }
}
