//! Which figures travel with the core, and which with the book.

use crate::art::Figure;
use crate::model::Model;
use pack::Core;
use sketch::{Art, Drawing};

/// The figures of a pack in two halves.
pub(crate) struct Halves {
    /// What the drawings of the first question need: they must be there before the book. The others come with it, by the
    /// time somebody has answered; a choice without its drawing is told by its label.
    pub(crate) early: Vec<pack::Figure>,
    /// What all drawings need, with the phrases.
    pub(crate) late: Vec<pack::Figure>,
}

/// Parts the figures; those that nothing uses stay behind.
pub(crate) fn of(model: &Model, core: &Core) -> Halves {
    let figures = &model.art;
    let art = Art::new(figures.iter().map(Figure::parts));
    let choices = |q: &pack::Question| -> Vec<String> {
        let drawn = q.choices.iter().filter_map(|c| Drawing::parse(&c.draw).ok());
        drawn.flat_map(|d| d.figures(&art)).collect()
    };
    let early: Vec<String> =
        core.opening.iter().take(1).flat_map(|q| choices(&core.questions[usize::from(*q)])).collect();
    // A kind is shown from the side and from below, or from three sides with bars that depend on its length.
    let kinds = model.kinds.iter().filter_map(|k| Drawing::parse(&k.draw).ok()).flat_map(|d| {
        let around = [20, 120, 240].map(|mm| d.clone().around(mm));
        around.into_iter().chain([d.beside(80)])
    });
    // A piece in the hand may be longer than any card.
    let longest = Drawing::parse("view=card size=400").into_iter().flat_map(|d| d.figures(&art));
    let drawn = core.questions.iter().flat_map(choices).chain(kinds.flat_map(|d| d.figures(&art)));
    let proofs = model.taught.proofs.iter().filter_map(|p| Drawing::parse(&p.wire.draw).ok());
    let all: Vec<String> = drawn.chain(longest).chain(proofs.flat_map(|d| d.figures(&art))).collect();
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
