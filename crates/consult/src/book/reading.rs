//! Everything a reader did, and the only way it changes. Nothing is done here: errands are values that the page runs.

use super::desk::{self, Desk, Heard};
use super::page::{self, Page};
use super::sheet::{Piece, Sheet};
use super::{Pages, care, compare, home, kind, kinds, look, parts, rests, search, terms};
use crate::state::Theme;

/// How many places are remembered to go back to.
const MOST_PLACES: usize = 60;

/// Everything a reader did.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Reading {
    /// The page that is open.
    pub page: Page,
    /// What was typed into it.
    pub typed: String,
    /// Whether money is shown.
    pub money: bool,
    /// Light, dark, sun.
    pub theme: Theme,
    /// A sentence to show once.
    pub notice: Option<String>,
    /// What was heard from behind the pages that are about no pack.
    desk: Desk,
    /// Pages that were left, and how far down.
    left: Vec<(Page, i32)>,
}

impl Reading {
    /// The contents, open.
    #[must_use]
    pub fn begun(theme: Theme) -> Reading {
        Reading { theme, ..Reading::default() }
    }
}

/// What a reader did, or what came from outside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Turn {
    /// The fragment of the address changed.
    Went {
        /// The fragment.
        fragment: String,
        /// How far down the page that was left stood.
        down: i32,
        /// Whether the entry of the history is an old one: Back or Forward.
        again: bool,
    },
    /// Typed into the place for what is looked for.
    Type(String),
    /// Money shown or hidden.
    Money,
    /// Light, dark, sun.
    Theme(Theme),
    /// Save the drawing of the page, as PNG or as SVG.
    Save {
        /// As PNG.
        png: bool,
    },
    /// Has something done by the program behind the page.
    Have {
        /// What.
        what: &'static str,
        /// With what.
        value: String,
    },
    /// That program was heard.
    Heard(Heard),
    /// Agrees to a new version of the page.
    AcceptUpdate,
    /// Something to tell the reader once.
    Notice(Option<String>),
}

/// What the page must do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Errand {
    /// Move the focus to the heading, scroll to the top.
    Heading,
    /// Move the focus to what was said last.
    Said,
    /// Scroll to where the page was left, with the focus on the link that was followed then.
    Return {
        /// How far down.
        down: i32,
        /// The address of that link.
        link: String,
    },
    /// Put this fragment into the address, as a new entry of the history or over the present one.
    Address {
        /// The fragment, without `#`.
        fragment: String,
        /// A new entry.
        push: bool,
    },
    /// Keep the theme on this device and show it.
    Keep(Theme),
    /// Save a drawing.
    Save {
        /// What is drawn.
        piece: Piece,
        /// As PNG.
        png: bool,
    },
    /// Have something done by the program behind the page.
    Have {
        /// What.
        what: &'static str,
        /// With what.
        value: String,
    },
    /// Let the waiting version of the page take over.
    AcceptUpdate,
}

/// The only way a reading changes.
#[must_use]
pub fn turn(pages: &Pages, mut reading: Reading, turn: Turn) -> (Reading, Vec<Errand>) {
    let mut errands = Vec::new();
    match turn {
        Turn::Went { fragment, down, again } => {
            went(pages, &mut reading, &fragment, (down, again), &mut errands)
        }
        Turn::Type(text) => {
            let text = page::typed(&text);
            let push = reading.page == Page::Home;
            let to = match reading.page {
                Page::Home | Page::Search(_) => Some(Page::Search(text.clone())),
                Page::Terms(_) => Some(Page::Terms(text.clone())),
                _ => None,
            };
            reading.typed = text;
            if let Some(to) = to {
                errands.push(Errand::Address { fragment: pages.fragment(&to), push });
                reading.page = to;
            }
        }
        Turn::Money => reading.money = !reading.money,
        Turn::Theme(theme) => {
            reading.theme = theme;
            errands.push(Errand::Keep(theme));
        }
        Turn::Save { png } => {
            if let Page::Kind(kind) = reading.page {
                errands.push(Errand::Save { piece: pages.piece(kind), png });
            }
        }
        Turn::Have { what, value } => {
            reading.notice = None;
            errands.push(Errand::Have { what, value });
        }
        Turn::Heard(heard) => {
            if matches!(heard, Heard::Told(_)) {
                errands.push(Errand::Said);
            }
            if let Some(sentence) = reading.desk.hear(heard) {
                reading.notice = Some(sentence);
            }
        }
        Turn::AcceptUpdate => errands.push(Errand::AcceptUpdate),
        Turn::Notice(notice) => reading.notice = notice,
    }
    (reading, errands)
}

