//! The finding: the first screenful says what, old or later, when, worth, and what next; the reasons stand below.

use super::look::heading;
use super::node::{Node, button, el, key, several, text};
use super::screen::Around;
use super::{charts, clues};
use super::{drawing, in_guide};
use consult::{FindingView, Guide, Msg, Screen, YearsView};
use yew::prelude::*;

pub(crate) fn finding(view: &FindingView, around: &Around, guide: &Guide, on: &Callback<Msg>) -> Html {
    let told = !view.clues.is_empty();
    let mut nodes: Vec<Html> = Vec::new();
    for care in view.grave.iter().chain(&view.outside) {
        nodes.push(text("p", "care", care).named(care).set("role", "note").into());
    }
    nodes.push(heading(&view.title).into());
    // On a wide screen the finding and its reasons stand side by side.
    let mut found: Vec<Html> = Vec::new();
    // A kind without a drawing, or one whose art has not come yet, is told in words alone.
    if let Some(picture) =
        drawing::of_kind(&view.draw, view.draw_mm, &around.art).filter(|_| told && !view.draw.is_empty())
    {
        let typical = text("figcaption", "", "A typical one, not your piece.");
        found.push(el("figure", "").named("figure").put(picture).put(typical).into());
    }
    if told {
        found.push(rows(view, on).into());
    }
    if let Some(next) = &view.next {
        found.push(
            button("next", on, Msg::LookOn)
                .named("next")
                .put(text("b", "", "Look next: ").say(&next.ask))
                .put(text("span", "", &next.why))
                .into(),
        );
    }
    found.push(text("p", "hint", &view.standing).named("standing").into());
    if told {
        own(&mut found, around, on);
    }
    let mut because: Vec<Html> = Vec::new();
    if told {
        reasons(&mut because, view, guide, on);
    }
    let side = |class, nodes| el("div", class).put(several(nodes));
    nodes.push(
        el("div", "sides").named("sides").put(side("found", found)).put(side("because", because)).into(),
    );
    several(nodes)
}

/// What the cabinet has of it, and the way into it.
fn own(nodes: &mut Vec<Html>, around: &Around, on: &Callback<Msg>) {
    if let Some(own) = &around.own {
        let link = |(says, to): &(String, String)| el("li", "").put(text("a", "in", says).set("href", to));
        let list = el("ul", "shares").all(own.pieces.iter().map(link));
        nodes.push(el("div", "card").named("own").put(text("p", "", &own.says)).put(list).into());
    }
    let keep = key("key", "Keep this piece", on, Msg::Keep);
    let open = text("a", "key", "The cabinet").set("href", "cabinet.html");
    nodes.push(el("div", "keyrow").named("keep").put(keep).put(open).into());
}

fn rows(view: &FindingView, on: &Callback<Msg>) -> Node {
    let row = |name: &str, strong: &str, rest: &str| {
        let says = el("span", "").put(text("b", "", strong)).say(rest);
        el("div", "").put(text("i", "", name)).put(says)
    };
    let worth = match (&view.worth, view.money) {
        (_, false) => text("span", "go", "Show the money"),
        (Ok(w), true) => el("span", "")
            .put(text("b", "", &w.half))
            .say(&format!(" for half of such; {} for 8 in 10", w.eight)),
        (Err(none), true) => text("span", "", none),
    };
    el("div", "rows")
        .named("rows")
        .put(row("What", &format!("{}. ", view.likely), &view.made_as))
        .put(row("Old or later", &view.make, ""))
        .put(row("When", &view.years.half, &when(&view.years)))
        .put(
            button("", on, Msg::Money)
                .flag("aria-expanded", view.money)
                .put(text("i", "", "Worth"))
                .put(worth),
        )
}

fn when(years: &YearsView) -> String {
    let marks =
        if years.bound.is_empty() { String::new() } else { format!(". By the marks {}", years.bound) };
    format!(", even chances; {}, 9 in 10{marks}", years.nine)
}

