//! Work sheets: what they are drawn from, and the sheets as they are printed.

use super::screen::{Body, Frame, drawn, link};
use crate::ui::node::{Node, el, key, text, toggle};
use ::practice::room::{Msg, SeriesMsg, SeriesView};
use ::practice::{Key, Paper, Place, Sheet, Sheets};
use web_sys::HtmlInputElement;
use yew::TargetCast;
use yew::prelude::*;

pub(super) fn sheets(view: &SeriesView, frame: &Frame<'_>) -> Body {
    let mut nodes: Vec<Html> = vec![el("div", "asked-for").named("form").all(form(view, frame)).into()];
    if let Some((done, all)) = view.making {
        let says = format!("{done} of {all} pieces are drawn.");
        nodes.push(text("p", "", &says).named("making").set("role", "status").into());
    }
    let mut bar = vec![link("", "#teach", "Back"), link("", "#board", "Before the class")];
    match &view.sheets {
        Some(sheets) => {
            nodes.push(
                text("p", "hint", "Printed as they stand here, answers last.")
                    .named("ready")
                    .set("role", "status")
                    .into(),
            );
            nodes.push(printed(sheets, frame).named("printed").into());
            bar.push(key("main", "Print", frame.on, Msg::Print));
        }
        None => bar.push(key("main", "Make the sheets", frame.on, Msg::Series(SeriesMsg::Make))),
    }
    Body { title: "Work sheets".to_string(), nodes, bar }
}

fn form(view: &SeriesView, frame: &Frame<'_>) -> Vec<Node> {
    let typed = frame.on.reform(|e: InputEvent| {
        Msg::Series(SeriesMsg::Number(e.target_unchecked_into::<HtmlInputElement>().value()))
    });
    let input = el("input", "")
        .set("id", "series")
        .set("type", "text")
        .set("inputmode", "numeric")
        .set("autocomplete", "off")
        .set("aria-describedby", "series-fault")
        .flag("aria-invalid", view.fault.is_some())
        .value(&view.typed)
        .typed(typed);
    let set = |label: &str, on: bool, msg: SeriesMsg| {
        toggle("key", label, on, frame.on, Msg::Series(msg)).named(label)
    };
    let lengths = view.lengths.iter().map(|(n, on)| set(&format!("{n} pieces"), *on, SeriesMsg::Pieces(*n)));
    let papers = [("A4", Paper::A4), ("Letter", Paper::Letter)];
    let papers =
        papers.into_iter().map(|(label, paper)| set(label, view.paper == paper, SeriesMsg::Paper(paper)));
    let blocks = view.blocks.iter().enumerate().map(|(at, (name, on))| set(name, *on, SeriesMsg::Block(at)));
    let row = |about: &str, keys: Vec<Node>| {
        el("div", "keyrow").set("role", "group").set("aria-label", about).all(keys)
    };
    let chosen = view.blocks.iter().filter(|b| b.1).count();
    let kinds = if chosen == 0 { "Which kinds? All, as long as none is chosen" } else { "Which kinds?" };
    let more = el("details", "").put(text("summary", "", kinds)).put(row("Which kinds?", blocks.collect()));
    vec![
        text(
            "p",
            "hint",
            "The same number is the same pieces, on paper and before the class, on every device with this edition of the guide.",
        ),
        el("label", "field").put(text("span", "", "Number of the series")).put(input),
        text("p", "fault", view.fault.as_deref().unwrap_or_default()).set("id", "series-fault"),
        row("How many", lengths.collect()),
        row("Paper", papers.collect()),
        more,
    ]
}

/// The sheets, page by page.
fn printed(sheets: &Sheets, frame: &Frame<'_>) -> Node {
    let class = match sheets.paper {
        Paper::A4 => "worksheets a4",
        Paper::Letter => "worksheets letter",
    };
    let all = sheets.pages.len();
    let page = |(at, sheet): (usize, &Sheet)| one(sheets, sheet, at + 1, all, frame);
    el("div", class).all(sheets.pages.iter().enumerate().map(page)).put(answers(sheets, frame))
}

fn one(sheets: &Sheets, sheet: &Sheet, at: usize, all: usize, frame: &Frame<'_>) -> Node {
    let title = text("h2", "", &format!("{}, page {at} of {all}", sheets.title));
    el("section", "worksheet")
        .put(title)
        .put(text("p", "says", &sheets.says))
        .all(sheet.places.iter().map(|p| place(p, frame)))
}

fn place(place: &Place, frame: &Frame<'_>) -> Node {
    let drawings = place.drawings.iter().filter_map(|(draw, says)| drawn(draw, says, frame));
    let drawings = drawings.fold(el("div", "drawings"), Node::put);
    let answer = |(letter, says): &(char, String)| {
        el("li", "").put(text("b", "", &letter.to_string())).put(text("span", "", says))
    };
    el("div", "worked")
        .put(text("h3", "", &format!("{}. {}", place.number, place.ask)))
        .put(drawings)
        .put(el("ol", "lettered").all(place.answers.iter().map(answer)))
}

fn answers(sheets: &Sheets, frame: &Frame<'_>) -> Node {
    let one = |key: &Key| {
        let head = format!("{}. {}: {}", key.number, key.letter, key.answer);
        let words = el("div", "").put(text("h3", "", &head)).put(text("p", "", &key.why.join(" ")));
        el("div", "answer").put(words).maybe(drawn(&key.mark, &key.answer, frame))
    };
    let title = text("h2", "", &format!("{}: answers", sheets.title));
    el("section", "worksheet answers").put(title).all(sheets.keys.iter().map(one))
}
