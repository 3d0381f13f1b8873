//! Laws of weighing answers, on small random models. Tolerances: bits where the same sums are made in the same
//! order, 1e-12 or 1e-9 where rounding may differ.
#![allow(
    clippy::disallowed_methods,
    reason = "checks use the platform's own ln and exp, so that they share nothing with the engine's"
)]

use crate::small::{any_case, doubtful_case, runs};
use proptest::prelude::*;
use reason::{Answer, Posterior, QuestionParts, RowParts, Told, log_likelihood, weigh};

fn assert_near(one: &[f64], other: &[f64], within: f64) -> Result<(), TestCaseError> {
    prop_assert_eq!(one.len(), other.len());
    for (a, b) in one.iter().zip(other) {
        prop_assert!((a - b).abs() <= within, "{one:?} against {other:?}");
    }
    Ok(())
}

fn assert_shares(p: &[f64]) -> Result<(), TestCaseError> {
    prop_assert!(p.iter().all(|x| (0.0..=1.0 + 1e-12).contains(x)), "{p:?}");
    prop_assert!((p.iter().sum::<f64>() - 1.0).abs() < 1e-12, "{p:?}");
    Ok(())
}

fn cannot(question: usize) -> Answer {
    Answer { question, told: Told::Cannot, sure: true }
}

fn all_choices(question: usize, choices: usize, sure: bool) -> Answer {
    Answer { question, told: Told::OneOf((0..choices).collect()), sure }
}

