//! Three classes and three questions whose posteriors and gains other libraries have computed.

use reason::{Answer, Goal, Model, Parts, Plan, Quantity, QuestionParts, RowParts, Told, weigh};

const EXPECTED: &str = include_str!("../../../tests/fixtures/toy/expected.csv");
/// Ten digits are given.
const WITHIN: f64 = 1e-10;

/// A line of the fixture.
fn expected(what: &str) -> Vec<f64> {
    let line = EXPECTED
        .lines()
        .find_map(|l| l.strip_prefix(what)?.strip_prefix(','))
        .expect("the line is in the fixture");
    line.split(',').map(|x| x.parse().expect("a number")).collect()
}

fn question(rows: [&[f64]; 3]) -> QuestionParts {
    QuestionParts {
        choices: rows[0].len(),
        quantity: Quantity::None,
        rows: rows.iter().map(|r| RowParts::Shares(r.to_vec())).collect(),
        row_of: vec![0, 1, 2],
        misread: (0.0, 0.05),
        confused: vec![vec![]; rows[0].len()],
        group: None,
        gate: None,
        seconds: 1.0,
        tellable: 1.0,
        tool: None,
        by_picture: true,
    }
}

/// Tables invented.
fn toy() -> Parts {
    Parts {
        kinds: 3,
        makes: 1,
        kind_of: vec![0, 1, 2],
        make_of: vec![0; 3],
        roles: vec![vec![1.0]; 3],
        priors: vec![expected("prior")],
        overlaps: vec![],
        questions: vec![
            question([&[0.9, 0.1], &[0.2, 0.8], &[0.5, 0.5]]),
            question([&[0.7, 0.2, 0.1], &[0.1, 0.6, 0.3], &[0.25, 0.25, 0.5]]),
            question([&[0.95, 0.05], &[0.6, 0.4], &[0.1, 0.9]]),
        ],
        mixed: 0.0,
        unknown: None,
        fit_limits: vec![],
    }
}

fn told(question: usize, set: &[usize], sure: bool) -> Answer {
    Answer { question, told: Told::OneOf(set.to_vec()), sure }
}

fn assert_expected(what: &str, got: &[f64]) {
    for (a, b) in got.iter().zip(expected(what)) {
        assert!((a - b).abs() < WITHIN, "{what}: {got:?}");
    }
}

fn posterior(answers: &[Answer]) -> Vec<f64> {
    let model = Model::new(toy()).expect("the shapes fit");
    weigh(&model, 0, answers).p
}

#[test]
fn posteriors_agree_with_other_libraries() {
    let mut answers = vec![told(0, &[1], true)];
    assert_expected("second_of_a", &posterior(&answers));
    answers.push(told(1, &[1, 2], true));
    assert_expected("then_second_or_third_of_b", &posterior(&answers));
    answers.push(Answer { question: 2, told: Told::Cannot, sure: true });
    assert_expected("then_second_or_third_of_b", &posterior(&answers));
    // An unsure answer, misread one time in twenty.
    assert_expected("second_of_a_misread_5_percent", &posterior(&[told(0, &[1], false)]));
}

#[test]
fn gains_agree_with_other_libraries() {
    for (what, misread) in [("gains", 0.0), ("gains_misread_5_percent", 0.05)] {
        let mut parts = toy();
        parts.questions.iter_mut().for_each(|q| q.misread.0 = misread);
        let model = Model::new(parts).expect("the shapes fit");
        let plan = Plan::new(&model, Goal::kind(&model));
        assert_expected(what, &plan.gains(&model, &weigh(&model, 0, &[]), &[0, 1, 2]));
    }
}

/// Entropy of the prior 1.4854752972 bits, strength of the first clue -9.0309 decibans: published with the figures of
/// the fixture, by the same libraries.
#[test]
fn entropy_and_strength_agree_with_other_libraries() {
    let prior = expected("prior");
    let bits: f64 = prior.iter().map(|p| -p * libm::log2(*p)).sum();
    assert!((bits - 1.485_475_297_2).abs() < WITHIN);
    // A question that names the class tells all of it.
    let mut parts = toy();
    parts.questions = vec![question([&[1.0, 0.0, 0.0], &[0.0, 1.0, 0.0], &[0.0, 0.0, 1.0]])];
    let model = Model::new(parts).expect("the shapes fit");
    let plan = Plan::new(&model, Goal::kind(&model));
    assert!((plan.gains(&model, &weigh(&model, 0, &[]), &[0])[0] - 1.485_475_297_2).abs() < WITHIN);

    let (with, without) = (posterior(&[told(0, &[1], true)]), posterior(&[]));
    let strength = reason::log10_odds(with[0], with[1]) - reason::log10_odds(without[0], without[1]);
    assert!((10.0 * strength + 9.0309).abs() < 1e-4);
}
