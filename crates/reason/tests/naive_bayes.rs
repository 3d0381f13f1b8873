//! Without misreading and groups the engine is naive Bayes: compared with another engine's, learned from the same table.

use reason::{Answer, Model, Parts, Quantity, QuestionParts, RowParts, Told, weigh};

const TABLE: &str = include_str!("../../../tests/fixtures/naive_bayes/table.csv");
const CASES: &str = include_str!("../../../tests/fixtures/naive_bayes/cases.csv");
const CATEGORICAL: &str = include_str!("../../../tests/fixtures/naive_bayes/categorical.csv");
const GAUSSIAN: &str = include_str!("../../../tests/fixtures/naive_bayes/gaussian.csv");
const WITHIN: f64 = 1e-9;
/// Columns of the cases: five forms by choice, three sizes.
const FORMS: std::ops::Range<usize> = 0..5;
const SIZES: std::ops::Range<usize> = 5..8;
/// What is added to each count, as in the fixture.
const ADDED: f64 = 0.5;

fn lines(csv: &str) -> impl Iterator<Item = Vec<&str>> {
    csv.lines().skip(1).map(|l| l.split(',').collect())
}

fn number(text: &str) -> f64 {
    text.parse().expect("the fixture holds numbers")
}

/// By kind, its rows of the table without the name.
fn learned_from() -> [Vec<Vec<f64>>; 3] {
    ["a", "b", "c"].map(|kind| {
        lines(TABLE).filter(|l| l[0] == kind).map(|l| l[1..].iter().map(|x| number(x)).collect()).collect()
    })
}

fn cases() -> Vec<Vec<f64>> {
    lines(CASES).map(|l| l.iter().map(|x| number(x)).collect()).collect()
}

fn choices(column: usize) -> usize {
    let all = learned_from().concat().into_iter().chain(cases());
    all.map(|row| row[column] as usize).max().expect("not empty") + 1
}

fn question(choices: usize, quantity: Quantity, rows: Vec<RowParts>) -> QuestionParts {
    QuestionParts {
        choices,
        quantity,
        rows,
        row_of: vec![0, 1, 2],
        misread: (0.0, 0.0),
        confused: vec![vec![]; choices],
        group: None,
        gate: None,
        seconds: 1.0,
        tellable: 1.0,
        tool: None,
        by_picture: true,
    }
}

/// Shares of a form among a kind's pieces, with something added to each count.
fn form(column: usize) -> QuestionParts {
    let k = choices(column);
    let rows = learned_from().map(|pieces| {
        let count = |c: usize| pieces.iter().filter(|p| p[column] as usize == c).count() as f64;
        let all = pieces.len() as f64 + ADDED * k as f64;
        RowParts::Shares((0..k).map(|c| (count(c) + ADDED) / all).collect())
    });
    question(k, Quantity::None, rows.to_vec())
}

/// Mean and standard deviation of a size among a kind's pieces.
fn size(column: usize) -> QuestionParts {
    let rows = learned_from().map(|pieces| {
        let n = pieces.len() as f64;
        let mean = pieces.iter().map(|p| p[column]).sum::<f64>() / n;
        let squares = pieces.iter().map(|p| (p[column] - mean) * (p[column] - mean));
        RowParts::Spread { mean, sd: (squares.sum::<f64>() / n).sqrt() }
    });
    question(2, Quantity::Length(vec![50.0]), rows.to_vec())
}

fn compare(questions: Vec<QuestionParts>, told: impl Fn(&[f64]) -> Vec<Told>, expected: &str) {
    let model = Model::new(Parts {
        kinds: 3,
        makes: 1,
        kind_of: vec![0, 1, 2],
        make_of: vec![0; 3],
        roles: vec![vec![1.0]; 3],
        priors: vec![learned_from().map(|p| p.len() as f64).to_vec()],
        overlaps: vec![],
        questions,
        mixed: 0.0,
        unknown: None,
        fit_limits: vec![],
    })
    .expect("the shapes fit");
    let expected: Vec<Vec<&str>> = lines(expected).collect();
    assert_eq!(expected.len(), 20);
    assert_eq!(cases().len(), 20);
    for (case, line) in cases().iter().zip(expected) {
        let answers: Vec<Answer> = told(case)
            .into_iter()
            .enumerate()
            .map(|(question, told)| Answer { question, told, sure: true })
            .collect();
        let got = weigh(&model, 0, &answers).p;
        for (p, text) in got.iter().zip(&line) {
            assert!((p - number(text)).abs() < WITHIN, "{got:?} against {line:?}");
        }
    }
}

#[test]
fn choices_agree_with_categorical_naive_bayes() {
    compare(
        FORMS.map(form).collect(),
        |case| FORMS.map(|c| Told::OneOf(vec![case[c] as usize])).collect(),
        CATEGORICAL,
    );
}

#[test]
fn lengths_agree_with_gaussian_naive_bayes() {
    let exactly = |case: &[f64]| SIZES.map(|c| Told::Measured { value: case[c], uncertainty: 0.0 }).collect();
    compare(SIZES.map(size).collect(), exactly, GAUSSIAN);
}
