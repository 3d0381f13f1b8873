//! Any sequence of messages leaves a sound state that can be shown and linked to, whatever the messages name.

use crate::common::{SEED, deep, irons, legal, messages, tiny};
use consult::{Effect, Guide, Msg, State, fragment, read_fragment, update, view};
use reason::Random;

/// An index that is mostly one of the pack's, sometimes far out of it.
fn index(random: &mut Random) -> usize {
    [random.below(6), random.below(40), 999, usize::MAX, usize::from(u16::MAX) + 1]
        [[0, 0, 0, 1, 2, 3, 4][random.below(7)]]
}

/// A text that a page, a store or a link might hand over.
fn text(guide: &Guide, state: &State, random: &mut Random) -> String {
    match random.below(8) {
        0 => String::new(),
        1 => fragment(guide, state),
        2 => format!("#{}", fragment(guide, &State::default())),
        3 => fragment(guide, state).chars().rev().collect(),
        4 => "tools=ruler,nothing;unit=in;manner=free;theme=sun;more".to_string(),
        5 => "tools;=;;unit=;tools=\u{202e}".to_string(),
        6 => "2 5/8".to_string(),
        _ => "\u{1f9f2}".repeat(random.below(40)),
    }
}

fn hostile(guide: &Guide, state: &State, random: &mut Random) -> Vec<Msg> {
    let (a, b) = (index(random), index(random));
    vec![match random.below(16) {
        0 | 1 => Msg::Choose { question: a, choice: b },
        2 => Msg::Cannot(a),
        3 => Msg::Either,
        4 => Msg::Unsure(a),
        5 => Msg::TakeBack(a),
        6 => Msg::Ask(a),
        7 => Msg::Enter(a),
        8 => Msg::Place(a),
        9 => Msg::Tool(a),
        10 => Msg::Type(text(guide, state, random)),
        11 => Msg::Went(text(guide, state, random)),
        12 => Msg::Kept(consult::Kept::Preferences, text(guide, state, random)),
        13 => [Msg::CopySeller, Msg::CopyLink, Msg::AcceptUpdate, Msg::Notice(Some(String::new()))]
            [random.below(4)]
        .clone(),
        _ => {
            let mut n = || random.bits() as u16;
            return messages(guide, ((n() % 20) as u8, n(), n(), n()));
        }
    }]
}

/// Sends sequences of up to a dozen sorts of messages; every state is sound, every address can be opened again.
fn sequences(guide: &Guide, many: usize, shown: usize) {
    let mut random = Random::seeded(SEED);
    for i in 0..many {
        let mut state = State::default();
        for _ in 0..random.below(12) {
            for msg in hostile(guide, &state, &mut random) {
                let (after, effects) = update(guide, state, msg.clone());
                state = after;
                assert_eq!(legal(guide, &state), Ok(()), "after {msg:?}");
                for effect in effects {
                    if let Effect::Address { fragment, .. } = effect {
                        let read = read_fragment(guide, &State::default(), &fragment)
                            .expect("an address can be opened");
                        assert_eq!(read.given, state.given, "after {msg:?}");
                    }
                }
            }
        }
        if i % shown == 0 {
            assert!(serde_json::to_string(&view(guide, &state)).is_ok());
        }
    }
}

#[test]
fn any_messages_leave_a_sound_state() {
    sequences(&tiny(), if deep() { 200_000 } else { 20_000 }, 5);
    sequences(&irons(), if deep() { 5_000 } else { 300 }, 1);
}

#[test]
fn what_the_pack_lacks_is_passed_over() {
    let guide = tiny();
    let before = update(&guide, State::default(), Msg::Choose { question: 2, choice: 0 }).0;
    for msg in [
        Msg::Choose { question: 5, choice: 0 },
        Msg::Choose { question: 2, choice: 3 },
        Msg::Choose { question: usize::MAX, choice: usize::MAX },
        Msg::Cannot(5),
        Msg::Unsure(5),
        Msg::TakeBack(999),
        Msg::Ask(999),
        Msg::Enter(999),
        Msg::Place(2),
        Msg::Tool(999),
    ] {
        assert_eq!(update(&guide, before.clone(), msg.clone()), (before.clone(), Vec::new()), "{msg:?}");
    }
}

/// One of two is one answer to one question, even when another question is tapped in between.
#[test]
fn one_of_two_keeps_to_its_question() {
    let guide = tiny();
    let send = |state, msg| update(&guide, state, msg).0;
    let choose = |question, choice| Msg::Choose { question, choice };
    let state = send(send(State::default(), Msg::Either), choose(2, 2));
    let other = send(state.clone(), choose(0, 1));
    assert!(other.given.is_empty(), "two questions are not one answer: {:?}", other.given);
    assert_eq!(send(other, choose(0, 0)).given[0].what, consult::What::OneOf(vec![0, 1]));
    // The second of the pair, in the order of the pack; the same again takes the first back.
    assert_eq!(send(state.clone(), choose(2, 0)).given[0].what, consult::What::OneOf(vec![0, 2]));
    let again = send(state, choose(2, 2));
    assert_eq!((again.either, again.given.len()), (Some(None), 0));
}
