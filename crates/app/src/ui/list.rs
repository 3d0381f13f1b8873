//! All looks at once, by part of the piece, answered in place.

use super::look::heading;
use super::node::{Node, el, key, several, text, toggle};
use consult::{ListedLook, Msg, PartView};
use yew::prelude::*;

pub(crate) fn list(parts: &[PartView], on: &Callback<Msg>) -> Html {
    let mut nodes: Vec<Html> = vec![
        heading("All looks").into(),
        text("p", "hint", "Answer in any order. A bar at the side marks the three that tell most now.")
            .named("hint")
            .into(),
    ];
    for part in parts {
        nodes.push(text("h2", "", &part.part).named(&part.part).into());
        nodes.extend(part.looks.iter().map(|l| row(l, on).into()));
    }
    several(nodes)
}

fn row(look: &ListedLook, on: &Callback<Msg>) -> Node {
    let question = look.question;
    let answered = look.cannot || look.measured.is_some() || look.choices.iter().any(|c| c.2);
    let name = format!("ask-{question}");
    let mut heading = text("h3", "", &look.ask).set("id", &name);
    if look.tells_most {
        heading = heading.put(text("span", "unseen", " (tells most now)"));
    }
    let choice = |(choice, label, set): &(usize, String, bool)| {
        let msg = if *set { Msg::TakeBack(question) } else { Msg::Choose { question, choice: *choice } };
        toggle("key", label, *set, on, msg).named(&choice.to_string())
    };
    let mut keys = el("div", "keyrow").all(look.choices.iter().map(choice));
    if let Some(measured) = &look.measured {
        keys = keys.put(toggle("key", measured, true, on, Msg::TakeBack(question)).named("measured"));
    }
    let cannot = if look.cannot { Msg::TakeBack(question) } else { Msg::Cannot(question) };
    keys = keys.put(toggle("key quiet", "can't tell", look.cannot, on, cannot).named("cannot"));
    if answered && !look.cannot {
        keys =
            keys.put(toggle("key quiet", "not sure", look.unsure, on, Msg::Unsure(question)).named("unsure"));
    }
    let open =
        key("key quiet", if look.typed { "drawings, type it" } else { "drawings" }, on, Msg::Ask(question));
    keys = keys.put(open.named("open").put(text("span", "unseen", &format!(" for: {}", look.ask))));
    el("div", if look.tells_most { "listed most" } else { "listed" })
        .named(&name)
        .set("role", "group")
        .set("aria-labelledby", &name)
        .put(heading)
        .put(keys)
}
