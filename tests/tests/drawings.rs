//! The figures that travel are all that the pack's drawings need: nothing stands undrawn on the page.

use sketch::{Art, Drawing, Scene};
use tests::packs::{conditions, guide};

fn art(figures: &[consult::Figure]) -> Art {
    Art::new(figures.iter().map(|f| (f.name.as_str(), f.strokes.as_str(), f.says.as_str())))
}

fn drawn(words: &str, art: &Art) -> bool {
    Drawing::parse(words).is_ok_and(|d| d.shapes(art).is_some())
}

/// A kind as its page shows it.
fn sides(words: &str, mm: u32, art: &Art) -> Option<Scene> {
    Drawing::parse(words).ok()?.around(mm).shapes(art)
}

#[test]
fn every_kind_and_every_choice_is_drawn() {
    let guide = guide();
    let book = guide.book.as_ref().expect("the guide of the tests has its book");
    let (early, late) = (art(&guide.core.art), art(&book.art));
    let first = &guide.core.questions[usize::from(guide.core.opening[0])];
    let undrawn: Vec<_> = first.choices.iter().filter(|c| !drawn(&c.draw, &early)).collect();
    assert!(undrawn.is_empty(), "before the book: {undrawn:?}");
    // No choice is told in words alone.
    for choice in guide.core.questions.iter().flat_map(|q| &q.choices) {
        assert!(drawn(&choice.draw, &late), "{}: {:?}", choice.label, choice.draw);
    }
    for text in book.kinds.iter().filter(|k| !k.draw.is_empty()) {
        let shown = Drawing::parse(&text.draw).is_ok_and(|d| d.beside(80).shapes(&late).is_some());
        assert!(shown, "{}", text.draw);
        // Bars in mm and inches differ from length to length.
        for mm in (10..=400).step_by(5) {
            assert!(sides(&text.draw, mm, &late).is_some(), "{} at {mm} mm", text.draw);
        }
    }
}

#[test]
fn choices_of_a_question_and_kinds_differ_in_picture_and_in_words() {
    let guide = guide();
    let book = guide.book.as_ref().expect("the guide of the tests has its book");
    let late = art(&book.art);
    for question in &guide.core.questions {
        for (i, a) in question.choices.iter().enumerate() {
            for b in &question.choices[..i] {
                let [(da, sa), (db, sb)] = [a, b].map(|c| {
                    let d = Drawing::parse(&c.draw).expect("words that the compiler took");
                    (d.shapes(&late), d.alt(&late))
                });
                assert!(da != db && sa != sb, "{}: {} and {} are drawn alike", question.id, a.id, b.id);
            }
        }
    }
    // To one length, so that it is the form and not the bar that differs.
    let kinds = guide.core.kinds.iter().zip(&book.kinds).filter(|(_, text)| !text.draw.is_empty());
    let kinds: Vec<_> = kinds.map(|(kind, text)| (&kind.id, sides(&text.draw, 90, &late))).collect();
    let pairs = kinds.iter().enumerate().flat_map(|(i, a)| kinds[..i].iter().map(move |b| (a, b)));
    let alike: Vec<_> = pairs.filter(|(a, b)| a.1 == b.1).map(|(a, b)| (a.0, b.0)).collect();
    assert!(alike.is_empty(), "drawn alike: {alike:?}");
}

#[test]
fn what_must_come_early_is_short() {
    // The first question's figures are part of what a phone loads before it: 8 kB of strokes at most, before compression
    // (practice: a budget of our own).
    let early = &guide().core.art;
    let bytes: usize = early.iter().map(|f| f.name.len() + f.strokes.len() + f.says.len()).sum();
    assert!(bytes < 8_000, "{bytes} bytes in {} figures", early.len());
}

/// The tables of prices bring no figures of their own: a condition is drawn with those that the pack has anyway.
#[test]
fn conditions_are_drawn_with_what_the_pack_has() {
    let guide = guide();
    let late = art(&guide.book.as_ref().expect("the guide of the tests has its book").art);
    let conditions = conditions();
    let undrawn: Vec<_> = conditions.iter().filter(|(_, d, _)| !d.is_empty() && !drawn(d, &late)).collect();
    assert!(undrawn.is_empty(), "{undrawn:?}");
    assert!(conditions.iter().filter(|(_, d, _)| !d.is_empty()).count() > 10, "most are drawn");
    // And each caution that one calls for is in the pack.
    for care in conditions.iter().flat_map(|(_, _, care)| care.split_whitespace()) {
        assert!(guide.core.cautions.iter().any(|c| c.id == care), "{care}");
    }
}
