//! The figures that travel are all that the pack's drawings need: nothing stands undrawn on the page.

use sketch::{Art, Drawing};
use tests::packs::guide;

fn art(figures: &[consult::Figure]) -> Art {
    Art::new(figures.iter().map(|f| (f.name.as_str(), f.strokes.as_str(), f.says.as_str())))
}

fn drawn(words: &str, art: &Art) -> bool {
    Drawing::parse(words).is_ok_and(|d| d.shapes(art).is_some())
}

#[test]
fn every_kind_and_every_choice_is_drawn() {
    let guide = guide();
    let book = guide.book.as_ref().expect("the guide of the tests has its book");
    let (early, late) = (art(&guide.core.art), art(&book.art));
    for question in guide.core.opening.iter().map(|q| &guide.core.questions[usize::from(*q)]) {
        let undrawn: Vec<_> = question.choices.iter().filter(|c| !drawn(&c.draw, &early)).collect();
        assert!(undrawn.is_empty(), "before the book: {undrawn:?}");
    }
    for choice in guide.core.questions.iter().flat_map(|q| &q.choices).filter(|c| !c.draw.is_empty()) {
        assert!(drawn(&choice.draw, &late), "{}", choice.draw);
    }
    for text in book.kinds.iter().filter(|k| !k.draw.is_empty()) {
        let shown = Drawing::parse(&text.draw).is_ok_and(|d| d.beside(80).shapes(&late).is_some());
        assert!(shown, "{}", text.draw);
    }
}
