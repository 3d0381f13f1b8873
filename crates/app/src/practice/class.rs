//! For teachers: a piece before the class, own pieces on the table.

use super::screen::{Body, Frame, link};
use super::start::way;
use super::task::{hand, said, stands};
use crate::ui::node::{Node, el, key, text, toggle};
use ::practice::Round;
use ::practice::room::{BoardView, ClassMsg, ClassView, Msg, OfferView, OnTable, Page, SeriesMsg, Standing};
use yew::prelude::*;

pub(super) fn teach(_: &Frame<'_>) -> Body {
    let ways = el("ul", "ways")
        .put(way(
            Page::Board,
            "Before the class",
            "One piece for all to see; hands are counted, then the answer.",
        ))
        .put(way(
            Page::Sheets,
            "Work sheets",
            "The same pieces on paper, with an answer sheet: A4 or Letter.",
        ))
        .put(way(Page::Class, "Your own pieces", "Numbered from your cabinet, lying on the table."))
        .put(way(Page::Talk, "A consultation explained", "Look by look: what remains, and why."));
    let order = "The lessons and the order of the kinds stand in the pack of the guide: a club's own pack has its own.";
    Body {
        title: "For teachers".to_string(),
        nodes: vec![ways.into(), text("p", "hint", order).into()],
        bar: vec![link("", "#", "To the start")],
    }
}

pub(super) fn board(view: &BoardView, frame: &Frame<'_>) -> Body {
    let task = &view.task;
    let mut nodes: Vec<Html> = vec![text("p", "hint", &format!("{}. {}", view.says, task.hint)).into()];
    let hands: Vec<Html> = match &task.feedback {
        None => {
            vec![votes(&task.offers, &view.votes, |at, more| Msg::Series(SeriesMsg::Vote(at, more)), frame)]
        }
        Some(feedback) => vec![
            text("p", "verdict", &view.tally).set("role", "status").into(),
            said(feedback, frame).into(),
            voted(&task.offers, &view.votes),
        ],
    };
    let side = |class, all: Vec<Html>| all.into_iter().fold(el("div", class), Node::put);
    nodes.push(
        el("div", "project")
            .put(side("shows", hand(task, frame).into_iter().collect()))
            .put(side("asks", hands))
            .into(),
    );
    nodes.extend(hard(&view.hard));
    let step = match task.feedback {
        None => key("main", "Show the answer", frame.on, Msg::Series(SeriesMsg::Reveal)),
        Some(_) => key("main", "Next piece", frame.on, Msg::Series(SeriesMsg::On)),
    };
    Body {
        title: task.ask.clone(),
        nodes,
        bar: vec![link("", "#teach", "Stop"), link("", "#sheets", "Other series"), step],
    }
}

/// What a class found hard.
fn hard(all: &[String]) -> Vec<Html> {
    if all.is_empty() {
        return Vec::new();
    }
    let lines = el("ul", "").all(all.iter().map(|h| text("li", "", h)));
    vec![text("h2", "", "What the class found hard").into(), lines.into()]
}

/// Answers with their votes, each one tap more or one less.
fn votes(offers: &[OfferView], votes: &[u32], vote: impl Fn(usize, bool) -> Msg, frame: &Frame<'_>) -> Html {
    let one = |(at, offer): (usize, &OfferView)| {
        let count = votes.get(at).copied().unwrap_or(0).to_string();
        let more = key("key offer", &offer.label, frame.on, vote(at, true)).put(text("b", "count", &count));
        let less = key("key", "\u{2212}1", frame.on, vote(at, false));
        let less = less.set("aria-label", &format!("\u{2212}1 for {}", offer.label));
        el("div", "vote").named(&at.to_string()).put(more).put(less)
    };
    el("div", "offers")
        .set("role", "group")
        .set("aria-label", "Votes")
        .all(offers.iter().enumerate().map(one))
        .into()
}

