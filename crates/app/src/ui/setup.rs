//! Set-up: the place, the tools, the aim, how it is shown, what is kept.

use super::look::heading;
use super::node::{Node, el, key, several, text, toggle};
use super::place;
use super::screen::Around;
use consult::{Aim, Manner, Msg, SetupView, Theme};
use yew::prelude::*;

pub(crate) fn setup(view: &SetupView, around: &Around, on: &Callback<Msg>) -> Html {
    let aims = Aim::ALL.into_iter().zip(&view.aims);
    let themes =
        [("As the phone", Theme::Phone), ("Light", Theme::Light), ("Dark", Theme::Dark), ("Sun", Theme::Sun)];
    let picture = toggle("key", "Only a picture", view.place.picture, on, Msg::Picture(!view.place.picture));
    let guided =
        toggle("key", "The first looks always the same", view.guided, on, Msg::Manner(Manner::Guided));
    let free = toggle("key", "What tells most, from the start", !view.guided, on, Msg::Manner(Manner::Free));
    several(vec![
        heading("Set up").into(),
        text("h2", "", "Where is it offered?").into(),
        place::places(&view.place, on),
        el("div", "keyrow").put(picture).into(),
        text("h2", "", "What is at hand?").into(),
        place::tools(&view.place, on),
        text("h2", "", "What do you want to know most?").into(),
        row(aims.map(|(aim, (label, set))| toggle("key", label, *set, on, Msg::Aim(aim))).collect()),
        text("h2", "", "How are the looks chosen?").into(),
        row(vec![guided, free]),
        text("h2", "", "How is it shown?").into(),
        row(themes
            .into_iter()
            .map(|(label, theme)| toggle("key", label, view.theme == theme, on, Msg::Theme(theme)))
            .collect()),
        text("h2", "", "Kept on this phone").into(),
        text("p", "", &kept(around)).into(),
        text("p", "", "Nothing you answer leaves this phone. The answers stand in the address of the page, so a link carries the piece.").into(),
        row(vec![
            key("key", "Copy the link", on, Msg::CopyLink),
            text("a", "key", "Printed key").set("href", "key.html"),
            text("a", "key", "The guide").set("href", "book.html"),
            text("a", "key", "Practise").set("href", "practice.html"),
            text("a", "key", "Packs").set("href", "book.html#packs"),
        ]),
        text("p", "small", &view.pack).into(),
    ])
}

fn row(keys: Vec<Node>) -> Html {
    el("div", "keyrow").set("role", "group").all(keys).into()
}

fn kept(around: &Around) -> String {
    let mut text = match &around.kept {
        Some(Ok(())) => "Ready without signal.".to_string(),
        Some(Err(sentence)) => sentence.clone(),
        None => "Getting ready for use without a signal\u{2026}".to_string(),
    };
    if around.unkept {
        text.push_str(" This browser keeps no choices of yours: they last until the page is closed.");
    }
    text
}
