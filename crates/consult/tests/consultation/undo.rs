//! One step back restores what stood before, whatever was answered.

use crate::common::{Tap, for_all_walks, irons, tapped, tiny, walked};
use consult::{Guide, Msg, State, update};
use proptest::prelude::*;

/// What an answer may change and undo must bring back.
fn told(state: &State) -> impl PartialEq + std::fmt::Debug + use<> {
    (state.given.clone(), state.place, state.place_asked, state.screen, state.focus)
}

fn back(guide: &Guide, state: State) -> State {
    update(guide, state, Msg::Undo).0
}

/// After the walk one answer more, and back.
fn restores(guide: &Guide, taps: &[Tap]) -> Result<(), TestCaseError> {
    let Some(((_, a, b, c), before)) = taps.split_last() else { return Ok(()) };
    let mut state = walked(guide, before);
    if state.either.is_some() {
        state = update(guide, state, Msg::Either).0;
    }
    let place = usize::from(*a) % guide.core.places.len();
    let question = usize::from(*a) % guide.core.questions.len();
    let choice = usize::from(*b) % guide.core.questions[question].choices.len();
    for msg in
        [Msg::Choose { question, choice }, Msg::Cannot(question), Msg::TakeBack(question), Msg::SkipPlace]
    {
        let after = update(guide, state.clone(), msg.clone()).0;
        prop_assert_eq!(told(&back(guide, after)), told(&state), "{:?}", msg);
    }
    if state.screen == consult::Screen::Look {
        let after = update(guide, state.clone(), Msg::Place(place)).0;
        prop_assert_eq!(told(&back(guide, after)), told(&state));
    }
    // Either/or, and a typed figure when it can be used.
    for sort in [1, 3] {
        let after = tapped(guide, state.clone(), (sort, *a, *b, *c));
        if after.either.is_none() && after.typed.fault.is_none() {
            prop_assert_eq!(told(&back(guide, after)), told(&state), "sort {}", sort);
        }
    }
    Ok(())
}

#[test]
fn one_step_back_restores_the_answers() {
    for (guide, cases) in [(tiny(), 800), (irons(), 25)] {
        for_all_walks(cases, 14, |taps| restores(&guide, &taps));
    }
}

#[test]
fn all_steps_back_lead_to_the_start() {
    let guide = tiny();
    for_all_walks(300, 20, |taps| {
        let answers: Vec<Tap> = taps.into_iter().map(|(_, a, b, c)| (19, a, b, c)).collect();
        let mut state = walked(&guide, &answers);
        for _ in 0..answers.len() {
            state = back(&guide, state);
        }
        prop_assert_eq!(told(&state), told(&State::default()));
        // There is nothing behind the start.
        prop_assert_eq!(told(&back(&guide, state)), told(&State::default()));
        Ok(())
    });
}

/// A link carries no past: undo then takes the last answer back, and what depended on it.
#[test]
fn a_state_from_a_link_can_be_undone() {
    let guide = tiny();
    let answers = consult::from_text(&guide, "skin = dark\ngrip = pierced\nholes = blind").unwrap();
    let link = consult::fragment(&guide, &answers);
    let mut state = update(&guide, State::default(), Msg::Went(link)).0;
    for left in (0..3).rev() {
        state = back(&guide, state);
        assert_eq!(state.given, answers.given[..left]);
    }
}
