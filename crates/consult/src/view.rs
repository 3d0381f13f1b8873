//! What a screen shows, as plain data. Everything is words and small whole numbers; nothing is left to compute.

use crate::finding;
use crate::guide::Guide;
use crate::look;
use crate::marks::{self, MarksView};
use crate::measures::{self, MeasuresView};
use crate::photo::{self, PhotoView};
use crate::sale::{self, SaleView};
use crate::state::{Screen, State, Theme};
use serde::Serialize;
use units::{LengthUnit, Year};

/// A whole screen.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct View {
    /// The strip under the title: what is known so far. None on the finding itself.
    pub strip: Option<Strip>,
    /// The body.
    pub body: Body,
    /// A sentence to show once, above the body.
    pub notice: Option<String>,
    /// The sentence a pack of invented data must carry, or empty.
    pub pack_notice: String,
}

/// The strip under the title.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Strip {
    /// `14 kinds still fit`.
    pub fits: String,
    /// `about 4 more looks`, or what can be said instead.
    pub left: String,
    /// Share of the entropy gone, per mille: how far the sole is filled from the heel.
    pub known: u16,
}

/// The body of a screen.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Body {
    /// One question.
    Look(LookView),
    /// Where the piece is offered, asked once.
    Place(PlaceView),
    /// What is asked for is still on its way.
    Later,
    /// The finding.
    Finding(Box<FindingView>),
    /// All looks at once.
    List(Vec<PartView>),
    /// Set-up.
    Setup(SetupView),
    /// The marks room.
    Marks(MarksView),
    /// What to pay.
    Sale(Box<SaleView>),
    /// The measuring room.
    Measures(Box<MeasuresView>),
    /// The photo room.
    Photo(Box<PhotoView>),
}

/// One question.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LookView {
    /// Index of the question.
    pub question: usize,
    /// The heading.
    pub ask: String,
    /// How to look.
    pub look: String,
    /// The choices.
    pub choices: Vec<ChoiceView>,
    /// Typing, for measured questions.
    pub typing: Option<TypingView>,
    /// The first of two is awaited, or the second.
    pub either: Option<String>,
    /// Why this question, once asked for.
    pub why: Option<Vec<String>>,
    /// Whether "why" is open.
    pub why_open: bool,
    /// The answer just given, to mark as not sure.
    pub last: Option<LastView>,
    /// What newcomers get wrong, once the book is there and "why" is open.
    pub newcomers: Option<String>,
}

/// A choice.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChoiceView {
    /// Index of the choice.
    pub choice: usize,
    /// On the key.
    pub label: String,
    /// What to draw, in the words of the sketches.
    pub draw: String,
    /// Whether it is (part of) the answer that stands.
    pub chosen: bool,
    /// Fragment of the state after this answer, for a page without a program; empty otherwise.
    pub link: String,
}

/// Typing a measurement.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TypingView {
    /// The text so far.
    pub text: String,
    /// Why it could not be used.
    pub fault: Option<String>,
    /// `Length`, `Weight in grams`.
    pub label: String,
    /// Whether it is a length, with a unit and an instrument to choose.
    pub length: bool,
    /// The unit.
    pub inches: bool,
    /// Calipers rather than a ruler.
    pub calipers: bool,
}

/// The answer just given.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LastView {
    /// Index of its question.
    pub question: usize,
    /// What was said.
    pub text: String,
    /// Whether it is marked as not sure.
    pub unsure: bool,
}

/// Where the piece is offered, and what is at hand.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlaceView {
    /// Place index and name, without "not said".
    pub places: Vec<(usize, String, bool)>,
    /// Tool index, name, at hand.
    pub tools: Vec<(usize, String, bool)>,
    /// Whether only a picture is there.
    pub picture: bool,
    /// The answer just given.
    pub last: Option<LastView>,
}

/// Set-up.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SetupView {
    /// Where and what with.
    pub place: PlaceView,
    /// Aim label and whether it is set, in order of `Aim::ALL`.
    pub aims: Vec<(&'static str, bool)>,
    /// Whether the pack's opening is followed.
    pub guided: bool,
    /// Theme.
    #[serde(skip)]
    pub theme: Theme,
    /// Name, edition and licence of the pack.
    pub pack: String,
}

