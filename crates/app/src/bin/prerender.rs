//! Prints the first question of a pack as HTML, drawn by the page's own components, so that it stands on the page
//! before any program has come. Usage: `prerender <core file>`.

use app::ui::FirstQuestion;
use consult::{Guide, State, view};
use sketch::Art;
use std::io::Write;
use std::rc::Rc;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let path = std::env::args().nth(1).ok_or("Name the file of the pack's core.")?;
    // The year bears on findings only; the first question is the same in every year.
    let guide = Guide::from_bytes(&std::fs::read(path)?, None, 2000)?;
    let art = guide.core.art.iter().map(|f| (f.name.as_str(), f.strokes.as_str(), ""));
    let art = Art::new(art);
    let view = view(&guide, &State::default(), true);
    let renderer = yew::ServerRenderer::<FirstQuestion>::with_props(move || app::ui::FirstProps {
        view: Rc::new(view),
        art,
    })
    .hydratable(false);
    std::io::stdout().write_all(pollster::block_on(renderer.render()).as_bytes())?;
    Ok(())
}
