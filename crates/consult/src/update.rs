//! The pure reducer: a state and a message give a state and effects. Nothing is done here; effects are values that
//! the page carries out.

use crate::finding::Facts;
use crate::fragment;
use crate::guide::{Aim, Guide};
use crate::look::{self, Asked};
use crate::marks::{self, Mark, Marks};
use crate::measures::{Measure, Measures};
use crate::photo::{self, Photo};
use crate::sale::Act;
use crate::state::{Before, Given, Manner, Screen, State, Theme, Typed, What};
use crate::tables::Table;
use measure::Instrument;
use pack::{Form, Question};
use units::{Length, LengthUnit, Mass};

/// What a user did, or what came from outside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Msg {
    /// Tapped a choice of a question.
    Choose {
        /// Index of the question.
        question: usize,
        /// Index of the choice.
        choice: usize,
    },
    /// "Can't tell".
    Cannot(usize),
    /// "One of two": the next two taps are one answer.
    Either,
    /// Marked an answer as not sure, or sure again.
    Unsure(usize),
    /// Took an answer back.
    TakeBack(usize),
    /// Asked for a question by hand.
    Ask(usize),
    /// "Look next" on the finding.
    LookOn,
    /// Typed into a measured question.
    Type(String),
    /// Chose mm or inches.
    Unit(LengthUnit),
    /// Chose calipers or a ruler.
    Calipers(bool),
    /// Uses what was typed for a question.
    Enter(usize),
    /// Chose a place.
    Place(usize),
    /// Passed the place by.
    SkipPlace,
    /// Only a picture is there, or the piece is in the hand again.
    Picture(bool),
    /// A tool is at hand, or no longer.
    Tool(usize),
    /// What is wanted most.
    Aim(Aim),
    /// How the next question is chosen.
    Manner(Manner),
    /// Light, dark, sun.
    Theme(Theme),
    /// A screen.
    Show(Screen),
    /// To the lettering.
    Mark(Mark),
    /// In the room for a sale.
    Sale(Act),
    /// To what is measured.
    Measure(Measure),
    /// In the photo room.
    Photo(photo::Act),
    /// Tables that were asked for have come.
    Tables,
    /// Money shown or hidden.
    Money,
    /// "Why this?" opened or closed.
    Why,
    /// One step back.
    Undo,
    /// A new piece.
    Fresh,
    /// The fragment of the address changed: a link, a reload, the browser's Back.
    Went(String),
    /// A text kept on this device came back.
    Kept(Kept, String),
    /// The questions for a seller, as text.
    CopySeller,
    /// The link to this finding.
    CopyLink,
    /// The piece is to be kept in the cabinet.
    Keep,
    /// Agrees to a new version of the page.
    AcceptUpdate,
    /// Something to tell the user once.
    Notice(Option<String>),
}

/// What is kept on a device.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kept {
    /// Tools, unit, manner, theme.
    Preferences,
    /// The terms of a sale room.
    Terms,
    /// The sheet for the day of a sale.
    Sheet,
    /// What the ruler on the screen was set to.
    Ruler,
}

impl Kept {
    /// All of them.
    pub const ALL: [Kept; 4] = [Kept::Preferences, Kept::Terms, Kept::Sheet, Kept::Ruler];

    /// The name under which a page keeps it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Kept::Preferences => "pressmark.preferences",
            Kept::Terms => "pressmark.terms",
            Kept::Sheet => "pressmark.sheet",
            Kept::Ruler => "pressmark.ruler",
        }
    }
}

