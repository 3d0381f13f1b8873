//! Models in short: questions without groups, gates, tools or costs, to be changed where a trial needs them.

use reason::{Parts, Quantity, QuestionParts, RowParts};

/// A question by choice: a row of shares for each candidate, answers misread with the chance `misread`.
#[must_use]
pub fn question(rows: Vec<Vec<f64>>, misread: f64) -> QuestionParts {
    let choices = rows.first().map_or(0, Vec::len);
    QuestionParts {
        choices,
        quantity: Quantity::None,
        row_of: (0..rows.len()).collect(),
        rows: rows.into_iter().map(RowParts::Shares).collect(),
        misread: (misread, misread),
        confused: vec![vec![]; choices],
        group: None,
        gate: None,
        seconds: 1.0,
        tellable: 1.0,
        tool: None,
        by_picture: true,
    }
}

/// Candidates with their kinds and priors. No makes, no roles, no places.
#[must_use]
pub fn model(kinds: usize, kind_of: Vec<usize>, prior: Vec<f64>, questions: Vec<QuestionParts>) -> Parts {
    let n = kind_of.len();
    Parts {
        kinds,
        makes: 1,
        kind_of,
        make_of: vec![0; n],
        roles: vec![vec![1.0]; n],
        priors: vec![prior],
        overlaps: vec![],
        questions,
        mixed: 0.0,
        unknown: None,
        fit_limits: vec![],
    }
}
