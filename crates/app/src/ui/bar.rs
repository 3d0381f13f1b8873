//! The lower bar: what is pressed most, where the thumb is.

use super::node::{Node, el, key, text, toggle};
use consult::{Body, LastView, Msg, Screen};
use yew::prelude::*;

/// The keys of a screen; before the program has come (`on` is none) they stand there and rest.
pub(crate) fn bar(body: &Body, on: Option<&Callback<Msg>>) -> Html {
    let keys: [(&str, Msg); 3] = match body {
        Body::Look(v) => [
            ("Undo", Msg::Undo),
            ("Can't tell", Msg::Cannot(v.question)),
            (if v.either.is_some() { "Only one" } else { "One of two" }, Msg::Either),
        ],
        Body::Place(v) => [
            ("Undo", Msg::Undo),
            ("Skip", Msg::SkipPlace),
            (if v.picture { "It is in my hand" } else { "Only a picture" }, Msg::Picture(!v.picture)),
        ],
        Body::Later => [
            ("Undo", Msg::Undo),
            ("All looks", Msg::Show(Screen::List)),
            ("See finding", Msg::Show(Screen::Finding)),
        ],
        Body::Finding(_) => {
            [("Undo", Msg::Undo), ("All looks", Msg::Show(Screen::List)), ("Next piece", Msg::Fresh)]
        }
        Body::List(_) => {
            [("Undo", Msg::Undo), ("One at a time", Msg::LookOn), ("See finding", Msg::Show(Screen::Finding))]
        }
        Body::Sale(v) => [
            ("Undo", Msg::Undo),
            (if v.money { "Hide the money" } else { "Show the money" }, Msg::Money),
            ("See finding", Msg::Show(Screen::Finding)),
        ],
        Body::Marks(_) | Body::Photo(_) => {
            [("Undo", Msg::Undo), ("One at a time", Msg::LookOn), ("See finding", Msg::Show(Screen::Finding))]
        }
        Body::Setup(_) | Body::Measures(_) => [
            ("One at a time", Msg::Show(Screen::Look)),
            ("All looks", Msg::Show(Screen::List)),
            ("See finding", Msg::Show(Screen::Finding)),
        ],
    };
    let keys = keys.into_iter().map(|(label, msg)| match on {
        Some(on) => key("", label, on, msg),
        None => text("button", "", label).set("type", "button").set("disabled", ""),
    });
    let last = match body {
        Body::Look(v) => v.last.as_ref(),
        Body::Place(v) => v.last.as_ref(),
        _ => None,
    };
    let last = last.zip(on).map(|(last, on)| said(last, on).into());
    el("div", "bar").maybe(last).put(el("div", "keys").all(keys)).into()
}

/// The answer just given, with one tap to mark it as not sure.
fn said(last: &LastView, on: &Callback<Msg>) -> Node {
    el("div", "last").put(el("span", "").say("You said: ").put(text("b", "", &last.text))).put(toggle(
        "",
        "Not sure",
        last.unsure,
        on,
        Msg::Unsure(last.question),
    ))
}
