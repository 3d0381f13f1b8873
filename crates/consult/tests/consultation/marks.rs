//! Lettering, kinds and makes together.

use crate::common::{SEED, for_all_walks, irons, irons_unread, marks_bytes, walked};
use consult::marks::{Corner, Mark, MarksView};
use consult::{
    Body, Effect, FindingView, Guide, Msg, Screen, State, Table, fragment, read_fragment, shares, update,
    view,
};
use proptest::prelude::*;
use reason::Random;

fn lettered(guide: &Guide, state: &State, text: &str) -> State {
    update(guide, state.clone(), Msg::Mark(Mark::Type(text.to_string()))).0
}

fn finding(guide: &Guide, state: &State) -> FindingView {
    match view(guide, &update(guide, state.clone(), Msg::Show(Screen::Finding)).0).body {
        Body::Finding(f) => *f,
        other => unreachable!("the finding was asked for: {other:?}"),
    }
}

fn room(guide: &Guide, state: &State) -> MarksView {
    match view(guide, &update(guide, state.clone(), Msg::Show(Screen::Marks)).0).body {
        Body::Marks(m) => m,
        other => unreachable!("the marks room was asked for: {other:?}"),
    }
}

/// A few answers, seeded.
fn some_pieces(guide: &Guide, many: usize) -> Vec<State> {
    let mut random = Random::seeded(SEED);
    let mut n = move || random.bits() as u16;
    let taps = |n: &mut dyn FnMut() -> u16| (0..4 + n() % 5).map(|_| (19, n(), n(), n())).collect::<Vec<_>>();
    (0..many).map(|_| walked(guide, &taps(&mut n))).collect()
}

/// Odds of later makes within a kind.
fn odds_within(guide: &Guide, p: &[f64], kind: usize) -> Option<f64> {
    let sum = |later: bool| -> f64 {
        let of = guide.core.candidates.iter().zip(p);
        of.filter(|(c, _)| usize::from(c.kind) == kind && (c.make != 0) == later).map(|(_, p)| p).sum()
    };
    (sum(false) > 0.0).then(|| sum(true) / sum(false))
}

/// An old date, number or registration neither acquits nor condemns: a recast carries the lettering of its pattern.
#[test]
fn an_old_mark_leaves_the_odds_of_a_copy_alone() {
    let guide = irons();
    // Years of the marks: published, as the tables say. Where a kind was made in that year, the mark is as likely on a
    // casting from an old pattern as on the pattern.
    let texts = [
        ("PAT. MAY 23 1871", 1871),
        ("PAT. MAY ?3 18?1", 1871),
        ("Rd No 52300", 1886),
        ("diamond class I top X left D right 2 bottom 6", 1842),
    ];
    let mut compared = 0;
    for (text, year) in texts {
        for state in some_pieces(&guide, 6) {
            let (before, after) = (shares(&guide, &state), shares(&guide, &lettered(&guide, &state, text)));
            for (k, kind) in guide.core.kinds.iter().enumerate() {
                let made = kind.makes[0].as_ref().map(|f| f.period);
                if !made.is_some_and(|p| p.likely_from <= year && year + 10 <= p.likely_to) {
                    continue;
                }
                let Some(was) = odds_within(&guide, &before, k).filter(|o| *o > 0.0) else { continue };
                let Some(is) = odds_within(&guide, &after, k) else { continue };
                compared += 1;
                // A twentieth of every period is spread flat over all years (basis: memory, as the periods are), and of a
                // later casting those before the mark are ruled out.
                assert!((is / was - 1.0).abs() < 0.05, "{text} on {}: {was} {is}", kind.id);
            }
        }
    }
    assert!(compared > 200, "{compared}");
}

/// The years of the finding follow a hard bound, whatever the answers; the curve without the marks stays beside it.
#[test]
fn the_finding_moves_with_the_marks() {
    let guide = irons();
    for state in some_pieces(&guide, 12) {
        let bare = finding(&guide, &state);
        assert!(bare.years.marks.is_empty() && bare.years.without.is_empty());
        // Published: the wording was required from 20 February 1947 to 28 April 1952.
        let japan = lettered(&guide, &state, "MADE IN OCCUPIED JAPAN");
        let found = finding(&guide, &japan);
        let years = &found.years;
        assert_eq!(years.without.len(), years.heights.len());
        assert_eq!(years.marks.len(), 1);
        // What lies before 1947 against what lies after, with the marks and without.
        let odds = |heights: &[u16]| {
            let at = |y: i16| usize::try_from(y - years.from).ok().and_then(|i| heights.get(i)).copied();
            let sum = |from: i16, to: i16| (from..to).filter_map(at).map(f64::from).sum::<f64>();
            sum(years.from, 1947) / sum(1947, years.to + 1).max(1.0)
        };
        // That the wording is misread (basis: memory) stays possible.
        let (with, without) = (odds(&years.heights), odds(&years.without));
        assert!(with * 20.0 < without, "{with} {without}");
        assert!(found.clues.iter().any(|c| c.question.is_none()), "the lettering is a clue of its own");
    }
}

