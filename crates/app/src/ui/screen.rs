//! A whole screen: header, strip, body, bar.

use super::node::{Node, el, key, several, text};
use super::{bar, finding, list, look, marks, measures, photo, place, sale, setup, strip};
use consult::{Body, Guide, Msg, Screen as Which, View};
use sketch::Art;
use std::rc::Rc;
use yew::prelude::*;

/// What happens around the consultation.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Around {
    /// Kept on this device for use without a signal, or a sentence why not; nothing while it is not known.
    pub kept: Option<Result<(), String>>,
    /// A new version waits.
    pub update: bool,
    /// Preferences could not be kept.
    pub unkept: bool,
    /// What was last said to a screen reader.
    pub said: String,
    /// Own pieces that are like the one in the hand.
    pub own: Option<keep::Own>,
    /// The figures of drawings that have come so far.
    pub art: Art,
}

/// Draws a body.
pub type Draw = fn(&Body, &Around, &Guide, &Callback<Msg>) -> Html;

/// A whole screen, its body drawn by `draw`. A plain function: one component is enough, and a second costs three
/// kilobytes.
pub(crate) fn screen(view: &View, draw: Draw, around: &Around, guide: &Guide, on: &Callback<Msg>) -> Html {
    let room = |open: bool, which, label| {
        let (to, label) = if open { (Which::Look, "Back") } else { (which, label) };
        key("", label, on, Msg::Show(to))
    };
    let marks = room(matches!(view.body, Body::Marks(_)), Which::Marks, "Marks");
    let setup = room(matches!(view.body, Body::Setup(_)), Which::Setup, "Set up");
    let mut main = el("main", "");
    if around.update {
        main = main.put(told("A new version is ready.", "Use it now", on, Msg::AcceptUpdate));
    }
    if let Some(notice) = &view.notice {
        main = main.put(told(notice, "Good", on, Msg::Notice(None)).set("role", "status"));
    }
    if !view.pack_notice.is_empty() {
        main = main.put(text("p", "told", &view.pack_notice));
    }
    several(vec![
        header().put(el("span", "").put(marks).put(setup)).into(),
        view.strip.as_ref().map(|s| strip::strip(s, Some(on))).unwrap_or_default(),
        main.put(draw(&view.body, around, guide, on)).into(),
        bar::bar(&view.body, Some(on)),
        text("p", "unseen", &around.said).set("role", "status").set("aria-atomic", "true").into(),
    ])
}

/// Every body.
pub(crate) fn every(body: &Body, around: &Around, guide: &Guide, on: &Callback<Msg>) -> Html {
    match body {
        Body::Finding(v) => finding::finding(v, around, guide, on),
        Body::List(v) => list::list(v, on),
        Body::Setup(v) => setup::setup(v, around, on),
        Body::Marks(v) => marks::marks(v, on),
        Body::Sale(v) => sale::sale(v, &around.art, on),
        Body::Measures(v) => measures::measures(v, on),
        Body::Photo(v) => photo::photo(v, on),
        Body::Look(_) | Body::Place(_) | Body::Later => of_opening(body, around, guide, on),
    }
}

/// The bodies of the opening. What is drawn elsewhere is not linked into a program that draws with this.
pub(crate) fn of_opening(body: &Body, around: &Around, guide: &Guide, on: &Callback<Msg>) -> Html {
    match body {
        Body::Look(v) => look::look(v, &around.art, Some((guide, on))),
        Body::Place(v) => place::place(v, on),
        _ => several(vec![
            look::heading("One moment").into(),
            text("p", "hint", "The rest of Pressmark is on its way.").into(),
        ]),
    }
}

fn header() -> Node {
    el("header", "top").put(text("b", "", "PRESSMARK"))
}

fn told(says: &str, label: &str, on: &Callback<Msg>, msg: Msg) -> Node {
    el("div", "told").put(text("p", "", says)).put(key("key", label, on, msg))
}

/// What the first question is drawn from.
#[derive(Properties, PartialEq)]
pub struct FirstProps {
    /// The view, with links.
    pub view: Rc<View>,
    /// The figures that it needs.
    pub art: Art,
}

/// The first question before any program has come: the same drawing, its choices real links.
#[component]
pub fn FirstQuestion(props: &FirstProps) -> Html {
    let body = match &props.view.body {
        Body::Look(v) => look::look(v, &props.art, None),
        _ => Html::default(),
    };
    several(vec![
        header().into(),
        props.view.strip.as_ref().map(|s| strip::strip(s, None)).unwrap_or_default(),
        el("main", "").put(body).into(),
        bar::bar(&props.view.body, None),
    ])
}
