//! The blocks of a screen.

use super::Frame;
use super::field::{field, file};
use crate::ui::node::{Node, button, el, text};
use keep::{Block, Does, Key, Label, Row};

pub(super) fn blocks(all: &[Block], frame: &Frame<'_>) -> Vec<Node> {
    all.iter().enumerate().map(|(at, block)| one(block, frame).named(&at.to_string())).collect()
}

fn one(block: &Block, frame: &Frame<'_>) -> Node {
    match block {
        Block::Heading(says) => text("h2", "", says),
        Block::Says(says) => lined("p", "", says),
        Block::Hint(says) => text("p", "hint", says),
        Block::Care(says) => text("p", "care", says).set("role", "note"),
        Block::Facts(facts) => el("dl", "facts").all(
            facts
                .iter()
                .map(|(name, value)| el("div", "").put(text("dt", "", name)).put(lined("dd", "", value))),
        ),
        Block::Table(heads, rows) => table(heads, rows),
        Block::Photos(all) => el("div", "photos").all(all.iter().map(|(digest, caption)| {
            let node = el("figure", "").put(picture(digest, caption, frame));
            if caption.is_empty() { node } else { node.put(text("figcaption", "", caption)) }
        })),
        Block::Blank(what, lines) => el("div", "blank")
            .put(text("p", "", what))
            .all((0..*lines).map(|_| el("p", "rule").say("\u{a0}"))),
        Block::Rows(rows) => el("ul", "pieces-list").all(rows.iter().map(|r| row(r, "piece-row", frame))),
        Block::Wall(rows) => el("ul", "pieces-wall").all(rows.iter().map(|r| row(r, "piece-tile", frame))),
        Block::Keys(says, keys) => {
            let row = el("div", "keyrow").all(keys.iter().map(|k| key("key", k, frame)));
            if says.is_empty() {
                row
            } else {
                let node = el("div", "about-keys").set("role", "group").set("aria-label", says);
                // A word names the group, a sentence is read by everybody.
                let sentence = says.ends_with([':', '.']);
                let seen = sentence.then(|| text("p", "hint", says).flag("aria-hidden", true).into());
                node.maybe(seen).put(row)
            }
        }
        Block::Fields(all) => el("div", "").all(all.iter().map(|f| field(f, frame).named(&f.spot.name()))),
        Block::File(take, label) => file(*take, label, frame),
        Block::Labels(all) => el("ul", "labels").all(all.iter().map(label)),
        Block::Card(all) => el("div", "card").all(blocks(all, frame)),
        Block::Progress(done, all) => progress(*done, *all),
    }
}

/// Text whose lines stay lines.
fn lined(tag: &'static str, class: &'static str, says: &str) -> Node {
    let mut node = el(tag, class);
    for (at, line) in says.split('\n').enumerate() {
        if at > 0 {
            node = node.put(el("br", ""));
        }
        node = node.say(line);
    }
    node
}

/// A key that sends a message, or a link that looks like one.
pub(super) fn key(class: &'static str, key: &Key, frame: &Frame<'_>) -> Node {
    let class = if key.strong { "key strong main" } else { class };
    let node = match &key.does {
        Does::Msg(msg) => button(class, frame.on, msg.clone()),
        Does::To(to) => el("a", class).set("href", to),
    };
    let node = node.say(&key.label);
    match key.on {
        Some(on) => node.flag("aria-pressed", on),
        None => node,
    }
}

fn picture(digest: &str, caption: &str, frame: &Frame<'_>) -> Node {
    match (frame.photo)(digest) {
        Some(address) => el("img", "")
            .set("src", &address)
            .set("alt", if caption.is_empty() { "Photograph" } else { caption })
            .set("loading", "lazy")
            .set("decoding", "async"),
        None => el("span", "no-photo").flag("aria-hidden", true),
    }
}

fn row(row: &Row, class: &'static str, frame: &Frame<'_>) -> Node {
    let node = match &row.does {
        Does::Msg(msg) => button(class, frame.on, msg.clone()),
        Does::To(to) => el("a", class).set("href", to),
    };
    let node = match row.chosen {
        Some(on) => node.flag("aria-pressed", on),
        None => node,
    };
    let words = el("span", "words").put(text("b", "", &row.title)).put(text("span", "", &row.says));
    let words = if row.care.is_empty() { words } else { words.put(text("span", "warned", &row.care)) };
    // The picture says nothing that the words do not.
    let picture = picture(&row.photo, "", frame).set("alt", "");
    el("li", "").named(&format!("{} {}", row.says, row.title)).put(node.put(picture).put(words))
}

fn table(heads: &[String], rows: &[Vec<String>]) -> Node {
    let head = el("tr", "").all(heads.iter().map(|h| text("th", "", h).set("scope", "col")));
    let cell = |(at, says): (usize, &String)| {
        let name = heads.get(at).map_or("", String::as_str);
        let node = if at == 0 { lined("th", "", says).set("scope", "row") } else { lined("td", "", says) };
        let node = node.set("data-head", name);
        if says.is_empty() { node.set("class", "nothing") } else { node }
    };
    let body = rows.iter().map(|r| el("tr", "").all(r.iter().enumerate().map(cell)));
    el("table", "ruled").put(el("thead", "").put(head)).put(el("tbody", "").all(body))
}

fn label(label: &Label) -> Node {
    let box_of = format!("0 0 {0} {0}", label.wide);
    let code = el("svg", "qr")
        .set("viewBox", &box_of)
        .set("role", "img")
        .set("aria-label", &format!("QR code: {}", label.number))
        .put(el("rect", "ground").number("width", label.wide).number("height", label.wide))
        .put(el("path", "").set("d", &label.path));
    el("li", "label").put(code).put(el("span", "words").put(text("b", "", &label.number)).put(text(
        "span",
        "",
        &label.title,
    )))
}

fn progress(done: usize, all: usize) -> Node {
    let says = if all == 0 { "Working.".to_string() } else { format!("{done} of {all}") };
    let bar = el("progress", "").set("max", &all.max(1).to_string()).set("value", &done.min(all).to_string());
    el("div", "told").put(text("p", "", &says).set("role", "status")).put(bar.set("aria-label", "Progress"))
}
