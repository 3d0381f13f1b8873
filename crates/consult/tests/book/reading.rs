//! What a reader does and what comes of it.

use crate::common::{tiny, went};
use consult::Theme;
use consult::book::{Errand, Page, Reading, Turn, preferences_with, theme_in, turn};

#[test]
fn back_leads_to_where_the_page_was_left_and_to_the_link_that_was_followed() {
    let pages = tiny();
    let (list, errands) = went(&pages, Reading::default(), "#tiny/kinds", 0, false);
    assert_eq!(errands, [Errand::Heading]);
    let (kind, errands) = went(&pages, list, "#tiny/kind/2", 640, false);
    assert_eq!(errands, [Errand::Heading]);
    let (list, errands) = went(&pages, kind.clone(), "#tiny/kinds", 90, true);
    assert_eq!(errands, [Errand::Return { down: 640, link: "#tiny/kind/2".to_string() }]);
    // Forward again.
    let (_, errands) = went(&pages, list, "#tiny/kind/2", 640, true);
    assert_eq!(errands, [Errand::Return { down: 90, link: "#tiny/kinds".to_string() }]);
    // A link to a page that was open before is a fresh start on it.
    let (_, errands) = went(&pages, kind, "#tiny/kinds", 90, false);
    assert_eq!(errands, [Errand::Heading]);
}

#[test]
fn the_same_address_again_changes_nothing() {
    let pages = tiny();
    let (kind, _) = went(&pages, Reading::default(), "#tiny/kind/2", 0, false);
    let (open, _) = turn(&pages, kind, Turn::Money);
    let (same, errands) = went(&pages, open.clone(), "#tiny/kind/2", 50, false);
    assert_eq!((same, errands), (open, Vec::new()));
}

#[test]
fn typing_on_the_contents_makes_one_entry_of_the_history() {
    let pages = tiny();
    let mut reading = Reading::default();
    let mut addresses = Vec::new();
    for typed in ["w", "wi", "wi re"] {
        let (next, errands) = turn(&pages, reading, Turn::Type(typed.to_string()));
        reading = next;
        addresses.extend(errands);
    }
    let address = |text: &str, push| Errand::Address { fragment: format!("tiny/find/{text}"), push };
    assert_eq!(addresses, [address("w", true), address("wi", false), address("wi+re", false)]);
    // What the address then reports is what stands there already.
    let (after, errands) = went(&pages, reading.clone(), "#tiny/find/wi+re", 0, false);
    assert_eq!((after.typed.as_str(), errands.len()), ("wi re", 0));
    // What was typed in signs that a link does not carry stays as it was typed.
    let (odd, _) = turn(&pages, reading, Turn::Type("Wi-Re!".to_string()));
    let (after, errands) = went(&pages, odd, "#tiny/find/wi+re", 0, false);
    assert_eq!((after.typed.as_str(), errands.len()), ("Wi-Re!", 0));
}

#[test]
fn endless_typing_is_cut() {
    let (reading, _) = turn(&tiny(), Reading::default(), Turn::Type("\u{e9}".repeat(500)));
    assert_eq!(reading.typed.chars().count(), 60);
}

#[test]
fn only_a_kind_has_a_drawing_to_save() {
    let pages = tiny();
    let (kind, _) = went(&pages, Reading::default(), "#tiny/kind/1", 0, false);
    let (_, errands) = turn(&pages, kind, Turn::Save { png: true });
    let [Errand::Save { piece, png: true }] = &errands[..] else { unreachable!("{errands:?}") };
    assert_eq!(
        (piece.file.as_str(), piece.mm, piece.draw.as_str()),
        ("tiny-bar-toy", 69, "body=flat grip=bar")
    );
    assert_eq!(turn(&pages, Reading::default(), Turn::Save { png: true }).1, []);
}

#[test]
fn the_theme_goes_both_ways_between_the_pages() {
    // As the question page writes them.
    let kept = "tools=magnet;unit=mm;manner=guided;theme=dark";
    assert_eq!(theme_in(kept), Theme::Dark);
    assert_eq!(theme_in(""), Theme::Phone);
    assert_eq!(theme_in("theme=purple"), Theme::Phone);
    assert_eq!(preferences_with(kept, Theme::Sun), "tools=magnet;unit=mm;manner=guided;theme=sun");
    assert_eq!(preferences_with("", Theme::Light), "theme=light");
    let (reading, errands) = turn(&tiny(), Reading::begun(Theme::Dark), Turn::Theme(Theme::Sun));
    assert_eq!(
        (reading.theme, reading.page, errands),
        (Theme::Sun, Page::Home, vec![Errand::Keep(Theme::Sun)])
    );
}
