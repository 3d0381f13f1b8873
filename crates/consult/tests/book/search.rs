//! Finding things.

use crate::common::{irons, opened, tiny, under, words};
use consult::book::{Reading, Turn, sheet, turn};

fn typed(text: &str) -> String {
    let pages = tiny();
    words(&sheet(&pages, &turn(&pages, Reading::default(), Turn::Type(text.to_string())).0))
}

#[test]
fn names_purposes_notes_looks_and_words_are_found() {
    for (text, heading, first) in [
        ("wire", "Kinds", "[#tiny/kind/2 Wire grip]"),
        ("WIRE", "Kinds", "[#tiny/kind/2 Wire grip]"),
        ("child's play", "Kinds", "[#tiny/kind/1 Bar toy]"),
        ("paragraph", "Kinds", "[#tiny/kind/1 Bar toy]"),
        ("grip wire", "Kinds", "[#tiny/kind/2 Wire grip]"),
        ("held", "Words", "[#tiny/word/grip Grip: The part that is held.]"),
        ("blind", "Looks", "[#tiny/look/4 Do the holes go through?]"),
        // One letter missing, wrong, too many.
        ("wrking", "Kinds", "[#tiny/kind/2 Wire grip]"),
        ("wirking", "Kinds", "[#tiny/kind/2 Wire grip]"),
        ("workking", "Kinds", "[#tiny/kind/2 Wire grip]"),
    ] {
        assert_eq!(under(&typed(text), heading)[0], first, "{text}");
    }
}

#[test]
fn every_word_must_be_met_somewhere() {
    let none = "Nothing in the guide is like that. Try one word, or a shorter one.";
    assert!(typed("wire zebra").contains(none));
    assert!(typed("zebra").contains(none));
    assert!(!typed("").contains(none));
    assert!(!typed("--").contains(none), "nothing was looked for");
}

#[test]
fn the_better_place_comes_first() {
    let told = words(&opened(&irons(), "#irons/find/swan"));
    assert!(under(&told, "Kinds")[0].ends_with("Swan]"), "the name before the notes: {told}");
}

#[test]
fn the_glossary_and_the_choice_of_a_pair_can_be_searched() {
    let pages = irons();
    let whole = words(&opened(&pages, "#irons/words")).lines().count();
    let some = words(&opened(&pages, "#irons/words/blind+hol"));
    assert!(some.lines().count() * 4 < whole, "{some}");
    assert!(some.contains("[#irons/word/blind-hole Blind hole: "), "{some}");
    let choosing = crate::common::went(&pages, Reading::default(), "#irons/compare/1", 0, false).0;
    let all = words(&sheet(&pages, &choosing)).lines().count();
    let (typed, errands) = turn(&pages, choosing, Turn::Type("swan".to_string()));
    assert!(errands.is_empty(), "the address stays");
    let some = words(&sheet(&pages, &typed));
    assert!(some.lines().count() * 4 < all && some.contains(" Swan]"), "{some}");
}
