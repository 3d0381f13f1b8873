//! What stands on the pages of the small invented pack, worked out by hand, and what holds on those of the bundled one.

use crate::common::{irons, opened, tiny, under, words};
use consult::book::{Block, Page, Reading, Turn, sheet, turn};

/// All figures of this pack are invented; what is computed from them is worked out in the remarks.
#[test]
fn a_kind() {
    let told = words(&opened(&tiny(), "#tiny/kind/1"));
    let top: Vec<&str> = told.lines().take(8).collect();
    assert_eq!(
        top,
        [
            "Toy iron with a bar",
            "69 mm: Bar toy: a typical one",
            "A child's play iron.",
            // 85 of 100, in tens.
            "Made as: toy: likely, 9 in 10",
            "Use: could have served as toy",
            // makes = 80 to 20.
            "Mostly: period piece: likely, 8 in 10",
            "When: period pieces mostly 1880 to 1915, hardly before 1850 or after 1935",
            // Nineteen in twenty from 38 to 100, so 69 in the middle; 6.9^3 cm3 at 0.40 to 0.65 g/cm3 is 131 to 214 g.
            "Size: 38 to 100 mm, 19 in 20; at 69 mm 130 to 220 g",
        ]
    );
    assert_eq!(under(&told, "Take care"), ["Old paint may hold lead. Keep it from children."]);
    // "bar always" is held to 93 of 100. Of all pieces: prior 100 x 0.8 and 0.2 of the toy (share of bars 0.93
    // and 0.5) and 10 of the wire iron, which has none: (80 x 0.93 + 20 x 0.5) / 110 = 0.77.
    assert_eq!(
        under(&told, "What to look for")[1..],
        ["[#tiny/look/3 Plain bar] What is the grip like? Here 19 in 20; of all 8 in 10."]
    );
    assert_eq!(
        under(&told, "Taken for"),
        ["[#tiny/compare/1/2 Wire grip: Is the grip one piece with the body?]"]
    );
    // Bright: 20 of 100 against 600 of 750 ("usually", "sometimes"). Holes: half of what "bar always" leaves, 3.5
    // of 100, against 50.
    assert_eq!(
        under(&told, "How copies give themselves away")[1..],
        [
            "Period piece | Later casting",
            "[#tiny/look/5 The metal is bright.]",
            "2 in 10 | 8 in 10",
            "[#tiny/look/3 The grip has holes.]",
            "1 in 30 | 5 in 10",
        ]
    );
    assert_eq!(
        under(&told, "What it is worth"),
        [
            "hidden:",
            "Period piece: 10 to 36 USD for half of sound, typical, complete ones; money of 2020; invented, for \
             demonstration only.",
            "Price evidence, not an appraisal: insurance and tax need a qualified one.",
        ]
    );
    assert_eq!(
        under(&told, "What it was made as"),
        [
            "Period piece",
            "Toy: likely, 9 in 10",
            "Working iron: unlikely, 2 in 10",
            "Later casting",
            "Ornament: very likely, 9 in 10",
            "Toy: unlikely, 1 in 10",
        ]
    );
    assert_eq!(under(&told, "About this kind"), ["First paragraph, two lines.", "Second paragraph."]);
    assert_eq!(under(&told, "Words used here"), ["[#tiny/word/grip Grip: The part that is held.]"]);
    let rests = under(&told, "What this rests on");
    assert_eq!(rests[0], "Years, period piece: from memory, not checked.");
    assert!(rests.contains(&"Invented tables for tests, page 1".to_string()), "{rests:?}");
}

#[test]
fn a_kind_without_copies_prices_or_notes_says_nothing_of_them() {
    let told = words(&opened(&tiny(), "#tiny/kind/2"));
    for absent in
        ["== How copies give themselves away", "== About this kind", "== Take care", "== Where it is met"]
    {
        assert!(!told.contains(absent), "{absent}");
    }
    assert_eq!(under(&told, "What it is worth"), ["No figures for pieces like this one in the guide."]);
    // The check is written at the other kind, and holds from both sides.
    assert_eq!(
        under(&told, "Taken for"),
        ["[#tiny/compare/2/1 Bar toy: Is the grip one piece with the body?]"]
    );
}

#[test]
fn money_is_hidden_until_it_is_asked_for_and_hidden_again_on_the_next_page() {
    let pages = tiny();
    let at = |fragment: &str, reading| crate::common::went(&pages, reading, fragment, 0, false).0;
    let shows = |reading: &Reading| words(&sheet(&pages, reading)).contains("\nshown:");
    let first = at("#tiny/kind/1", Reading::default());
    assert!(!shows(&first));
    let (open, _) = turn(&pages, first, Turn::Money);
    assert!(shows(&open));
    let next = at("#tiny/kind/2", open);
    assert!(!shows(&at("#tiny/kind/1", next)));
}

#[test]
fn two_kinds_side_by_side() {
    let told = words(&opened(&tiny(), "#tiny/compare/1/2"));
    let lines: Vec<&str> = told.lines().collect();
    assert_eq!(
        lines[..2],
        ["Bar toy or wire grip?", "The deciding check: Is the grip one piece with the body?"]
    );
    let at =
        lines.iter().position(|l| *l == "[#tiny/look/3 What is the grip like?] (differ clearly)").unwrap();
    assert_eq!(
        lines[at + 1],
        "*Plain bar: very likely, 19 in 20* | *Wire: virtually certain, over 99 in 100*"
    );
    // Both are period pieces with the same table for the colour, as far as the form named small goes along.
    assert_eq!(under(&told, "Much the same in both")[0], "[#tiny/look/5 What colour is the metal?]");
    // The same look the other way round, with its columns changed over.
    let back = words(&opened(&tiny(), "#tiny/compare/2/1"));
    assert!(back.contains("*Wire: virtually certain, over 99 in 100* | *Plain bar: very likely, 19 in 20*"));
}

