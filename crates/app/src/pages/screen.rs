//! A whole screen: header, sheet, bar.

use super::block::{Frame, blocks};
use crate::ui::look::heading;
use crate::ui::node::{Node, el, key, several, text};
use consult::Theme;
use consult::book::{Block, Sheet, Turn};
use sketch::Art;
use yew::prelude::*;

/// What is shown.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shown {
    /// The page.
    pub sheet: Sheet,
    /// Light, dark, sun.
    pub theme: Theme,
    /// A sentence to show once.
    pub notice: Option<String>,
    /// A new version waits.
    pub update: bool,
}

/// A whole screen; before the program has come (`on` is none) only its links work.
pub(crate) fn screen(shown: &Shown, art: &Art, on: Option<&Callback<Turn>>) -> Html {
    let frame = Frame { art, theme: shown.theme, on };
    let sheet = &shown.sheet;
    let mut main = el("main", "");
    if let Some(on) = on {
        if shown.update {
            main = main.put(told("A new version is ready.", "Use it now", on, Turn::AcceptUpdate));
        }
        if let Some(notice) = &shown.notice {
            main = main.put(told(notice, "Good", on, Turn::Notice(None)).set("role", "status"));
        }
    }
    main = main.put(heading(&sheet.title));
    // A drawing and what belongs beside it stand at the left on a wide screen, the evidence at the right.
    let sides = matches!(sheet.lead.first(), Some(Block::Pieces(pieces)) if pieces.len() == 1);
    let side = |class, part: &[Block]| el("div", class).all(blocks(part, &frame));
    main = if sides {
        let (lead, body) = (side("found", &sheet.lead), side("because", &sheet.body));
        main.put(el("div", "sides").named("sides").put(lead).put(body))
    } else {
        // Each by its place: a notice that comes or goes leaves the others as they are, and the focus with them; what
        // comes to the lead leaves the body as it is, and what was typed there.
        let named = |part: &'static str, all: &[Block]| {
            let all = blocks(all, &frame).into_iter().enumerate();
            all.map(move |(at, node)| node.named(&format!("{part}{at}"))).collect::<Vec<_>>()
        };
        main.all(named("", &sheet.lead)).all(named("-", &sheet.body))
    };
    let keys = sheet.keys.iter().map(|(to, says)| link("", to, says));
    several(vec![
        header(sheet).into(),
        main.into(),
        el("nav", "bar").set("aria-label", "On from here").put(el("div", "keys").all(keys)).into(),
    ])
}

/// A link that looks as its class says.
pub(super) fn link(class: &'static str, to: &str, says: &str) -> Node {
    text("a", class, says).set("href", to)
}

fn header(sheet: &Sheet) -> Node {
    el("header", "top").put(text("b", "", "PRESSMARK")).put(link("", &sheet.find, "Find"))
}

fn told(says: &str, label: &str, on: &Callback<Turn>, turn: Turn) -> Node {
    el("div", "told").named(label).put(text("p", "", says)).put(key("key", label, on, turn))
}

/// What the contents are drawn from.
#[derive(Properties, PartialEq)]
pub struct ContentsProps {
    /// The contents.
    pub shown: Shown,
    /// The figures that they need.
    pub art: Art,
}

/// The contents before any program has come: the same page, its links real links.
#[component]
pub fn Contents(props: &ContentsProps) -> Html {
    screen(&props.shown, &props.art, None)
}
