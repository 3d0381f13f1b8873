//! What there is to do.

use super::State;
use crate::item::Item;
use crate::task::Trainer;
use crate::words::counted;
use pack::Help;

/// A lesson in the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LessonLine {
    /// Its heading.
    pub title: String,
    /// How much help it gives, in words.
    pub help: &'static str,
    /// Whether it was gone through.
    pub done: bool,
}

/// What there is to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StartView {
    /// The lessons.
    pub lessons: Vec<LessonLine>,
    /// What is due today.
    pub due: String,
    /// Which kinds are being met, or that all are mixed.
    pub kinds: String,
    /// How the tests went.
    pub tests: String,
    /// How many confusions there are to see to.
    pub mixed: String,
}

pub(super) fn view(trainer: &Trainer<'_>, state: &State) -> StartView {
    let core = &trainer.guide.core;
    let progress = &state.progress;
    let line = |l: &pack::Lesson| LessonLine {
        title: l.title.clone(),
        help: match l.help {
            Help::Shown => "Each look is shown",
            Help::Asked => "You look and answer",
            Help::Alone => "Without help",
        },
        done: progress.lessons.contains(&l.code),
    };
    let due = progress.due(state.today).into_iter().filter(|i| knows(trainer, *i)).count();
    let (fresh, met) = trainer.in_play(progress);
    let names: Vec<String> = fresh.iter().map(|k| core.kinds[*k].short.clone()).collect();
    StartView {
        lessons: trainer.lessons().iter().map(line).collect(),
        due: match (progress.asked, due) {
            (0, _) => "Nothing practised yet. Ten minutes a day are enough.".to_string(),
            (_, 0) => "Nothing is due today. New tasks are there all the same.".to_string(),
            (_, n) => format!("{} due today.", counted(n, "thing is", "things are")),
        },
        kinds: if names.is_empty() {
            format!("{} in play, all mixed.", counted(met.len(), "kind", "kinds"))
        } else {
            format!("New: {}.", names.join("; "))
        },
        tests: tests(progress.trials.iter().map(|t| t.right)),
        mixed: match trainer.matrix(progress).mixed.len() {
            0 => "You have taken no kind for another yet.".to_string(),
            n => format!("{} that you took for each other.", counted(n, "pair of kinds", "pairs of kinds")),
        },
    }
}

/// The first and the last test, in a sentence.
pub(super) fn tests(mut right: impl Iterator<Item = u32>) -> String {
    let twelve = crate::TWELVE;
    match (right.next(), right.last()) {
        (None, _) => {
            "Take the test of twelve before you begin: later you see what you have learned.".to_string()
        }
        (Some(first), None) => format!("The test: {first} of {twelve}."),
        (Some(first), Some(last)) => {
            format!("The test: {first} of {twelve} the first time, {last} of {twelve} the last.")
        }
    }
}

/// Whether this edition of the pack still has what is practised.
fn knows(trainer: &Trainer<'_>, item: Item) -> bool {
    let core = &trainer.guide.core;
    let kind = |code: u16| core.kinds.iter().any(|k| k.code == code);
    match item {
        Item::Look(q) => core.questions.iter().any(|x| x.code == q),
        Item::Kind(k) | Item::Make(k) => kind(k),
        Item::Pair(a, b) => kind(a) && kind(b),
        Item::Proof(p) => {
            trainer.guide.book.as_ref().is_some_and(|b| b.lessons.proofs.iter().any(|x| x.code == p))
        }
    }
}
