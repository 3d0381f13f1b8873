//! A sketch as SVG nodes: presentation by class only, since the page's policy refuses style attributes.

use super::node::{Node, el};
use consult::Figure;
use sketch::{Art, Drawing, Look};
use yew::prelude::*;

/// Adds the figures of a pack.
pub(crate) fn learn(art: &mut Art, figures: &[Figure]) {
    art.add(figures.iter().map(|f| (f.name.as_str(), f.strokes.as_str(), f.says.as_str())));
}

/// The drawing of a choice, nothing for words that cannot be drawn with the art that has come. The label beside it
/// speaks for it.
pub(crate) fn of_choice(words: &str, art: &Art) -> Option<Html> {
    shown(&Drawing::parse(words).ok()?, art, false)
}

/// The drawing of a typical piece from the side and from below, `mm` long, which speaks for itself.
pub(crate) fn of_kind(words: &str, mm: u32, art: &Art) -> Option<Html> {
    shown(&Drawing::parse(words).ok()?.beside(mm), art, true)
}

/// A drawing as nodes; `alt` for one that speaks for itself.
pub(crate) fn shown(drawing: &Drawing<'_>, art: &Art, alt: bool) -> Option<Html> {
    let scene = drawing.shapes(art)?;
    let svg = el("svg", "draw").set("viewBox", &format!("0 0 {} {}", scene.view_box.0, scene.view_box.1));
    let svg = if alt {
        svg.set("role", "img").set("aria-label", &drawing.alt(art))
    } else {
        svg.flag("aria-hidden", true)
    };
    let path = |s: &sketch::Shape| -> Node { el("path", class(s.look)).set("d", &s.path) };
    Some(svg.all(scene.shapes.iter().map(path)).into())
}

pub(crate) fn class(look: Look) -> &'static str {
    match look {
        Look::Body => "d-body",
        Look::Line => "d-line",
        Look::Thin => "d-thin",
        Look::Asked => "d-asked",
        Look::AskedThin => "d-asked d-fine",
        Look::AskedBody => "d-asked d-body",
        Look::Hole => "d-hole",
        Look::Day => "d-day",
        Look::Yellow => "d-day d-yellow",
        Look::Brown => "d-day d-brown",
    }
}