/// What the page must do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Effect {
    /// Put this into the address, as a new entry of the history or over the present one.
    Address {
        /// The fragment, without `#`.
        fragment: String,
        /// A new entry.
        push: bool,
    },
    /// Move the focus to the heading, scroll to the top.
    Heading,
    /// Put this on the clipboard.
    Copy(String),
    /// Put the page's address with this fragment on the clipboard.
    CopyLink(String),
    /// Keep this text on this device, over what was kept under the name.
    Keep {
        /// Under which name.
        name: Kept,
        /// The text.
        text: String,
    },
    /// Let the waiting version of the page take over.
    AcceptUpdate,
    /// Say this to a screen reader.
    Say(String),
    /// Load these tables.
    Tables(Table),
    /// Work on a photograph.
    Photo(photo::Develop),
    /// Hand the piece over to the cabinet as a record, and go there.
    Record,
    /// Put this where the caret stands in the field of the lettering, or, when empty, rub out what stands before it.
    Insert(String),
}

/// The only way a state changes.
#[must_use]
pub fn update(guide: &Guide, mut state: State, msg: Msg) -> (State, Vec<Effect>) {
    let mut effects = Vec::new();
    if !can_be(guide, &msg) {
        return (state, effects);
    }
    if !matches!(msg, Msg::Notice(_) | Msg::Kept(..) | Msg::CopyLink | Msg::CopySeller | Msg::Went(_)) {
        state.notice = None;
    }
    match msg {
        Msg::Choose { question, choice } => choose(guide, &mut state, question, choice, &mut effects),
        Msg::Cannot(question) => {
            answer(guide, &mut state, Given { question, what: What::Cannot, sure: true }, &mut effects);
        }
        Msg::Either => state.either = if state.either.is_some() { None } else { Some(None) },
        Msg::Unsure(question) => {
            if let Some(given) = state.given.iter_mut().find(|g| g.question == question) {
                given.sure = !given.sure;
                let said = if given.sure { "Marked as sure." } else { "Marked as not sure." };
                effects.push(Effect::Say(said.to_string()));
            }
            effects.push(address(guide, &state, false));
        }
        Msg::TakeBack(question) => {
            step(&mut state);
            state.given.retain(|g| g.question != question);
            state.drop_closed(guide);
            effects.push(address(guide, &state, true));
        }
        Msg::Ask(question) => {
            step(&mut state);
            state.focus = Some(question);
            go(guide, &mut state, Screen::Look, &mut effects);
        }
        Msg::LookOn => {
            state.focus = None;
            state.place_asked = true;
            go(guide, &mut state, Screen::Look, &mut effects);
        }
        Msg::Type(text) => state.typed = Typed { text: text.chars().take(24).collect(), fault: None },
        Msg::Unit(unit) => {
            state.unit = unit;
            effects.push(keep(guide, &state));
        }
        Msg::Calipers(calipers) => state.calipers = calipers,
        Msg::Enter(question) => enter(guide, &mut state, question, &mut effects),
        Msg::Place(place) => {
            let asked = state.screen == Screen::Look;
            if asked {
                step(&mut state);
            }
            state.place = place;
            state.place_asked = true;
            settle_in(guide, &mut state, asked, &mut effects);
        }
        Msg::SkipPlace => {
            step(&mut state);
            state.place_asked = true;
            settle_in(guide, &mut state, true, &mut effects);
        }
        Msg::Picture(picture) => {
            state.picture = picture;
            effects.push(address(guide, &state, false));
        }
        Msg::Tool(tool) => {
            let had = state.tools.contains(&tool);
            state.tools = in_order(guide, |t| if t == tool { !had } else { state.tools.contains(&t) });
            effects.push(keep(guide, &state));
        }
        Msg::Aim(aim) => {
            state.aim = aim;
            effects.push(address(guide, &state, false));
        }
        Msg::Manner(manner) => {
            state.manner = manner;
            effects.push(keep(guide, &state));
        }
        Msg::Theme(theme) => {
            state.theme = theme;
            effects.push(keep(guide, &state));
        }
        Msg::Show(screen) => {
            state.focus = None;
            go(guide, &mut state, screen, &mut effects);
        }
        Msg::Mark(Mark::Key(text)) => effects.push(Effect::Insert(text)),
        Msg::Mark(mark) => {
            let before = before(&state, true);
            if marks::update(&mut state, mark) {
                // Typed letter by letter it is no step; all at once it is one.
                if !state.marks.is_told() {
                    remember(&mut state, before);
                }
                effects.push(address(guide, &state, false));
            }
        }
        Msg::Measure(measure) => state.measures.update(measure),
        Msg::Photo(act) => {
            // Nothing happens before its table has come.
            if let Some(run) = guide.tables.photo.get() {
                run(guide, &mut state, act, &mut effects);
            }
        }
        Msg::Sale(act) => in_sale(guide, &mut state, act, &mut effects),
        Msg::Tables => in_sale(guide, &mut state, Act::Check, &mut effects),
        Msg::Money => state.money = !state.money,
        Msg::Why => state.why = !state.why,
        Msg::Undo => undo(guide, &mut state, &mut effects),
        Msg::Fresh => {
            let condition = Some(std::mem::take(&mut state.condition));
            let before = Before { condition, ..before(&state, true) };
            remember(&mut state, before);
            // At one sale the next piece is offered in the same place: what was said of it stays.
            state.given.clear();
            state.marks = Marks::default();
            state.sale = state.sale.for_another_piece();
            state.measures = Measures::default();
            state.photo = Photo::default();
            state.picture = false;
            state.money = false;
            state.focus = None;
            go(guide, &mut state, Screen::Look, &mut effects);
        }
        Msg::Went(fragment) => went(guide, &mut state, &fragment, &mut effects),
        Msg::Kept(Kept::Preferences, text) => read_preferences(guide, &mut state, &text),
        Msg::Kept(Kept::Ruler, text) => state.ruler.read(&text),
        Msg::Kept(name, text) => {
            let place = if name == Kept::Terms { &mut state.sale.house } else { &mut state.sale.sheet };
            *place = text;
            in_sale(guide, &mut state, Act::Check, &mut effects);
        }
        Msg::CopySeller => {
            let lines = Facts::new(guide, &state).seller_questions(guide);
            effects.push(Effect::Copy(lines.join("\n")));
        }
        Msg::AcceptUpdate => effects.push(Effect::AcceptUpdate),
        // The link leads to the finding, not to the screen from which it was copied.
        Msg::Keep => effects.push(Effect::Record),
        Msg::CopyLink => {
            let finding = State { screen: Screen::Finding, focus: None, ..state.clone() };
            effects.push(Effect::CopyLink(fragment::write(guide, &finding)));
        }
        Msg::Notice(notice) => state.notice = notice,
    }
    marks::settle(guide, &mut state);
    effects.extend(wanted(guide, &state).map(Effect::Tables));
    (state, effects)
}

