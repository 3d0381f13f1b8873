//! Everything a user did.

use crate::guide::{Aim, Guide};
use crate::marks::Marks;
use crate::measures::Measures;
use crate::photo::{Photo, Ruler};
use crate::sale::Sale;
use measure::Instrument;
use pack::Form;
use reason::{Answer, Reach, Told};
use units::{Length, LengthUnit, Mass};

/// One answer as the user gave it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Given {
    /// Index of the question.
    pub question: usize,
    /// What was told.
    pub what: What,
    /// Whether the user was sure.
    pub sure: bool,
}

/// What can be told.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum What {
    /// One of the choices, or either of several.
    OneOf(Vec<usize>),
    /// A length.
    Length(Length, Instrument),
    /// A mass.
    Mass(Mass, Instrument),
    /// It was looked at and cannot be told.
    Cannot,
}

/// Which screen is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Screen {
    /// One question.
    #[default]
    Look,
    /// The finding.
    Finding,
    /// All looks at once.
    List,
    /// Where, what with, what for, and how it is shown.
    Setup,
    /// The marks room.
    Marks,
    /// What to pay.
    Sale,
    /// The measuring room.
    Measures,
    /// The photo room.
    Photo,
}

/// How the next question is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Manner {
    /// The pack's opening first, in a stable order; then whatever tells most.
    #[default]
    Guided,
    /// Whatever tells most, from the start.
    Free,
}

/// Light, dark or sun.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Theme {
    /// As the phone is set.
    #[default]
    Phone,
    /// Light.
    Light,
    /// Dark.
    Dark,
    /// Pure black on white, thick lines, for bright sun.
    Sun,
}

impl Theme {
    const ALL: [Theme; 4] = [Theme::Phone, Theme::Light, Theme::Dark, Theme::Sun];

    /// The word that stands for it on the page and among the preferences.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Theme::Phone => "phone",
            Theme::Light => "light",
            Theme::Dark => "dark",
            Theme::Sun => "sun",
        }
    }

    /// Reads that word.
    pub(crate) fn from_word(word: &str) -> Option<Theme> {
        Theme::ALL.into_iter().find(|t| t.word() == word)
    }
}

/// What is being typed for a measured question.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Typed {
    /// The text.
    pub text: String,
    /// Why it could not be used.
    pub fault: Option<String>,
}

/// A point to come back to with undo.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Before {
    pub(crate) given: Vec<Given>,
    pub(crate) place: usize,
    pub(crate) place_asked: bool,
    pub(crate) focus: Option<usize>,
    pub(crate) screen: Screen,
    pub(crate) picture: bool,
    /// The lettering that stood, where the step changed it.
    pub(crate) lettering: Option<String>,
    /// The condition that stood, where the step changed it.
    pub(crate) condition: Option<Vec<String>>,
}

/// Everything a user did.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct State {
    /// The answers, in the order in which they were given.
    pub given: Vec<Given>,
    /// The lettering of the piece.
    pub marks: Marks,
    /// Its faults and merits, by the ids of the tables of prices.
    pub condition: Vec<String>,
    /// What was done in the room for a sale.
    pub sale: Sale,
    /// What calipers and scales told.
    pub measures: Measures,
    /// What was done in the photo room.
    pub photo: Photo,
    /// The ruler on the screen.
    pub ruler: Ruler,
    /// Index of the place where the piece is offered; 0 is "not said".
    pub place: usize,
    /// Whether the place was asked.
    pub place_asked: bool,
    /// Whether only a picture is there.
    pub picture: bool,
    /// Indices of tools at hand.
    pub tools: Vec<usize>,
    /// What the user wants to know most.
    pub aim: Aim,
    /// How the next question is chosen.
    pub manner: Manner,
    /// The screen shown.
    pub screen: Screen,
    /// The question asked for by hand, to correct or to jump.
    pub focus: Option<usize>,
    /// While "one of two" is being given: the question and choice of the first tap, once it came.
    pub either: Option<Option<(usize, usize)>>,
    /// What is being typed.
    pub typed: Typed,
    /// Unit for typing lengths.
    pub unit: LengthUnit,
    /// Whether calipers are used rather than a ruler.
    pub calipers: bool,
    /// Whether money is shown.
    pub money: bool,
    /// Whether "why this?" is open.
    pub why: bool,
    /// Light, dark, sun.
    pub theme: Theme,
    /// A sentence to show once.
    pub notice: Option<String>,
    pub(crate) past: Vec<Before>,
}

impl State {
    /// The answers as the mathematics takes them.
    #[must_use]
    pub fn answers(&self) -> Vec<Answer> {
        self.given.iter().map(Given::answer).collect()
    }

    /// What the user can do now.
    #[must_use]
    pub fn reach(&self) -> Reach {
        Reach { tools: self.tools.clone(), picture: self.picture, without: Vec::new() }
    }

    /// The answer given to a question.
    #[must_use]
    pub fn answer_to(&self, question: usize) -> Option<&Given> {
        self.given.iter().find(|g| g.question == question)
    }

    /// Sets an answer, replacing an older one, and drops answers whose gate is no longer open.
    pub(crate) fn put(&mut self, guide: &Guide, given: Given) {
        match self.given.iter_mut().find(|g| g.question == given.question) {
            Some(old) => *old = given,
            None => self.given.push(given),
        }
        self.drop_closed(guide);
    }

    /// Drops answers whose gate is not open.
    pub(crate) fn drop_closed(&mut self, guide: &Guide) {
        loop {
            let closed = self.given.iter().position(|g| {
                guide.core.questions[g.question].gate.as_ref().is_some_and(|gate| !self.opens(gate))
            });
            match closed {
                Some(at) => drop(self.given.remove(at)),
                None => break,
            }
        }
    }

    fn opens(&self, gate: &pack::Gate) -> bool {
        match self.answer_to(usize::from(gate.question)).map(|g| &g.what) {
            Some(What::OneOf(set)) => {
                !set.is_empty() && set.iter().all(|c| gate.choices.iter().any(|o| usize::from(*o) == *c))
            }
            _ => false,
        }
    }
}

/// Whether an instrument measures what a question asks.
pub(crate) fn measures(with: Instrument, form: Form) -> bool {
    match form {
        Form::Choice => false,
        Form::Length => with != Instrument::Scales,
        Form::Heft => with == Instrument::Scales,
    }
}

impl Given {
    /// The answer as the mathematics takes it.
    #[must_use]
    pub fn answer(&self) -> Answer {
        let told = match &self.what {
            What::OneOf(set) => Told::OneOf(set.clone()),
            What::Length(l, with) => Told::Measured { value: l.mm(), uncertainty: with.uncertainty(l.mm()) },
            What::Mass(m, with) => {
                Told::Measured { value: m.grams(), uncertainty: with.uncertainty(m.grams()) }
            }
            What::Cannot => Told::Cannot,
        };
        Answer { question: self.question, told, sure: self.sure }
    }
}
