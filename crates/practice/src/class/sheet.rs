//! Work sheets from a seed: a class has the same pieces, and the teacher the answers.

use crate::item::Item;
use crate::task::{Sort, Task, Trainer, seeded};

/// Height that a piece takes on paper, mm.
const PIECE: u32 = 62;
/// Margins above and below together, and the heading, mm.
const AROUND: u32 = 36;
/// The longest sheet.
const MOST: usize = 40;

/// Sizes of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 x 297 mm (ISO 216).
    A4,
    /// 8.5 x 11 in: 215.9 x 279.4 mm (ANSI Y14.1).
    Letter,
}

impl Paper {
    /// Breadth and height, mm, rounded down.
    #[must_use]
    pub fn size(self) -> (u32, u32) {
        match self {
            Paper::A4 => (210, 297),
            Paper::Letter => (215, 279),
        }
    }

    /// The name that a style sheet of a page knows.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Paper::A4 => "A4",
            Paper::Letter => "letter",
        }
    }

    /// Pieces that fit on a page.
    #[must_use]
    pub fn pieces(self) -> usize {
        ((self.size().1 - AROUND) / PIECE) as usize
    }
}

/// A piece on a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// From 1.
    pub number: usize,
    /// What to draw, and what each drawing says.
    pub drawings: Vec<(String, String)>,
    /// What is asked.
    pub ask: String,
    /// Letters and answers.
    pub answers: Vec<(char, String)>,
}

/// A line of the answer sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Key {
    /// As on the sheet.
    pub number: usize,
    /// The right letter.
    pub letter: char,
    /// What is right.
    pub answer: String,
    /// Why, in sentences.
    pub why: Vec<String>,
    /// What to draw, with the deciding feature in the accent.
    pub mark: String,
}

/// A page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// The pieces on it.
    pub places: Vec<Place>,
}

/// All for a class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheets {
    /// The heading, with the number from which anybody gets the same pieces.
    pub title: String,
    /// Beneath the heading.
    pub says: String,
    /// Paper that it is laid out for.
    pub paper: Paper,
    /// The pages.
    pub pages: Vec<Sheet>,
    /// The answers, one page or more by themselves.
    pub keys: Vec<Key>,
}

impl Trainer<'_> {
    /// A work sheet: so many pieces of the kinds of these blocks (from 0; none for all), every second one a look.
    #[must_use]
    pub fn sheets(&self, seed: u64, pieces: usize, blocks: &[usize], paper: Paper) -> Sheets {
        let kinds = self.kinds_of(blocks);
        let tasks: Vec<Task> = (0..pieces.min(MOST)).filter_map(|n| self.on_sheet(seed, n, &kinds)).collect();
        self.laid_out(seed, &tasks, paper)
    }

    /// The kinds of some blocks, from 0; of all where none is named.
    pub(crate) fn kinds_of(&self, blocks: &[usize]) -> Vec<usize> {
        let all = self.blocks();
        let wanted = |b: &usize| blocks.is_empty() || blocks.contains(b);
        (0..all.len()).filter(wanted).flat_map(|b| all[b].clone()).collect()
    }

    /// Tasks that were drawn for a sheet, on paper.
    pub(crate) fn laid_out(&self, seed: u64, tasks: &[Task], paper: Paper) -> Sheets {
        let places: Vec<Place> = tasks.iter().enumerate().map(|(n, t)| place(n + 1, t)).collect();
        let keys = tasks.iter().enumerate().map(|(n, task)| {
            let feedback = self.grade(task, task.right);
            let answer = task.offers.get(task.right).map_or_else(String::new, |o| o.label.clone());
            Key { number: n + 1, letter: letter(task.right), answer, why: feedback.why, mark: feedback.mark }
        });
        Sheets {
            title: format!("{}: work sheet {seed}", self.guide.core.head.name),
            says: "Look at all drawings of a piece before you mark a letter.".to_string(),
            paper,
            keys: keys.collect(),
            pages: places.chunks(paper.pieces().max(1)).map(|p| Sheet { places: p.to_vec() }).collect(),
        }
    }

    /// The task at a place of the sheet with this number, from 0.
    pub(crate) fn on_sheet(&self, seed: u64, at: usize, kinds: &[usize]) -> Option<Task> {
        let seed = seeded(seed, at as u64);
        if at.is_multiple_of(2) {
            let questions = &self.guide.core.questions;
            let start = (seed % questions.len().max(1) as u64) as usize;
            return (0..questions.len()).find_map(|turn| {
                let q = (start + turn) % questions.len();
                self.task(Sort::Look, Item::Look(questions[q].code), kinds, seed)
            });
        }
        let start = (seed % kinds.len().max(1) as u64) as usize;
        (0..kinds.len()).find_map(|turn| {
            let kind = kinds[(start + turn) % kinds.len()];
            self.task(Sort::Name, Item::Kind(self.guide.core.kinds[kind].code), kinds, seed)
        })
    }
}

fn place(number: usize, task: &Task) -> Place {
    Place {
        number,
        drawings: task.views.iter().map(|v| (v.draw.clone(), v.says.clone())).collect(),
        ask: task.ask.clone(),
        answers: task.offers.iter().enumerate().map(|(i, o)| (letter(i), o.label.clone())).collect(),
    }
}

/// A, B, C...
fn letter(at: usize) -> char {
    char::from(b'A' + u8::try_from(at.min(25)).unwrap_or(25))
}
