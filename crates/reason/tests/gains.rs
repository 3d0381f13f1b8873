//! Laws of the expected information, against its definition written out: for every report, the entropy that is left.
#![allow(
    clippy::disallowed_methods,
    reason = "checks use the platform's own log2, so that they share nothing with the engine's"
)]

use crate::small::{Case, any_case, runs};
use proptest::prelude::*;
use reason::{Goal, Model, Plan, Posterior, Reach, rank, weigh};

fn bits(p: &[f64]) -> f64 {
    -p.iter().filter(|x| **x > 0.0).map(|x| x * x.log2()).sum::<f64>()
}

/// Rows of P(target | candidate).
fn rows(goal: &Goal) -> Vec<Vec<f64>> {
    match goal {
        Goal::Mix(rows) => rows.clone(),
        Goal::One { of, targets } => {
            of.iter().map(|t| (0..*targets).map(|x| f64::from(u8::from(x == *t))).collect()).collect()
        }
    }
}

fn by_definition(case: &Case, model: &Model, goal: &Goal, posterior: &Posterior, question: usize) -> f64 {
    let rows = rows(goal);
    let targets = rows[0].len();
    let mut now = vec![0.0; targets];
    for (p, row) in posterior.p.iter().zip(&rows) {
        (0..targets).for_each(|g| now[g] += p * row[g]);
    }
    let q = &case.parts.questions[question];
    let (choices, reads) = (q.choices, crate::small::misreading(q, q.misread.0));
    let reads = |t: usize, r: usize| reads[t][r];
    let mut left = 0.0;
    for r in 0..choices {
        let mut joint = vec![0.0; targets];
        for (c, p) in posterior.p.iter().enumerate() {
            for (t, truly) in model.truth(question, c).iter().enumerate() {
                for g in 0..targets {
                    joint[g] += p * rows[c][g] * truly * reads(t, r);
                }
            }
        }
        let told: f64 = joint.iter().sum();
        if told > 0.0 {
            let then: Vec<f64> = joint.iter().map(|x| x / told).collect();
            left += told * bits(&then);
        }
    }
    bits(&now) - left
}

fn goals(model: &Model) -> Vec<Goal> {
    let worth = (0..model.candidates())
        .map(|c| {
            crate::small::shares(&[c as u16 % 3, c as u16 % 2, 1, (7 * c) as u16 % 5, u16::from(c == 1)])
        })
        .collect();
    let each = Goal::One { of: (0..model.candidates()).collect(), targets: model.candidates() };
    vec![Goal::kind(model), Goal::make(model), Goal::role(model), Goal::Mix(worth), each]
}

proptest! {
    #![proptest_config(runs(128))]

    #[test]
    fn gains_lie_between_nothing_and_all_there_is_to_know(case in any_case()) {
        let model = case.model();
        let posterior = weigh(&model, case.place, &case.answers);
        let every: Vec<usize> = (0..case.parts.questions.len()).collect();
        for goal in goals(&model) {
            let entropy = bits(&goal.shares(&posterior));
            for gain in Plan::new(&model, goal).gains(&model, &posterior, &every) {
                prop_assert!((0.0..=entropy + 1e-12).contains(&gain), "{gain} of {entropy}");
            }
        }
    }

    #[test]
    fn gains_are_the_expected_loss_of_entropy(case in any_case()) {
        let model = case.model();
        let posterior = weigh(&model, case.place, &case.answers);
        let every: Vec<usize> = (0..case.parts.questions.len()).collect();
        for goal in goals(&model) {
            let gains = Plan::new(&model, goal.clone()).gains(&model, &posterior, &every);
            for (question, gain) in every.iter().zip(gains) {
                let slow = by_definition(&case, &model, &goal, &posterior, *question);
                prop_assert!((gain - slow).abs() < 1e-9, "{goal:?} {question}: {gain} against {slow}");
            }
        }
    }

    /// The ranking is by gain x tellable / seconds, over exactly the open questions, ties in pack order.
    #[test]
    fn the_best_look_tells_most_for_its_time(
        mut case in any_case(),
        costs in proptest::collection::vec((1..=60_u16, 0..=100_u16, 0..3_usize, any::<bool>()), 6),
        tool in 0..3_usize, picture in any::<bool>(),
    ) {
        for (q, (seconds, tellable, tool, by_picture)) in case.parts.questions.iter_mut().zip(costs) {
            q.seconds = f64::from(seconds);
            q.tellable = f64::from(tellable) / 100.0;
            q.tool = (tool > 0).then_some(tool);
            q.by_picture = by_picture;
        }
        let model = case.model();
        let posterior = weigh(&model, case.place, &case.answers);
        let goal = Goal::kind(&model);
        let plan = Plan::new(&model, goal.clone());
        let reach = Reach { tools: vec![tool], picture, without: Vec::new() };
        let looks = rank(&model, &plan, &posterior, &case.answers, &reach);
        let mut ranked: Vec<(f64, usize)> = Vec::new();
        for (at, q) in case.parts.questions.iter().enumerate() {
            let told = |q: usize| case.answers.iter().find(|a| a.question == q).map(|a| &a.told);
            let gate = match &q.gate {
                None => true,
                Some((asked, open)) => match told(*asked) {
                    Some(reason::Told::OneOf(set)) => !set.is_empty() && set.iter().all(|c| open.contains(c)),
                    _ => false,
                },
            };
            let within = q.tool.is_none_or(|t| t == tool) && (q.by_picture || !picture);
            if told(at).is_none() && gate && within {
                let gain = by_definition(&case, &model, &goal, &posterior, at);
                ranked.push((gain * q.tellable / q.seconds, at));
            }
        }
        prop_assert_eq!(looks.len(), ranked.len());
        for look in &looks {
            let slow = ranked.iter().find(|(_, at)| *at == look.question).map(|(score, _)| *score);
            prop_assert!(slow.is_some_and(|s| (s - look.score).abs() < 1e-9), "{look:?} {ranked:?}");
        }
        // Scores are compared in thousand millionths: sums that are equal on paper differ in their last bits.
        let grain = |look: &reason::Look| (look.score * 1e9 + 0.5) as i64;
        for pair in looks.windows(2) {
            let (first, second) = (grain(&pair[0]), grain(&pair[1]));
            prop_assert!(first > second || (first == second && pair[0].question < pair[1].question));
        }
    }
}
