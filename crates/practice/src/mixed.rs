//! What a learner confuses: a small matrix, and for each pair the check to practise.

use crate::item::Item;
use crate::progress::Progress;
use crate::task::Trainer;
use crate::words::inside;
use units::order;

/// The matrix has so many kinds at most.
const MOST: usize = 6;

/// A confusion.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mixed {
    /// In a sentence: what was taken for what, and how often.
    pub says: String,
    /// The check that parts them, a sentence; the look that parts them best where the writer gives none.
    pub check: String,
    /// What to practise.
    pub item: Item,
}

/// A small matrix: rows are what it was, columns what it was taken for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Matrix {
    /// Short names.
    pub names: Vec<String>,
    /// By row and column how often; the diagonal is empty.
    pub cells: Vec<Vec<u32>>,
    /// The confusions, the most frequent first.
    pub mixed: Vec<Mixed>,
}

impl Trainer<'_> {
    /// What was confused, as far as this edition knows the kinds.
    #[must_use]
    pub fn matrix(&self, progress: &Progress) -> Matrix {
        let kind = |code: u16| self.guide.core.kinds.iter().position(|k| k.code == code);
        let known = |t: &(u16, u16, u32)| Some((kind(t.0)?, kind(t.1)?, t.2));
        let took: Vec<(usize, usize, u32)> = progress.took.iter().filter_map(known).collect();
        let most = order(took.len(), &|a, b| took[b].2.cmp(&took[a].2));
        let mut kinds: Vec<usize> = Vec::new();
        for (was, taken, _) in most.iter().map(|i| took[*i]) {
            let more = [was, taken].into_iter().filter(|k| !kinds.contains(k)).count();
            if kinds.len() + more <= MOST {
                for k in [was, taken] {
                    if !kinds.contains(&k) {
                        kinds.push(k);
                    }
                }
            }
        }
        let times = |a: usize, b: usize| took.iter().find(|t| t.0 == a && t.1 == b).map_or(0, |t| t.2);
        Matrix {
            names: kinds.iter().map(|k| self.guide.core.kinds[*k].short.clone()).collect(),
            cells: kinds.iter().map(|a| kinds.iter().map(|b| times(*a, *b)).collect()).collect(),
            mixed: most.iter().map(|i| self.confusion(took[*i])).collect(),
        }
    }

    fn confusion(&self, (was, taken, times): (usize, usize, u32)) -> Mixed {
        let core = &self.guide.core;
        let often = match times {
            1 => "once".to_string(),
            2 => "twice".to_string(),
            n => format!("{n} times"),
        };
        let names = [was, taken].map(|k| inside(&core.kinds[k].name));
        Mixed {
            says: format!("You took {} for {}, {often}.", names[0], names[1]),
            check: self.check(was, taken).unwrap_or_else(|| self.best_look(was, taken)),
            item: Item::pair(core.kinds[was].code, core.kinds[taken].code),
        }
    }

    fn best_look(&self, a: usize, b: usize) -> String {
        let questions = &self.guide.core.questions;
        let tells = |q: usize| self.parts(a, b, q);
        let best = (0..questions.len()).reduce(|x, y| if tells(y) > tells(x) { y } else { x });
        best.map_or_else(String::new, |q| format!("Look at this: {}", questions[q].ask))
    }
}
