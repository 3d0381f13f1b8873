//! Blocks to nodes.

use super::screen::link;
use super::{numbered, table, years};
use crate::ui::drawing;
use crate::ui::node::{Node, el, key, text, toggle};
use consult::Theme;
use consult::book::{Act, Block, Card, Line, Piece, Tone, Turn};
use sketch::{Art, Drawing};
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What every block is drawn with.
pub(super) struct Frame<'a> {
    pub(super) art: &'a Art,
    pub(super) theme: Theme,
    pub(super) on: Option<&'a Callback<Turn>>,
}

/// Blocks one after the other.
pub(super) fn blocks(blocks: &[Block], frame: &Frame<'_>) -> Vec<Node> {
    blocks.iter().filter_map(|b| block(b, frame)).collect()
}

fn block(block: &Block, frame: &Frame<'_>) -> Option<Node> {
    Some(match block {
        Block::Text(tone, says) => {
            let (tag, class) = match tone {
                Tone::Plain => ("p", ""),
                Tone::Hint => ("p", "hint"),
                Tone::Small => ("p", "small"),
                Tone::Care => ("p", "care"),
                Tone::Check => ("p", "check"),
                Tone::Ask => ("h3", ""),
            };
            el(tag, class).put(line(says))
        }
        Block::Section(title, boxed, inside) => {
            let section = el("section", "").put(text("h2", "", title));
            let inside = blocks(inside, frame);
            if *boxed { section.put(el("div", "card").all(inside)) } else { section.all(inside) }
        }
        Block::Rows(rows) => {
            el("div", "rows").all(rows.iter().map(|row| named(el("div", ""), "i", "span", row)))
        }
        Block::Shares(rows) => {
            el("ul", "shares").all(rows.iter().map(|row| named(el("li", ""), "span", "b", row)))
        }
        Block::Lines(lines) => lined(lines),
        Block::Cards(cards) => el("div", "choices").all(cards.iter().map(|c| card(c, frame.art))),
        Block::Keys(keys) => el("div", "keyrow").all(keys.iter().map(|(to, says, here)| {
            let node = link("key", to, says);
            if *here { node.set("aria-current", "page") } else { node }
        })),
        Block::Pieces(pieces) => {
            let alone = pieces.len() == 1;
            el("div", "pieces").all(pieces.iter().map(|p| piece(p, alone, frame.art)))
        }
        Block::Table(t) => table::table(t),
        Block::Years(makes) => years::years(makes),
        Block::Money(inside, open) => money(inside, *open, frame),
        Block::Search(label, typed) => search(label, typed, frame.on),
        Block::Save => save(frame.on?),
        Block::Numbered(piece, parts) => numbered::numbered(piece, parts, frame.art),
        Block::Themes => themes(frame.theme, frame.on?),
        Block::Said(says) => text("h2", "", says).set("id", "said").set("tabindex", "-1"),
        Block::Acts(acts) => {
            let on = frame.on?;
            let act = |a: &Act| key("key", &a.says, on, Turn::Have { what: a.what, value: a.value.clone() });
            el("div", "keyrow").all(acts.iter().map(act))
        }
        Block::Pick { id, says, what, several } => pick(id, says, what, *several, frame.on?),
        Block::Field { id, says } => {
            let input = el("input", "").set("id", id).set("autocomplete", "off").set("autocapitalize", "off");
            let input = input.set("spellcheck", "false");
            let row = el("div", "row").put(input);
            el("div", "typing").put(text("label", "", says).set("for", id)).put(row)
        }
    })
}

/// A list of lines; those that lead somewhere can be tapped anywhere.
pub(super) fn lined(lines: &[Line]) -> Node {
    el("ul", "lines").all(lines.iter().map(|l| el("li", "").put(line(l))))
}

/// A line of words, as a link where it leads somewhere.
pub(super) fn line(line: &Line) -> Html {
    let node = if line.to.is_empty() { el("span", "") } else { el("a", "line").set("href", &line.to) };
    let node = if line.strong.is_empty() { node } else { node.put(text("b", "", &line.strong)) };
    node.say(&line.says).into()
}

fn named(node: Node, name: &'static str, says: &'static str, row: &(String, String)) -> Node {
    node.put(text(name, "", &row.0)).put(text(says, "", &row.1))
}

fn card(card: &Card, art: &Art) -> Node {
    let node =
        if card.to.is_empty() { el("div", "choice still") } else { el("a", "choice").set("href", &card.to) };
    let node = node.maybe(drawing::of_choice(&card.draw, art)).put(text("span", "", &card.says));
    if card.note.is_empty() { node } else { node.put(text("i", "", &card.note)) }
}

/// Alone from three sides, beside another from the side and from below.
fn piece(piece: &Piece, alone: bool, art: &Art) -> Node {
    let around = || drawing::shown(&Drawing::parse(&piece.draw).ok()?.around(piece.mm), art, true);
    let picture = if alone { around() } else { drawing::of_kind(&piece.draw, piece.mm, art) };
    el("figure", "").maybe(picture).put(text("figcaption", "", &piece.says))
}

/// What is hidden stands on paper all the same.
fn money(inside: &[Block], open: bool, frame: &Frame<'_>) -> Node {
    let class = if open { "money" } else { "money shut" };
    let says = if open { "Hide the money" } else { "Show the money" };
    let key = frame.on.map(|on| key("key", says, on, Turn::Money).flag("aria-expanded", open).into());
    el("div", "").maybe(key).put(el("div", class).all(blocks(inside, frame)))
}

fn search(label: &str, typed: &str, on: Option<&Callback<Turn>>) -> Node {
    let input = el("input", "").set("id", "find").set("type", "search").set("autocomplete", "off");
    let input = input.set("enterkeyhint", "search").value(typed);
    let input = match on {
        Some(on) => input.typed(
            on.reform(|e: InputEvent| Turn::Type(e.target_unchecked_into::<HtmlInputElement>().value())),
        ),
        None => input.set("disabled", ""),
    };
    el("div", "typing")
        .set("role", "search")
        .put(text("label", "", label).set("for", "find"))
        .put(el("div", "row").put(input))
}

fn save(on: &Callback<Turn>) -> Node {
    let key = |says: &str, png: bool| key("key", says, on, Turn::Save { png });
    el("div", "keyrow saves").put(key("Save as SVG", false)).put(key("Save as PNG", true))
}

/// The field itself lies over the whole of it, so that it can be dropped on.
fn pick(id: &str, says: &str, what: &'static str, several: bool, on: &Callback<Turn>) -> Node {
    let value = id.to_string();
    let chosen = on.reform(move |_: Event| Turn::Have { what, value: value.clone() });
    let field = el("input", "").set("id", id).set("type", "file").changed(chosen);
    let field = if several { field.set("multiple", "") } else { field };
    el("label", "drop").set("for", id).put(text("span", "key", says)).put(field)
}

fn themes(theme: Theme, on: &Callback<Turn>) -> Node {
    let themes =
        [("As the phone", Theme::Phone), ("Light", Theme::Light), ("Dark", Theme::Dark), ("Sun", Theme::Sun)];
    let key = |(says, one): (&'static str, Theme)| toggle("key", says, one == theme, on, Turn::Theme(one));
    el("div", "keyrow").set("role", "group").set("aria-label", "How it is shown").all(themes.map(key))
}
