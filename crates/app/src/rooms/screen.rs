//! A whole screen: header, notice, blocks, bar.

use super::Frame;
use super::block::{blocks, key};
use crate::ui::look::heading;
use crate::ui::node::{el, several, text};
use keep::View;
use yew::prelude::*;

pub(crate) fn screen(view: &View, said: &str, frame: &Frame<'_>) -> Html {
    let links = el("span", "")
        .put(text("a", "", "Guide").set("href", "book.html"))
        .put(text("a", "", "Cabinet").set("href", "#"));
    let header = el("header", "top").put(text("b", "", "PRESSMARK")).put(links);
    let mut main = el("main", if view.paper { "paper" } else { "" });
    if let Some((says, keys)) = &view.notice {
        let keys = el("div", "keyrow").all(keys.iter().map(|k| key("key", k, frame)));
        main = main
            .put(el("div", "told").named("notice").set("role", "status").put(text("p", "", says)).put(keys));
    }
    main = main.put(heading(&view.title).named("heading")).put(
        // The blocks have an element of their own, so that a notice that comes or goes moves none of them.
        el("div", "blocks").named("blocks").all(blocks(&view.blocks, frame)),
    );
    let bar = el("div", "keys").all(view.bar.iter().map(|k| key("", k, frame)));
    several(vec![
        header.into(),
        main.into(),
        el("nav", "bar").set("aria-label", "On from here").put(bar).into(),
        text("p", "unseen", said).set("role", "status").set("aria-atomic", "true").into(),
    ])
}