fn reasons(nodes: &mut Vec<Html>, view: &FindingView, guide: &Guide, on: &Callback<Msg>) {
    card(nodes, "What would change it", paragraphs(&view.change));
    nodes.push(text("h2", "", "For and against").named("clues").into());
    nodes.push(clues::clues(&view.clues, on).into());
    old_or_later(nodes, view, on);
    second(nodes, view, guide, on);
    let years = &view.years;
    for clash in &years.clashes {
        nodes.push(text("p", "care", clash).named(clash).set("role", "note").into());
    }
    let mut curve = vec![
        charts::years(years),
        text("p", "", &format!("Dark, even chances: {}. Light, 9 in 10: {}.", years.half, years.nine)),
    ];
    if !years.marks.is_empty() {
        let each: Vec<&str> = years.marks.iter().map(|m| m.text.as_str()).collect();
        curve.push(text(
            "p",
            "",
            &format!("Dashed: without the marks. Each strip beneath is a mark: {}.", each.join("; ")),
        ));
    }
    curve.push(text("p", "small", &format!("EDTF {}. {}", years.edtf, years.basis)));
    let label = if years.marks.is_empty() { "Read the marks" } else { "To the marks" };
    curve.push(key("key", label, on, Msg::Show(Screen::Marks)));
    card(nodes, "When it was made", curve);
    let mut money = worth(view, on);
    money.push(key("key", "What to pay", on, Msg::Show(Screen::Sale)));
    card(nodes, "What it is worth", money);
    card(
        nodes,
        "What it was made as",
        vec![
            text("p", "", &view.purpose),
            shares(view.roles.iter().map(|(name, chance)| (text("span", "", name), chance))),
        ],
    );
    card(
        nodes,
        "All that fits",
        vec![shares(view.kinds.iter().map(|(name, chance, _)| (in_guide::kind(guide, name), chance)))],
    );
    if !view.seller.is_empty() {
        let mut ask = paragraphs(&view.seller);
        ask.push(key("key", "Copy the questions", on, Msg::CopySeller));
        card(nodes, "Ask the seller", ask);
    }
    card(nodes, "Take care", paragraphs(&view.cautions));
    let mut about = paragraphs(&view.notes);
    about.push(in_guide::kind(guide, &view.title));
    card(nodes, "About this kind", about);
    card(nodes, "Sources", paragraphs(&view.sources));
}

/// A heading and a card under it; nothing when there is nothing to say.
#[inline(never)]
fn card(nodes: &mut Vec<Html>, title: &str, children: Vec<Node>) {
    if !children.is_empty() {
        nodes.push(text("h2", "", title).named(title).into());
        nodes.push(el("div", "card").named(&format!("{title}.")).all(children).into());
    }
}

fn paragraphs(lines: &[String]) -> Vec<Node> {
    lines.iter().map(|l| text("p", "", l)).collect()
}

fn shares<'a>(rows: impl Iterator<Item = (Node, &'a String)>) -> Node {
    el("ul", "shares").all(rows.map(|(name, chance)| el("li", "").put(name).put(text("b", "", chance))))
}

fn old_or_later(nodes: &mut Vec<Html>, view: &FindingView, on: &Callback<Msg>) {
    let make = &view.old_or_later;
    let mut says = vec![text("p", "", &make.says)];
    says.extend(paragraphs(&make.clues));
    match &make.next {
        Some(look) => {
            says.push(text("p", "", "To be surer, the next look:"));
            says.push(key("key", &look.ask, on, Msg::Ask(look.question)));
        }
        None => says.push(text("p", "", "No look that is left would tell more about it.")),
    }
    says.push(key("key", "Measure it", on, Msg::Show(Screen::Measures)));
    card(nodes, "Old or later", says);
    card(nodes, "Altered since?", paragraphs(&make.altered));
}

fn second(nodes: &mut Vec<Html>, view: &FindingView, guide: &Guide, on: &Callback<Msg>) {
    let Some(second) = &view.second else { return };
    let mut says = vec![el("p", "").put(in_guide::kind(guide, &second.name)).say(&second.likely)];
    says.extend(second.check.as_ref().map(|check| text("p", "", check)));
    if let Some(look) = &second.look {
        says.push(key("key", &format!("Settle it: {}", look.ask), on, Msg::Ask(look.question)));
    }
    card(nodes, "Or else", says);
}

fn worth(view: &FindingView, on: &Callback<Msg>) -> Vec<Node> {
    match (&view.worth, view.money) {
        (_, false) => vec![key("key", "Show the money", on, Msg::Money)],
        (Err(none), true) => vec![text("p", "", none)],
        (Ok(w), true) => [
            charts::worth(w),
            text("p", "", &format!("Dark, half of such pieces: {}. Light, 8 in 10: {}.", w.half, w.eight)),
            text("p", "small", &w.basis),
        ]
        .into_iter()
        .chain(paragraphs(&w.besides))
        .collect(),
    }
}
