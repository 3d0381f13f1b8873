//! What a pack teaches: worked pieces, the order in which kinds are met, what marks prove. It travels with the book.

use crate::codec::{Bytes, Wire, fields, places};
use alloc::string::String;
use alloc::vec::Vec;

/// What a pack teaches, in the order in which it is taught.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Lessons {
    /// Worked pieces.
    pub steps: Vec<Lesson>,
    /// Kinds in the blocks in which they are met; empty when the pack leaves that to the tables.
    pub blocks: Vec<Block>,
    /// What marks prove.
    pub proofs: Vec<Proof>,
}

/// How much help a lesson gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Help {
    /// Each look is answered and explained.
    Shown,
    /// Each look is asked, then explained.
    Asked,
    /// The looks are chosen and answered without help.
    Alone,
}

/// One piece, identified look by look.
#[derive(Debug, Clone, PartialEq)]
pub struct Lesson {
    /// Permanent, never reused.
    pub code: u16,
    /// The heading.
    pub title: String,
    /// How much help it gives.
    pub help: Help,
    /// Index of its kind.
    pub kind: u16,
    /// Index of its make.
    pub make: u16,
    /// What is true of it, as question and choice indices.
    pub answers: Vec<(u16, u16)>,
    /// What is said before the first look.
    pub intro: String,
    /// The deciding looks, in order.
    pub steps: Vec<Step>,
    /// What is said at the end.
    pub ends: String,
}

/// One look of a lesson.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Index of the question.
    pub question: u16,
    /// What there is to learn from it.
    pub says: String,
}

/// Kinds that are met together.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// As shown.
    pub name: String,
    /// Indices of kinds.
    pub kinds: Vec<u16>,
}

/// What a mark proves, and what it does not.
#[derive(Debug, Clone, PartialEq)]
pub struct Proof {
    /// Permanent, never reused.
    pub code: u16,
    /// What the mark is, as a sentence.
    pub mark: String,
    /// What to draw; may be empty.
    pub draw: String,
    /// What it proves.
    pub right: String,
    /// What it is thought to prove.
    pub wrong: Vec<String>,
    /// Why.
    pub because: String,
}

fields! {
    Lessons { steps, blocks, proofs }
    Lesson { code, title, help, kind, make, answers, intro, steps, ends }
    Step { question, says }
    Block { name, kinds }
    Proof { code, mark, draw, right, wrong, because }
}
places! {
    Help: Shown Asked Alone;
}
