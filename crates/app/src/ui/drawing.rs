//! A sketch as SVG nodes: presentation by class only, since the page's policy refuses style attributes.

use sketch::{Drawing, Look};
use yew::prelude::*;

/// The drawing of these words, nothing for words that cannot be drawn. With `alt` it speaks for itself, otherwise the
/// words beside it do.
pub(crate) fn drawing(words: &str, alt: bool) -> Html {
    let Ok(drawing) = Drawing::parse(words) else {
        return html! {};
    };
    let scene = drawing.shapes();
    let view_box = format!("0 0 {} {}", scene.view_box.0, scene.view_box.1);
    let paths = scene
        .shapes
        .into_iter()
        .map(|s| html! { <path d={s.path} class={class(s.look)} /> });
    if alt {
        html! { <svg viewBox={view_box} class="draw" role="img" aria-label={drawing.alt()}>{ for paths }</svg> }
    } else {
        html! { <svg viewBox={view_box} class="draw" aria-hidden="true">{ for paths }</svg> }
    }
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
