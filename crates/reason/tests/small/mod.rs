//! Small random models and answers to them, for laws and for the comparison with brute force. All figures invented.
#![allow(dead_code, reason = "each test binary compiles this file and uses its own part of it")]

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use reason::{Answer, Model, Parts, Quantity, QuestionParts, RowParts, Told};
use std::ops::RangeInclusive;

/// A model's parts, a place, and answers to different questions in some order.
#[derive(Debug, Clone)]
pub(crate) struct Case {
    pub(crate) parts: Parts,
    pub(crate) place: usize,
    pub(crate) answers: Vec<Answer>,
}

impl Case {
    pub(crate) fn model(&self) -> Model {
        Model::new(self.parts.clone()).expect("the shapes are made to fit")
    }

    /// A question that was not answered, and an answer to it: moved out of the answers.
    pub(crate) fn hold_back(&mut self) -> Option<Answer> {
        self.answers.pop()
    }
}

/// Shares of misreadings that go to the choices easily taken for the true one. Basis: memory, as in the engine.
const NEAR: f64 = 0.8;

/// P(reports r | truly t), as a matrix by truth, then report.
pub(crate) fn misreading(q: &QuestionParts, e: f64) -> Vec<Vec<f64>> {
    (0..q.choices)
        .map(|t| {
            let near = &q.confused[t];
            let far: Vec<usize> = (0..q.choices).filter(|r| *r != t && !near.contains(r)).collect();
            let mut reads = vec![0.0; q.choices];
            reads[t] = 1.0 - e;
            for (some, share) in [(near, NEAR), (&far, 1.0 - NEAR)] {
                let share = if near.is_empty() || far.is_empty() { 1.0 } else { share };
                some.iter().for_each(|r| reads[*r] = e * share / some.len() as f64);
            }
            reads
        })
        .collect()
}