/// A part of the piece with its looks.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PartView {
    /// Name of the part.
    pub part: String,
    /// Its looks.
    pub looks: Vec<ListedLook>,
}

/// A look in the list of all.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ListedLook {
    /// Index of the question.
    pub question: usize,
    /// The heading.
    pub ask: String,
    /// Choice index, label, chosen.
    pub choices: Vec<(usize, String, bool)>,
    /// A measurement that stands, in words.
    pub measured: Option<String>,
    /// Whether "can't tell" stands.
    pub cannot: bool,
    /// Whether it is marked as not sure.
    pub unsure: bool,
    /// Among the three that tell most now.
    pub tells_most: bool,
    /// Whether a measurement can be typed (opens the question).
    pub typed: bool,
}

/// The finding.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FindingView {
    /// Warnings that stand above everything.
    pub grave: Vec<String>,
    /// Other cautions.
    pub cautions: Vec<String>,
    /// Name of the first kind, or that nothing fits.
    pub title: String,
    /// What to draw of a typical one, in the words of the sketches; empty for none.
    pub draw: String,
    /// How long the drawn one is, in mm.
    pub draw_mm: u32,
    /// `likely, 8 in 10`.
    pub likely: String,
    /// Share of the first kind, per mille.
    pub share: u16,
    /// What it was made as, and what it could have served as.
    pub made_as: String,
    /// Said first when the piece may not be in this guide at all, or is outside of it.
    pub outside: Option<String>,
    /// `leans towards period, 9 in 10`.
    pub make: String,
    /// The same with its reasons.
    pub old_or_later: MakeView,
    /// Roles by name with chance words, those of 1 in 20 and more, most first.
    pub roles: Vec<(String, String)>,
    /// The years.
    pub years: YearsView,
    /// What it is worth, or why nothing can be said.
    pub worth: Result<WorthView, String>,
    /// Whether money is shown.
    pub money: bool,
    /// What to look at next.
    pub next: Option<NextView>,
    /// Settled, spent, or still open, in a sentence.
    pub standing: String,
    /// For and against.
    pub clues: Vec<ClueView>,
    /// What would change it.
    pub change: Vec<String>,
    /// The second kind.
    pub second: Option<SecondView>,
    /// All kinds of 1 in 50 and more: name, chance words, per mille.
    pub kinds: Vec<(String, String, u16)>,
    /// Decisive looks as questions to a seller, when only a picture is there.
    pub seller: Vec<String>,
    /// What a collector would tell about the first kind, once the book is there.
    pub notes: Vec<String>,
    /// Sources behind the figures of the first kind, once the book is there.
    pub sources: Vec<String>,
    /// The purpose of the first kind.
    pub purpose: String,
}

/// Old or later.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MakeView {
    /// `Leans towards period piece, 9 in 10.`
    pub says: String,
    /// The clues that moved it most, each with its strength and its side.
    pub clues: Vec<String>,
    /// The look that would make it surer, if one is left.
    pub next: Option<NextView>,
    /// What speaks for parts put on or worked over later, which is another matter: each with its answer.
    pub altered: Vec<String>,
}

/// When it was made.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct YearsView {
    /// `1865 to 1905`: even chances.
    pub half: String,
    /// `1850 to 1930`: 9 in 10.
    pub nine: String,
    /// `1871 or later`: what the marks rule out; empty when they rule out nothing.
    pub bound: String,
    /// EDTF level 1 of the latter.
    pub edtf: String,
    /// First year of the curve.
    pub from: Year,
    /// Last year of the curve.
    pub to: Year,
    /// Heights from `from` to `to`, one a year, 0 to 1000.
    pub heights: Vec<u16>,
    /// Runs of years inside even chances.
    pub half_runs: Vec<(Year, Year)>,
    /// Runs of years inside 9 in 10.
    pub nine_runs: Vec<(Year, Year)>,
    /// What the years rest on.
    pub basis: String,
    /// With marks: the heights that it would have without them, in the same scale.
    pub without: Vec<u16>,
    /// With marks: how well each goes with a piece of its time made in each of these years.
    pub marks: Vec<MarkYears>,
    /// With marks that contradict each other or the kind: what that may mean.
    pub clashes: Vec<String>,
}

