//! The practice room: everything a learner or a teacher did, the only way it changes, and what is shown. Nothing is done
//! here: effects are values that the page carries out. No clock: the day and a number for this visit are given.

mod class;
mod fragment;
mod series;
mod show;
mod start;
mod test;
mod update;
mod view;

pub use class::{Class, ClassMsg, ClassView, OnTable};
pub use series::{BoardView, Series, SeriesMsg, SeriesView};
pub use show::{DrawnView, MixedView, OfferView, Standing, TalkView, TaskView, TestView};
pub use start::{LessonLine, StartView};
pub use update::{Effect, Msg, update};
pub use view::{RoomView, view};

use crate::lesson::Walk;
use crate::pieces::Handed;
use crate::progress::{Day, Progress};
use crate::task::Task;
use crate::trial::Search;

/// Where in the room one is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Page {
    /// What there is to do.
    #[default]
    Start,
    /// A lesson, by its place.
    Lesson(usize),
    /// One task after the other.
    Task,
    /// What was confused.
    Mixed,
    /// The test of twelve.
    Test,
    /// A consultation talked through.
    Talk,
    /// What there is for teachers.
    Teach,
    /// A piece of a series before the class.
    Board,
    /// A series on paper.
    Sheets,
    /// Own pieces on the table.
    Class,
}

/// Everything that was done.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct State {
    /// Where one is.
    pub page: Page,
    /// What was practised.
    pub progress: Progress,
    /// The day, as given.
    pub today: Day,
    /// The number of this visit, as given: tasks are drawn from it.
    pub seed: u64,
    /// Only what can be answered by the words, without seeing the drawings.
    pub by_words: bool,
    /// The task that is open.
    pub(crate) task: Option<Task>,
    /// What was answered, once it was.
    pub(crate) picked: Option<usize>,
    /// Index of the view that is turned up.
    pub(crate) turned: usize,
    /// The way through the lesson that is open.
    pub(crate) walk: Walk,
    /// The test that is open.
    pub(crate) test: Option<Test>,
    /// The piece that is talked through, and the looks that come up, one more than is shown.
    pub(crate) talk: Option<(Handed, Vec<usize>)>,
    /// Turns of the talk that are shown.
    pub(crate) said: usize,
    /// The series that a teacher has chosen.
    pub(crate) series: Series,
    /// What the teacher has on the table.
    pub class: Class,
    /// A sentence to show once.
    pub notice: Option<String>,
}

/// A test that is under way.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Test {
    pub(crate) seed: u64,
    pub(crate) place: usize,
    pub(crate) right: u32,
    /// The search for the next task; it goes on while this one is looked at.
    pub(crate) ahead: Option<Search>,
    /// Whether that search has ended.
    pub(crate) found: bool,
    /// Whether the test has ended.
    pub(crate) done: bool,
}
