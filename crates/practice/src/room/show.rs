//! Tasks, tests, talks and confusions as they are shown.

use super::State;
use crate::mixed::Matrix;
use crate::sight::View;
use crate::talk::Turn;
use crate::task::{Feedback, Sort, Task, Trainer};
use crate::trial::TWELVE;

/// A drawing with its words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DrawnView {
    /// Beneath it.
    pub name: String,
    /// The same on the key that turns to it, short.
    pub key: String,
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
    /// Before it: what it is, in sentences.
    Before(Vec<String>),
    /// The next piece is not found yet, as a sentence.
    Sought(String),
    /// A piece of it: "Piece 3 of 12", and the task.
    Piece(String, Box<TaskView>),
    /// How it went, in sentences.
    Done(Vec<String>),
}

/// A consultation talked through.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TalkView {
    /// The piece all round.
    pub views: Vec<DrawnView>,
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

/// "From the side" for "Seen from the side, toe to the right".
fn short(name: &str) -> String {
    let first = name.split(',').next().unwrap_or_default();
    crate::words::capital(first.strip_prefix("Seen ").unwrap_or(first))
}

/// The piece all round, without the closer looks.
pub(super) fn drawn(all: Vec<View>) -> Vec<DrawnView> {
    let round = all.into_iter().filter(|v| !v.close);
    round.map(|v| DrawnView { key: short(&v.name), name: v.name, draw: v.draw, says: v.says }).collect()
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
        key: short(&v.name),
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

/// The same task with its answer shown and nothing of it chosen by anybody.
pub(super) fn revealed(trainer: &Trainer<'_>, task: &Task, mut view: TaskView) -> TaskView {
    for (at, offer) in view.offers.iter_mut().enumerate() {
        (offer.stands, offer.word) =
            if at == task.right { (Standing::Right, "right") } else { (Standing::Past, "") };
    }
    let mut feedback = trainer.grade(task, task.right);
    // Nobody was right or wrong here.
    feedback.says = feedback.says.trim_start_matches("Yes. ").to_string();
    view.feedback = Some(feedback);
    view
}

pub(super) fn test(trainer: &Trainer<'_>, state: &State) -> TestView {
    let Some(test) = state.test.as_ref() else {
        return TestView::Before(vec![
            format!(
                "{TWELVE} pieces, four names for each. What was right is told at the end, and nothing before."
            ),
            "Take it before you begin to practise, and again after two weeks: every twelve is equally hard."
                .to_string(),
            super::start::tests(state.progress.trials.iter().map(|t| t.right)),
        ]);
    };
    if let Some(open) = &state.task {
        let says = format!("Piece {} of {TWELVE}", test.place + 1);
        return TestView::Piece(says, Box::new(task(trainer, state, open)));
    }
    if !test.done {
        return TestView::Sought(format!("Piece {} of {TWELVE} is being drawn.", test.place + 1));
    }
    let trials = &state.progress.trials;
    TestView::Done(vec![
        format!("{} of {TWELVE} right.", test.right),
        super::start::tests(trials.iter().map(|t| t.right)),
        "Every test of twelve is equally hard.".to_string(),
    ])
}

pub(super) fn talked(trainer: &Trainer<'_>, state: &State) -> TalkView {
    let Some((piece, looks)) = &state.talk else {
        return TalkView { views: Vec::new(), turns: Vec::new(), more: false };
    };
    let mut turns = trainer.talk_of(piece, looks);
    let more = turns.len() > state.said;
    turns.truncate(state.said);
    TalkView { views: drawn(trainer.sight.views(trainer.guide, piece).all), turns, more }
}

pub(super) fn mixed(trainer: &Trainer<'_>, state: &State) -> MixedView {
    let matrix = trainer.matrix(&state.progress);
    let says = match matrix.mixed.first() {
        None => "You have taken no kind for another yet.".to_string(),
        Some(_) => "Rows are what it was, columns what you took it for.".to_string(),
    };
    MixedView { says, matrix }
}
