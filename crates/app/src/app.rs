//! The programs of the question page: one state, one reducer, and the carrying out of effects. There are two of them, the
//! same but for what they can show. The opening asks the first questions and is small; the whole takes over from it
//! when it has come and the screen changes anyway.

use crate::browser::{address, clipboard, clock, events, pack, page, store};
use crate::own::{self, Own};
use crate::ui::{Around, Draw, every, learn, of_opening, screen};
use consult::marks::Mark;
use consult::{
    Body, Effect, Figure, Guide, Kept, Msg, State, Table, View, arrive, leave, opening, update, view,
};
use gloo_events::EventListener;
use std::rc::Rc;
use yew::prelude::*;

pub(crate) const THEME: &str = "pressmark.theme";
/// The field of the lettering.
const LETTERING: &str = "lettering";

/// What a program can show. What it does not name is not linked into it.
#[derive(Clone, Copy)]
pub struct Rooms {
    view: fn(&Guide, &State) -> View,
    draw: Draw,
    leave: Option<fn(&Guide, &State) -> String>,
    learn: fn(&Guide, Table, &[u8]) -> Result<(), String>,
    /// What is done with the cabinet of this device.
    own: Option<fn(Own, Callback<Happened>)>,
}

impl Rooms {
    /// The first questions.
    pub const OPENING: Rooms = Rooms {
        view: |guide, state| opening(guide, state, false),
        draw: of_opening,
        leave: Some(leave),
        learn: |_, _, _| Ok(()),
        own: None,
    };
    /// Everything.
    pub const EVERY: Rooms =
        Rooms { view, draw: every, leave: None, learn: Guide::learn, own: Some(own::carry_out) };
}

/// What the program starts with.
#[derive(Properties, Clone)]
pub struct AppProps {
    /// The pack made ready.
    pub guide: Rc<Guide>,
    /// What it can show.
    pub rooms: Rooms,
    /// What the opening left, if it ran before.
    pub left: Option<Rc<str>>,
}

impl PartialEq for AppProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.guide, &other.guide)
    }
}

/// What can happen.
pub enum Happened {
    /// In the consultation.
    Do(Msg),
    /// The whole program has come, or a sentence why not.
    Whole(Result<(), String>),
    /// Tables have come, or a sentence why not.
    Tables(Table, Result<Vec<u8>, String>),
    /// Everything is kept on this device, or a sentence why not.
    Kept(Result<(), String>),
    /// A new version waits.
    Update,
    /// Preferences can no longer be kept, or can again.
    Unkept(bool),
    /// Something for a screen reader.
    Said(String),
    /// Own pieces that are like the one in the hand.
    Like(Option<keep::Own>),
}

/// The program.
pub struct App {
    guide: Rc<Guide>,
    rooms: Rooms,
    state: State,
    waiting: Vec<Effect>,
    around: Around,
    /// The whole program waits to take over.
    whole: bool,
    leaving: bool,
    /// Another screen has just been asked for.
    moved: bool,
    /// Where the caret belongs once the lettering is drawn anew.
    caret: Option<u32>,
    _ears: Vec<Option<EventListener>>,
}

impl Component for App {
    type Message = Happened;
    type Properties = AppProps;

    fn create(ctx: &Context<Self>) -> Self {
        let AppProps { guide, rooms, left } = ctx.props().clone();
        let link = ctx.link();
        let arrived = left.and_then(|text| arrive(&guide, &text).ok());
        let (state, waiting) = arrived.map_or_else(|| started(&guide), |state| went_on(&guide, state));
        let went = || link.callback(|()| Happened::Do(Msg::Went(address::fragment())));
        let (back, jumped) = (went(), went());
        let (ready, failed) = (link.callback(Happened::Kept), link.callback(Happened::Kept));
        let newer = link.callback(|()| Happened::Update);
        let (came, lost) = (link.callback(Happened::Whole), link.callback(Happened::Whole));
        let ears = vec![
            events::hear("popstate", move |_| back.emit(())),
            events::hear("hashchange", move |_| jumped.emit(())),
            events::hear("pressmark:offline-ready", move |_| ready.emit(Ok(()))),
            events::hear("pressmark:offline-failed", move |why| failed.emit(Err(why.unwrap_or_default()))),
            events::hear("pressmark:update", move |_| newer.emit(())),
            events::hear("pressmark:whole-ready", move |_| came.emit(Ok(()))),
            events::hear("pressmark:whole-failed", move |why| lost.emit(Err(why.unwrap_or_default()))),
        ];
        let mut around = Around::default();
        learn(&mut around.art, art(&guide));
        App {
            guide,
            rooms,
            state,
            waiting,
            around,
            whole: false,
            leaving: false,
            moved: false,
            caret: None,
            _ears: ears,
        }
    }

    fn update(&mut self, ctx: &Context<Self>, happened: Happened) -> bool {
        match happened {
            Happened::Do(msg) => {
                let (state, effects) = update(&self.guide, std::mem::take(&mut self.state), msg);
                self.state = state;
                // The screen changes anyway: nothing moves under a finger.
                self.moved |= effects.contains(&Effect::Heading);
                self.leaving |= self.whole && self.moved;
                self.waiting.extend(effects);
            }
            // Without the rest the opening can still be answered.
            Happened::Whole(Err(sentence)) => self.state.notice = Some(sentence),
            Happened::Whole(Ok(())) => {
                self.whole = true;
                self.leaving |= (self.rooms.view)(&self.guide, &self.state).body == Body::Later;
            }
            Happened::Tables(table, came) => {
                match came.and_then(|bytes| (self.rooms.learn)(&self.guide, table, &bytes)) {
                    Ok(()) => ctx.link().send_message(Happened::Do(Msg::Tables)),
                    Err(sentence) => self.state.notice = Some(sentence),
                }
            }
            Happened::Kept(kept) => self.around.kept = Some(kept),
            Happened::Update => self.around.update = true,
            Happened::Unkept(unkept) => self.around.unkept = unkept,
            Happened::Said(text) => self.around.said = text,
            Happened::Like(own) => self.around.own = own,
        }
        true
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        let on = ctx.link().callback(Happened::Do);
        let view = (self.rooms.view)(&self.guide, &self.state);
        screen(&view, self.rooms.draw, &self.around, &self.guide, &on)
    }

