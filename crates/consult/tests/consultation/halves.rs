//! Before the book has come: the opening can be asked and answered, and nothing else is offered.

use crate::common::{irons, irons_early};
use consult::{Body, Guide, Manner, Msg, Screen, State, update, view};

/// Answers every question as it comes, each with its first choice, until no question is shown.
fn answered(guide: &Guide, mut state: State) -> (State, Vec<usize>) {
    let mut asked = Vec::new();
    loop {
        let msg = match view(guide, &state).body {
            Body::Look(look) => {
                asked.push(look.question);
                Msg::Choose { question: look.question, choice: 0 }
            }
            Body::Place(_) => Msg::SkipPlace,
            _ => return (state, asked),
        };
        state = update(guide, state, msg).0;
    }
}

#[test]
fn the_opening_is_asked_and_then_one_moment() {
    let early = irons_early();
    assert!(!early.is_whole() && irons().is_whole());
    for manner in [Manner::Guided, Manner::Free] {
        let (state, asked) = answered(&early, update(&early, State::default(), Msg::Manner(manner)).0);
        assert!(asked.iter().all(|q| early.core.opening.contains(&(*q as u16))), "{asked:?}");
        assert!(asked.len() >= 3, "{asked:?}");
        // Nothing is settled by the opening's first choices alone: the page waits, and goes on with the whole.
        assert_eq!(view(&early, &state).body, Body::Later);
        assert!(matches!(view(&irons(), &state).body, Body::Look(_)));
    }
}

#[test]
fn what_is_said_early_stands_when_the_book_has_come() {
    let (early, whole) = (irons_early(), irons());
    let (state, _) = answered(&early, State::default());
    let link = consult::fragment(&early, &state);
    assert_eq!(link, consult::fragment(&whole, &state));
    let odds = |guide: &Guide| reason::weigh(&guide.model, state.place, &state.answers()).p;
    assert_eq!(odds(&early), odds(&whole));
}

#[test]
fn a_question_without_words_is_not_asked_for() {
    let early = irons_early();
    let bare = early.core.questions.iter().position(|q| !q.is_whole()).expect("some question waits");
    for msg in
        [Msg::Ask(bare), Msg::Choose { question: bare, choice: 0 }, Msg::Cannot(bare), Msg::Enter(bare)]
    {
        assert_eq!(update(&early, State::default(), msg), (State::default(), Vec::new()));
    }
    // A link may name it all the same: it waits for its words without harm.
    let told = update(&irons(), State::default(), Msg::Choose { question: bare, choice: 0 }).0;
    let on = |screen| view(&early, &update(&early, told.clone(), Msg::Show(screen)).0).body;
    assert!(matches!(on(Screen::Finding), Body::Finding(_)));
    let Body::List(parts) = on(Screen::List) else { unreachable!("the list was asked for") };
    assert!(parts.iter().flat_map(|p| &p.looks).all(|l| !l.ask.is_empty()));
}

#[test]
fn halves_of_two_packs_are_refused() {
    let irons = crate::common::irons_bytes();
    let tiny = crate::common::tiny_bytes();
    let says = Guide::from_bytes(&irons.0, &tiny.1, 2026).map(drop);
    assert_eq!(says, Err("The long texts belong to another edition of this pack. Reload the page.".into()));
}