/// The tables that a state needs and that have not come.
fn wanted(guide: &Guide, state: &State) -> impl Iterator<Item = Table> {
    let marks = state.screen == Screen::Marks || state.marks.is_told();
    let metals = state.screen == Screen::Measures;
    let prices = state.screen == Screen::Sale || !state.condition.is_empty();
    let demo = state.screen == Screen::Sale && state.sale.invented;
    let coins = state.screen == Screen::Photo;
    let all = [
        (Table::Marks, marks),
        (Table::Prices, prices),
        (Table::Demo, demo),
        (Table::Metals, metals),
        (Table::Coins, coins),
    ];
    all.into_iter().filter(|(t, needed)| *needed && !guide.knows(*t)).map(|(t, _)| t)
}

/// Whether what a message names is there. A page of another edition may ask for what this pack does not have.
fn can_be(guide: &Guide, msg: &Msg) -> bool {
    let core = &guide.core;
    match *msg {
        Msg::Choose { question, choice } => {
            core.questions.get(question).is_some_and(|q| q.is_whole() && choice < q.choices.len())
        }
        Msg::Cannot(q) | Msg::Ask(q) | Msg::Enter(q) => core.questions.get(q).is_some_and(Question::is_whole),
        Msg::Unsure(q) | Msg::TakeBack(q) => q < core.questions.len(),
        Msg::Place(place) => place < core.places.len(),
        Msg::Tool(tool) => tool < core.tools.len(),
        _ => true,
    }
}