    fn rendered(&mut self, ctx: &Context<Self>, first: bool) {
        if let Some(caret) = self.caret.take() {
            page::put_caret(LETTERING, caret);
        }
        for effect in std::mem::take(&mut self.waiting) {
            self.carry_out(ctx, effect);
        }
        // Asked for once a step: while there is no connection it must not be tried over and over.
        let wanted = std::mem::take(&mut self.moved) && self.rooms.leave.is_some() && !self.whole;
        if wanted && (self.rooms.view)(&self.guide, &self.state).body == Body::Later {
            events::tell("whole-wanted", None);
        }
        if first {
            self.own(ctx, Own::Went);
            page::theme(self.state.theme.word());
            events::tell("usable", None);
        }
        if let Some(leave) = self.rooms.leave.filter(|_| std::mem::take(&mut self.leaving)) {
            events::tell("handover", Some(&leave(&self.guide, &self.state)));
        }
    }
}

/// The state that the opening left, with what it asks for here.
fn went_on(guide: &Guide, state: State) -> (State, Vec<Effect>) {
    // The preferences came with it.
    let state = with_kept(guide, state, &[Kept::Terms, Kept::Sheet]);
    let (state, mut effects) = update(guide, state, Msg::Tables);
    effects.push(Effect::Heading);
    (state, effects)
}

/// A fresh state, or that of the address, with the preferences of this device.
fn started(guide: &Guide) -> (State, Vec<Effect>) {
    let state = with_kept(guide, State::default(), &Kept::ALL);
    update(guide, state, Msg::Went(address::fragment()))
}

/// A state with what is kept on this device under these names.
fn with_kept(guide: &Guide, state: State, names: &[Kept]) -> State {
    names.iter().fold(state, |state, name| match store::read(name.word()) {
        Some(text) => update(guide, state, Msg::Kept(*name, text)).0,
        None => state,
    })
}

/// The figures that a guide brings.
fn art(guide: &Guide) -> &[Figure] {
    guide.book.as_ref().map_or(&guide.core.art, |book| &book.art)
}

/// Loads the core of the pack and makes it ready.
///
/// # Errors
/// A sentence for the user.
pub async fn core() -> Result<Rc<Guide>, String> {
    Guide::of_core(&pack::load("core").await?, clock::this_year()).map(Rc::new)
}

/// Loads both halves of the pack and makes them ready.
///
/// # Errors
/// A sentence for the user.
pub async fn whole() -> Result<Rc<Guide>, String> {
    let core = pack::load("core").await?;
    Guide::from_bytes(&core, &pack::load("book").await?, clock::this_year()).map(Rc::new)
}

impl App {
    fn own(&self, ctx: &Context<Self>, what: fn(Rc<Guide>, Box<State>) -> Own) {
        if let Some(own) = self.rooms.own {
            own(
                what(self.guide.clone(), Box::new(self.state.clone())),
                ctx.link().callback(|happened| happened),
            );
        }
    }

    fn carry_out(&mut self, ctx: &Context<Self>, effect: Effect) {
        match effect {
            Effect::Address { fragment, push } => {
                address::set(&fragment, push);
                self.own(ctx, Own::Went);
            }
            Effect::Record => self.own(ctx, Own::Keep),
            Effect::Heading => page::to_heading(),
            Effect::Copy(text) => copy(ctx, text),
            Effect::CopyLink(fragment) => copy(ctx, address::with(&fragment)),
            Effect::Keep { name, text } => {
                let theme = self.state.theme.word();
                page::theme(theme);
                let unkept = !(store::keep(name.word(), &text) && store::keep(THEME, theme));
                if unkept != self.around.unkept {
                    ctx.link().send_message(Happened::Unkept(unkept));
                }
            }
            Effect::Insert(text) => {
                if let Some((all, caret)) = page::insert(LETTERING, &text) {
                    self.caret = Some(caret);
                    ctx.link().send_message(Happened::Do(Msg::Mark(Mark::Type(all))));
                }
            }
            // The opening leaves before anything is read.
            Effect::Tables(table) if self.rooms.leave.is_none() => {
                let came = ctx.link().callback(move |came| Happened::Tables(table, came));
                wasm_bindgen_futures::spawn_local(async move { came.emit(pack::load(table.word()).await) });
            }
            Effect::Tables(_) => {}
            Effect::AcceptUpdate => events::tell("accept-update", None),
            Effect::Say(text) => ctx.link().send_message(Happened::Said(text)),
        }
    }
}

fn copy(ctx: &Context<App>, text: String) {
    let done = ctx.link().callback(|ok| {
        let said =
            if ok { "Copied." } else { "This browser does not let pages copy. Select the text by hand." };
        Happened::Do(Msg::Notice(Some(said.to_string())))
    });
    wasm_bindgen_futures::spawn_local(async move { done.emit(clipboard::copy(text).await) });
}
