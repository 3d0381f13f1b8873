//! Forms to a model's parts.

use super::forms::{Form, Seen};
use crate::data::Set;
use reason::{Parts, Quantity, QuestionParts, RowParts};

/// Where the classes of a measure are cut, for choosing the next question: the middles between neighbouring kinds would
/// do for two, eighths of all pieces do for any number.
const CUTS: usize = 8;

/// Groups of questions: group of each question, and the overlap of each group.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Groups {
    /// Group of each question; empty = none has one.
    pub of: Vec<Option<usize>>,
    /// Overlap of each group.
    pub overlaps: Vec<f64>,
}

/// The parts of a model from learned forms. Kinds without a form get none: they cannot be found.
#[must_use]
pub fn parts(set: &Set, train: &[usize], forms: &[Form], groups: &Groups, misread: f64) -> Parts {
    let n = forms.len();
    let questions = (0..set.columns.len()).map(|q| {
        let states = set.columns[q].states.len();
        let (choices, quantity) = if states > 0 {
            (states, Quantity::None)
        } else {
            let bounds = eighths(set, train, q);
            (bounds.len() + 1, Quantity::Length(bounds))
        };
        let (rows, row_of) = shared(forms.iter().map(|f| &f.seen[q]));
        QuestionParts {
            choices,
            quantity,
            rows,
            row_of,
            misread: (misread, misread),
            confused: vec![vec![]; choices],
            group: groups.of.get(q).copied().flatten(),
            gate: None,
            seconds: 1.0,
            tellable: 1.0,
            tool: None,
            by_picture: true,
        }
    });
    Parts {
        kinds: set.kinds.len(),
        makes: 1,
        kind_of: forms.iter().map(|f| f.kind).collect(),
        make_of: vec![0; n],
        roles: vec![vec![1.0]; n],
        priors: vec![forms.iter().map(|f| f.weight).collect()],
        overlaps: groups.overlaps.clone(),
        questions: questions.collect(),
        unknown: None,
        fit_limits: vec![],
    }
}

/// Equal rows once.
fn shared<'a>(all: impl Iterator<Item = &'a Seen>) -> (Vec<RowParts>, Vec<usize>) {
    let (mut rows, mut row_of): (Vec<RowParts>, Vec<usize>) = (Vec::new(), Vec::new());
    for seen in all {
        let row = match seen {
            Seen::Shares(s) => RowParts::Shares(s.clone()),
            Seen::Spread { mean, sd } => RowParts::Spread { mean: *mean, sd: *sd },
        };
        let at = rows.iter().position(|r| *r == row).unwrap_or_else(|| {
            rows.push(row);
            rows.len() - 1
        });
        row_of.push(at);
    }
    (rows, row_of)
}

fn eighths(set: &Set, train: &[usize], q: usize) -> Vec<f64> {
    let mut numbers: Vec<f64> = train
        .iter()
        .filter_map(|i| match set.pieces[*i].values[q] {
            crate::data::Value::Number(x) => Some(x),
            _ => None,
        })
        .collect();
    numbers.sort_by(f64::total_cmp);
    let mut bounds: Vec<f64> =
        (1..CUTS).filter_map(|i| numbers.get(numbers.len() * i / CUTS).copied()).collect();
    bounds.dedup();
    bounds
}
