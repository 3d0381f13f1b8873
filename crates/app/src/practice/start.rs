//! What there is to do.

use super::Happened;
use super::screen::{Body, Frame, link};
use crate::ui::node::{Node, el, key, text, toggle};
use ::practice::room::{LessonLine, Msg, Page, StartView, State};
use web_sys::HtmlInputElement;
use yew::TargetCast;
use yew::prelude::*;

pub(super) fn start(view: &StartView, state: &State, frame: &Frame<'_>) -> Body {
    let mut nodes: Vec<Html> = vec![
        text("p", "hint", "Pieces to turn over and look at: where to look first, what parts look-alikes, what not to be fooled by.")
            .into(),
        el("div", "card").put(text("p", "", &view.due)).put(text("p", "", &view.kinds)).into(),
    ];
    if !view.lessons.is_empty() {
        nodes.push(text("h2", "", "First steps").into());
        nodes.push(el("ul", "ways").all(view.lessons.iter().enumerate().map(lesson)).into());
    }
    nodes.push(text("h2", "", "See how far you are").into());
    nodes.push(
        el("ul", "ways")
            .put(way(Page::Test, "The test of twelve", &view.tests))
            .put(way(Page::Mixed, "What you confuse", &view.mixed))
            .put(way(
                Page::Talk,
                "A consultation explained",
                "One piece, look by look: what remains, and why.",
            ))
            .put(way(Page::Teach, "For teachers", "Before a class, on paper, with pieces of your own."))
            .into(),
    );
    nodes.push(text("h2", "", "How you practise").into());
    let words = toggle("key", "By words alone", state.by_words, frame.on, Msg::ByWords(!state.by_words));
    nodes.push(
        text("p", "hint", "For those who go by what is read out: only tasks that need no drawing.").into(),
    );
    nodes.push(el("div", "keyrow").put(words).into());
    nodes.push(text("h2", "", "Kept on this device only").into());
    nodes.push(
        text(
            "p",
            "hint",
            "What you practised goes along when the cabinet is exported. Or take it by itself:",
        )
        .into(),
    );
    nodes.push(
        el("div", "keyrow")
            .put(key("key", "Save it as a file", frame.on, Msg::Export))
            .put(file(frame))
            .into(),
    );
    nodes.push(el("div", "keyrow").put(link("key", "./", "Look at a piece")).into());
    Body { title: "Learning to see".to_string(), nodes, bar: vec![link("main", "#task", "Practise")] }
}

fn lesson((at, line): (usize, &LessonLine)) -> Node {
    let says = if line.done { format!("{}. Done.", line.help) } else { line.help.to_string() };
    way(Page::Lesson(at), &format!("{}. {}", at + 1, line.title), &says)
}

/// A line that leads somewhere, to be tapped anywhere on it.
pub(super) fn way(to: Page, title: &str, says: &str) -> Node {
    let line = link("way", &format!("#{}", to.fragment()), "");
    el("li", "").put(line.put(text("b", "", title)).put(text("span", "", says)))
}

fn file(frame: &Frame<'_>) -> Node {
    let other = frame.other.clone();
    let chosen = Callback::from(move |e: Event| {
        let input = e.target_unchecked_into::<HtmlInputElement>();
        if let Some(file) = input.files().and_then(|l| l.get(0)) {
            other.emit(Happened::Took(file));
        }
        // The same file may be chosen once more.
        input.set_value("");
    });
    let input = el("input", "").set("type", "file").set("accept", ".txt,text/plain").changed(chosen);
    el("label", "key file").put(text("span", "", "Take a file in")).put(input)
}
