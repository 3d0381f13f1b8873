//! The sheet for the day of a sale: a tap opens a lot, another says what came of it.

use super::{about, field, lines, send, stepper};
use crate::ui::node::{Node, button, el, key, text, toggle};
use consult::Msg;
use consult::sale::{Act, LotView, OpenLot, SheetView};
use yew::prelude::*;

pub(super) fn sheet(nodes: &mut Vec<Html>, view: &SheetView, on: &Callback<Msg>) {
    if let Some(left) = &view.left {
        nodes.push(text("p", "big", left).named("left").set("role", "status").into());
    }
    if let Some(other) = &view.currencies {
        nodes.push(text("p", "care", other).named("currencies").set("role", "note").into());
    }
    nodes.push(el("div", "fields").named("day").all(view.fields.iter().map(|f| field(f, on))).into());
    if view.lots.is_empty() {
        let says = "No lots yet. Put a piece on the sheet from its finding, or type a label and a limit.";
        nodes.push(text("p", "hint", says).named("no lots").into());
    }
    nodes.extend(view.lots.iter().map(|l| lot(l, on).named(&format!("lot {}", l.lot)).into()));
    nodes.push(text("h2", "", "Another lot").named("another").into());
    nodes.push(
        el("div", "card")
            .named("new")
            .put(el("div", "fields").all(view.new.iter().map(|f| field(f, on))))
            .put(el("div", "keyrow").put(key("key strong", "Put it on the sheet", on, send(Act::PutLot))))
            .into(),
    );
    if !view.lots.is_empty() {
        nodes.push(key("key quiet", "Begin a new sheet", on, send(Act::NewSheet)).named("new sheet").into());
    }
    about(nodes, &view.about);
}

fn lot(view: &LotView, on: &Callback<Msg>) -> Node {
    let head = button("lot-head", on, send(Act::Open(view.lot)))
        .flag("aria-expanded", view.open.is_some())
        .put(text("b", "", &view.label))
        .put(text("span", "", &view.says))
        .put(text("span", "small", &view.limit));
    let open = view.open.as_ref().map(|open| opened(view, open, on).into());
    el("section", "card lot").put(head).maybe(open)
}

fn opened(view: &LotView, open: &OpenLot, on: &Callback<Msg>) -> Node {
    let lot = view.lot;
    let mut node = el("div", "").all(open.each.iter().map(|e| text("p", "small", e)));
    if view.over {
        node = node.put(el("div", "keyrow").put(key("key", "Not over yet", on, send(Act::Again(lot)))));
    } else {
        let results = el("div", "results")
            .put(key("key strong", "Won at this", on, send(Act::Won(lot))))
            .put(key("key", "Lost at this", on, send(Act::Lost(lot))))
            .put(key("key", "Passed", on, send(Act::Passed(lot))));
        node = node
            .put(stepper(open.hammer.as_deref().unwrap_or("no bid"), on))
            .put(results)
            .put(lines(&open.cost));
    }
    let mut keys =
        el("div", "keyrow").put(toggle("key", "Fills a gap", open.gap, on, send(Act::LotGap(lot))));
    keys = keys.put(key("key", "Add a piece at the limit typed below", on, send(Act::PutInto(lot))));
    if !view.link.is_empty() {
        keys = keys.put(text("a", "key", "See its finding").set("href", &format!("#{}", view.link)));
    }
    node.put(keys.put(key("key", "Take it off the sheet", on, send(Act::Drop(lot)))))
}