#[test]
fn a_mark_that_no_period_piece_can_bear_is_said() {
    let guide = irons();
    let length = guide.core.questions.iter().position(|q| q.id == "length").expect("the length");
    // Published: Occupied Japan ends in 1952, five-figure postal codes of the United States begin in 1963.
    let state = update(&guide, State::default(), Msg::Choose { question: length, choice: 0 }).0;
    let both = lettered(&guide, &state, "MADE IN OCCUPIED JAPAN, IL 60601");
    assert!(!room(&guide, &both).clashes.is_empty(), "{:?}", room(&guide, &both).years);
    assert!(!finding(&guide, &both).years.clashes.is_empty());
}

/// What a newcomer is shown: a title, what it proves, a source, and the years in words.
#[test]
fn a_reading_explains_itself() {
    let guide = irons();
    let state = lettered(&guide, &State::default(), "PAT. MAY ?3 18?1");
    let state = update(&guide, state, Msg::Mark(Mark::Open(0, 0))).0;
    let shown = room(&guide, &state);
    let first = &shown.marks[0].readings[0];
    assert!(first.title.contains("May 18"), "{}", first.title);
    assert!(first.years.contains("or later"), "{}", first.years);
    let open = first.open.as_ref().expect("it is open");
    assert!(open.iter().any(|l| l.contains("from a published source")), "{open:?}");
    assert!(shown.years.contains("or later"), "{}", shown.years);
}

/// A diamond entered by taps is the same as one in words.
#[test]
fn a_diamond_is_entered_by_taps() {
    let guide = irons();
    let mut state = update(&guide, State::default(), Msg::Mark(Mark::Diamond)).0;
    // Class I, year X (1842), month D (September), day 2, parcel 6: letters of the published tables.
    for key in ["I", "X", "D", "2"] {
        state = update(&guide, state, Msg::Mark(Mark::Press(key.to_string()))).0;
    }
    // A single figure may become two: the next place is tapped.
    state = update(&guide, state, Msg::Mark(Mark::Corner(4))).0;
    state = update(&guide, state, Msg::Mark(Mark::Press("6".to_string()))).0;
    assert_eq!(state.marks.diamond.as_ref().map(|d| d.corner()), Some(Corner::Bottom));
    state = update(&guide, state, Msg::Mark(Mark::UseDiamond)).0;
    assert_eq!(state.marks.text, "diamond class I top X left D right 2 bottom 6");
    let first = &room(&guide, &state).marks[0].readings[0];
    assert!(first.title.contains("2 September 1842"), "{}", first.title);
}

#[test]
fn the_tables_are_asked_for_when_they_are_needed() {
    let guide = irons_unread();
    let (state, effects) = update(&guide, State::default(), Msg::Show(Screen::Marks));
    assert!(effects.contains(&Effect::Tables(Table::Marks)));
    assert!(room(&guide, &state).coming);
    let state = lettered(&guide, &state, "MADE IN JAPAN");
    assert!(room(&guide, &state).marks.is_empty());
    guide.learn(Table::Marks, marks_bytes()).expect("the tables can be read");
    let (state, effects) = update(&guide, state, Msg::Tables);
    assert!(!effects.contains(&Effect::Tables(Table::Marks)));
    assert_eq!(room(&guide, &state).marks.len(), 1);
    assert!(guide.learn(Table::Marks, &[1, 2, 3]).is_err());
}

/// Any lettering travels in a link.
#[test]
fn lettering_travels() {
    let guide = irons();
    let config = ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() };
    proptest!(config, |(text in "\\PC{0,60}")| {
        let state = lettered(&guide, &State::default(), &text);
        let link = fragment(&guide, &state);
        prop_assert!(link.is_ascii());
        let read = read_fragment(&guide, &State::default(), &link).map_err(TestCaseError::fail)?;
        prop_assert_eq!(read.marks.text.trim(), state.marks.text.trim());
    });
}

/// Whatever is typed and tapped, the marks room can be shown, and undo brings back what "clear" took.
#[test]
fn clear_can_be_undone() {
    let guide = irons();
    for_all_walks(20, 6, |taps| {
        let state = walked(&guide, &taps);
        let state = lettered(&guide, &state, "PAT. MAY 23 1871");
        let cleared = lettered(&guide, &state, "");
        prop_assert!(!cleared.marks.is_told());
        let back = update(&guide, cleared, Msg::Undo).0;
        if back.either.is_none() && state.either.is_none() {
            prop_assert_eq!(&back.marks.text, &state.marks.text);
        }
        Ok(())
    });
}
