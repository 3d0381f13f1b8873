//! The program of the question page: one state, one reducer, and the carrying out of effects.

use crate::browser::{address, clipboard, clock, events, pack, page, store};
use crate::ui::{Around, learn, screen};
use consult::{Effect, Figure, Guide, Msg, State, update, view};
use gloo_events::EventListener;
use std::rc::Rc;
use yew::prelude::*;

pub(crate) const PREFERENCES: &str = "pressmark.preferences";
pub(crate) const THEME: &str = "pressmark.theme";

/// What the program starts with.
#[derive(Properties, Clone)]
pub struct AppProps {
    /// The pack made ready.
    pub guide: Rc<Guide>,
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
    /// The whole pack has come, or a sentence why not.
    Whole(Result<Rc<Guide>, String>),
    /// Everything is kept on this device, or a sentence why not.
    Kept(Result<(), String>),
    /// A new version waits.
    Update,
    /// Preferences can no longer be kept, or can again.
    Unkept(bool),
    /// Something for a screen reader.
    Said(String),
}

/// The program.
pub struct App {
    guide: Rc<Guide>,
    state: State,
    waiting: Vec<Effect>,
    around: Around,
    _ears: Vec<Option<EventListener>>,
}

impl Component for App {
    type Message = Happened;
    type Properties = AppProps;

    fn create(ctx: &Context<Self>) -> Self {
        let guide = ctx.props().guide.clone();
        let link = ctx.link();
        let mut state = State::default();
        if let Some(kept) = store::read(PREFERENCES) {
            state = update(&guide, state, Msg::Preferences(kept)).0;
        }
        let (state, waiting) = update(&guide, state, Msg::Went(address::fragment()));
        let went = || link.callback(|()| Happened::Do(Msg::Went(address::fragment())));
        let (back, jumped) = (went(), went());
        let (ready, failed) = (link.callback(Happened::Kept), link.callback(Happened::Kept));
        let newer = link.callback(|()| Happened::Update);
        let ears = vec![
            events::hear("popstate", move |_| back.emit(())),
            events::hear("hashchange", move |_| jumped.emit(())),
            events::hear("pressmark:offline-ready", move |_| ready.emit(Ok(()))),
            events::hear("pressmark:offline-failed", move |why| failed.emit(Err(why.unwrap_or_default()))),
            events::hear("pressmark:update", move |_| newer.emit(())),
        ];
        let mut around = Around::default();
        learn(&mut around.art, art(&guide));
        App { guide, state, waiting, around, _ears: ears }
    }

    fn update(&mut self, _: &Context<Self>, happened: Happened) -> bool {
        match happened {
            Happened::Do(msg) => {
                let (state, effects) = update(&self.guide, std::mem::take(&mut self.state), msg);
                self.state = state;
                self.waiting.extend(effects);
            }
            // Without the book the opening can still be answered.
            Happened::Whole(Err(sentence)) => self.state.notice = Some(sentence),
            Happened::Whole(Ok(guide)) => self.take(guide),
            Happened::Kept(kept) => self.around.kept = Some(kept),
            Happened::Update => self.around.update = true,
            Happened::Unkept(unkept) => self.around.unkept = unkept,
            Happened::Said(text) => self.around.said = text,
        }
        true
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        let on = ctx.link().callback(Happened::Do);
        screen(&view(&self.guide, &self.state, false), &self.around, &self.guide, &on)
    }

    fn rendered(&mut self, ctx: &Context<Self>, first: bool) {
        for effect in std::mem::take(&mut self.waiting) {
            self.carry_out(ctx, effect);
        }
        if first {
            page::theme(self.state.theme.word());
            events::tell("usable", None);
            if !self.guide.is_whole() {
                let came = ctx.link().callback(Happened::Whole);
                wasm_bindgen_futures::spawn_local(async move { came.emit(guide(true).await) });
            }
        }
    }
}

/// The figures that a guide brings.
fn art(guide: &Guide) -> &[Figure] {
    guide.book.as_ref().map_or(&guide.core.art, |book| &book.art)
}

/// Loads the pack and makes it ready: the core alone, or the whole.
///
/// # Errors
/// A sentence for the user.
pub async fn guide(whole: bool) -> Result<Rc<Guide>, String> {
    let core = pack::load("core").await?;
    let book = if whole { Some(pack::load("book").await?) } else { None };
    Guide::from_bytes(&core, book.as_deref(), clock::this_year()).map(Rc::new)
}

impl App {
    fn take(&mut self, guide: Rc<Guide>) {
        learn(&mut self.around.art, art(&guide));
        self.guide = guide;
    }

    fn carry_out(&mut self, ctx: &Context<Self>, effect: Effect) {
        match effect {
            Effect::Address { fragment, push } => address::set(&fragment, push),
            Effect::Heading => page::to_heading(),
            Effect::Copy(text) => copy(ctx, text),
            Effect::CopyLink(fragment) => copy(ctx, address::with(&fragment)),
            Effect::Keep(text) => {
                let theme = self.state.theme.word();
                page::theme(theme);
                let unkept = !(store::keep(PREFERENCES, &text) && store::keep(THEME, theme));
                if unkept != self.around.unkept {
                    ctx.link().send_message(Happened::Unkept(unkept));
                }
            }
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
