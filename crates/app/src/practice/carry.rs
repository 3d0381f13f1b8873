//! Carrying out effects.

use super::{Happened, Practice, store};
use crate::browser::database::{CARDS, bytes};
use crate::browser::pause::breathe;
use crate::browser::photo::blob;
use crate::browser::{page, room, save};
use ::cabinet::find::Card;
use ::cabinet::record::Standing;
use ::practice::room::{ClassMsg, Effect, Msg};
use web_sys::File;
use yew::prelude::*;

/// The largest file of practice that is read, in bytes.
const MOST: f64 = 2_000_000.0;

impl Practice {
    pub(super) fn carry_out(&mut self, ctx: &Context<Self>, effect: Effect) {
        let come = ctx.link().callback(Happened::Do);
        match effect {
            Effect::Heading => page::to_heading(),
            Effect::Answered => page::to_said(),
            Effect::Print => page::print(),
            Effect::Save(name, text) => {
                if !blob(text.as_bytes(), "text/plain").is_some_and(|b| save::blob(&name, &b)) {
                    come.emit(Msg::Told("This browser does not let pages hand over files.".to_string()));
                }
            }
            Effect::Then => wasm_bindgen_futures::spawn_local(async move {
                breathe().await;
                come.emit(Msg::More);
            }),
            Effect::Keep(text) => self.keep(come, text),
            Effect::Cabinet => self.cabinet(come),
        }
    }

    fn keep(&self, come: Callback<Msg>, text: String) {
        let refused =
            "This browser keeps nothing for this page: what you practise lasts until the page is closed.";
        // Said with the first answer, not with each.
        let first = self.state.progress.asked <= 1;
        let pack = self.begun.guide.core.head.id.clone();
        let (db, came) = (self.begun.db.clone(), !self.begun.brought.is_empty());
        wasm_bindgen_futures::spawn_local(async move {
            let kept = match &db {
                Some(db) => store::keep(db, &pack, &text).await.is_ok(),
                None => false,
            };
            if let Some(db) = db.filter(|_| kept && came) {
                // What stays behind is taken in once more, which changes nothing.
                let _gone = store::done_with_brought(&db, &pack).await;
            }
            if !kept && first {
                come.emit(Msg::Told(refused.to_string()));
            }
            if kept && first {
                let _told = room::room(true).await;
            }
        });
    }

    /// Pieces that are owned, in the order of their numbers.
    fn cabinet(&self, come: Callback<Msg>) {
        let Some(db) = self.begun.db.clone() else {
            return come.emit(Msg::Told("The cabinet of this device cannot be read here.".to_string()));
        };
        wasm_bindgen_futures::spawn_local(async move {
            let texts = db.texts(CARDS, "").await.unwrap_or_default();
            let owned = |c: &Card| c.standing == Standing::Owned && !c.gone && !c.answers.is_empty();
            let cards: Vec<Card> = texts.iter().filter_map(|t| Card::read(t)).filter(owned).collect();
            let by = units::order(cards.len(), &|a, b| number(&cards[a]).cmp(&number(&cards[b])));
            let told = by.into_iter().map(|at| {
                let card = &cards[at];
                let number =
                    card.number.as_ref().map_or_else(|| card.title.clone(), |n| n.text().to_string());
                (number, card.answers.clone(), card.kind.clone())
            });
            come.emit(Msg::Class(ClassMsg::Cabinet(told.collect())));
        });
    }

    pub(super) fn took(&self, ctx: &Context<Self>, file: File) {
        let come = ctx.link().callback(Happened::Do);
        wasm_bindgen_futures::spawn_local(async move {
            let part = file.slice_with_f64_and_f64(0.0, MOST);
            let read = match part {
                Ok(part) => bytes(&part).await.unwrap_or_default(),
                Err(_) => Vec::new(),
            };
            come.emit(Msg::Import(String::from_utf8_lossy(&read).into_owned()));
        });
    }
}

/// What a card is ordered by: its number part by part, those without one last.
fn number(card: &Card) -> Vec<u32> {
    let text = card.number.as_ref().map_or("", |n| n.text());
    text.split('.')
        .map(|p| p.trim_matches(|c: char| !c.is_ascii_digit()).parse().unwrap_or(u32::MAX))
        .collect()
}
