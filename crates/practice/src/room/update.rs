//! The only way the room changes.

use super::class::{self, ClassMsg};
use super::series::{self, SeriesMsg};
use super::{Page, State, Test, test};
use crate::item::Item;
use crate::lesson::{Now, Walk};
use crate::pieces::Of;
use crate::progress::{Day, Progress};
use crate::task::{Trainer, seeded};

/// What was done, or came from outside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Msg {
    /// The room is entered.
    Begun {
        /// The day.
        today: Day,
        /// A number that no other visit has.
        seed: u64,
        /// What the phone has kept, as a text.
        kept: Option<String>,
    },
    /// To another place in the room.
    Go(Page),
    /// Turns the piece: index of the view.
    Turn(usize),
    /// Answers the open task: index of the offer.
    Pick(usize),
    /// The next task, or the next step of a lesson that is shown, or the next look of a talk.
    Next,
    /// Answers or chooses in a lesson: index of what is offered.
    Walk(usize),
    /// Only tasks that the words alone can answer.
    ByWords(bool),
    /// Practises a pair that was confused.
    Practise(Item),
    /// Begins a test of twelve.
    Test,
    /// Takes in a file of practice.
    Import(String),
    /// Saves what was practised as a file.
    Export,
    /// A little more of what is being made: of the sheets, or of the next piece of a test.
    More,
    /// What a teacher does with a series.
    Series(SeriesMsg),
    /// Prints what stands there.
    Print,
    /// Brings the pieces of the cabinet to the table.
    Cabinet,
    /// What a teacher does.
    Class(ClassMsg),
    /// Something went wrong outside, as a sentence.
    Told(String),
    /// The notice was read.
    Read,
}

/// What the page must do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Effect {
    /// Keep this text on the phone.
    Keep(String),
    /// Move the focus to the heading, scroll to the top.
    Heading,
    /// Move the focus to what is said about the answer.
    Answered,
    /// Save a file: name and text.
    Save(String, String),
    /// Print what stands there.
    Print,
    /// Send [`Msg::More`] when the page has been drawn: there is more to make.
    Then,
    /// Read the cards of the cabinet and send them as pieces for the table.
    Cabinet,
}

/// The only way a state changes.
#[must_use]
pub fn update(trainer: &Trainer<'_>, mut state: State, msg: Msg) -> (State, Vec<Effect>) {
    let mut effects = Vec::new();
    match msg {
        Msg::Begun { today, seed, kept } => begin(trainer, &mut state, today, seed, kept),
        Msg::Go(page) => go(trainer, &mut state, page, &mut effects),
        Msg::Turn(view) => {
            let views = state.task.as_ref().map_or(0, |t| t.views.len());
            state.turned = view.min(views.saturating_sub(1));
        }
        Msg::Pick(offer) => pick(trainer, &mut state, offer, &mut effects),
        Msg::Next => next(trainer, &mut state, &mut effects),
        Msg::Walk(at) => walk(trainer, &mut state, Some(at), &mut effects),
        Msg::ByWords(on) => {
            state.by_words = on;
            if state.page == Page::Task && state.picked.is_none() {
                open(trainer, &mut state, None);
            }
        }
        Msg::Practise(item) => {
            state.page = Page::Task;
            open(trainer, &mut state, Some(item));
            effects.push(Effect::Heading);
        }
        Msg::Test => {
            let tests = state.progress.trials.len() as u64;
            state.test = Some(Test::begun(seeded(state.seed, tests)));
            state.page = Page::Test;
            (state.task, state.picked, state.turned) = (None, None, 0);
            effects.extend([Effect::Heading, Effect::Then]);
        }
        Msg::Import(text) => match Progress::read(&text, &trainer.guide.core.head.id) {
            Ok(read) => {
                state.progress = state.progress.merged(&read);
                state.notice = Some("What was practised elsewhere has been taken in.".to_string());
                effects.push(Effect::Keep(state.progress.text()));
            }
            Err(says) => state.notice = Some(says),
        },
        Msg::Export => {
            let name = format!("{}-practice.txt", trainer.guide.core.head.id);
            effects.push(Effect::Save(name, state.progress.text()));
        }
        Msg::More if state.page == Page::Test => test::more(trainer, &mut state, &mut effects),
        Msg::More => effects.extend(series::more(trainer, &mut state.series).then_some(Effect::Then)),
        Msg::Series(msg) => {
            let (more, moved) = series::update(trainer, &mut state, msg);
            effects.extend(more.then_some(Effect::Then));
            effects.extend(moved.then_some(Effect::Heading));
        }
        Msg::Print => effects.push(Effect::Print),
        Msg::Cabinet => effects.push(Effect::Cabinet),
        Msg::Class(msg) => state.notice = class::update(trainer, &mut state.class, msg).or(state.notice),
        Msg::Told(says) => state.notice = Some(says),
        Msg::Read => state.notice = None,
    }
    (state, effects)
}

