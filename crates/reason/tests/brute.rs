//! The engine against a second one that writes everything out, on random models; and against the physics that its
//! closed form for heft stands for.
#![allow(
    clippy::disallowed_methods,
    reason = "the platform's own exp and ln, so that the two engines share nothing"
)]

use crate::small::{Case, any_case, runs};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use reason::{Answer, Model, Parts, Quantity, QuestionParts, RowParts, Told, weigh};

fn apart(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(runs(500))]

    /// Choices, either/or, unsure, gates, groups, classes of a measure, typed lengths, masses with and without a
    /// length, looks that are not the piece's own. 1e-9 everywhere: in the logarithm the closed form for heft is exact.
    #[test]
    fn posterior_is_that_of_brute_force(case in any_case()) {
        let fast = weigh(&case.model(), case.place, &case.answers).p;
        let slow = crate::slow::posteriors(&case.parts, case.place, &case.answers);
        let best = slow.iter().map(|p| apart(p, &fast)).fold(f64::MAX, f64::min);
        prop_assert!(best < 1e-9, "{best:e}: {fast:?} against {slow:?}");
    }
}

/// That the random models do hold what is claimed above: a generator that lost a feature would pass unseen.
#[test]
fn the_random_models_hold_every_feature() {
    let mut runner = TestRunner::new(runs(500));
    let mut seen = [0; 9];
    for _ in 0..500 {
        let case = any_case().new_tree(&mut runner).expect("nothing is rejected").current();
        for (count, has) in seen.iter_mut().zip(features(&case)) {
            *count += usize::from(has);
        }
    }
    assert!(seen.iter().all(|n| *n >= 20), "{seen:?} of 500");
}

fn features(case: &Case) -> [bool; 9] {
    let q = |a: &Answer| &case.parts.questions[a.question];
    let some = |f: &dyn Fn(&Answer) -> bool| case.answers.iter().any(f);
    let typed = |a: &Answer| matches!(a.told, Told::Measured { .. });
    let length = |a: &Answer| matches!(q(a).quantity, Quantity::Length(_));
    let heft = |a: &Answer| matches!(q(a).quantity, Quantity::Heft(_));
    let closed = |a: &Answer| {
        let n = case.parts.kind_of.len();
        let open = (0..n).filter(|c| crate::slow::applies(&case.parts, a.question, *c)).count();
        a.told.speaks() && open > 0 && open < n
    };
    let crowded = |a: &Answer| {
        let same = |b: &Answer| q(b).group == q(a).group && b.told.speaks();
        q(a).group.is_some() && case.answers.iter().filter(|b| same(b)).count() > 1
    };
    [
        some(&|a| matches!(&a.told, Told::OneOf(s) if s.len() == 2)),
        some(&|a| !a.sure),
        some(&closed),
        some(&crowded),
        some(&|a| typed(a) && length(a)),
        some(&|a| !typed(a) && (length(a) || heft(a))),
        some(&|a| typed(a) && heft(a)) && some(&|a| typed(a) && length(a)),
        some(&|a| typed(a) && heft(a)) && !some(&|a| typed(a) && length(a)),
        case.parts.mixed > 0.0 && case.answers.len() > 2,
    ]
}

/// Two to four candidates with lengths and hefts as small irons have them. Figures invented.
fn irons() -> impl Strategy<Value = Parts> {
    let one = (40.0..110.0_f64, 0.03..0.08_f64, -1.2..0.3_f64, 0.12..0.4_f64);
    proptest::collection::vec(one, 2..=4).prop_map(|all| {
        let n = all.len();
        let question = |quantity, rows| QuestionParts {
            choices: 2,
            quantity,
            rows,
            row_of: (0..n).collect(),
            misread: (0.02, 0.1),
            confused: vec![vec![], vec![]],
            group: None,
            gate: None,
            seconds: 20.0,
            tellable: 1.0,
            tool: None,
            by_picture: false,
        };
        let lengths =
            all.iter().map(|(mean, relative, _, _)| RowParts::Spread { mean: *mean, sd: mean * relative });
        let hefts = all.iter().map(|(_, _, mean, sd)| RowParts::Spread { mean: *mean, sd: *sd });
        Parts {
            kinds: n,
            makes: 1,
            kind_of: (0..n).collect(),
            make_of: vec![0; n],
            roles: vec![vec![1.0]; n],
            priors: vec![vec![1.0; n]],
            overlaps: vec![],
            questions: vec![
                question(Quantity::Length(vec![70.0]), lengths.collect()),
                question(Quantity::Heft(vec![-0.5]), hefts.collect()),
            ],
            mixed: 0.0,
            unknown: None,
            fit_limits: vec![],
        }
    })
}

fn spread(q: &QuestionParts, c: usize) -> (f64, f64) {
    match q.rows[c] {
        RowParts::Spread { mean, sd } => (mean, sd),
        RowParts::Shares(_) => unreachable!("made of spreads"),
    }
}

