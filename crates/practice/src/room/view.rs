//! What is shown.

use super::class::{self, ClassView};
use super::series::{self, BoardView, SeriesView};
use super::show::{self, MixedView, TalkView, TaskView, TestView};
use super::start::{self, StartView};
use super::{Page, State};
use crate::lesson::Stand;
use crate::task::Trainer;

/// What is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RoomView {
    /// What there is to do.
    Start(StartView),
    /// A lesson.
    Lesson(Box<Stand>),
    /// A task.
    Task(Box<TaskView>),
    /// What was confused.
    Mixed(MixedView),
    /// The test of twelve.
    Test(TestView),
    /// A consultation talked through.
    Talk(TalkView),
    /// What there is for teachers.
    Teach,
    /// A piece before the class.
    Board(Box<BoardView>),
    /// A series on paper.
    Sheets(Box<SeriesView>),
    /// The teacher's table.
    Class(ClassView),
    /// There is nothing to show here, as a sentence.
    Nothing(&'static str),
}

/// What is shown.
#[must_use]
pub fn view(trainer: &Trainer<'_>, state: &State) -> RoomView {
    match state.page {
        Page::Start => RoomView::Start(start::view(trainer, state)),
        Page::Lesson(at) => match trainer.lessons().get(at) {
            Some(lesson) => RoomView::Lesson(Box::new(trainer.stand(lesson, &state.walk))),
            None => RoomView::Nothing("This edition has no such lesson."),
        },
        Page::Task => match &state.task {
            Some(task) => RoomView::Task(Box::new(show::task(trainer, state, task))),
            None => RoomView::Nothing("This guide has nothing to ask here."),
        },
        Page::Mixed => RoomView::Mixed(show::mixed(trainer, state)),
        Page::Test => RoomView::Test(show::test(trainer, state)),
        Page::Talk => RoomView::Talk(show::talked(trainer, state)),
        Page::Teach => RoomView::Teach,
        Page::Board => match series::board(trainer, state) {
            Some(board) => RoomView::Board(Box::new(board)),
            None => RoomView::Nothing("This guide has nothing to ask here."),
        },
        Page::Sheets => RoomView::Sheets(Box::new(series::view(trainer, state))),
        Page::Class => RoomView::Class(class::view(trainer, &state.class)),
    }
}