fn begin(trainer: &Trainer<'_>, state: &mut State, today: Day, seed: u64, kept: Option<String>) {
    let pack = &trainer.guide.core.head.id;
    *state =
        State { today, seed, by_words: state.by_words, progress: Progress::of(pack), ..State::default() };
    match kept.map(|text| Progress::read(&text, pack)) {
        Some(Ok(read)) => state.progress = read,
        Some(Err(says)) => state.notice = Some(says),
        None => {}
    }
}

fn go(trainer: &Trainer<'_>, state: &mut State, page: Page, effects: &mut Vec<Effect>) {
    state.page = page;
    (state.walk, state.said, state.picked, state.turned) = (Walk::default(), 1, None, 0);
    (state.task, state.test) = (None, None);
    match page {
        Page::Task => open(trainer, state, None),
        Page::Board => series::open(trainer, state),
        Page::Talk => {
            let seed = seeded(state.seed, u64::from(state.progress.asked));
            state.talk = Some((trainer.maker.hand(&Of::default(), seed), Vec::new()));
            ahead(trainer, state);
        }
        _ => {}
    }
    effects.push(Effect::Heading);
}

/// The next task, of this item where one is named.
fn open(trainer: &Trainer<'_>, state: &mut State, item: Option<Item>) {
    let seed = seeded(state.seed, u64::from(state.progress.asked));
    let sorts = [crate::Sort::Pair, crate::Sort::Next];
    let named = item.and_then(|item| sorts.into_iter().find_map(|sort| trainer.task(sort, item, &[], seed)));
    state.task = named.or_else(|| trainer.next_task(&state.progress, state.today, seed, state.by_words));
    (state.picked, state.turned) = (None, 0);
}

fn pick(trainer: &Trainer<'_>, state: &mut State, offer: usize, effects: &mut Vec<Effect>) {
    let Some(task) = state.task.as_ref().filter(|t| state.picked.is_none() && offer < t.offers.len()) else {
        return;
    };
    let feedback = trainer.grade(task, offer);
    if state.page == Page::Test {
        return test::answered(state, feedback.right, effects);
    }
    state.progress.answer(task.item, feedback.right, feedback.took, state.today);
    state.picked = Some(offer);
    effects.push(Effect::Keep(state.progress.text()));
    effects.push(Effect::Answered);
}

fn next(trainer: &Trainer<'_>, state: &mut State, effects: &mut Vec<Effect>) {
    match state.page {
        // A task that is not answered stays: there is no way round it but out of the room.
        Page::Task if state.picked.is_some() || state.task.is_none() => {
            open(trainer, state, None);
            effects.push(Effect::Heading);
        }
        Page::Lesson(_) => walk(trainer, state, None, effects),
        Page::Talk => {
            let turns = state.talk.as_ref().map_or(0, |t| t.1.len());
            state.said = (state.said + 1).min(turns.max(1));
            ahead(trainer, state);
            effects.push(Effect::Answered);
        }
        _ => {}
    }
}

fn walk(trainer: &Trainer<'_>, state: &mut State, chosen: Option<usize>, effects: &mut Vec<Effect>) {
    let Page::Lesson(at) = state.page else { return };
    let Some(lesson) = trainer.lessons().get(at) else { return };
    state.walk = trainer.walked(lesson, &state.walk, chosen);
    if matches!(trainer.stand(lesson, &state.walk).now, Now::End(..)) {
        state.progress.learned(lesson.code);
        effects.push(Effect::Keep(state.progress.text()));
    }
    effects.push(Effect::Answered);
}

/// Finds the looks of the talk up to one more than is shown.
fn ahead(trainer: &Trainer<'_>, state: &mut State) {
    let tools: Vec<usize> = (0..trainer.guide.core.tools.len()).collect();
    let Some((piece, looks)) = &mut state.talk else { return };
    while looks.len() <= state.said {
        let Some(look) = trainer.next_look(piece, &tools, looks) else { return };
        looks.push(look);
    }
}