/// (1-e) density + e / range, for the mass alone: its range is that of the question of heft.
fn with_floor(parts: &Parts, densities: &[f64]) -> Vec<f64> {
    let q = &parts.questions[1];
    let ends: Vec<(f64, f64)> = (0..densities.len()).map(|c| spread(q, c)).collect();
    let high = ends.iter().map(|(m, s)| m + 3.0 * s).fold(f64::MIN, f64::max);
    let low = ends.iter().map(|(m, s)| m - 3.0 * s).fold(f64::MAX, f64::min);
    let e = q.misread.0;
    let l: Vec<f64> = densities.iter().map(|d| (1.0 - e) * d + e / (high - low)).collect();
    let sum: f64 = l.iter().sum();
    l.iter().map(|x| x / sum).collect()
}

fn mass(value: f64, relative: f64) -> Answer {
    Answer { question: 1, told: Told::Measured { value, uncertainty: value * relative }, sure: true }
}

proptest! {
    #![proptest_config(runs(128))]

    /// A mass without a length: here lengths are normal in mm, as the tables say, while the closed form takes them as
    /// normal in the logarithm. With lengths of 3 to 8 % spread the posterior moves by less than 0.05.
    #[test]
    fn heft_by_the_kinds_own_lengths(parts in irons(), at in 0.0..1.0_f64, relative in 0.0..0.02_f64) {
        let n = parts.kind_of.len();
        // A mass that the first candidate may well have.
        let ((length, _), (mean, sd)) = (spread(&parts.questions[0], 0), spread(&parts.questions[1], 0));
        let grams = (mean + (2.0 * at - 1.0) * 2.0 * sd).exp() * (length / 10.0).powi(3);
        let densities: Vec<f64> = (0..n).map(|c| {
            let ((length, by), (mean, sd)) = (spread(&parts.questions[0], c), spread(&parts.questions[1], c));
            crate::slow::blurred(length, by, length * sd / 3.0, |mm| {
                crate::slow::blurred(0.0, relative, sd, |z| {
                    let h = (grams / (1.0 + z)).ln() - 3.0 * (mm / 10.0).ln();
                    (-0.5 * ((h - mean) / sd).powi(2)).exp() / sd
                })
            }) / (2.0 * std::f64::consts::PI).sqrt()
        }).collect();
        let model = Model::new(parts.clone()).expect("the shapes fit");
        let fast = weigh(&model, 0, &[mass(grams, relative)]).p;
        let slow = with_floor(&parts, &densities);
        prop_assert!(apart(&fast, &slow) < 0.05, "{fast:?} against {slow:?}");
    }

    /// A mass with a measured length: here both errors are normal in g and mm, while the closed form takes three times
    /// the relative error of the length (GUM, 5.1.6), exact to first order. With errors of at most 2 % the posterior
    /// moves by less than 0.005.
    #[test]
    fn heft_by_the_measured_length(
        parts in irons(), at in 0.0..1.0_f64, relative in (0.0..0.02_f64, 0.0..0.02_f64),
    ) {
        let n = parts.kind_of.len();
        let ((mm, _), (mean, sd)) = (spread(&parts.questions[0], 0), spread(&parts.questions[1], 0));
        let grams = (mean + (2.0 * at - 1.0) * 2.0 * sd).exp() * (mm / 10.0).powi(3);
        let densities: Vec<f64> = (0..n).map(|c| {
            let (mean, sd) = spread(&parts.questions[1], c);
            crate::slow::blurred(0.0, relative.1, sd / 3.0, |by| {
                crate::slow::blurred(0.0, relative.0, sd, |z| {
                    let h = (grams / (1.0 + z)).ln() - 3.0 * (mm / (1.0 + by) / 10.0).ln();
                    (-0.5 * ((h - mean) / sd).powi(2)).exp() / sd
                })
            }) / (2.0 * std::f64::consts::PI).sqrt()
        }).collect();
        let model = Model::new(parts.clone()).expect("the shapes fit");
        let length = Answer {
            question: 0,
            told: Told::Measured { value: mm, uncertainty: mm * relative.1 },
            sure: true,
        };
        // The length's own word divided out, so that only the mass is compared.
        let both = weigh(&model, 0, &[length.clone(), mass(grams, relative.0)]).p;
        let alone = weigh(&model, 0, std::slice::from_ref(&length)).p;
        let ratio: Vec<f64> = both.iter().zip(&alone).map(|(b, a)| b / a).collect();
        let sum: f64 = ratio.iter().sum();
        let fast: Vec<f64> = ratio.iter().map(|r| r / sum).collect();
        let slow = with_floor(&parts, &densities);
        prop_assert!(apart(&fast, &slow) < 0.005, "{fast:?} against {slow:?}");
    }
}
