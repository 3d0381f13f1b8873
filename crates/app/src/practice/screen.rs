//! A whole screen: header, notice, body, bar.

use super::{Happened, class, learn, paper, start, task};
use crate::ui::look::heading;
use crate::ui::node::{Node, button, el, key, several, text};
use ::practice::room::{Msg, RoomView, State};
use sketch::{Art, Drawing};
use yew::prelude::*;

/// What a screen is drawn with.
pub(super) struct Frame<'a> {
    /// Where messages go.
    pub(super) on: &'a Callback<Msg>,
    /// Where goes what is no message to the state.
    pub(super) other: &'a Callback<Happened>,
    /// The figures of the drawings.
    pub(super) art: &'a Art,
}

/// Heading, what stands under it, and the keys of the lower bar.
pub(super) struct Body {
    pub(super) title: String,
    pub(super) nodes: Vec<Html>,
    pub(super) bar: Vec<Node>,
}

pub(super) fn screen(view: &RoomView, state: &State, update: bool, frame: &Frame<'_>) -> Html {
    let body = match view {
        RoomView::Start(v) => start::start(v, state, frame),
        RoomView::Task(v) => task::task(v, frame),
        RoomView::Test(v) => task::test(v, frame),
        RoomView::Lesson(v) => learn::lesson(v, frame),
        RoomView::Talk(v) => learn::talk(v, frame),
        RoomView::Mixed(v) => learn::mixed(v, frame),
        RoomView::Teach => class::teach(frame),
        RoomView::Board(v) => class::board(v, frame),
        RoomView::Class(v) => class::table(v, frame),
        RoomView::Sheets(v) => paper::sheets(v, frame),
        RoomView::Nothing(says) => Body {
            title: "Nothing here".to_string(),
            nodes: vec![text("p", "", says).into()],
            bar: vec![link("main", "#", "To the start")],
        },
    };
    let links = el("span", "").put(link("", "book.html", "Guide")).put(link("", "cabinet.html", "Cabinet"));
    let header = el("header", "top").put(text("b", "", "PRESSMARK")).put(links);
    let mut main = el("main", "");
    if update {
        let agree = button("key", frame.other, Happened::Accept).say("Use it now");
        let says = text("p", "", "A new version is ready.");
        main = main.put(el("div", "told").named("update").put(says).put(agree));
    }
    if let Some(notice) = &state.notice {
        let read = key("key", "Good", frame.on, Msg::Read);
        main = main.put(
            el("div", "told").named("notice").set("role", "status").put(text("p", "", notice)).put(read),
        );
    }
    let blocks = el("div", "blocks").named("blocks").put(several(body.nodes));
    let keys = if body.bar.len() == 1 { "keys one" } else { "keys" };
    several(vec![
        header.into(),
        main.put(heading(&body.title).named("heading")).put(blocks).into(),
        el("nav", "bar").set("aria-label", "On from here").put(el("div", keys).all(body.bar)).into(),
    ])
}

/// A link that looks as its class says.
pub(super) fn link(class: &'static str, to: &str, says: &str) -> Node {
    text("a", class, says).set("href", to)
}

/// A drawing that speaks for itself; nothing for words that cannot be drawn.
pub(super) fn drawn(words: &str, says: &str, frame: &Frame<'_>) -> Option<Html> {
    let drawing = Drawing::parse(words).ok()?;
    let svg = crate::ui::drawing::shown(&drawing, frame.art, false)?;
    Some(el("div", "pictured").set("role", "img").set("aria-label", says).put(svg).into())
}

/// The same with words beneath.
pub(super) fn figure(words: &str, says: &str, caption: &str, frame: &Frame<'_>) -> Option<Html> {
    let drawn = drawn(words, says, frame)?;
    Some(el("figure", "").put(drawn).put(text("figcaption", "", caption)).into())
}