proptest! {
    #![proptest_config(runs(128))]

    #[test]
    fn order_of_answers_does_not_matter(
        (case, shuffled) in any_case().prop_flat_map(|case| {
            let answers = case.answers.clone();
            (Just(case), Just(answers).prop_shuffle())
        })
    ) {
        let model = case.model();
        prop_assert_eq!(weigh(&model, case.place, &case.answers), weigh(&model, case.place, &shuffled));
    }

    #[test]
    fn cannot_tell_changes_nothing(mut case in any_case(), at in 0..8_usize) {
        let model = case.model();
        let Some(held) = case.hold_back() else { return Ok(()) };
        let before = weigh(&model, case.place, &case.answers);
        case.answers.insert(at % (case.answers.len() + 1), cannot(held.question));
        prop_assert_eq!(weigh(&model, case.place, &case.answers), before);
    }

    #[test]
    fn an_even_clue_changes_nothing(
        mut case in any_case(), row in proptest::collection::vec(0..=10_u16, 3), told in 0..3_usize,
        group in 0..4_usize, at in 0..8_usize,
    ) {
        let even = QuestionParts {
            choices: 3,
            rows: vec![RowParts::Shares(crate::small::shares(&row))],
            row_of: vec![0; case.parts.kind_of.len()],
            misread: (0.04, 0.2),
            confused: vec![vec![1], vec![], vec![]],
            quantity: reason::Quantity::None,
            group: (group < case.parts.overlaps.len()).then_some(group),
            gate: None,
            ..case.parts.questions[0].clone()
        };
        let before = weigh(&case.model(), case.place, &case.answers);
        let clue = Answer { question: case.parts.questions.len(), told: Told::OneOf(vec![told]), sure: true };
        case.parts.questions.push(even);
        case.answers.insert(at % (case.answers.len() + 1), clue);
        assert_near(&weigh(&case.model(), case.place, &case.answers).p, &before.p, 1e-12)?;
    }

    /// A lone clue of however many answers: with a reserve of m nobody gains or loses more than it allows, and whoever
    /// it favours is still favoured.
    #[test]
    fn a_reserve_bounds_what_one_group_says(mut case in doubtful_case(2..=6), m in 1..=40_u8) {
        let m = f64::from(m) / 100.0;
        for q in &mut case.parts.questions {
            q.group = None;
        }
        case.answers.truncate(1);
        let Some(answer) = case.answers.first().cloned() else { return Ok(()) };
        let plain = case.model();
        case.parts.mixed = m;
        let reserved = case.model();
        let before = weigh(&plain, case.place, &[]).p;
        let (full, held) =
            (weigh(&plain, case.place, std::slice::from_ref(&answer)).p, weigh(&reserved, case.place, &[answer]).p);
        // P(with reserve) = (1 - m) P(in full) + m P(before): both weights sum to one, so the mean is exact.
        for ((held, full), before) in held.iter().zip(&full).zip(&before) {
            prop_assert!((held - ((1.0 - m) * full + m * before)).abs() < 1e-12);
        }
    }

    #[test]
    fn probabilities_sum_to_one(case in any_case()) {
        let model = case.model();
        let posterior = weigh(&model, case.place, &case.answers);
        assert_shares(&posterior.p)?;
        assert_shares(&posterior.kinds(&model))?;
        assert_shares(&posterior.makes(&model))?;
        assert_shares(&posterior.roles(&model))?;
    }

    /// From scratch in three ways: a model made anew, the answer taken back by "can't tell", and, where the answer
    /// stands alone in its group and no other answer is judged by it, its likelihood divided out of the posterior.
    #[test]
    fn leaving_an_answer_out_is_never_having_given_it(mut case in doubtful_case(2..=8)) {
        let model = case.model();
        let all = case.answers.clone();
        let Some(out) = case.hold_back() else { return Ok(()) };
        let without = weigh(&case.model(), case.place, &case.answers);
        let mut taken_back = all.clone();
        taken_back.push(cannot(out.question));
        prop_assert_eq!(&weigh(&model, case.place, &taken_back), &without);

        let group = case.parts.questions[out.question].group;
        let alone = group.is_none() || case.answers.iter().all(|a| case.parts.questions[a.question].group != group);
        if let Some(log_l) = log_likelihood(&model, &out, &all).filter(|_| alone && !judges_others(&case, &out)) {
            let full = weigh(&model, case.place, &all);
            let top = log_l.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            let divided: Vec<f64> = full.p.iter().zip(&log_l).map(|(p, l)| p / (l - top).exp()).collect();
            let sum: f64 = divided.iter().sum();
            let divided: Vec<f64> = divided.iter().map(|p| p / sum).collect();
            assert_near(&divided, &without.p, 1e-9)?;
        }
    }

    #[test]
    fn the_later_answer_counts(case in any_case(), earlier in any_case(), at in 0..8_usize) {
        let model = case.model();
        let mut answers = case.answers.clone();
        for later in &case.answers {
            let choices = case.parts.questions[later.question].choices;
            let told = match earlier.answers.first().map(|a| &a.told) {
                Some(Told::OneOf(set)) => Told::OneOf(set.iter().copied().filter(|c| *c < choices).collect()),
                Some(other) => other.clone(),
                None => Told::OneOf(vec![0]),
            };
            let stands = answers.iter().position(|a| a.question == later.question).unwrap_or(0);
            answers.insert(at % (stands + 1), Answer { question: later.question, told, sure: !later.sure });
        }
        prop_assert_eq!(weigh(&model, case.place, &answers), weigh(&model, case.place, &case.answers));
    }

    /// A hundred times smaller, ten times larger or heavier than anything in the tables.
    #[test]
    fn a_number_far_outside_leaves_finite_probabilities(
        mut case in any_case(), far in prop::sample::select(vec![0.1, 2000.0, 20_000.0]), exact in any::<bool>(),
    ) {
        let uncertainty = if exact { 0.0 } else { far * 0.01 };
        for answer in &mut case.answers {
            if case.parts.questions[answer.question].quantity != reason::Quantity::None {
                answer.told = Told::Measured { value: far, uncertainty };
            }
        }
        let model = case.model();
        let posterior = weigh(&model, case.place, &case.answers);
        assert_shares(&posterior.p)?;
        for answer in &case.answers {
            if let (Told::Measured { .. }, Some(log_l)) =
                (&answer.told, log_likelihood(&model, answer, &case.answers))
            {
                prop_assert!(log_l.iter().all(|l| l.is_finite()), "{log_l:?}");
            }
        }
    }

    #[test]
    fn ticking_every_choice_says_nothing(mut case in any_case(), sure in any::<bool>()) {
        let model = case.model();
        let Some(held) = case.hold_back() else { return Ok(()) };
        let before = weigh(&model, case.place, &case.answers);
        let choices = case.parts.questions[held.question].choices;
        case.answers.push(all_choices(held.question, choices, sure));
        assert_near(&weigh(&model, case.place, &case.answers).p, &before.p, 1e-9)?;
    }

    /// With two candidates the more informative of two clues for `a` is the one with the larger ratio, so a new clue
    /// for `a` at weight w tempers only smaller ones, by less than w in all: what it adds covers what they lose.
    #[test]
    fn of_two_candidates_the_one_spoken_for_never_loses(mut case in doubtful_case(2..=2)) {
        let model = case.model();
        let Some(clue) = case.hold_back() else { return Ok(()) };
        let Some(step) = Step::take(&case, &model, &clue) else { return Ok(()) };
        for (a, b) in [(0, 1), (1, 0)] {
            if step.clue[a] >= step.clue[b] && step.possible(a, b) {
                prop_assert!(step.change(a, b) >= -1e-9, "{step:?}");
            }
        }
    }

    #[test]
    fn alone_in_its_group_a_clue_moves_every_pair_its_own_way(mut case in doubtful_case(2..=8)) {
        let model = case.model();
        let Some(clue) = case.hold_back() else { return Ok(()) };
        let group = case.parts.questions[clue.question].group;
        let speaks = |a: &Answer| a.told.speaks() && case.parts.questions[a.question].group == group;
        if group.is_some() && case.answers.iter().any(speaks) { return Ok(()) }
        let Some(step) = Step::take(&case, &model, &clue) else { return Ok(()) };
        for (a, b) in step.pairs() {
            prop_assert!(step.change(a, b) >= -1e-9, "{step:?}");
            prop_assert!((step.change(a, b) - (step.clue[a] - step.clue[b])).abs() < 1e-9, "{step:?}");
        }
    }

    /// In a crowded group with three or more candidates a clue may speak for `a` over `b` by little and yet tell much
    /// (about a third); it then goes before older clues and tempers them. With weights w, (1-rho)w... the log odds of
    /// `a` to `b` change by w d - rho (sum of w_j d_j over the older clues that tell less), so they fall by at most rho
    /// times what those older clues carried for `a`.
    ///
    /// No discount that is free of order can promise more. Say that a clue alone counts in full, that the weights
    /// depend on the set of clues only, and that of some two clues one counts less than in full when both are given.
    /// Take a pair `a`, `b` for which that one speaks and on which the other is even: giving the other as second lowers
    /// the odds of `a` to `b`, although it speaks against neither. With two candidates an even clue tells nothing and
    /// goes last; with three it may tell of the third. Only no discount at all, or weights that differ from pair
    /// to pair (and then are no probabilities), would escape.
    #[test]
    fn in_a_crowded_group_a_confirming_clue_costs_at_most_the_tempering(mut case in doubtful_case(3..=8)) {
        // Everything in one group: the hardest case.
        case.parts.overlaps.truncate(1);
        if case.parts.overlaps.is_empty() { case.parts.overlaps.push(0.35) }
        case.parts.questions.iter_mut().for_each(|q| q.group = Some(0));
        // What a mass tells depends on the length: a pair of answers, not a clue with a likelihood of its own.
        case.answers.retain(|a| !matches!(case.parts.questions[a.question].quantity, reason::Quantity::Heft(_)));
        let model = case.model();
        let Some(clue) = case.hold_back() else { return Ok(()) };
        let Some(step) = Step::take(&case, &model, &clue) else { return Ok(()) };
        let rho = case.parts.overlaps[0];
        let alone = |a: &Answer| divergence(&weigh(&model, case.place, std::slice::from_ref(a)),
                                           &weigh(&model, case.place, &[]));
        let mut older: Vec<(f64, Vec<f64>)> = case.answers.iter()
            .filter_map(|a| Some((alone(a), log_likelihood(&model, a, &case.answers)?)))
            .collect();
        older.sort_by(|a, b| b.0.total_cmp(&a.0));
        let tells = alone(&clue);
        for (a, b) in step.pairs() {
            let (mut weight, mut tempered) = (1.0, 0.0);
            for (told, l) in &older {
                // A hair above counts as below: there rounding decides which goes first.
                if *told <= tells * (1.0 + 1e-9) {
                    tempered += weight * (l[a] - l[b]).max(0.0);
                }
                weight *= 1.0 - rho;
            }
            prop_assert!(step.change(a, b) >= -rho * tempered - 1e-9, "{a}:{b} {rho} {tempered} {step:?}");
        }
    }
}

