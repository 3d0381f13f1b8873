//! Where the piece is offered, and what is at hand.

use super::look::heading;
use super::node::{el, several, text, toggle};
use consult::{Msg, PlaceView};
use yew::prelude::*;

/// Asked once, on the way.
pub(crate) fn place(view: &PlaceView, on: &Callback<Msg>) -> Html {
    several(vec![
        heading("Where is it offered?").into(),
        text("p", "hint", "Copies are commoner in some places. Skip it if you like; it is asked once.")
            .into(),
        places(view, on),
        text("h2", "", "What is at hand?").into(),
        tools(view, on),
    ])
}

pub(super) fn places(view: &PlaceView, on: &Callback<Msg>) -> Html {
    let place = |(place, name, set): &(usize, String, bool)| {
        let class = if *set { "choice chosen" } else { "choice" };
        el("button", class)
            .set("type", "button")
            .flag("aria-pressed", *set)
            .tap(on, Msg::Place(*place))
            .put(text("span", "", name))
    };
    el("div", "choices words")
        .set("role", "group")
        .set("aria-label", "Where it is offered")
        .all(view.places.iter().map(place))
        .into()
}

pub(super) fn tools(view: &PlaceView, on: &Callback<Msg>) -> Html {
    let tool = |(tool, name, set): &(usize, String, bool)| toggle("key", name, *set, on, Msg::Tool(*tool));
    el("div", "keyrow")
        .set("role", "group")
        .set("aria-label", "Tools at hand")
        .all(view.tools.iter().map(tool))
        .into()
}
