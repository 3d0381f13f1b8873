//! What of a piece can be held against another's.

use super::answers::{Answers, answers};
use super::words::folded;
use crate::order::sorted;
use crate::record::Record;

/// How a piece looks, as numbers and words.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Looks {
    /// What was answered.
    pub answers: Answers,
    /// Tenths of a millimetre.
    pub length: Option<u32>,
    /// Tenths of a gram.
    pub weight: Option<u32>,
    /// The words of its marks, folded, sorted, each once.
    pub marks: Vec<String>,
    /// Numbers that describe its outline, per mille; compared only where there are as many.
    pub outline: Vec<i32>,
}

impl Looks {
    /// The looks of a record.
    #[must_use]
    pub fn of(record: &Record) -> Looks {
        let size = |what| record.measured(what).and_then(|m| m.value);
        let lettering: Vec<String> = record.marks.iter().map(|m| m.text.clone()).collect();
        Looks {
            answers: answers(&record.answers),
            length: size("length").and_then(|s| s.length()).map(|l| l.0).filter(|n| *n > 0),
            weight: size("weight").and_then(|s| s.mass()).map(|m| m.0).filter(|n| *n > 0),
            marks: words(&lettering.join(" ")),
            outline: record.outline.clone(),
        }
    }

    /// The looks of a piece in the hand.
    #[must_use]
    pub fn new(
        link: &str,
        length: Option<u32>,
        weight: Option<u32>,
        lettering: &str,
        outline: Vec<i32>,
    ) -> Looks {
        let some = |n: Option<u32>| n.filter(|n| *n > 0);
        Looks {
            answers: answers(link),
            length: some(length),
            weight: some(weight),
            marks: words(lettering),
            outline,
        }
    }
}

/// Words and numbers of a lettering.
fn words(text: &str) -> Vec<String> {
    let folded = folded(text);
    let words = folded.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
    let mut out: Vec<String> = sorted(words.map(String::from).collect());
    out.dedup();
    out
}