fn went(
    pages: &Pages,
    reading: &mut Reading,
    fragment: &str,
    (down, again): (i32, bool),
    errands: &mut Vec<Errand>,
) {
    let (page, notice) = match pages.page(fragment) {
        Ok(page) => (page, None),
        Err(sentence) => (Page::Home, Some(sentence)),
    };
    // What was typed need not stand in the address letter by letter.
    if notice.is_none() && pages.fragment(&page) == pages.fragment(&reading.page) {
        return;
    }
    let link = pages.to(&reading.page);
    let before = std::mem::replace(&mut reading.page, page);
    reading.left.retain(|(p, _)| *p != before);
    if reading.left.len() == MOST_PLACES {
        reading.left.remove(0);
    }
    reading.left.push((before, down));
    reading.typed = match &reading.page {
        Page::Search(text) | Page::Terms(text) => text.clone(),
        _ => String::new(),
    };
    // A seller may be watching the next page too.
    reading.money = false;
    let bad = notice.is_some();
    reading.notice = notice;
    let stood = reading.left.iter().find(|(p, _)| *p == reading.page).filter(|_| again);
    errands.push(match stood {
        Some((_, down)) => Errand::Return { down: *down, link },
        None => Errand::Heading,
    });
    if reading.page == Page::Packs {
        errands.push(Errand::Have { what: "list", value: String::new() });
    }
    if bad {
        errands.push(Errand::Address { fragment: pages.fragment(&Page::Home), push: false });
    }
}

/// What is shown.
#[must_use]
pub fn sheet(pages: &Pages, reading: &Reading) -> Sheet {
    match &reading.page {
        Page::Home => home::sheet(pages),
        Page::Kinds(by) => kinds::sheet(pages, *by),
        Page::Kind(k) => kind::sheet(pages, *k, reading.money),
        Page::Compare(one, None) => compare::choose(pages, *one, &reading.typed),
        Page::Compare(one, Some(other)) => compare::sheet(pages, *one, *other),
        Page::Looks => look::list(pages),
        Page::Look(q) => look::sheet(pages, *q),
        Page::Terms(_) => terms::list(pages, &reading.typed),
        Page::Term(t) => terms::sheet(pages, *t),
        Page::Parts => parts::sheet(pages),
        Page::Care => care::sheet(pages),
        Page::Sources => rests::sources(pages),
        Page::Search(_) => search::sheet(pages, &reading.typed),
        Page::Desk => desk::desk(pages, &reading.desk),
        Page::Packs => desk::packs(pages, &reading.desk),
    }
}

/// The theme among the preferences that the question page keeps.
#[must_use]
pub fn theme_in(preferences: &str) -> Theme {
    let word = preferences.split(';').find_map(|pair| pair.strip_prefix("theme="));
    word.and_then(Theme::from_word).unwrap_or_default()
}

/// Those preferences with another theme; what else stands in them stays.
#[must_use]
pub fn preferences_with(preferences: &str, theme: Theme) -> String {
    let others = preferences.split(';').filter(|pair| !pair.is_empty() && !pair.starts_with("theme="));
    let mut all: Vec<String> = others.map(str::to_string).collect();
    all.push(format!("theme={}", theme.word()));
    all.join(";")
}
