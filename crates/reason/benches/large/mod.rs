//! Packs far larger than any club will write.
//!
//! Every kind has a row of its own in every question, so that nothing can be shared; ten questions are answered, seven
//! of them in two groups. The tables are drawn at random (invented).

use reason::{Answer, Model, Parts, Quantity, QuestionParts, Random, RowParts, Told};

/// Of the pack.
pub(crate) const QUESTIONS: usize = 100;
const CHOICES: usize = 4;
const ANSWERS: usize = 10;

fn question(at: usize, kinds: usize, random: &mut Random) -> QuestionParts {
    let rows = (0..kinds).map(|_| {
        let raw: Vec<f64> = (0..CHOICES).map(|_| 0.02 + random.unit()).collect();
        let sum: f64 = raw.iter().sum();
        RowParts::Shares(raw.iter().map(|x| x / sum).collect())
    });
    QuestionParts {
        choices: CHOICES,
        quantity: Quantity::None,
        rows: rows.collect(),
        row_of: (0..kinds).collect(),
        misread: (0.04, 0.2),
        confused: (0..CHOICES).map(|c| vec![(c + 1) % CHOICES]).collect(),
        group: match at {
            0..4 => Some(0),
            4..7 => Some(1),
            _ => None,
        },
        gate: None,
        seconds: 5.0 + at as f64 % 7.0,
        tellable: 0.9,
        tool: None,
        by_picture: true,
    }
}

/// A pack of so many kinds.
pub(crate) fn model(kinds: usize) -> Model {
    let mut random = Random::seeded(kinds as u64);
    Model::new(Parts {
        kinds,
        makes: 1,
        kind_of: (0..kinds).collect(),
        make_of: vec![0; kinds],
        roles: vec![vec![1.0]; kinds],
        priors: vec![(0..kinds).map(|_| 0.1 + random.unit()).collect()],
        overlaps: vec![0.2, 0.2],
        questions: (0..QUESTIONS).map(|at| question(at, kinds, &mut random)).collect(),
        mixed: 0.0,
        unknown: None,
        fit_limits: Vec::new(),
    })
    .expect("the shapes fit")
}

/// What was answered.
pub(crate) fn answers() -> Vec<Answer> {
    (0..ANSWERS)
        .map(|question| Answer {
            question,
            told: if question == 9 { Told::OneOf(vec![0, 1]) } else { Told::OneOf(vec![question % CHOICES]) },
            sure: question != 8,
        })
        .collect()
}
