//! Old or later: what it leans to, the clues that moved it most, and what would make it surer.

use super::clues::{Said, all_said};
use super::facts::Facts;
use super::what::make_words;
use crate::guide::{Aim, Guide};
use crate::look::TELLS;
use crate::state::{State, What};
use crate::view::{MakeView, NextView};
use crate::words::{sentence, strength};
use reason::{log10_odds, rank};
use units::{arranged, descending};

/// Clues that are named. Basis: practice; two can be held in mind at a stall.
const NAMED: usize = 2;
/// A clue that moves the odds by less than a quarter is not worth a line. Basis: practice.
const MOVES: f64 = 0.1;

pub(super) fn view(guide: &Guide, state: &State, facts: &Facts) -> MakeView {
    let odds = |period: f64| log10_odds(period, 1.0 - period);
    let now = odds(facts.period());
    let (mut moved, mut clues): (Vec<f64>, Vec<String>) = (Vec::new(), Vec::new());
    for Said { text, without, .. } in all_said(guide, state, facts) {
        let by = now - odds(without.makes(&guide.model)[0]);
        if by.abs() >= MOVES {
            let side = if by > 0.0 { "for period" } else { "for later" };
            clues.push(format!("{text}: {}, {side}.", strength(by)));
            moved.push(by.abs());
        }
    }
    let mut clues = arranged(clues, &descending(&moved));
    clues.truncate(NAMED);
    let ranked = rank(&guide.model, guide.plan(Aim::Make), &facts.posterior, &facts.answers, &state.reach());
    let next = ranked.iter().find(|l| l.gain >= TELLS).map(|l| NextView {
        question: l.question,
        ask: guide.core.questions[l.question].ask.clone(),
        why: "Of all open looks it tells most about old or later for its time.".to_string(),
    });
    let mut says = sentence(&make_words(guide, facts));
    if let Some(first) = says.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    MakeView { says, clues, next, altered: altered(guide, state) }
}

/// Whatever the odds of a copy: a part may be younger than the piece.
fn altered(guide: &Guide, state: &State) -> Vec<String> {
    let Some(book) = &guide.book else { return Vec::new() };
    let of = |(question, text): (usize, &pack::QuestionText)| {
        let What::OneOf(set) = &state.answer_to(question)?.what else { return None };
        let [choice] = set[..] else { return None };
        let says = text.altered.get(choice).filter(|s| !s.is_empty())?;
        let clue = &guide.core.questions.get(question)?.choices.get(choice)?.clue;
        Some(format!("{clue}. {}", sentence(says)))
    };
    book.questions.iter().enumerate().filter_map(of).collect()
}
