//! The program of the cabinet: one state, one reducer, and the carrying out of effects.

mod carry;
mod files;
mod long;
mod photos;

use crate::app::THEME;
use crate::browser::database::{self, CARDS, Database};
use crate::browser::windows::Windows;
use crate::browser::{address, clock, events, page, store};
use crate::rooms::{Frame, screen};
use ::cabinet::record::{Moment, Uuid};
use files::Pending;
use gloo_events::EventListener;
use keep::{Effect, Given, Msg, State, Store, Take, update, view};
use photos::Shown;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::FileList;
use yew::prelude::*;

/// What can happen.
pub enum Happened {
    /// To the state.
    Do(Msg),
    /// Files were chosen.
    Files(Take, FileList),
    /// The store was opened, or why not.
    Opened(Result<Database, String>),
    /// Photographs have come: digests and addresses.
    Photos(Vec<(String, String)>),
    /// A file that was looked at waits to be taken.
    Pending(Box<Pending>),
    /// Something for a screen reader.
    Said(String),
}

/// The program.
pub struct Cabinet {
    state: State,
    waiting: Vec<Effect>,
    db: Option<Database>,
    windows: Windows,
    photos: Shown,
    pending: Option<Rc<Pending>>,
    /// What was asked for before the store was open.
    later: Vec<Effect>,
    /// Set when something long is to stop.
    stop: Rc<Cell<bool>>,
    said: String,
    _ears: [Option<EventListener>; 2],
}

impl Component for Cabinet {
    type Message = Happened;
    type Properties = ();

    fn create(ctx: &Context<Self>) -> Self {
        let link = ctx.link();
        let (jumped, newer) = (link.callback(Happened::Do), link.callback(|()| Happened::Do(Msg::Update)));
        let ears = [
            events::hear("hashchange", move |_| jumped.emit(Msg::Went(address::fragment()))),
            events::hear("pressmark:update", move |_| newer.emit(())),
        ];
        let opened = link.callback(Happened::Opened);
        let left = link.callback(|()| Happened::Do(Msg::Failed(keep::Failure::Closed)));
        wasm_bindgen_futures::spawn_local(async move {
            let left = Closure::<dyn FnMut()>::new(move || left.emit(())).into_js_value();
            opened.emit(database::open(left.dyn_into().ok()).await.map_err(|f| f.0));
        });
        let others = link.clone();
        let windows = Windows::new(move |ids| others.send_message(Happened::Do(Msg::Heard(ids))));
        let mut this = Cabinet {
            state: State::begun(Moment(clock::now()).date(), &page::pack()),
            waiting: Vec::new(),
            db: None,
            windows,
            photos: Shown::default(),
            pending: None,
            later: Vec::new(),
            stop: Rc::new(Cell::new(false)),
            said: String::new(),
            _ears: ears,
        };
        this.tell(Msg::Went(address::fragment()));
        this
    }

    fn update(&mut self, ctx: &Context<Self>, happened: Happened) -> bool {
        match happened {
            Happened::Do(msg) => {
                if let Msg::Photo(digest) = &msg {
                    self.photos.again(digest);
                }
                self.tell(msg);
            }
            Happened::Files(take, list) => self.files(ctx, take, &list),
            Happened::Opened(Ok(db)) => {
                let store = if db.newer { Store::Newer } else { Store::Open };
                self.db = Some(db.clone());
                self.tell(Msg::Store(store));
                self.waiting.append(&mut self.later);
                let come = ctx.link().callback(Happened::Do);
                wasm_bindgen_futures::spawn_local(async move {
                    come.emit(match db.joined(CARDS, keep::CARD_END).await {
                        Ok(cards) => Msg::Cards(cards),
                        Err(fault) => Msg::Failed(keep::Failure::named(&fault.0)),
                    });
                });
            }
            Happened::Opened(Err(_)) => self.tell(Msg::Store(Store::Refused)),
            Happened::Photos(all) => self.photos.come(all),
            Happened::Pending(pending) => {
                let preview = pending.preview.clone();
                self.pending = Some(Rc::new(*pending));
                self.tell(Msg::Looked(Ok(preview)));
            }
            Happened::Said(text) => self.said = text,
        }
        true
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        let on = ctx.link().callback(Happened::Do);
        let files = ctx.link().callback(|(take, list)| Happened::Files(take, list));
        let frame = Frame { on: &on, files: &files, photo: &|digest| self.photos.address(digest) };
        screen(&view(&self.state), &self.said, &frame)
    }

    fn rendered(&mut self, ctx: &Context<Self>, first: bool) {
        page::title_of_heading();
        for effect in std::mem::take(&mut self.waiting) {
            self.carry_out(ctx, effect);
        }
        self.photos.bring(ctx, self.db.as_ref());
        if first {
            if let Some(theme) = store::read(THEME) {
                page::theme(&theme);
            }
            events::tell("usable", None);
        }
    }
}

impl Cabinet {
    fn tell(&mut self, msg: Msg) {
        let mut given = Given { now: Moment(clock::now()), fresh: &mut || Uuid::of_random(clock::random()) };
        let effects = update(&mut self.state, msg, &mut given);
        self.waiting.extend(effects);
    }
}
