//! What a user told about one question.

/// The answer to one question.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// Index of the question.
    pub question: usize,
    /// What was told.
    pub told: Told,
    /// Whether the user was sure.
    pub sure: bool,
}

/// What can be told.
#[derive(Debug, Clone, PartialEq)]
pub enum Told {
    /// One of the choices, or either of several.
    OneOf(Vec<usize>),
    /// A measurement in the question's own unit (mm, or g for a question about heft).
    Measured {
        /// The value, above zero.
        value: f64,
        /// Its standard uncertainty (GUM, 2.3.1), zero or more.
        uncertainty: f64,
    },
    /// It was looked at and cannot be told.
    Cannot,
}

impl Told {
    /// Whether it says anything.
    #[must_use]
    pub fn speaks(&self) -> bool {
        match self {
            Told::OneOf(set) => !set.is_empty(),
            Told::Measured { .. } => true,
            Told::Cannot => false,
        }
    }
}

/// The answers that count: of two to one question the later.
pub(crate) fn standing(answers: &[Answer]) -> impl Iterator<Item = &Answer> {
    answers.iter().enumerate().filter_map(|(i, answer)| {
        let replaced = answers[i + 1..].iter().any(|a| a.question == answer.question);
        (!replaced).then_some(answer)
    })
}
