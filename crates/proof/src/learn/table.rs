//! From forms to the engine's model.

use super::{Form, Lesson};
use crate::data::Character;
use crate::{parts, settings};
use anyhow::{Result, anyhow};
use reason::{Model, Quantity, QuestionParts, RowParts};

/// The engine's model of these forms, with an overlap of `rho` within groups; `unknown` adds a kind with broad tables
/// (the last) at this prior.
///
/// # Errors
/// The engine's own.
pub fn model(
    lesson: &Lesson,
    forms: &[Form],
    groups: &[Option<usize>],
    rho: f64,
    misread: f64,
) -> Result<Model> {
    let questions = (lesson.data.characters.iter().enumerate())
        .map(|(c, character)| question(lesson, forms, c, character, groups[c], misread))
        .collect();
    let mut whole = parts::model(
        lesson.data.classes,
        forms.iter().map(|f| f.class).collect(),
        forms.iter().map(|f| f.weight).collect(),
        questions,
    );
    whole.overlaps = vec![rho; groups.iter().flatten().max().map_or(0, |g| g + 1)];
    Model::new(whole).map_err(|e| anyhow!(e))
}

fn question(
    lesson: &Lesson,
    forms: &[Form],
    c: usize,
    character: &Character,
    group: Option<usize>,
    misread: f64,
) -> QuestionParts {
    let mut question = match character {
        Character::States(_) => parts::question(forms.iter().map(|f| f.tables[c].clone()).collect(), misread),
        Character::Number(..) => {
            let bounds = octiles(lesson, c);
            let mut q = parts::question(vec![vec![0.0; bounds.len() + 1]], misread);
            q.quantity = Quantity::Length(bounds);
            q.rows = (forms.iter())
                .map(|f| RowParts::Spread { mean: f.tables[c][0], sd: f.tables[c][1] })
                .collect();
            q.row_of = (0..forms.len()).collect();
            q
        }
    };
    let unknown = lesson.rows.iter().filter(|r| lesson.data.rows[**r][c].is_nan()).count();
    question.tellable = (1.0 - unknown as f64 / lesson.rows.len() as f64).max(settings::LEAST_TELLABLE);
    question.group = group;
    question
}

/// Bounds that cut the training rows into eighths, for reckoning the gain.
fn octiles(lesson: &Lesson, c: usize) -> Vec<f64> {
    let mut values: Vec<f64> =
        (lesson.rows.iter().map(|r| lesson.data.rows[*r][c])).filter(|v| !v.is_nan()).collect();
    values.sort_by(f64::total_cmp);
    values.dedup();
    (1..8).map(|i| values[i * (values.len() - 1) / 8]).collect()
}
