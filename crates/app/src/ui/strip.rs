//! The strip under the title: what is known so far, the sole filling from heel to toe, the way to the finding.

use super::node::{Node, button, el, text};
use consult::{Msg, Screen, Strip};
use yew::prelude::*;

const SOLE: &str = "M30 3C44 18 55 46 54 72L53 92Q30 99 7 92L6 72C5 46 16 18 30 3Z";

/// A button to the finding; plain text before the program has come.
pub(crate) fn strip(strip: &Strip, on: Option<&Callback<Msg>>) -> Html {
    let says = el("span", "").put(text("strong", "", &strip.fits)).say(&strip.left);
    let fill = |node: Node| node.put(sole(strip.known)).put(says);
    match on {
        Some(on) => fill(button("strip", on, Msg::Show(Screen::Finding)))
            .put(text("span", "go", "See finding"))
            .into(),
        None => fill(el("div", "strip")).into(),
    }
}

/// The emblem as a meter, beside the words and never instead of them.
fn sole(permille: u16) -> Node {
    let filled = 96 * i32::from(permille.min(1000)) / 1000;
    let outline = |class| el("path", class).set("d", SOLE);
    let fill = el("rect", "fill").set("clip-path", "url(#sole)").set("width", "60").set("height", "100");
    el("svg", "sole")
        .set("viewBox", "0 0 60 100")
        .flag("aria-hidden", true)
        .put(el("clipPath", "").set("id", "sole").put(outline("")))
        .put(fill.number("y", 99 - filled))
        .put(outline("line"))
}
