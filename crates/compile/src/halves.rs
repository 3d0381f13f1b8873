//! Which figures travel with the core, and which with the book.

use crate::art::Figure;
use crate::model::Model;
use pack::Core;
use sketch::{Art, Drawing};

/// The figures of a pack in two halves.
pub(crate) struct Halves {
    /// What the drawings of the opening's choices need: they must be there before the book.
    pub(crate) early: Vec<pack::Figure>,
    /// What all drawings need, with the phrases.
    pub(crate) late: Vec<pack::Figure>,
}

/// Parts the figures; those that nothing uses stay behind.
pub(crate) fn of(model: &Model, core: &Core) -> Halves {
    let figures = &model.art;
    let art = Art::new(figures.iter().map(Figure::parts));
    let uses = |lines: &mut dyn Iterator<Item = String>| -> Vec<String> {
        lines.filter_map(|line| Some(Drawing::parse(&line).ok()?.figures(&art))).flatten().collect()
    };
    let choices = |q: usize| core.questions[q].choices.iter().map(|c| c.draw.clone());
    let early = uses(&mut core.opening.iter().flat_map(|q| choices(usize::from(*q))));
    let all = uses(
        &mut (0..core.questions.len())
            .flat_map(choices)
            .chain(model.kinds.iter().map(|k| both_views(&k.draw))),
    );
    let figure = |f: &Figure, says: &str| pack::Figure {
        name: f.name.clone(),
        strokes: f.strokes.clone(),
        says: says.to_string(),
    };
    let used =
        |names: &[String]| -> Vec<&Figure> { figures.iter().filter(|f| names.contains(&f.name)).collect() };
    Halves {
        early: used(&early).into_iter().map(|f| figure(f, "")).collect(),
        late: used(&all).into_iter().map(|f| figure(f, &f.says)).collect(),
    }
}

/// A kind is shown from the side and from below.
fn both_views(draw: &str) -> String {
    let words = draw.split_whitespace().filter(|w| !w.starts_with("view="));
    words.chain(["view=both", "size=80"]).collect::<Vec<_>>().join(" ")
}
