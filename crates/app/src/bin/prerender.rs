//! Prints the first screen of a page as HTML, drawn by the page's own components, so that it stands there before any
//! program has come. Usage: `prerender <core file>` for the first question, `prerender <core file> <book file>` for the
//! contents of the guide.

use app::guide::outside;
use app::pages::{Contents, ContentsProps, Shown};
use app::ui::{FirstProps, FirstQuestion};
use consult::book::{Pages, Reading, sheet};
use consult::{Figure, Guide, State, opening};
use sketch::Art;
use std::io::Write;
use std::rc::Rc;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut words = std::env::args().skip(1);
    let core = std::fs::read(words.next().ok_or("Name the file of the pack's core.")?)?;
    let html = match words.next() {
        Some(book) => contents(&Pages::from_bytes(&core, &std::fs::read(book)?, outside())?),
        // The year bears on findings only; the first question is the same in every year.
        None => first_question(&Guide::of_core(&core, 2000)?),
    };
    std::io::stdout().write_all(html.as_bytes())?;
    Ok(())
}

fn first_question(guide: &Guide) -> String {
    let (view, art) = (opening(guide, &State::default(), true), art(&guide.core.art));
    let renderer =
        yew::ServerRenderer::<FirstQuestion>::with_props(move || FirstProps { view: Rc::new(view), art });
    pollster::block_on(renderer.hydratable(false).render())
}

fn contents(pages: &Pages) -> String {
    let shown = Shown { sheet: sheet(pages, &Reading::default()), ..Shown::default() };
    let art = art(pages.art());
    let renderer = yew::ServerRenderer::<Contents>::with_props(move || ContentsProps { shown, art });
    pollster::block_on(renderer.hydratable(false).render())
}

fn art(figures: &[Figure]) -> Art {
    Art::new(figures.iter().map(|f| (f.name.as_str(), f.strokes.as_str(), "")))
}