/// What one source of marks says of the years.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkYears {
    /// As typed.
    pub text: String,
    /// Heights over the years of the curve, 0 to 1000.
    pub heights: Vec<u16>,
}

/// What it is worth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WorthView {
    /// `10 to 35 USD`: half of such pieces.
    pub half: String,
    /// `5 to 60 USD`: 8 in 10.
    pub eight: String,
    /// Minor units at 10, 25, 50, 75, 90 in 100.
    pub quantiles: [i64; 5],
    /// Currency code.
    pub currency: String,
    /// Year of the money and basis, and that it is no appraisal.
    pub basis: String,
    /// What the condition of the piece and the results on the sheet do to the band, in sentences.
    pub besides: Vec<String>,
}

/// What to look at next.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NextView {
    /// Index of the question.
    pub question: usize,
    /// Its heading.
    pub ask: String,
    /// What it is good for.
    pub why: String,
}

/// One clue.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClueView {
    /// Index of its question; none for the lettering.
    pub question: Option<usize>,
    /// As a clue: "No wording on it".
    pub text: String,
    /// log10 of the factor by which it moved leader against runner-up, in hundredths; above zero is for.
    pub strength: i32,
    /// `moderate, for`.
    pub words: String,
    /// What the tables behind it rest on.
    pub basis: String,
    /// Marked as not sure.
    pub unsure: bool,
    /// The most suspect answer: look again, with the chance that it was misread.
    pub again: Option<String>,
}

/// The second kind and what separates it from the first.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SecondView {
    /// Name.
    pub name: String,
    /// `unlikely, 1 in 10`.
    pub likely: String,
    /// The deciding check in the pack's words, if it has one for this pair.
    pub check: Option<String>,
    /// The open question that separates the two best.
    pub look: Option<NextView>,
}

/// The screen of a state.
#[must_use]
pub fn view(guide: &Guide, state: &State) -> View {
    shown(guide, state, false, &|facts| match state.screen {
        Screen::List => Body::List(look::list(guide, state, facts)),
        Screen::Setup => Body::Setup(look::setup(guide, state)),
        Screen::Marks => Body::Marks(marks::view(guide, state, facts)),
        Screen::Sale => Body::Sale(Box::new(sale::view(guide, state, facts))),
        Screen::Measures => Body::Measures(Box::new(measures::view(guide, state, facts))),
        Screen::Photo => Body::Photo(Box::new(photo::view(guide, state))),
        Screen::Look | Screen::Finding => Body::Finding(Box::new(finding::view(guide, state, facts))),
    })
}

/// The screen of a state as far as the opening goes: the questions, and for everything else that it is on its way. A
/// program that shows nothing more is made of less than half the code. `links` fills in the links of choices, for a page
/// without any program.
#[must_use]
pub fn opening(guide: &Guide, state: &State, links: bool) -> View {
    shown(guide, state, links, &|_| Body::Later)
}

fn shown(guide: &Guide, state: &State, links: bool, rest: &dyn Fn(&finding::Facts) -> Body) -> View {
    let facts = finding::Facts::new(guide, state);
    let body = match (state.screen, look::asked(guide, state, &facts)) {
        (Screen::Look, look::Asked::Place) => Body::Place(look::place(guide, state)),
        (Screen::Look, look::Asked::Question(q)) => Body::Look(look::view(guide, state, &facts, q, links)),
        (Screen::Look, look::Asked::Later) => Body::Later,
        _ => rest(&facts),
    };
    let strip = (!matches!(body, Body::Finding(_))).then(|| look::strip(guide, state, &facts));
    View { strip, body, notice: state.notice.clone(), pack_notice: guide.core.head.notice.clone() }
}

/// Whether lengths are typed in inches.
pub(crate) fn inches(unit: LengthUnit) -> bool {
    unit == LengthUnit::Inch
}