/// Looks stand in the order of how far they differ, in both directions the same.
#[test]
fn differences_stand_in_order() {
    let pages = irons();
    let marks = |one: usize, other: usize| -> Vec<(String, u16)> {
        let shown = opened(&pages, &pages.fragment(&Page::Compare(one, Some(other))));
        let table = shown.body.iter().find_map(|b| match b {
            Block::Table(t) => Some(t),
            _ => None,
        });
        let marked =
            table.unwrap().rows.iter().filter_map(|r| Some((r.name.strong.clone(), r.mark.as_ref()?.0)));
        marked.collect()
    };
    let mut differing = 0;
    for (one, other) in [(0, 1), (0, 20), (3, 40), (10, 60), (15, 16)] {
        let there = marks(one, other);
        differing += there.len();
        assert!(there.windows(2).all(|w| w[0].1 >= w[1].1), "{there:?}");
        let mut back = marks(other, one);
        let mut there = there;
        back.sort();
        there.sort();
        assert_eq!(there, back, "{one} {other}");
    }
    assert!(differing > 20, "{differing} rows");
}

#[test]
fn a_look() {
    let told = words(&opened(&tiny(), "#tiny/look/3"));
    let lines: Vec<&str> = told.lines().collect();
    assert_eq!(
        lines[..6],
        [
            "What is the grip like?",
            "Look from the side.",
            "About 3 seconds. A picture is enough.",
            "Plain bar",
            "Bar with holes",
            "Wire",
        ]
    );
    assert_eq!(under(&told, "Where newcomers slip"), ["They take gaps between wire for holes."]);
    assert_eq!(under(&told, "To ask a seller"), ["What is the handle like?"]);
    assert_eq!(
        under(&told, "What each answer points to"),
        [
            "Plain bar",
            "[#tiny/kind/1 Bar toy]",
            "Wire",
            "[#tiny/kind/2 Wire grip]",
            "All of them",
            "[#tiny/kinds/3 Kinds by this look]",
        ]
    );
    let gated = words(&opened(&tiny(), "#tiny/look/4"));
    assert!(
        gated.contains("Asked after \u{201c}What is the grip like?\u{201d} was answered so: Bar with holes.")
    );
}

#[test]
fn kinds_are_grouped_by_looks_roles_and_names() {
    let pages = tiny();
    let by = |fragment| words(&opened(&pages, fragment));
    assert_eq!(by("#tiny/kinds"), by("#tiny/kinds/3"), "the first look of the opening with choices");
    assert_eq!(under(&by("#tiny/kinds/3"), "Wire")[0], "[#tiny/kind/2 Wire grip]");
    assert_eq!(under(&by("#tiny/kinds/made-as"), "Working iron")[0], "[#tiny/kind/2 Wire grip]");
    let names = by("#tiny/kinds/names");
    assert!(names.find("Bar toy").unwrap() < names.find("Wire grip").unwrap());
    assert!(names.contains("[#tiny/kinds/names A to Z] here"));
}

#[test]
fn a_word_shows_where_it_is_met() {
    let told = words(&opened(&tiny(), "#tiny/word/grip"));
    assert_eq!(under(&told, "Met at these kinds"), ["[#tiny/kind/2 Wire grip]"]);
    assert!(
        told.contains("[#tiny/look/3 Plain bar] What is the grip like?"),
        "drawn by the choice whose clue names it"
    );
}

#[test]
fn parts_are_numbered_where_the_drawing_of_a_whole_piece_shows_them() {
    let told = words(&opened(&tiny(), "#tiny/parts"));
    let lines = under(&told, "Bar toy");
    assert_eq!(lines[0], "Bar toy: a typical one");
    assert!(
        lines[2].starts_with("grip: A solid cast bar. [#tiny/word/grip Grip: The part that is held.]"),
        "{lines:?}"
    );
}

#[test]
fn care_says_what_is_never_done() {
    let told = words(&opened(&irons(), "#irons/care"));
    for says in [
        "Never heat",
        "plug it in",
        "Do not repaint",
        "do not scrub",
        "Local rules",
        "lead",
        "asbestos",
        "choke",
    ] {
        assert!(told.contains(says), "{says}");
    }
}

/// Every kind of the bundled pack has what the guide promises of it, and says what its figures rest on.
#[test]
fn every_kind_is_told_in_full() {
    let pages = irons();
    let mut kinds = 0;
    for code in 1..400 {
        let Ok(page) = pages.page(&format!("#irons/kind/{code}")) else { continue };
        let told = words(&opened(&pages, &pages.fragment(&page)));
        kinds += 1;
        for heading in [
            "What to look for",
            "Taken for",
            "When it was made",
            "What it is worth",
            "What it was made as",
            "About this kind",
            "What this rests on",
        ] {
            assert!(told.contains(&format!("\n== {heading}\n")), "kind {code} lacks {heading}:\n{told}");
        }
        assert!(told.contains("\nMade as: ") && told.contains("\nSize: "), "kind {code}:\n{told}");
        let worth = under(&told, "What it is worth");
        if worth.len() > 1 {
            assert!(worth.last().unwrap().contains("not an appraisal"), "kind {code}");
            let figures = &worth[1..worth.len() - 1];
            let full = |l: &String| {
                l.contains("money of ")
                    && (l.contains("no source") || l.contains("not checked") || l.contains("published"))
            };
            assert!(figures.iter().all(full), "kind {code}: {figures:?}");
        }
        assert!(!told.contains("genuine"), "kind {code}");
    }
    assert!(kinds >= 70, "{kinds} kinds");
}
