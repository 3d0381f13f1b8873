//! Carries out what the photo room asks for.

use crate::browser::darkroom::{self, Heard};
use crate::browser::{page, save};
use consult::Msg;
use consult::photo::{Act, Develop};
use picture::ask::{Asked, Spot, strokes};
use sketch::{Art, Drawing, Look};
use yew::Callback;

pub(crate) fn develop(what: Develop, art: &Art, on: Callback<Msg>) {
    match what {
        Develop::Take(id) => darkroom::take(&id, move |heard| {
            on.emit(Msg::Photo(match heard {
                Heard::Shown(address) => Act::Shown(address),
                Heard::Told(words) => Act::Told(words),
                Heard::Done(mille) => Act::Done(mille),
                Heard::Failed(sentence) => Act::Failed(sentence),
            }));
        }),
        Develop::Ask(words) => darkroom::ask(&words),
        Develop::Compare(drawings) => {
            let soles = drawings.iter().map(|words| sole(words, art)).collect();
            darkroom::ask(&Asked::Compare(soles).words());
        }
        Develop::Save(svg) => {
            if !save::svg("sole", &svg) {
                let says = "This browser does not let pages save files.";
                on.emit(Msg::Notice(Some(says.to_string())));
            }
        }
        Develop::Print => page::print(),
        Develop::Screen => page::screens(move |name| on.emit(Msg::Photo(Act::Screen(name)))),
    }
}

/// The outline of a drawn sole; where none can be drawn, a triangle that is like no sole.
fn sole(words: &str, art: &Art) -> Vec<Spot> {
    let drawn = Drawing::parse(words).ok().and_then(|drawing| drawing.shapes(art));
    let body = drawn.and_then(|scene| {
        let body =
            scene.shapes.into_iter().find(|s| matches!(s.look, Look::Body | Look::AskedBody | Look::Asked));
        strokes(&body?.path)
    });
    body.unwrap_or_else(|| vec![Spot::new(0, 0), Spot::new(1000, 0), Spot::new(0, 1)])
}