/// The same once the answer is shown.
fn voted(offers: &[OfferView], votes: &[u32]) -> Html {
    let one = |(at, offer): (usize, &OfferView)| {
        let count = votes.get(at).copied().unwrap_or(0);
        let many = if count == 1 { "vote" } else { "votes" };
        stands(offer).put(text("b", "count", &format!("{count} {many}")))
    };
    el("div", "offers").all(offers.iter().enumerate().map(one)).into()
}

pub(super) fn table(view: &ClassView, frame: &Frame<'_>) -> Body {
    match &view.round {
        Some(round) => put(view, round, frame),
        None => laid(view, frame),
    }
}

/// What lies on the table.
fn laid(view: &ClassView, frame: &Frame<'_>) -> Body {
    let mut nodes: Vec<Html> = vec![
        text("p", "hint", "Lay your pieces out with their numbers. The answers come from your records; only what you were sure of is asked.")
            .into(),
        el("div", "keyrow")
            .put(key("key", "Take the pieces of this cabinet", frame.on, Msg::Cabinet))
            .put(link("key", "cabinet.html", "The cabinet"))
            .into(),
        text("p", "", &format!("{}.", view.says)).set("role", "status").into(),
    ];
    nodes.extend(view.pieces.iter().enumerate().map(|(at, piece)| on_table(at, piece, frame)));
    nodes.extend(hard(&view.hard));
    if !view.pieces.is_empty() {
        let answer = |piece: &OnTable| {
            let lines = piece
                .answers
                .iter()
                .map(|(ask, is)| el("li", "").say(&format!("{ask} ")).put(text("b", "", is)));
            el("div", "").put(text("h3", "", &format!("No. {}", piece.number))).put(el("ul", "").all(lines))
        };
        let sheet = el("details", "key-sheet")
            .put(text("summary", "", "The answer sheet"))
            .all(view.pieces.iter().map(answer))
            .put(key("key", "Print", frame.on, Msg::Print));
        nodes.push(sheet.into());
    }
    Body { title: "Your own pieces".to_string(), nodes, bar: vec![link("", "#teach", "Back")] }
}

fn on_table(at: usize, piece: &OnTable, frame: &Frame<'_>) -> Html {
    let look =
        |(look, ask): (usize, &String)| key("key offer", ask, frame.on, Msg::Class(ClassMsg::Put(at, look)));
    let keys = el("div", "offers").all(piece.looks.iter().enumerate().map(look));
    el("details", "")
        .named(&piece.number)
        .put(text("summary", "", &format!("No. {}", piece.number)))
        .put(keys)
        .into()
}

/// A look that is put to the class.
fn put(view: &ClassView, round: &Round, frame: &Frame<'_>) -> Body {
    let offer = |(at, o): (usize, &::practice::Offer)| {
        let right = view.right == Some(at);
        OfferView {
            label: o.label.clone(),
            stands: if right { Standing::Right } else { Standing::Past },
            word: if right { "right" } else { "" },
        }
    };
    let offers: Vec<OfferView> = round.offers.iter().enumerate().map(offer).collect();
    let mut nodes: Vec<Html> = vec![text("p", "hint", &round.hint).into()];
    let mut bar = vec![key("", "The table", frame.on, Msg::Class(ClassMsg::Put(usize::MAX, 0)))];
    if view.right.is_some() {
        nodes.push(text("p", "verdict", &view.tally).set("role", "status").into());
        nodes.push(voted(&offers, &view.votes));
    } else {
        nodes.push(votes(&offers, &view.votes, |at, more| Msg::Class(ClassMsg::Vote(at, more)), frame));
        bar.push(key("main ahead", "Show the answer", frame.on, Msg::Class(ClassMsg::Reveal)));
    }
    let shown = view.shows_finding;
    let toggle = toggle("key", "Finding so far", shown, frame.on, Msg::Class(ClassMsg::Finding(!shown)));
    nodes.push(el("div", "keyrow").put(toggle).into());
    if shown {
        let says = view.finding.as_deref().unwrap_or("Nothing was answered of this piece yet.");
        nodes.push(text("p", "card", says).into());
    }
    Body { title: round.ask.clone(), nodes, bar }
}
