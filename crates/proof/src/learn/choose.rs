//! Which shape and overlap suit a table: the ones that do best on held-out training rows with wrong answers among them.

use super::{Lesson, Shape, forms, groups, model};
use crate::session::{self, End};
use crate::settings;
use anyhow::Result;
use reason::{Model, Random};

/// What was chosen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Choice {
    /// Shape of the classes.
    pub shape: Shape,
    /// Overlap within groups.
    pub rho: f64,
}

impl Choice {
    /// The model that a lesson gives under this choice.
    ///
    /// # Errors
    /// The engine's own.
    pub fn model(&self, lesson: &Lesson, misread: f64) -> Result<Model> {
        let forms = forms(lesson, self.shape);
        let groups =
            if self.rho > 0.0 { groups(lesson, &forms) } else { vec![None; lesson.data.characters.len()] };
        model(lesson, &forms, &groups, self.rho, misread)
    }
}

/// The choice with the least mean surprise after 3, 5, 8, 12 and all questions, over inner folds of the lesson; and what
/// was tried, with its summed surprise.
///
/// # Errors
/// The engine's own.
pub fn choose(lesson: &Lesson, seed: u64) -> Result<(Choice, Vec<(Choice, f64)>)> {
    let mut random = Random::seeded(settings::SEED ^ seed);
    let data = lesson.data;
    let mut rows = lesson.rows.clone();
    (1..rows.len()).rev().for_each(|i| rows.swap(i, random.below(i + 1)));
    rows.truncate(settings::LEARNED);
    let mut tried = Vec::new();
    for shape in shapes(lesson, &rows) {
        let mut sums = [0.0; settings::OVERLAPS.len()];
        for inner in 0..settings::INNER {
            let held: Vec<usize> = rows.iter().copied().skip(inner).step_by(settings::INNER).collect();
            let taught = Lesson { data, rows: rows.iter().copied().filter(|r| !held.contains(r)).collect() };
            let found = forms(&taught, shape);
            let grouped = groups(&taught, &found);
            for (sum, rho) in sums.iter_mut().zip(settings::OVERLAPS) {
                let model = model(&taught, &found, &grouped, rho, settings::ASSUMED)?;
                let mut noise = Random::seeded(settings::SEED ^ inner as u64);
                let mut ways = session::Ways::default();
                for r in held.iter().take(settings::TRIED / settings::INNER) {
                    let shown = data.misread(&data.rows[*r], settings::ASSUMED, &mut noise);
                    *sum += surprise(&session::run(&model, data, &shown, &mut ways), data.class_of[*r]);
                }
            }
        }
        let each = settings::OVERLAPS.iter().zip(sums);
        tried.extend(each.map(|(rho, sum)| (Choice { shape, rho: *rho }, sum)));
    }
    let best = tried.iter().copied().fold(tried[0], |a, b| if b.1 < a.1 { b } else { a });
    Ok((best.0, tried))
}

/// Forms around patterns are tried only where they stay few.
fn shapes(lesson: &Lesson, rows: &[usize]) -> Vec<Shape> {
    let bits = |r: &usize| -> Vec<u64> { lesson.data.rows[*r].iter().map(|v| v.to_bits()).collect() };
    let mut patterns: Vec<Vec<u64>> = rows.iter().map(bits).collect();
    patterns.sort();
    patterns.dedup();
    let mut shapes = vec![Shape::One, Shape::Mixture];
    if patterns.len() <= settings::MOST_PATTERNS {
        shapes.extend(settings::SPREADS.map(Shape::Around));
    }
    shapes
}

fn surprise(ends: &session::Ends, class: usize) -> f64 {
    let of = |e: &End| -libm::log(e.p[class].max(1e-12));
    ends.budgets.iter().map(of).sum::<f64>() + of(&ends.all)
}
