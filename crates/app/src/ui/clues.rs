//! For and against: each clue with its strength, tappable to correct.

use super::node::{Node, button, el, text};
use consult::{ClueView, Msg, Screen};
use yew::prelude::*;

/// Half the width of the drawing stands for this strength, in hundredths of log10: a factor of thirty. Stronger
/// clues fill it; the words beneath tell them apart.
const FULL: i32 = 150;

pub(crate) fn clues(clues: &[ClueView], on: &Callback<Msg>) -> Node {
    let ends = el("p", "ends").flag("aria-hidden", true);
    el("div", "card clues")
        .named("clues.")
        .put(ends.put(text("span", "", "against")).put(text("span", "", "for")))
        .all(clues.iter().map(|c| clue(c, on)))
}

fn clue(clue: &ClueView, on: &Callback<Msg>) -> Node {
    let mut says = text("span", "says", &clue.text);
    if clue.unsure {
        says = says.say(" (not sure)");
    }
    let to = clue.question.map_or(Msg::Show(Screen::Marks), Msg::Ask);
    button("clue", on, to)
        .put(says)
        .put(bar(clue.strength))
        .put(text("span", "small", &format!("{}; {}", clue.words, clue.basis)))
        .maybe(clue.again.as_ref().map(|again| text("span", "again", again).into()))
        .put(text("span", "unseen", " Tap to correct."))
}

/// For is solid to the right, against is hatched to the left.
fn bar(strength: i32) -> Node {
    let long = (strength.abs().min(FULL) * 50 / FULL).max(1);
    let x = if strength < 0 { 52 - long } else { 52 };
    let class = if strength < 0 { "against" } else { "for" };
    let mut svg = el("svg", "strength").set("viewBox", "0 0 104 14").flag("aria-hidden", true);
    svg = svg.put(el("path", "axis").set("d", "M52 0V14"));
    svg = svg.put(el("rect", class).number("x", x).set("y", "1").number("width", long).set("height", "12"));
    if strength < 0 {
        let mut hatch = String::new();
        for at in (x..52).step_by(5) {
            hatch.push_str(&format!("M{at} 13L{} 1", (at + 5).min(52)));
        }
        svg = svg.put(el("path", "hatch").set("d", &hatch));
    }
    svg
}
