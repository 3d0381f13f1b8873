//! The program of practice: one state, one reducer, and the carrying out of effects.

mod carry;
mod class;
mod learn;
mod paper;
mod screen;
mod start;
mod store;
mod task;

pub use store::{Begun, begun};

use crate::app::THEME;
use crate::browser::{address, clock, events, page, store as preferences};
use crate::ui::drawing::learn;
use ::practice::room::{Effect, Msg, Page, State, update, view};
use gloo_events::EventListener;
use screen::{Frame, screen};
use sketch::Art;
use std::rc::Rc;
use web_sys::File;
use yew::prelude::*;

/// What the program starts with.
#[derive(Properties, Clone)]
pub struct PracticeProps {
    /// The pack made ready, and what was kept.
    pub begun: Rc<Begun>,
}

impl PartialEq for PracticeProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.begun, &other.begun)
    }
}

/// What can happen.
#[derive(Clone)]
pub enum Happened {
    /// To the state.
    Do(Msg),
    /// A file of practice was chosen.
    Took(File),
    /// A new version waits.
    Update,
    /// The user agreed to it.
    Accept,
}

/// The program.
pub struct Practice {
    begun: Rc<Begun>,
    state: State,
    waiting: Vec<Effect>,
    art: Art,
    update: bool,
    _ears: [Option<EventListener>; 2],
}

impl Component for Practice {
    type Message = Happened;
    type Properties = PracticeProps;

    fn create(ctx: &Context<Self>) -> Self {
        let begun = ctx.props().begun.clone();
        let (link, newer) = (ctx.link().clone(), ctx.link().callback(|()| Happened::Update));
        let ears = [
            events::hear("hashchange", move |_| {
                link.send_message(Happened::Do(Msg::Go(Page::read(&address::fragment()))));
            }),
            events::hear("pressmark:update", move |_| newer.emit(())),
        ];
        let mut art = Art::default();
        learn(&mut art, begun.guide.book.as_ref().map_or(&[][..], |b| &b.art));
        let mut this =
            Practice { state: State::default(), waiting: Vec::new(), art, update: false, begun, _ears: ears };
        let number = clock::random().iter().take(8).fold(0_u64, |n, b| n << 8 | u64::from(*b));
        let kept = this.begun.kept.clone();
        this.tell(Msg::Begun { today: clock::today(), seed: number, kept });
        for text in this.begun.brought.clone() {
            this.tell(Msg::Import(text));
        }
        this.tell(Msg::Go(Page::read(&address::fragment())));
        // The page stands where it is: nobody has moved yet.
        this.waiting.retain(|e| *e != Effect::Heading);
        this
    }

    fn update(&mut self, ctx: &Context<Self>, happened: Happened) -> bool {
        match happened {
            Happened::Do(msg) => {
                self.tell(msg);
                let fragment = self.state.page.fragment();
                if address::fragment().trim_start_matches('#') != fragment {
                    address::set(&fragment, true);
                }
            }
            Happened::Took(file) => self.took(ctx, file),
            Happened::Update => self.update = true,
            Happened::Accept => events::tell("accept-update", None),
        }
        true
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        let on = ctx.link().callback(Happened::Do);
        let other = ctx.link().callback(|happened| happened);
        let frame = Frame { on: &on, other: &other, art: &self.art };
        screen(&view(&self.begun.trainer, &self.state), &self.state, self.update, &frame)
    }

    fn rendered(&mut self, ctx: &Context<Self>, first: bool) {
        page::title_of_heading();
        for effect in std::mem::take(&mut self.waiting) {
            self.carry_out(ctx, effect);
        }
        if first {
            if let Some(theme) = preferences::read(THEME) {
                page::theme(&theme);
            }
            events::tell("usable", None);
        }
    }
}

impl Practice {
    fn tell(&mut self, msg: Msg) {
        let (state, effects) = update(&self.begun.trainer, std::mem::take(&mut self.state), msg);
        self.state = state;
        self.waiting.extend(effects);
    }
}
