//! A task, before and after its answer, and the test of twelve.

use super::screen::{Body, Frame, drawn, figure, link};
use crate::ui::node::{Node, el, key, text};
use ::practice::Feedback;
use ::practice::room::{DrawnView, Msg, OfferView, Standing, TaskView, TestView};
use yew::prelude::*;

pub(super) fn task(view: &TaskView, frame: &Frame<'_>) -> Body {
    let mut bar = vec![link("", "#", "Stop")];
    if view.feedback.is_some() {
        bar.push(key("main ahead", "Next", frame.on, Msg::Next));
    }
    Body { title: view.ask.clone(), nodes: parts(view, view.sort, frame), bar }
}

/// Everything under the heading.
fn parts(view: &TaskView, above: &str, frame: &Frame<'_>) -> Vec<Html> {
    let mut nodes: Vec<Html> = Vec::new();
    let hint = if view.hint.is_empty() { above.to_string() } else { format!("{above}. {}", view.hint) };
    nodes.push(text("p", "hint", &hint).named("hint").into());
    match &view.feedback {
        None => {
            nodes.extend(hand(view, frame));
            nodes.push(offers(view, frame));
        }
        Some(feedback) => {
            nodes.push(said(feedback, frame).named("said").into());
            nodes.push(offers(view, frame));
            // One view alone is what is marked above.
            nodes.extend(hand(view, frame).filter(|_| view.views.len() > 1));
        }
    }
    nodes
}

/// The piece in the hand: one view large, keys that turn it.
pub(super) fn hand(view: &TaskView, frame: &Frame<'_>) -> Option<Html> {
    let up = view.views.get(view.turned)?;
    let turn = |(at, v): (usize, &DrawnView)| {
        key("key", &v.key, frame.on, Msg::Turn(at))
            .flag("aria-pressed", at == view.turned)
            .named(&at.to_string())
    };
    let keys = (view.views.len() > 1).then(|| {
        let turns = el("div", "keyrow turns").set("role", "group").set("aria-label", "Turn the piece");
        turns.all(view.views.iter().enumerate().map(turn)).into()
    });
    let shown = el("div", "hand").named("hand").set("aria-live", "polite");
    let shown = match figure(&up.draw, &up.says, &up.name, frame) {
        Some(figure) => shown.put(figure),
        None => shown.put(text("p", "", &up.says)),
    };
    Some(el("div", "").named("turning").put(shown).maybe(keys).into())
}

fn offers(view: &TaskView, frame: &Frame<'_>) -> Html {
    let list = el("div", "offers").named("offers").set("role", "group").set("aria-labelledby", "heading");
    let one = |(at, offer): (usize, &OfferView)| match offer.stands {
        Standing::Open => key("key offer", &offer.label, frame.on, Msg::Pick(at)).named(&at.to_string()),
        _ => stands(offer).named(&at.to_string()),
    };
    list.all(view.offers.iter().enumerate().map(one)).into()
}

/// An answer that can be chosen no more.
pub(super) fn stands(offer: &OfferView) -> Node {
    let class = match offer.stands {
        Standing::Right => "offer stood right",
        Standing::Wrong => "offer stood wrong",
        Standing::Open | Standing::Past => "offer stood",
    };
    let node = el("p", class).put(text("span", "", &offer.label));
    if offer.word.is_empty() { node } else { node.put(text("b", "", offer.word)) }
}

/// What is said after an answer.
pub(super) fn said(feedback: &Feedback, frame: &Frame<'_>) -> Node {
    let beside = (!feedback.beside.is_empty()).then(|| {
        let one = |b: &::practice::Beside| {
            let figure = figure(&b.draw, &b.shows, &b.name, frame);
            el("div", "").maybe(figure).put(text("p", "small", &b.shows))
        };
        let heading = text("p", "small", "Side by side, as they typically are:");
        el("div", "").put(heading).put(el("div", "beside").all(feedback.beside.iter().map(one))).into()
    });
    el("div", "card said")
        .set("id", "said")
        .set("tabindex", "-1")
        .put(text("p", "verdict", &feedback.says))
        .maybe(drawn(&feedback.mark, &feedback.shows, frame))
        .all(feedback.why.iter().map(|w| text("p", "", w)))
        .maybe(beside)
}

pub(super) fn test(view: &TestView, frame: &Frame<'_>) -> Body {
    let lines = |says: &[String]| says.iter().map(|s| text("p", "", s).into()).collect::<Vec<Html>>();
    let title = "The test of twelve".to_string();
    match view {
        TestView::Before(says) => Body {
            title,
            nodes: lines(says),
            bar: vec![link("", "#", "Not now"), key("main ahead", "Begin", frame.on, Msg::Test)],
        },
        TestView::Sought(says) => Body {
            title,
            nodes: vec![text("p", "", says).set("role", "status").into()],
            bar: vec![link("", "#", "Break it off")],
        },
        TestView::Piece(says, task) => Body {
            title: task.ask.clone(),
            nodes: parts(task, says, frame),
            bar: vec![link("", "#", "Break it off")],
        },
        TestView::Done(says) => Body {
            title,
            nodes: lines(says),
            bar: vec![link("", "#", "To the start"), link("main ahead", "#task", "Practise")],
        },
    }
}
