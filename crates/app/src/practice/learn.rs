//! Lessons, the consultation explained, what was confused.

use super::screen::{Body, Frame, drawn, figure, link};
use crate::ui::node::{Node, el, key, text};
use ::practice::room::{DrawnView, MixedView, Msg, TalkView};
use ::practice::{Done, Matrix, Mixed, Now, Offer, Stand, Turn};
use yew::prelude::*;

pub(super) fn lesson(view: &Stand, frame: &Frame<'_>) -> Body {
    let mut nodes: Vec<Html> = vec![text("p", "", &view.intro).into()];
    let views = view.views.iter().map(|v| (v.draw.as_str(), v.says.as_str(), v.name.as_str()));
    nodes.push(round(views, frame));
    let last = view.done.len();
    nodes.extend(view.done.iter().enumerate().map(|(at, d)| done(d, at + 1 == last, frame).into()));
    let mut bar = vec![link("", "#", "Stop")];
    match &view.now {
        Now::Show => bar.push(key("main ahead", "Show the next look", frame.on, Msg::Next)),
        Now::Ask(_, ask, offers) => {
            nodes.push(text("h2", "", ask).into());
            nodes.push(choices(offers, 0, ask, frame));
        }
        Now::Choose(looks, kinds) => {
            if !looks.is_empty() {
                nodes.push(text("h2", "", "Look at\u{2026}").into());
                let one = |(at, o): (usize, &Offer)| key("key", &o.label, frame.on, Msg::Walk(at));
                let row = el("div", "keyrow looks").set("role", "group").set("aria-label", "Look at");
                nodes.push(row.all(looks.iter().enumerate().map(one)).into());
            }
            nodes.push(text("h2", "", "Or say what it is").into());
            nodes.push(choices(kinds, looks.len(), "Say what it is", frame));
        }
        Now::End(is, says) => {
            nodes.push(
                el("div", "card")
                    .set("id", "said")
                    .set("tabindex", "-1")
                    .put(text("p", "verdict", is))
                    .put(text("p", "", says))
                    .into(),
            );
            bar = vec![link("", "#", "To the start"), link("main ahead", "#task", "Practise")];
        }
    }
    Body { title: view.title.clone(), nodes, bar }
}

/// All views beside each other.
fn round<'v>(views: impl Iterator<Item = (&'v str, &'v str, &'v str)>, frame: &Frame<'_>) -> Html {
    let figures = views.filter_map(|(draw, says, name)| figure(draw, says, name, frame));
    figures.fold(el("div", "round"), |node, figure| node.put(figure)).into()
}

fn done(done: &Done, last: bool, frame: &Frame<'_>) -> Node {
    let answered = match done.right {
        None => String::new(),
        Some(true) => "Yes. ".to_string(),
        Some(false) => "No. ".to_string(),
    };
    let node = turn(&done.turn, &answered, &done.says, frame);
    if last { node.set("id", "said").set("tabindex", "-1") } else { node }
}

/// A look: what was asked, what is seen, what remains.
fn turn(turn: &Turn, before: &str, says: &str, frame: &Frame<'_>) -> Node {
    let seen = format!("{before}Seen: {}.", turn.seen);
    let says = (!says.is_empty()).then(|| text("p", "", says).into());
    el("div", "card look")
        .named(&turn.ask)
        .put(text("h3", "", &turn.ask))
        .maybe(drawn(&turn.mark, &turn.seen, frame))
        .put(text("p", "verdict", &seen))
        .maybe(says)
        .put(text("p", "", &turn.says))
}

fn choices(offers: &[Offer], from: usize, about: &str, frame: &Frame<'_>) -> Html {
    let one = |(at, o): (usize, &Offer)| key("key offer", &o.label, frame.on, Msg::Walk(from + at));
    el("div", "offers")
        .set("role", "group")
        .set("aria-label", about)
        .all(offers.iter().enumerate().map(one))
        .into()
}

pub(super) fn talk(view: &TalkView, frame: &Frame<'_>) -> Body {
    let mut nodes: Vec<Html> = Vec::new();
    let hint = "A piece that was drawn at random. Each look is the one that tells most for its time.";
    nodes.push(text("p", "hint", hint).into());
    nodes.push(round(
        view.views.iter().map(|v: &DrawnView| (v.draw.as_str(), v.says.as_str(), v.name.as_str())),
        frame,
    ));
    let last = view.turns.len();
    for (at, t) in view.turns.iter().enumerate() {
        let remains = t
            .remains
            .iter()
            .map(|(name, chance)| el("li", "").put(text("b", "", name)).say(&format!(", {chance}")));
        let node = turn(t, "", "", frame).put(el("ul", "remains").all(remains));
        let node = if at + 1 == last { node.set("id", "said").set("tabindex", "-1") } else { node };
        nodes.push(node.into());
    }
    let mut bar = vec![link("", "#", "To the start")];
    if view.more {
        bar.push(key("main ahead", "The next look", frame.on, Msg::Next));
    } else {
        nodes.push(
            text("p", "", "Here the guide would stop: one kind is settled, or no look left tells enough.")
                .into(),
        );
    }
    Body { title: "A consultation explained".to_string(), nodes, bar }
}

pub(super) fn mixed(view: &MixedView, frame: &Frame<'_>) -> Body {
    let mut nodes: Vec<Html> = vec![text("p", "", &view.says).into()];
    if !view.matrix.mixed.is_empty() {
        nodes.push(matrix(&view.matrix).into());
    }
    nodes.extend(view.matrix.mixed.iter().map(|m| confusion(m, frame).into()));
    Body {
        title: "What you confuse".to_string(),
        nodes,
        bar: vec![link("", "#", "To the start"), link("main ahead", "#task", "Practise")],
    }
}

fn matrix(matrix: &Matrix) -> Node {
    let number = |at: usize| (at + 1).to_string();
    let head = (0..matrix.names.len()).map(|at| text("th", "", &number(at)).set("scope", "col"));
    let head = el("tr", "").put(text("th", "", "It was").set("scope", "col")).all(head);
    let row = |(at, name): (usize, &String)| {
        let cells = matrix.cells.get(at).map_or(&[][..], Vec::as_slice).iter().enumerate();
        let cell = |(to, n): (usize, &u32)| match n {
            _ if to == at => text("td", "own", "\u{2013}"),
            0 => text("td", "", ""),
            n => text("td", "often", &n.to_string()),
        };
        el("tr", "")
            .put(text("th", "", &format!("{} {name}", number(at))).set("scope", "row"))
            .all(cells.map(cell))
    };
    el("table", "matrix")
        .put(el("thead", "").put(head))
        .put(el("tbody", "").all(matrix.names.iter().enumerate().map(row)))
}

fn confusion(mixed: &Mixed, frame: &Frame<'_>) -> Node {
    el("div", "card").put(text("p", "verdict", &mixed.says)).put(text("p", "", &mixed.check)).put(key(
        "key",
        "Practise this pair",
        frame.on,
        Msg::Practise(mixed.item),
    ))
}
