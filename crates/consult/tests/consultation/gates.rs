//! Looks that are asked only after certain answers to another: what depends on an answer goes when the answer changes.

use crate::common::{irons, tiny};
use consult::{Body, Guide, Msg, Screen, State, update, view};

/// Answers a question so that its gate is open: what it depends on first.
fn answered(guide: &Guide, state: State, question: usize, choice: usize) -> State {
    let state = match &guide.core.questions[question].gate {
        Some(gate) => answered(guide, state, usize::from(gate.question), usize::from(gate.choices[0])),
        None => state,
    };
    update(guide, state, Msg::Choose { question, choice }).0
}

fn stands(state: &State, question: usize) -> bool {
    state.answer_to(question).is_some()
}

/// Runs a check for every question behind a gate: its own index, its parent's, the parent's choices that open it and
/// those that do not.
fn for_each_gate(check: impl Fn(&Guide, usize, usize, &[usize], &[usize])) {
    let mut gates = 0;
    for guide in [tiny(), irons()] {
        for (question, q) in guide.core.questions.iter().enumerate() {
            let Some(gate) = &q.gate else { continue };
            let parent = usize::from(gate.question);
            let open: Vec<usize> = gate.choices.iter().map(|c| usize::from(*c)).collect();
            let choices = guide.core.questions[parent].choices.len();
            let shut: Vec<usize> = (0..choices).filter(|c| !open.contains(c)).collect();
            check(&guide, question, parent, &open, &shut);
            gates += 1;
        }
    }
    assert!(gates >= 2, "both packs have a gate");
}

#[test]
fn another_answer_to_the_parent_drops_what_depends_on_it() {
    for_each_gate(|guide, question, parent, open, shut| {
        let state = answered(guide, State::default(), question, 0);
        assert!(stands(&state, question) && stands(&state, parent));
        let send = |msgs: &[Msg]| msgs.iter().cloned().fold(state.clone(), |s, m| update(guide, s, m).0);
        let choose = |choice| Msg::Choose { question: parent, choice };
        for choice in shut {
            let changed = send(&[choose(*choice)]);
            assert!(!stands(&changed, question) && stands(&changed, parent), "{question} after {choice}");
            let doubtful = send(&[Msg::Either, choose(open[0]), choose(*choice)]);
            assert!(!stands(&doubtful, question), "{question} after either of {choice}");
            // Back again it is open, and not answered: the answer is gone for good.
            let again = update(guide, changed, choose(open[0])).0;
            assert!(!stands(&again, question));
        }
        for choice in open {
            assert!(stands(&send(&[choose(*choice)]), question), "{choice} leaves it open");
        }
        assert!(stands(&send(&[Msg::Unsure(parent)]), question), "doubt leaves it open");
        assert!(!stands(&send(&[Msg::Cannot(parent)]), question));
        assert!(!stands(&send(&[Msg::TakeBack(parent)]), question));
    });
}

#[test]
fn behind_a_closed_gate_nothing_is_taken_or_offered() {
    for_each_gate(|guide, question, parent, open, shut| {
        let shut = update(guide, State::default(), Msg::Choose { question: parent, choice: shut[0] }).0;
        for state in [State::default(), shut] {
            let told = state.given.len();
            let after = update(guide, state.clone(), Msg::Choose { question, choice: 0 }).0;
            assert_eq!(after.given.len(), told);
            assert!(!after.given.iter().any(|g| g.question == question));
        }
        let offered = |state: &State| {
            let listed = update(guide, state.clone(), Msg::Show(Screen::List)).0;
            let Body::List(parts) = view(guide, &listed).body else { unreachable!("the list was asked for") };
            parts.iter().flat_map(|p| &p.looks).any(|l| l.question == question)
        };
        let every_tool =
            (0..guide.core.tools.len()).fold(State::default(), |s, t| update(guide, s, Msg::Tool(t)).0);
        assert!(!offered(&every_tool));
        assert!(offered(&answered(guide, every_tool, parent, open[0])));
    });
}
