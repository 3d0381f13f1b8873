//! The pages that are about no pack: what was heard is shown as it was said, and as text.

use crate::common::{self, tiny, words};
use consult::book::{Errand, Heard, Pages, Reading, Turn, sheet, turn};

fn went(pages: &Pages, reading: Reading, fragment: &str) -> (Reading, Vec<Errand>) {
    common::went(pages, reading, fragment, 0, false)
}

fn hear(pages: &Pages, reading: Reading, heard: Heard) -> Reading {
    turn(pages, reading, Turn::Heard(heard)).0
}

#[test]
fn packs_are_asked_for_when_their_page_is_opened_and_shown_as_told() {
    let pages = tiny();
    let (reading, errands) = went(&pages, Reading::default(), "#packs");
    assert!(errands.contains(&Errand::Have { what: "list", value: String::new() }));
    assert!(!words(&sheet(&pages, &reading)).contains("No guest pack"), "not before they were told");
    let none = hear(&pages, reading.clone(), Heard::Listed(String::new()));
    assert!(words(&sheet(&pages, &none)).contains("No guest pack is on this device."));
    // Digest, name, edition, licence, state, signature, address; the third line is no pack.
    let line = |name: &str, word: &str| {
        ["0123456789abcdef", name, "2026-01-31", "CC0-1.0", word, "Unsigned.", "club.pack"].join("\u{1f}")
    };
    let told = [line("<b>Spoons</b>", "open"), line("Forks", "damaged"), "nonsense".to_string()].join("\n");
    let shown = words(&sheet(&pages, &hear(&pages, reading, Heard::Listed(told))));
    for wanted in
        ["<b>Spoons</b>", "0123456789ab", "2026-01-31", "CC0-1.0", "Open now.", "Damaged: what is kept"]
    {
        assert!(shown.contains(wanted), "{wanted} in {shown}");
    }
    assert!(!shown.contains("nonsense") && !shown.contains("0123456789abc"), "{shown}");
}

#[test]
fn the_desk_shows_progress_then_what_was_found_then_the_file() {
    let pages = tiny();
    let (reading, _) = went(&pages, Reading::default(), "#desk");
    let reading = hear(&pages, reading, Heard::Done(430));
    assert!(words(&sheet(&pages, &reading)).contains("43 of 100"));
    let faulty = hear(&pages, reading, Heard::Told("\nT\u{1f}3\u{1f}\u{1f}1 fault to mend".to_string()));
    let shown = words(&sheet(&pages, &faulty));
    assert!(
        shown.contains("1 fault to mend") && !shown.contains("Try it") && !shown.contains("of 100"),
        "{shown}"
    );
    let told = "club.pack\nT\u{1f}4\u{1f}\u{1f}No faults.\nT\u{1f}0\u{1f}\u{1f}A report.";
    let (sound, errands) = turn(&pages, faulty, Turn::Heard(Heard::Told(told.to_string())));
    assert_eq!(errands, [Errand::Said]);
    let shown = words(&sheet(&pages, &sound));
    let at = |what: &str| shown.find(what).expect(what);
    assert!(at("No faults.") < at("Try it") && at("Try it") < at("A report."), "{shown}");
    let failed = hear(&pages, sound, Heard::Failed("No connection.".to_string()));
    assert_eq!(failed.notice.as_deref(), Some("No connection."));
    let (after, errands) = turn(&pages, failed, Turn::Have { what: "save", value: String::new() });
    assert_eq!((after.notice, errands), (None, vec![Errand::Have { what: "save", value: String::new() }]));
}

#[test]
fn both_pages_are_reached_from_the_contents_and_have_addresses_that_stay() {
    let pages = tiny();
    let (home, _) = went(&pages, Reading::default(), "");
    let shown = words(&sheet(&pages, &home));
    for fragment in ["#desk", "#packs"] {
        assert!(shown.contains(fragment), "{shown}");
        let page = pages.page(fragment).expect("a page");
        assert_eq!(format!("#{}", pages.fragment(&page)), fragment);
    }
}