/// A measured length changes what a mass tells: not one clue more, but a clue more and another one altered.
fn judges_others(case: &crate::small::Case, clue: &Answer) -> bool {
    let is = |a: &Answer, heft: bool| match case.parts.questions[a.question].quantity {
        reason::Quantity::Length(_) => !heft,
        reason::Quantity::Heft(_) => heft,
        reason::Quantity::None => false,
    };
    is(clue, false) && case.answers.iter().any(|a| is(a, true))
}

/// The posterior before and after a clue, and the clue's ln L.
#[derive(Debug)]
struct Step {
    before: Posterior,
    after: Posterior,
    clue: Vec<f64>,
}

impl Step {
    fn take(case: &crate::small::Case, model: &reason::Model, clue: &Answer) -> Option<Step> {
        if judges_others(case, clue) {
            return None;
        }
        let mut all = case.answers.clone();
        all.push(clue.clone());
        Some(Step {
            before: weigh(model, case.place, &case.answers),
            after: weigh(model, case.place, &all),
            clue: log_likelihood(model, clue, &all)?,
        })
    }

    /// Both occur at this place.
    fn possible(&self, a: usize, b: usize) -> bool {
        self.before.p[a] > 0.0 && self.before.p[b] > 0.0
    }

    /// Pairs of which the clue speaks for the first, or for neither.
    fn pairs(&self) -> Vec<(usize, usize)> {
        let n = self.clue.len();
        (0..n)
            .flat_map(|a| (0..n).map(move |b| (a, b)))
            .filter(|(a, b)| a != b && self.clue[*a] >= self.clue[*b] && self.possible(*a, *b))
            .collect()
    }

    /// By how much the log odds of a to b rise.
    fn change(&self, a: usize, b: usize) -> f64 {
        let odds = |p: &Posterior| p.p[a].ln() - p.p[b].ln();
        odds(&self.after) - odds(&self.before)
    }
}

/// How much a posterior tells over a prior, in nats: the sum of a ln (a/p), written as a sum of p ((1+x) ln (1+x) - x)
/// with x = a/p - 1, which keeps its digits where the two hardly differ.
fn divergence(posterior: &Posterior, prior: &Posterior) -> f64 {
    let pairs = posterior.p.iter().zip(&prior.p).filter(|(_, p)| **p > 0.0);
    pairs
        .map(|(a, p)| {
            let x = (a - p) / p;
            p * if *a > 0.0 { (1.0 + x) * x.ln_1p() - x } else { 1.0 }
        })
        .sum()
}
