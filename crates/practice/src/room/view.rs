//! What is shown.

use super::class::{self, ClassView};
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
        Page::Test => match show::test(trainer, state) {
            Some(test) => RoomView::Test(test),
            None => RoomView::Nothing("No test is open."),
        },
        Page::Talk => RoomView::Talk(show::talked(trainer, state)),
        Page::Class => RoomView::Class(class::view(trainer, &state.class)),
    }
}
