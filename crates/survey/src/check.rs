//! Files to what can be said of them: every fault, or the pack with its quality, each fault at the cell it came from.

use crate::quality::{Pair, Quality, of};
use crate::simulate::{Examined, Figures, Form, Setting, entropy, figures, run_some};
use compile::{Compiled, Fault, Files};
use consult::Guide;
use std::ops::Range;

/// So many pieces are made up and examined.
pub const MADE_UP: usize = 300;
/// The year in which a pack is looked over: nothing that is said of it here depends on it.
const YEAR: units::Year = 2000;

/// What came of looking a pack over.
#[derive(Debug)]
pub enum Checked {
    /// The files do not hold together.
    Broken(Vec<Fault>),
    /// They do.
    Whole(Box<(Compiled, Guide, Quality)>),
}

impl Checked {
    /// Looks over files or sheets as they were handed over.
    #[must_use]
    pub fn of(raw: &Files) -> Checked {
        let made = match compile::sheets::import(raw) {
            Ok(made) => made,
            Err(faults) => return Checked::Broken(faults),
        };
        let traced = |faults: Vec<Fault>| faults.iter().map(|f| made.trace(f)).collect::<Vec<Fault>>();
        let files = &made.files;
        let mut compiled = match compile::compile(files) {
            Ok(compiled) => compiled,
            Err(faults) => return Checked::Broken(traced(faults)),
        };
        match Guide::from_bytes(&compiled.core_bytes, &compiled.book_bytes, YEAR) {
            Ok(guide) => {
                let mut quality = of(&guide, files, &compiled);
                compiled.notes = traced(compiled.notes);
                quality.faults = traced(quality.faults);
                quality.notes = traced(quality.notes);
                Checked::Whole(Box::new((compiled, guide, quality)))
            }
            Err(says) => Checked::Broken(vec![Fault {
                file: "pack.toml".to_string(),
                line: 0,
                field: String::new(),
                says,
                hint: String::new(),
            }]),
        }
    }

    /// What must be mended.
    #[must_use]
    pub fn faults(&self) -> &[Fault] {
        match self {
            Checked::Broken(faults) => faults,
            Checked::Whole(all) => &all.2.faults,
        }
    }
}

/// How pieces of the pack's own tables fare: findings, answers until they stand, and the bits that no way of asking can
/// do without.
#[derive(Debug, Clone)]
pub struct Fares {
    /// Of the findings.
    pub figures: Figures,
    /// Of the kind before any look, bits.
    pub entropy: f64,
}

impl Fares {
    /// Makes up all pieces and examines them.
    #[must_use]
    pub fn of(guide: &Guide) -> Fares {
        Fares::told(guide, &Fares::some(guide, 0..MADE_UP))
    }

    /// Some of the pieces, for whoever works a little at a time: all of them together are the same as at once.
    #[must_use]
    pub fn some(guide: &Guide, which: Range<usize>) -> Vec<Examined> {
        run_some(guide, &Setting { to_the_end: false, ..Setting::pocket(1) }, Form::Easy, which)
    }

    /// What all pieces together say.
    #[must_use]
    pub fn told(guide: &Guide, examined: &[Examined]) -> Fares {
        Fares { figures: figures(guide, examined), entropy: entropy(guide) }
    }
}

/// The questions that part two kinds most, with their share of a hundred.
#[must_use]
pub fn told_by<'a>(guide: &'a Guide, pair: &Pair) -> Vec<(&'a str, f64)> {
    let share = |d: f64| 100.0 * d / pair.distance.max(1e-9);
    let by = pair.by.iter().take(4).filter(|t| t.distance > 0.0);
    by.map(|t| (guide.core.questions[t.question].id.as_str(), share(t.distance))).collect()
}

/// What a pack holds, counted.
#[must_use]
pub fn sizes(c: &Compiled) -> [(&'static str, usize); 8] {
    [
        ("kinds", c.core.kinds.len()),
        ("questions", c.core.questions.len()),
        ("choices", c.core.questions.iter().map(|q| q.choices.len()).sum()),
        ("candidates", c.core.candidates.len()),
        ("tables", c.core.questions.iter().map(|q| q.rows.len()).sum()),
        ("sources", c.book.sources.len()),
        ("bytes of the core", c.core_bytes.len()),
        ("bytes of the book", c.book_bytes.len()),
    ]
}
