//! One question.

use super::node::{Node, button, el, key, several, text};
use super::{drawing, in_guide, typing};
use consult::{ChoiceView, Guide, LookView, Msg};
use sketch::Art;
use yew::prelude::*;

/// A question with its choices: buttons, or links before the program has come.
pub(crate) fn look(view: &LookView, art: &Art, program: Option<(&Guide, &Callback<Msg>)>) -> Html {
    let on = program.map(|(_, on)| on);
    let mut nodes = Vec::new();
    let why = on.map(|on| key("", "Why this?", on, Msg::Why).flag("aria-expanded", view.why_open).into());
    nodes.push(el("div", "q").named("q").put(heading(&view.ask)).maybe(why).into());
    nodes.push(text("p", "hint", &view.look).named("hint").into());
    if let (Some(lines), Some((guide, _))) = (&view.why, program) {
        let care = view
            .newcomers
            .as_ref()
            .map(|n| el("p", "").put(text("b", "", "Where newcomers slip: ")).say(n).into());
        nodes.push(
            el("div", "card")
                .named("why")
                .all(lines.iter().map(|l| text("p", "", l)))
                .maybe(care)
                .put(in_guide::question(guide, view.question))
                .into(),
        );
    }
    if let Some(either) = &view.either {
        nodes.push(text("p", "told", either).named("either").set("role", "status").into());
    }
    let choices = view.choices.iter().map(|c| choice(view.question, c, art, on));
    nodes.push(
        el("div", "choices")
            .named("choices")
            .set("role", "group")
            .set("aria-labelledby", "heading")
            .all(choices)
            .into(),
    );
    if let (Some(t), Some(on)) = (&view.typing, on) {
        nodes.push(typing::typing(view.question, t, on));
    }
    several(nodes)
}

/// The heading that takes the focus when the screen changes.
pub(crate) fn heading(says: &str) -> Node {
    text("h1", "", says).named("heading").set("id", "heading").set("tabindex", "-1")
}

fn choice(question: usize, choice: &ChoiceView, art: &Art, on: Option<&Callback<Msg>>) -> Node {
    let class = if choice.chosen { "choice chosen" } else { "choice" };
    let node = match on {
        Some(on) => button(class, on, Msg::Choose { question, choice: choice.choice }),
        None => el("a", class).set("href", &format!("#{}", choice.link)),
    };
    let node = if choice.chosen { node.flag("aria-pressed", true) } else { node };
    node.maybe(drawing::of_choice(&choice.draw, art)).put(text("span", "", &choice.label))
}
