//! What answers do to a finding: "can't tell" nothing, either/or the sum of the two, doubt less than certainty.

use crate::common::{for_all_walks, irons, walked};
use consult::{Body, FindingView, Guide, Msg, Screen, State, update, view};
use proptest::prelude::*;
use reason::{Answer, Told, log_likelihood, weigh};

fn finding(guide: &Guide, state: &State) -> FindingView {
    let shown = update(guide, state.clone(), Msg::Show(Screen::Finding)).0;
    match view(guide, &shown).body {
        Body::Finding(f) => *f,
        other => unreachable!("the finding was asked for: {other:?}"),
    }
}

#[test]
fn cannot_tell_leaves_the_finding_as_it_was() {
    let guide = irons();
    for_all_walks(60, 10, |taps| {
        let state = walked(&guide, &taps);
        let open = |q: &usize| state.answer_to(*q).is_none();
        let Some(question) = (0..guide.core.questions.len()).filter(open).nth(taps.len()) else {
            return Ok(());
        };
        let after = update(&guide, state.clone(), Msg::Cannot(question)).0;
        let (before, after) = (finding(&guide, &state), finding(&guide, &after));
        // What to look at next may change, for old or later too: the look is taken. Everything else stands.
        let second =
            |f: &FindingView| f.second.as_ref().map(|s| (s.name.clone(), s.likely.clone(), s.check.clone()));
        prop_assert_eq!(second(&after), second(&before));
        let second = before.second.clone();
        let (next, standing, seller) = (before.next.clone(), before.standing.clone(), before.seller.clone());
        let mut old_or_later = after.old_or_later.clone();
        old_or_later.next.clone_from(&before.old_or_later.next);
        prop_assert_eq!(FindingView { second, next, standing, seller, old_or_later, ..after }, before);
        Ok(())
    });
}

fn told(question: usize, set: &[usize], sure: bool) -> Answer {
    Answer { question, told: Told::OneOf(set.to_vec()), sure }
}

/// Every question and choice of the bundled pack, as the reports of a sure answer.
fn each_choice(guide: &Guide) -> Vec<(usize, usize)> {
    let questions = guide.core.questions.iter().enumerate();
    questions.flat_map(|(q, question)| (0..question.choices.len()).map(move |c| (q, c))).collect()
}

/// P(either) is P(one) + P(other): the two cannot both be reported.
#[test]
fn either_of_two_is_the_sum_of_the_two() {
    let guide = irons();
    let model = &guide.model;
    let prior = weigh(model, 0, &[]).p;
    let mut pairs = 0;
    for (question, one) in each_choice(&guide) {
        if guide.core.questions[question].gate.is_some() {
            // Not answered without its parent; the sum holds for it as for any other.
            continue;
        }
        for other in 0..one {
            let chances = |set: &[usize]| -> Vec<f64> {
                let answer = told(question, set, true);
                let logs = log_likelihood(model, &answer, &[]).expect("it says something");
                logs.into_iter().map(libm::exp).collect()
            };
            let sum: Vec<f64> = chances(&[one]).iter().zip(chances(&[other])).map(|(a, b)| a + b).collect();
            let weighed: Vec<f64> = sum.iter().zip(&prior).map(|(l, p)| l * p).collect();
            let all: f64 = weighed.iter().sum();
            // As the page tells it: the two taps in either order.
            let taps =
                [Msg::Either, Msg::Choose { question, choice: one }, Msg::Choose { question, choice: other }];
            let state = taps.into_iter().fold(State::default(), |s, m| update(&guide, s, m).0);
            let posterior = weigh(model, 0, &state.answers());
            // Of so many looks the piece's own kind says nothing: one group of looks alone keeps that much of the prior.
            let mixed = f64::from(guide.core.mixed) / 1000.0;
            for ((p, w), prior) in posterior.p.iter().zip(&weighed).zip(&prior) {
                let wanted = (1.0 - mixed) * w / all + mixed * prior;
                // Basis of the bound: rounding of doubles, through logarithms and back.
                assert!((p - wanted).abs() < 1e-12, "question {question}: {p} against {wanted}");
            }
            pairs += 1;
        }
    }
    assert!(pairs > 150, "{pairs} pairs");
}

/// Kullback-Leibler divergence of a posterior from the prior: how much an answer says.
fn says(posterior: &[f64], prior: &[f64]) -> f64 {
    posterior.iter().zip(prior).filter(|(p, _)| **p > 0.0).map(|(p, q)| p * libm::log(p / q)).sum()
}

#[test]
fn doubt_weakens_an_answer() {
    let guide = irons();
    let model = &guide.model;
    let prior = weigh(model, 0, &[]).p;
    let (mut weaker, mut all) = (0, 0);
    for (question, choice) in each_choice(&guide) {
        let by = |sure| says(&weigh(model, 0, &[told(question, &[choice], sure)]).p, &prior);
        let (sure, unsure) = (by(true), by(false));
        // An answer that says nothing says nothing in doubt too; what is rare may gain by doubt what rounding gives.
        assert!(unsure <= sure + 1e-12, "question {question}, choice {choice}: {unsure} against {sure}");
        weaker += u32::from(unsure < 0.9 * sure);
        all += 1;
    }
    assert!(weaker * 2 > all, "doubt weakens {weaker} of {all} answers by a tenth or more");
}

#[test]
fn marking_an_answer_as_unsure_and_sure_again_changes_nothing() {
    let guide = irons();
    for_all_walks(40, 8, |taps| {
        let state = walked(&guide, &taps);
        for given in &state.given {
            let unsure = update(&guide, state.clone(), Msg::Unsure(given.question)).0;
            prop_assert_eq!(unsure.answer_to(given.question).map(|g| g.sure), Some(!given.sure));
            let again = update(&guide, unsure, Msg::Unsure(given.question)).0;
            prop_assert_eq!(&again.given, &state.given);
        }
        Ok(())
    });
}

/// The finding does not depend on the order in which the same was told.
#[test]
fn the_order_of_answers_does_not_matter() {
    let guide = irons();
    for_all_walks(40, 10, |taps| {
        let state = walked(&guide, &taps);
        let mut turned = state.clone();
        turned.given.reverse();
        let (one, other) = (finding(&guide, &state), finding(&guide, &turned));
        prop_assert_eq!(
            (one.title, one.share, one.kinds, one.years),
            (other.title, other.share, other.kinds, other.years)
        );
        prop_assert_eq!((one.clues, one.roles, one.worth), (other.clues, other.roles, other.worth));
        Ok(())
    });
}
