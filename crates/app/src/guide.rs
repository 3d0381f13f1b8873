//! The program of the guide: one reading, one way in which it changes, and the carrying out of errands.

use crate::app::THEME;
use crate::browser::{address, events, guests, pack, page, save, store};
use crate::pages::{Shown, picture, screen};
use crate::ui::drawing::learn;
use consult::Kept;
use consult::book::{Errand, Pages, Reading, Turn, preferences_with, sheet, theme_in, turn};
use gloo_events::EventListener;
use sketch::Art;
use std::rc::Rc;
use yew::prelude::*;

/// What the program starts with.
#[derive(Properties, Clone)]
pub struct BookProps {
    /// The pack laid open.
    pub pages: Rc<Pages>,
}

impl PartialEq for BookProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.pages, &other.pages)
    }
}

/// What can happen.
pub enum Happened {
    /// To the reading.
    Do(Turn),
    /// A new version waits.
    Update,
}

/// The program.
pub struct Book {
    pages: Rc<Pages>,
    reading: Reading,
    waiting: Vec<Errand>,
    art: Art,
    update: bool,
    _ears: [Option<EventListener>; 2],
}

/// Loads the pack.
///
/// # Errors
/// A sentence for the user.
pub async fn pages() -> Result<Pages, String> {
    Pages::from_bytes(&pack::load("core").await?, &pack::load("book").await?, outside())
}

/// The keys that the drawing of a whole piece shows.
#[must_use]
pub fn outside() -> Vec<&'static str> {
    sketch::KEYS.iter().filter(|k| k.views.split(' ').any(|v| v == "three")).map(|k| k.name).collect()
}

impl Component for Book {
    type Message = Happened;
    type Properties = BookProps;

    fn create(ctx: &Context<Self>) -> Self {
        let pages = ctx.props().pages.clone();
        address::scroll_by_hand();
        let kept = store::read(Kept::Preferences.word()).unwrap_or_default();
        let (reading, waiting) = turn(&pages, Reading::begun(theme_in(&kept)), went());
        let (jumped, newer) = (ctx.link().callback(Happened::Do), ctx.link().callback(|()| Happened::Update));
        let ears = [
            // Links, Back and Forward alike: nothing here changes the address without its fragment.
            events::hear("hashchange", move |_| jumped.emit(went())),
            events::hear("pressmark:update", move |_| newer.emit(())),
        ];
        let mut art = Art::default();
        learn(&mut art, pages.art());
        Book { pages, reading, waiting, art, update: false, _ears: ears }
    }

    fn update(&mut self, _: &Context<Self>, happened: Happened) -> bool {
        match happened {
            Happened::Do(what) => {
                let (reading, errands) = turn(&self.pages, std::mem::take(&mut self.reading), what);
                self.reading = reading;
                self.waiting.extend(errands);
            }
            Happened::Update => self.update = true,
        }
        true
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        let on = ctx.link().callback(Happened::Do);
        let shown = Shown {
            sheet: sheet(&self.pages, &self.reading),
            theme: self.reading.theme,
            notice: self.reading.notice.clone(),
            update: self.update,
        };
        screen(&shown, &self.art, Some(&on))
    }

    fn rendered(&mut self, ctx: &Context<Self>, first: bool) {
        page::title_of_heading();
        for errand in std::mem::take(&mut self.waiting) {
            self.run(ctx, errand);
        }
        if first {
            page::theme(self.reading.theme.word());
            events::tell("usable", None);
        }
    }
}

impl Book {
    fn run(&self, ctx: &Context<Self>, errand: Errand) {
        match errand {
            Errand::Heading => page::to_heading(),
            Errand::Said => page::to_said(),
            Errand::Return { down, link } => page::back_to(down, &link),
            Errand::Address { fragment, push } => {
                address::set(&fragment, push);
                let _fresh = address::seen();
            }
            Errand::Keep(theme) => {
                page::theme(theme.word());
                let kept = store::read(Kept::Preferences.word()).unwrap_or_default();
                // Where nothing can be kept, the theme lasts as long as the page.
                let _kept = store::keep(Kept::Preferences.word(), &preferences_with(&kept, theme))
                    && store::keep(THEME, theme.word());
            }
            Errand::Save { piece, png } => {
                let done = ctx.link().callback(|ok: bool| {
                    let refused = "This browser does not let pages hand over files.";
                    Happened::Do(Turn::Notice((!ok).then(|| refused.to_string())))
                });
                let Some(picture) = picture(&piece, &self.art, self.pages.head()) else { return };
                if png {
                    wasm_bindgen_futures::spawn_local(async move {
                        done.emit(save::png(piece.file, picture.text, picture.size).await);
                    });
                } else {
                    done.emit(save::svg(&piece.file, &picture.text));
                }
            }
            Errand::Have { what, value } => {
                let heard = ctx.link().callback(|heard| Happened::Do(Turn::Heard(heard)));
                guests::run(what, &value, heard);
            }
            Errand::AcceptUpdate => events::tell("accept-update", None),
        }
    }
}

fn went() -> Turn {
    Turn::Went { fragment: address::fragment(), down: page::down(), again: address::seen() }
}