/// `ordinary` cases from a fixed seed, so that every run is the same run; with `PRESSMARK_DEEP` set 2000 fresh ones.
pub(crate) fn runs(ordinary: u32) -> ProptestConfig {
    let deep = std::env::var_os("PRESSMARK_DEEP").is_some();
    ProptestConfig {
        cases: if deep { 2000 } else { ordinary },
        rng_seed: if deep { RngSeed::Random } else { RngSeed::Fixed(63) },
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// Any small model.
pub(crate) fn any_case() -> impl Strategy<Value = Case> {
    case(2..=8, 0, 30)
}

/// Models where any answer can be misread, so that nothing is impossible.
pub(crate) fn doubtful_case(candidates: RangeInclusive<usize>) -> impl Strategy<Value = Case> {
    case(candidates, 1, 0)
}

/// Of a hundred groups of looks at most `mixed` are not the piece's own.
fn case(candidates: RangeInclusive<usize>, least_misread: u16, mixed: u16) -> impl Strategy<Value = Case> {
    (candidates, 1..=4_usize, 1..=3_usize, 1..=3_usize, 1..=3_usize, 0..=3_usize, 2..=6_usize)
        .prop_flat_map(move |(n, kinds, makes, roles, places, groups, asked)| {
            let prior = prop_oneof![9 => 1..=1000_u16, 1 => Just(0)];
            (
                (Just(kinds), vec(0..kinds, n), Just(makes), vec(0..makes, n)),
                vec(vec(0..=10_u16, roles), n),
                vec(vec(prior, n), places),
                (vec(0..=50_u16, groups), 0..=mixed),
                vec(raw_question(n, groups, least_misread), asked),
                0..places,
                vec(proptest::option::weighted(0.8, raw_reply()), asked),
                Just((0..asked).collect::<Vec<usize>>()).prop_shuffle(),
            )
        })
        .prop_map(
            |(
                (kinds, kind_of, makes, make_of),
                roles,
                priors,
                (overlaps, mixed),
                raw,
                place,
                replies,
                order,
            )| {
                let mut questions: Vec<QuestionParts> = Vec::new();
                for q in &raw {
                    let made = question(q, &questions);
                    questions.push(made);
                }
                let answers = order
                    .iter()
                    .filter_map(|q| Some((*q, replies[*q].as_ref()?)))
                    .map(|(q, reply)| answer(q, &questions[q], reply))
                    .collect();
                let parts = Parts {
                    kinds,
                    makes,
                    kind_of,
                    make_of,
                    roles: roles.iter().map(|r| shares(r)).collect(),
                    priors: priors.iter().map(|p| shares(p)).collect(),
                    overlaps: overlaps.iter().map(|o| f64::from(*o) / 100.0).collect(),
                    mixed: f64::from(mixed) / 100.0,
                    questions,
                    unknown: None,
                    fit_limits: Vec::new(),
                };
                Case { parts, place, answers }
            },
        )
}

/// To shares of 1; nothing at all means "anything".
pub(crate) fn shares(raw: &[u16]) -> Vec<f64> {
    let sum: f64 = raw.iter().map(|x| f64::from(*x)).sum();
    let even = 1.0 / raw.len() as f64;
    raw.iter().map(|x| if sum > 0.0 { f64::from(*x) / sum } else { even }).collect()
}

#[derive(Debug, Clone)]
struct RawQuestion {
    form: u8,
    choices: usize,
    /// Shares, and where in its range a spread lies and how wide it is, in thousandths.
    rows: Vec<(Vec<u16>, u16, u16)>,
    row_of: Vec<usize>,
    misread: (u16, u16),
    confused: Vec<u8>,
    group: Option<usize>,
    gate: Option<(usize, u8)>,
}

fn raw_question(n: usize, groups: usize, least: u16) -> impl Strategy<Value = RawQuestion> {
    (
        0..8_u8,
        2..=5_usize,
        vec((vec(0..=10_u16, 5), 0..=1000_u16, 0..=1000_u16), 1..=n),
        vec(0..8_usize, n),
        (least..=150, least..=300_u16),
        vec(0..32_u8, 5),
        0..=groups,
        proptest::option::weighted(0.3, (0..8_usize, 1..32_u8)),
    )
        .prop_map(move |(form, choices, rows, row_of, misread, confused, group, gate)| RawQuestion {
            form,
            choices,
            row_of: row_of.into_iter().map(|r| r % rows.len()).collect(),
            rows,
            misread,
            confused,
            group: (group < groups).then_some(group),
            gate,
        })
}

/// At most one question of length and one of heft, as in a pack.
fn question(raw: &RawQuestion, before: &[QuestionParts]) -> QuestionParts {
    let k = raw.choices;
    let has = |heft: bool| {
        before.iter().any(|q| match q.quantity {
            Quantity::Length(_) => !heft,
            Quantity::Heft(_) => heft,
            Quantity::None => false,
        })
    };
    let classes = |low: f64, high: f64| -> Vec<f64> {
        (1..k).map(|i| low + (high - low) * i as f64 / k as f64).collect()
    };
    // Lengths about 30 to 110 mm, hefts about 0.2 to 1.6 g/cm3.
    let (quantity, range, sd) = match raw.form {
        5 | 6 if !has(false) => (Quantity::Length(classes(30.0, 110.0)), (30.0, 80.0), (2.0, 8.0)),
        7 if !has(true) => (Quantity::Heft(classes(-1.6, 0.5)), (-1.5, 2.0), (0.1, 0.4)),
        _ => (Quantity::None, (0.0, 0.0), (0.0, 0.0)),
    };
    let least = u16::from(quantity != Quantity::None);
    let rows = raw
        .rows
        .iter()
        .map(|(row, at, wide)| match quantity {
            Quantity::None => RowParts::Shares(shares(&row[..k])),
            _ => RowParts::Spread {
                mean: range.0 + range.1 * f64::from(*at) / 1000.0,
                sd: sd.0 + sd.1 * f64::from(*wide) / 1000.0,
            },
        })
        .collect();
    QuestionParts {
        choices: k,
        quantity,
        rows,
        row_of: raw.row_of.clone(),
        // A number is never without the floor for gross errors.
        misread: (f64::from(raw.misread.0.max(least)) / 1000.0, f64::from(raw.misread.1.max(least)) / 1000.0),
        confused: (0..k)
            .map(|t| of_mask(raw.confused[t], k).into_iter().filter(|r| *r != t).collect())
            .collect(),
        group: raw.group,
        gate: raw.gate.filter(|_| !before.is_empty()).and_then(|(asked, mask)| {
            let asked = asked % before.len();
            let open = of_mask(mask, before[asked].choices);
            (!open.is_empty()).then_some((asked, open))
        }),
        seconds: 10.0,
        tellable: 0.9,
        tool: None,
        by_picture: true,
    }
}

fn of_mask(mask: u8, k: usize) -> Vec<usize> {
    (0..k).filter(|i| mask >> i & 1 == 1).collect()
}

#[derive(Debug, Clone)]
struct RawReply {
    way: u8,
    choices: (usize, usize),
    mask: u8,
    value: u16,
    uncertainty: u16,
    sure: bool,
}

fn raw_reply() -> impl Strategy<Value = RawReply> {
    (0..12_u8, (0..5_usize, 0..5_usize), 0..32_u8, 0..=1000_u16, 0..=1000_u16, any::<bool>()).prop_map(
        |(way, choices, mask, value, uncertainty, sure)| RawReply {
            way,
            choices,
            mask,
            value,
            uncertainty,
            sure,
        },
    )
}

/// One choice, one of two, any set (even none or all), a number for what is measured, or "can't tell".
fn answer(at: usize, q: &QuestionParts, raw: &RawReply) -> Answer {
    let (a, b) = (raw.choices.0 % q.choices, raw.choices.1 % q.choices);
    let share = f64::from(raw.value) / 1000.0;
    // One number in eight comes without uncertainty.
    let error = if raw.uncertainty < 125 { 0.0 } else { f64::from(raw.uncertainty) / 1000.0 };
    let told = match (raw.way, &q.quantity) {
        (11, _) => Told::Cannot,
        (10, _) => Told::OneOf(of_mask(raw.mask, q.choices)),
        (0..=7, Quantity::Length(_)) => {
            Told::Measured { value: 25.0 + 90.0 * share, uncertainty: 3.0 * error }
        }
        (0..=7, Quantity::Heft(_)) => {
            let value = 10.0 + 600.0 * share;
            Told::Measured { value, uncertainty: 0.05 * value * error }
        }
        (8 | 9, _) if a != b => Told::OneOf(vec![a, b]),
        _ => Told::OneOf(vec![a]),
    };
    Answer { question: at, told, sure: raw.sure }
}