fn choose(guide: &Guide, state: &mut State, question: usize, choice: usize, effects: &mut Vec<Effect>) {
    match state.either {
        Some(Some((asked, one))) if asked == question && one != choice => {
            let both = vec![one.min(choice), one.max(choice)];
            answer(guide, state, Given { question, what: What::OneOf(both), sure: true }, effects);
            return;
        }
        Some(first) => {
            // The same again takes it back; the first of another question starts anew.
            state.either =
                Some(if first == Some((question, choice)) { None } else { Some((question, choice)) });
            return;
        }
        None => {}
    }
    answer(guide, state, Given { question, what: What::OneOf(vec![choice]), sure: true }, effects);
}

/// Takes an answer: from the list it stays on the list; otherwise the next question comes, or the finding once settled.
fn answer(guide: &Guide, state: &mut State, given: Given, effects: &mut Vec<Effect>) {
    let on_list = state.screen == Screen::List;
    let correcting = state.focus.is_some() && state.answer_to(given.question).is_some();
    let enough = |facts: &Facts| facts.settled() || facts.spent;
    let had_enough = !on_list && enough(&Facts::new(guide, state));
    step(state);
    state.put(guide, given);
    state.either = None;
    state.typed = Typed::default();
    state.why = false;
    state.focus = None;
    if on_list {
        effects.push(address(guide, state, true));
        return;
    }
    let facts = Facts::new(guide, state);
    let done = enough(&facts) && !had_enough && state.place_asked;
    let nothing = look::asked(guide, state, &facts) == Asked::Nothing;
    let screen = if correcting || done || nothing { Screen::Finding } else { Screen::Look };
    go(guide, state, screen, effects);
}

fn enter(guide: &Guide, state: &mut State, question: usize, effects: &mut Vec<Effect>) {
    let text = state.typed.text.clone();
    let what = match guide.core.questions[question].form {
        Form::Heft => Mass::typed(&text).map(|m| What::Mass(m, Instrument::Scales)),
        Form::Length => Length::typed(&text, state.unit)
            .map(|l| What::Length(l, if state.calipers { Instrument::Calipers } else { Instrument::Ruler })),
        Form::Choice => return,
    };
    match what {
        Ok(what) => answer(guide, state, Given { question, what, sure: true }, effects),
        Err(fault) => {
            effects.push(Effect::Say(fault.0.clone()));
            state.typed.fault = Some(fault.0);
        }
    }
}

/// After the place was told: on, and into the address.
fn settle_in(guide: &Guide, state: &mut State, on: bool, effects: &mut Vec<Effect>) {
    if !on {
        effects.push(address(guide, state, false));
        return;
    }
    let facts = Facts::new(guide, state);
    let nothing = look::asked(guide, state, &facts) == Asked::Nothing;
    let screen = if nothing || facts.settled() || facts.spent { Screen::Finding } else { Screen::Look };
    go(guide, state, screen, effects);
}

fn go(guide: &Guide, state: &mut State, screen: Screen, effects: &mut Vec<Effect>) {
    state.screen = screen;
    state.either = None;
    state.why = false;
    state.typed = Typed::default();
    effects.push(address(guide, state, true));
    effects.push(Effect::Heading);
}

fn undo(guide: &Guide, state: &mut State, effects: &mut Vec<Effect>) {
    if state.either.take().is_some() {
        return;
    }
    let Some(before) = state.past.pop() else {
        // Opened from a link: the last answer can still be taken back.
        if state.given.pop().is_some() {
            state.drop_closed(guide);
            go(guide, state, Screen::Look, effects);
        }
        return;
    };
    state.given = before.given;
    if let Some(text) = before.lettering {
        state.marks = Marks { text, ..Marks::default() };
    }
    if let Some(condition) = before.condition {
        state.condition = condition;
    }
    state.place = before.place;
    state.place_asked = before.place_asked;
    state.focus = before.focus;
    state.picture = before.picture;
    go(guide, state, before.screen, effects);
    effects.push(Effect::Say("Taken back.".to_string()));
}

