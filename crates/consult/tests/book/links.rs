//! Fragments and the pages that they name.

use crate::common::{addresses, irons, opened, tiny, went};
use consult::book::{Errand, Page, Reading, sheet};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use std::collections::BTreeSet;

/// Follows every link of the bundled pack from the contents on. Of the pairs of kinds, too many to read, those that
/// another page names are read and the rest only found.
#[test]
fn every_link_leads_to_a_page_of_its_own_name() {
    let pages = irons();
    let mut seen: BTreeSet<String> = BTreeSet::from(["#irons".to_string()]);
    let mut open: Vec<String> = vec!["#irons".to_string()];
    let (mut read, mut pairs) = (0, 0);
    while let Some(to) = open.pop() {
        let page = pages.page(&to).unwrap_or_else(|sentence| unreachable!("{to}: {sentence}"));
        assert_eq!(format!("#{}", pages.fragment(&page)), to, "a page has one fragment");
        let choosing = matches!(page, Page::Compare(_, None));
        let shown = opened(&pages, &to);
        assert!(!shown.title.is_empty() && !shown.lead.is_empty() && shown.keys.len() == 3, "{to}");
        read += 1;
        for next in addresses(&shown) {
            if !next.starts_with('#') {
                let marks = next.strip_prefix("./").is_some_and(leads_to_marks);
                assert!(
                    ["./", "key.html", "practice.html"].contains(&next.as_str()) || marks,
                    "{to} leads out to {next}"
                );
            } else if choosing && next.matches('/').count() == 3 {
                assert!(pages.page(&next).is_ok(), "{next}");
                pairs += 1;
            } else if seen.insert(next.clone()) {
                open.push(next);
            }
        }
    }
    // Of the pack as it is: at least 70 kinds and 36 looks, each with a page, and every pair of kinds.
    assert!(read > 200 && pairs > 70 * 69, "{read} pages, {pairs} pairs");
}

/// Whether a fragment of the question page opens the marks room.
fn leads_to_marks(fragment: &str) -> bool {
    let (core, book) = crate::common::irons_bytes();
    let guide = consult::Guide::from_bytes(core, book, 2026).expect("the pack can be read");
    let read = consult::read_fragment(&guide, &consult::State::default(), fragment);
    read.is_ok_and(|state| state.screen == consult::Screen::Marks)
}

#[test]
fn codes_not_places_name_things() {
    let pages = tiny();
    for (fragment, page) in [
        ("", Page::Home),
        ("#", Page::Home),
        ("#tiny", Page::Home),
        ("tiny/kind/2", Page::Kind(1)),
        ("#tiny/compare/2/1", Page::Compare(1, Some(0))),
        ("#tiny/compare/2/2", Page::Compare(1, None)),
        ("#tiny/look/4", Page::Look(3)),
        ("#tiny/word/grip", Page::Term(0)),
        ("#tiny/find/wire+grip", Page::Search("wire grip".to_string())),
        ("#tiny/find", Page::Search(String::new())),
        ("#tiny/words/", Page::Terms(String::new())),
    ] {
        assert_eq!(pages.page(fragment), Ok(page), "{fragment}");
    }
}

#[test]
fn what_is_not_there_is_refused_with_a_sentence() {
    let pages = tiny();
    let strange = "This link names a page that this edition does not have. Here is the start.";
    for fragment in [
        "#tiny/kind/9", // a code that was given up
        "#tiny/kind/3", // the kind for whatever the guide does not know has no page
        "#tiny/kind",
        "#tiny/kind/2/1",
        "#tiny/kind/-1",
        "#tiny/kind/99999",
        "#tiny/kinds/1", // a measured look groups nothing
        "#tiny/kinds/4", // nor does one behind a gate
        "#tiny/look/6",
        "#tiny/word/sole",
        "#tiny/compare/1/2/3",
        "#tiny/nothing",
        "#tiny/",
    ] {
        assert_eq!(pages.page(fragment), Err(strange.to_string()), "{fragment}");
    }
    assert!(pages.page(&format!("#tiny/find/{}", "x".repeat(200))).is_err(), "too long");
    let other = "This link belongs to another guide. Here is the start of this one.";
    assert_eq!(pages.page("#irons/kind/1"), Err(other.to_string()));
    let (reading, errands) = went(&pages, Reading::default(), "#tiny/kind/9", 0, false);
    assert_eq!(reading.notice.as_deref(), Some(strange));
    assert_eq!(sheet(&pages, &reading).title, "The guide");
    let home = Errand::Address { fragment: "tiny".to_string(), push: false };
    assert_eq!(errands, [Errand::Heading, home]);
}

proptest! {
    // Always the same ones.
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(20_261_124), ..ProptestConfig::default() })]
    #[test]
    fn no_fragment_is_too_strange(fragment in "(#?tiny(/(kind|kinds|compare|look|find|words|word|\\PC{0,8})){0,4})|\\PC{0,40}") {
        let pages = tiny();
        let shown = opened(&pages, &fragment);
        prop_assert!(!shown.title.is_empty());
        if let Ok(page) = pages.page(&fragment) {
            let again = pages.fragment(&page);
            let page = pages.page(&again);
            prop_assert!(page.is_ok(), "{again}");
            prop_assert_eq!(pages.fragment(&page.unwrap()), again);
        }
    }
}
