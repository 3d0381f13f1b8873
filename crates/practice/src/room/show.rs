//! Tasks, tests, talks and confusions as they are shown.

use super::State;
use super::update::talk;
use crate::mixed::Matrix;
use crate::talk::Turn;
use crate::task::{Feedback, Sort, Task, Trainer};
use crate::trial::TWELVE;

/// A drawing with its words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DrawnView {
    /// On the key that turns to it.
    pub name: String,
    /// What to draw.
    pub draw: String,
    /// What it says to those who cannot see it.
    pub says: String,
}

/// How an answer stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// It can be chosen.
    Open,
    /// It was right.
    Right,
    /// It was chosen and wrong.
    Wrong,
    /// It was not chosen.
    Past,
}

/// An answer that can be given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OfferView {
    /// On the key.
    pub label: String,
    /// How it stands; with a word for it where it is not open: "right", "your answer".
    pub stands: Standing,
    /// That word.
    pub word: &'static str,
}

/// A task.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TaskView {
    /// What sort it is: "A look".
    pub sort: &'static str,
    /// The heading.
    pub ask: String,
    /// Under it.
    pub hint: String,
    /// What can be turned to.
    pub views: Vec<DrawnView>,
    /// Which is turned up.
    pub turned: usize,
    /// The answers.
    pub offers: Vec<OfferView>,
    /// What is said once it was answered.
    pub feedback: Option<Feedback>,
}

/// The test of twelve.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TestView {
    /// A piece of it: "Piece 3 of 12", and the task.
    Piece(String, Box<TaskView>),
    /// How it went, in sentences.
    Done(Vec<String>),
}

/// A consultation talked through.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TalkView {
    /// The looks so far.
    pub turns: Vec<Turn>,
    /// Whether there are more.
    pub more: bool,
}

/// What was confused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MixedView {
    /// In a sentence.
    pub says: String,
    /// The matrix and the list.
    pub matrix: Matrix,
}

pub(super) fn task(trainer: &Trainer<'_>, state: &State, task: &Task) -> TaskView {
    let stands = |at: usize| match state.picked {
        None => (Standing::Open, ""),
        Some(_) if at == task.right => (Standing::Right, "right"),
        Some(picked) if at == picked => (Standing::Wrong, "your answer"),
        Some(_) => (Standing::Past, ""),
    };
    let offer = |(at, o): (usize, &crate::Offer)| {
        let (stands, word) = stands(at);
        OfferView { label: o.label.clone(), stands, word }
    };
    let spoken = |at: usize, guarded: &str| {
        let all = task.spoken.get(at).filter(|_| state.by_words || state.picked.is_some());
        all.map_or_else(|| guarded.to_string(), Clone::clone)
    };
    let views = task.views.iter().enumerate().map(|(at, v)| DrawnView {
        name: v.name.clone(),
        draw: v.draw.clone(),
        says: spoken(at, &v.says),
    });
    TaskView {
        sort: match task.sort {
            Sort::Look => "A look",
            Sort::Name => "What it is",
            Sort::Pair => "Look-alikes",
            Sort::Old => "Old or later",
            Sort::Next => "What next",
            Sort::Proof => "A mark",
        },
        ask: task.ask.clone(),
        hint: task.hint.clone(),
        views: views.collect(),
        turned: state.turned,
        offers: task.offers.iter().enumerate().map(offer).collect(),
        feedback: state.picked.map(|p| trainer.grade(task, p)),
    }
}

pub(super) fn test(trainer: &Trainer<'_>, state: &State) -> Option<TestView> {
    let test = state.test.as_ref()?;
    if let Some(open) = state.task.as_ref().filter(|_| !test.done) {
        let says = format!("Piece {} of {TWELVE}", test.place + 1);
        return Some(TestView::Piece(says, Box::new(task(trainer, state, open))));
    }
    let trials = &state.progress.trials;
    Some(TestView::Done(vec![
        format!("{} of {TWELVE} right.", test.right),
        super::start::tests(trials.iter().map(|t| t.right)),
        "Every test of twelve is equally hard.".to_string(),
    ]))
}

pub(super) fn talked(trainer: &Trainer<'_>, state: &State) -> TalkView {
    let mut turns = talk(trainer, state);
    let more = turns.len() > state.said;
    turns.truncate(state.said);
    TalkView { turns, more }
}

pub(super) fn mixed(trainer: &Trainer<'_>, state: &State) -> MixedView {
    let matrix = trainer.matrix(&state.progress);
    let says = match matrix.mixed.first() {
        None => "You have taken no kind for another yet.".to_string(),
        Some(_) => "Rows are what it was, columns what you took it for.".to_string(),
    };
    MixedView { says, matrix }
}
