//! Links from the question page to its places in the guide, by permanent codes.

use super::node::{Node, text};
use consult::Guide;

/// To the page of a question.
pub(super) fn question(guide: &Guide, question: usize) -> Node {
    link(guide, "look", guide.core.questions[question].code, "More in the guide")
}

/// The name of a kind, as a link to its page. What the guide does not know has none.
pub(super) fn kind(guide: &Guide, name: &str) -> Node {
    let known = guide.core.kinds.split_last().map_or(&[][..], |(_unknown, known)| known);
    match known.iter().find(|k| k.name == name) {
        Some(kind) => link(guide, "kind", kind.code, name),
        None => text("span", "", name),
    }
}

fn link(guide: &Guide, what: &str, code: u16, says: &str) -> Node {
    text("a", "in", says).set("href", &format!("book.html#{}/{what}/{code}", guide.core.head.id))
}