fn went(guide: &Guide, state: &mut State, fragment: &str, effects: &mut Vec<Effect>) {
    if fragment.trim_start_matches('#') == fragment::write(guide, state) {
        return;
    }
    match fragment::read(guide, state, fragment) {
        Ok(mut read) => {
            read.money = state.money;
            if read.given != state.given {
                read.sale = read.sale.for_another_piece();
            }
            read.measures = std::mem::take(&mut state.measures);
            read.photo = std::mem::take(&mut state.photo);
            read.ruler = std::mem::take(&mut state.ruler);
            *state = read;
            effects.push(Effect::Heading);
        }
        Err(sentence) => {
            let fresh = fragment::read(guide, state, "").unwrap_or_default();
            *state = fresh;
            state.notice = Some(sentence);
            effects.push(address(guide, state, false));
        }
    }
}

pub(crate) const MOST_STEPS_BACK: usize = 60;

pub(crate) fn step(state: &mut State) {
    let before = before(state, false);
    remember(state, before);
}

fn remember(state: &mut State, before: Before) {
    if state.past.len() == MOST_STEPS_BACK {
        state.past.remove(0);
    }
    state.past.push(before);
}

/// What undo leads back to; the lettering is part of it only where the step changes that.
fn before(state: &State, lettering: bool) -> Before {
    Before {
        given: state.given.clone(),
        place: state.place,
        place_asked: state.place_asked,
        focus: state.focus,
        screen: state.screen,
        picture: state.picture,
        lettering: lettering.then(|| state.marks.text.clone()),
        condition: None,
    }
}

/// A tap in the room for a sale: nothing happens before its tables have come.
fn in_sale(guide: &Guide, state: &mut State, act: Act, effects: &mut Vec<Effect>) {
    if let Some(run) = guide.tables.sale.get() {
        run(guide, state, act, effects);
    }
}

fn keep(guide: &Guide, state: &State) -> Effect {
    Effect::Keep { name: Kept::Preferences, text: preferences(guide, state) }
}

fn address(guide: &Guide, state: &State, push: bool) -> Effect {
    Effect::Address { fragment: fragment::write(guide, state), push }
}

/// `tools=magnet,ruler;unit=in;manner=free;theme=sun`: ids, so that they outlive editions of the pack.
pub(crate) fn preferences(guide: &Guide, state: &State) -> String {
    let tools: Vec<&str> = state.tools.iter().map(|t| guide.core.tools[*t].id.as_str()).collect();
    let unit = if state.unit == LengthUnit::Inch { "in" } else { "mm" };
    let manner = if state.manner == Manner::Free { "free" } else { "guided" };
    let theme = state.theme.word();
    format!("tools={};unit={unit};manner={manner};theme={theme}", tools.join(","))
}

/// Takes what it knows and leaves the rest: a preference is never worth an error.
pub(crate) fn read_preferences(guide: &Guide, state: &mut State, text: &str) {
    for (name, value) in text.split(';').filter_map(|pair| pair.split_once('=')) {
        match (name, value) {
            ("tools", ids) => {
                let named = |t: usize| ids.split(',').any(|id| guide.core.tools[t].id == id);
                state.tools = in_order(guide, named);
            }
            ("unit", "in") => state.unit = LengthUnit::Inch,
            ("manner", "free") => state.manner = Manner::Free,
            ("theme", word) => state.theme = Theme::from_word(word).unwrap_or(state.theme),
            _ => {}
        }
    }
}

/// Indices of the tools that are at hand, in pack order.
fn in_order(guide: &Guide, at_hand: impl Fn(usize) -> bool) -> Vec<usize> {
    (0..guide.core.tools.len()).filter(|t| at_hand(*t)).collect()
}
