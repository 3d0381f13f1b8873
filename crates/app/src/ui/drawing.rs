//! A sketch as SVG nodes: presentation by class only, since the page's policy refuses style attributes.

use super::node::{Node, el};
use consult::Figure;
use sketch::{Art, Drawing, Look};
use yew::prelude::*;

/// Adds the figures of a pack.
pub(crate) fn learn(art: &mut Art, figures: &[Figure]) {
    art.add(figures.iter().map(|f| (f.name.as_str(), f.strokes.as_str(), f.says.as_str())));
}

/// The drawing of these words, nothing for words that cannot be drawn with the art that has come. With `alt` it speaks
/// for itself, otherwise the words beside it do.
pub(crate) fn drawing(words: &str, art: &Art, alt: bool) -> Option<Html> {
    let drawing = Drawing::parse(words).ok()?;
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

fn class(look: Look) -> &'static str {
    match look {
        Look::Body => "d-body",
        Look::Line => "d-line",
        Look::Thin => "d-thin",
        Look::Asked => "d-asked",
        Look::AskedThin => "d-asked d-fine",
        Look::AskedBody => "d-asked d-body",
        Look::Hole => "d-hole",
        Look::Day => "d-day",
    }
}
