//! The whole program goes on where the opening leaves.

use crate::common::{for_all_walks, irons, irons_early, tiny, walked};
use consult::{Body, Guide, Msg, Screen, State, arrive, leave, opening, update, view};
use proptest::prelude::*;

/// What a user would miss.
fn kept(state: &State) -> impl PartialEq + std::fmt::Debug + use<> {
    let told = (state.given.clone(), state.place, state.place_asked, state.picture, state.aim);
    let shown = (state.tools.clone(), state.manner, state.unit, state.theme, state.screen, state.focus);
    (told, shown, state.marks.text.trim().to_string())
}

fn goes_on(guide: &Guide, state: State) -> Result<(), TestCaseError> {
    let mut other = arrive(guide, &leave(guide, &state)).map_err(TestCaseError::fail)?;
    prop_assert_eq!(kept(&other), kept(&state));
    // Every step back leads to the same as it would have before.
    let mut state = update(guide, state, Msg::Show(Screen::Look)).0;
    other = update(guide, other, Msg::Show(Screen::Look)).0;
    for _ in 0..70 {
        state = update(guide, state, Msg::Undo).0;
        other = update(guide, other, Msg::Undo).0;
        prop_assert_eq!(&other.given, &state.given);
        prop_assert_eq!((other.screen, other.focus), (state.screen, state.focus));
    }
    Ok(())
}

#[test]
fn nothing_is_lost_on_the_way() {
    for (guide, cases) in [(tiny(), 200), (irons_early(), 20), (irons(), 10)] {
        for_all_walks(cases, 14, |taps| {
            let state = walked(&guide, &taps);
            // A program leaves when the screen changes: nothing is half typed then.
            goes_on(&guide, update(&guide, state, Msg::Show(Screen::Look)).0)
        });
    }
}

#[test]
fn what_is_damaged_is_refused() {
    let guide = irons_early();
    let left = leave(&guide, &State::default());
    assert!(arrive(&guide, &left.replace('~', "")).is_err());
    assert_eq!(arrive(&guide, "").map(|s| s.given), Ok(Vec::new()));
}

/// The opening shows the questions as the whole does, and for all else that it is on its way.
#[test]
fn the_opening_shows_its_part() {
    let guide = irons();
    for_all_walks(60, 10, |taps| {
        let state = walked(&guide, &taps);
        let (part, whole) = (opening(&guide, &state, false), view(&guide, &state));
        match whole.body {
            Body::Look(_) | Body::Place(_) => prop_assert_eq!(part, whole),
            _ => prop_assert_eq!(part.body, Body::Later),
        }
        Ok(())
    });
}
