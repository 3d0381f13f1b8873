//! The measuring room: lengths by calipers and two weighings in; what they prove out.

use super::look::heading;
use super::node::{Node, el, key, several, text, toggle};
use consult::measures::{
    FieldView, KeyView, KeysView, LeftView, Measure, MeasuresView, MetalView, PairView, RecastView, SaysView,
};
use consult::{Msg, Screen};
use web_sys::HtmlInputElement;
use yew::prelude::*;

const RULER: &str = "A ruler or a photo proves nothing here: a recast is smaller by about one part in a hundred. \
                     Measure both pieces with calipers, the longest lengths first, between faces that are as \
                     they were cast.";

pub(crate) fn measures(view: &MeasuresView, on: &Callback<Msg>) -> Html {
    let photo = key("key", "Length and outline from a photo", on, Msg::Show(Screen::Photo)).named("photo");
    let mut nodes: Vec<Html> = vec![heading("Measure it").into(), photo.into()];
    match (&view.recast, &view.metal) {
        (Some(r), Some(m)) => {
            nodes.push(text("h2", "", "Is it a recast?").named("recast").into());
            nodes.push(el("section", "measured").named("recast.").all(recast(r, on)).into());
            nodes.push(text("h2", "", "What metal is it?").named("metal").into());
            nodes.push(el("section", "measured").named("metal.").all(metal(m, on)).into());
        }
        _ => nodes.push(text("p", "hint", "The table of metals is on its way.").named("coming").into()),
    }
    several(nodes)
}

fn send(measure: Measure) -> Msg {
    Msg::Measure(measure)
}

fn recast(view: &RecastView, on: &Callback<Msg>) -> Vec<Node> {
    let mut nodes = vec![
        text("p", "care", RULER).named("ruler").set("role", "note"),
        text(
            "p",
            "hint",
            "Pressed into sand and cast again, metal shrinks. So compare this piece with a known one from the same \
             pattern, length by length.",
        )
        .named("hint"),
        keys(&view.with, on).named("with"),
        keys(&view.metals, on).named("of"),
    ];
    nodes.extend(view.pairs.iter().map(|p| pair(p, view.pairs.len() > 1, on).named(&p.title)));
    if view.more {
        nodes.push(key("key", "One more length", on, send(Measure::More)).named("more"));
    }
    nodes.extend(view.asks.as_ref().map(|asks| text("p", "hint", asks).named("asks")));
    nodes.extend(view.says.as_ref().map(|s| says(s).named("says")));
    nodes.extend(basis(&view.basis).map(|b| b.named("basis")));
    nodes
}

fn pair(view: &PairView, several: bool, on: &Callback<Msg>) -> Node {
    let less = key(
        "key quiet",
        &format!("Remove {}", view.title.to_lowercase()),
        on,
        send(Measure::Less(view.pair)),
    );
    el("div", "card pair")
        .put(text("h3", "", &view.title))
        .put(field(&view.piece, on))
        .put(field(&view.known, on))
        .put(keys(&view.by, on))
        .put(keys(&view.signs, on))
        .put(text("p", "fault", view.note.as_deref().unwrap_or_default()).set("role", "status"))
        .maybe(several.then(|| less.into()))
}

fn says(view: &SaysView) -> Node {
    let finding = view.finding.as_ref().map(|line| text("p", "small", line).into());
    el("div", "card says")
        .set("role", "status")
        .put(text("h3", "", &view.title))
        .all(view.because.iter().map(|line| text("p", "", line)))
        .maybe(finding)
}

fn metal(view: &MetalView, on: &Callback<Msg>) -> Vec<Node> {
    let mut nodes: Vec<Node> =
        view.cautions.iter().map(|c| text("p", "care", c).named(c).set("role", "note")).collect();
    nodes.push(keys(&view.way, on).named("way"));
    nodes.push(text("p", "hint", &view.how).named("how"));
    nodes.push(keys(&view.step, on).named("step"));
    nodes.extend(view.fields.iter().map(|f| field(f, on).named(&f.id)));
    nodes.push(
        text("p", "fault", view.fault.as_deref().unwrap_or_default()).named("fault").set("role", "status"),
    );
    let lines = view.density.iter().map(|line| text("p", "", line).set("role", "status"));
    let told = view.told.iter().map(|line| text("p", "", line));
    let heft = view.heft.iter().map(|line| text("p", "", line));
    let others = view.others.iter().map(|line| text("p", "small", line));
    if !view.left.is_empty() {
        nodes.push(
            el("div", "card left")
                .named("left")
                .all(lines)
                .all(told)
                .put(el("ul", "shares").all(view.left.iter().map(left)))
                .all(others)
                .all(heft),
        );
    }
    nodes.extend(basis(&view.basis).map(|b| b.named("basis")));
    nodes
}

fn left(view: &LeftView) -> Node {
    let name = el("span", "").say(&view.name).put(text("span", "small", &format!(" {}", view.density)));
    el("li", "").put(name).put(text("b", "", &view.likely))
}

fn basis(lines: &[String]) -> Option<Node> {
    let rows = || lines.iter().map(|line| text("p", "small", line));
    (!lines.is_empty())
        .then(|| el("details", "basis").put(text("summary", "", "What these figures rest on")).all(rows()))
}

fn field(view: &FieldView, on: &Callback<Msg>) -> Node {
    let at = view.at;
    let typed = on.reform(move |e: InputEvent| {
        send(Measure::Put(at, e.target_unchecked_into::<HtmlInputElement>().value()))
    });
    let fault = format!("{}-fault", view.id);
    let input = el("input", "")
        .set("id", &view.id)
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set("aria-describedby", &fault)
        .flag("aria-invalid", view.fault.is_some())
        .value(&view.text)
        .typed(typed);
    el("div", "typing")
        .put(text("label", "", &view.label).set("for", &view.id))
        .put(el("div", "row").put(input))
        .put(text("p", "fault", view.fault.as_deref().unwrap_or_default()).set("id", &fault))
}

fn keys(view: &KeysView, on: &Callback<Msg>) -> Node {
    let one = |k: &KeyView| toggle("key", &k.label, k.set, on, send(Measure::Put(k.at, k.put.clone())));
    el("div", "").put(text("p", "hint", &view.label)).put(
        el("div", "keyrow")
            .set("role", "group")
            .set("aria-label", &view.label)
            .all(view.keys.iter().map(one)),
    )
}
