//! The structs that travel. Field order is the byte format: change one and `FORMAT` in `frame.rs` goes up.
//!
//! All shares are per mille, all lengths tenths of a millimetre, all years plain, all money minor units:
//! nothing in a pack is a float. References are indices into the lists of the same struct.

use crate::codec::{Bytes, Wire, fields, places};
use crate::lessons::Lessons;
use alloc::string::String;
use alloc::vec::Vec;
use units::{Basis, Money, Period, Year};

/// The question path: what must be there before the first question. Questions outside the opening may lack their words
/// and tables, which then come with the book.
#[derive(Debug, Clone, PartialEq)]
pub struct Core {
    /// What this pack is.
    pub head: Head,
    /// Where a piece may be offered. The first is "not said".
    pub places: Vec<Named>,
    /// What a look may need: magnet, ruler... A question names one of these or none.
    pub tools: Vec<Named>,
    /// Parts of the piece, in the order in which the list of all looks shows them.
    pub parts: Vec<Named>,
    /// What a piece may have been made as.
    pub roles: Vec<Named>,
    /// Period, later casting, recast. The first is "period"; all others count as later.
    pub makes: Vec<Named>,
    /// Sets of questions whose answers hang together, as per mille of overlap (rho).
    pub groups: Vec<u16>,
    /// Of the groups of looks of a piece, per mille whose looks are not its own.
    pub mixed: u16,
    /// What is asked.
    pub questions: Vec<Question>,
    /// The candidate kinds. The last is the one for "not in this guide".
    pub kinds: Vec<Kind>,
    /// Kind x make x form, with tables resolved.
    pub candidates: Vec<Candidate>,
    /// Distributions over `roles`, per mille, that candidates refer to.
    pub role_rows: Vec<RoleRow>,
    /// Question indices of the guided path's stable start.
    pub opening: Vec<u16>,
    /// Warnings, strongest first.
    pub cautions: Vec<Caution>,
    /// The lowest fit (thousandths of a standard deviation) that one in fifty pieces of this pack falls
    /// below, by number of answers, starting with one answer. Found by simulation when the pack is compiled.
    pub fit_limits: Vec<i32>,
    /// The figures that the opening's drawings are put together from.
    pub art: Vec<Figure>,
}

/// What a pack is.
#[derive(Debug, Clone, PartialEq)]
pub struct Head {
    /// Short lower-case id, part of every link: `irons`.
    pub id: String,
    /// `Small pressing irons`.
    pub name: String,
    /// ISO date of the edition.
    pub edition: String,
    /// SPDX expression.
    pub licence: String,
    /// BCP 47 tag of the texts.
    pub language: String,
    /// One sentence that must stand on every finding, or empty (for a pack of invented data, that it is invented).
    pub notice: String,
}

/// Something with a permanent code, an id used in data files, and a name shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    /// Permanent, never reused within its list.
    pub code: u16,
    /// As in the data files.
    pub id: String,
    /// As shown.
    pub name: String,
}

/// Something that can be asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// Permanent, never reused.
    pub code: u16,
    /// As in the data files.
    pub id: String,
    /// The heading, a question.
    pub ask: String,
    /// One or two short sentences: where and how to look.
    pub look: String,
    /// Index into `parts`.
    pub part: u16,
    /// Index into `tools`; none when bare hands and eyes do.
    pub tool: Option<u16>,
    /// Seconds that the look costs.
    pub seconds: u16,
    /// Whether a picture is enough.
    pub by_picture: bool,
    /// Per mille of pieces on which it can be told.
    pub tellable: u16,
    /// Per mille of sure answers that misread the piece.
    pub misread_sure: u16,
    /// Per mille of unsure answers that misread the piece.
    pub misread_unsure: u16,
    /// Index into `groups`.
    pub group: Option<u16>,
    /// Asked only when this holds.
    pub gate: Option<Gate>,
    /// How it is answered.
    pub form: Form,
    /// At most six.
    pub choices: Vec<Choice>,
    /// Distributions that candidates refer to; none while they wait for the book.
    pub rows: Vec<Row>,
}

impl Question {
    /// Whether its words and tables are there.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        !self.rows.is_empty()
    }
}

/// How a question is answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// One of the choices.
    Choice,
    /// A length in tenths of a millimetre; the choices are classes by upper bound.
    Length,
    /// A mass in tenths of a gram, judged as heft (mass over length cubed, in thousandths of g/cm3); the
    /// choices are classes of heft by upper bound.
    Heft,
}

/// A question is asked only when another was answered with one of these choices.
#[derive(Debug, Clone, PartialEq)]
pub struct Gate {
    /// Index into `questions`; always an earlier one.
    pub question: u16,
    /// Indices into that question's choices.
    pub choices: Vec<u16>,
}

/// One answer that can be given.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Permanent within the question, never reused.
    pub code: u16,
    /// As in the data files.
    pub id: String,
    /// On the key: at most six words.
    pub label: String,
    /// As a clue in the finding: "No wording on it".
    pub clue: String,
    /// What to draw, in the words of the `sketch` crate; empty for no drawing.
    pub draw: String,
    /// Indices of choices this one is easily taken for.
    pub confused: Vec<u16>,
    /// For a class of a measured question: the upper bound (length in tenths of a millimetre, heft in
    /// thousandths of g/cm3); the last class has none.
    pub upper: Option<u32>,
}

/// One distribution of a question.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What it says.
    pub says: Says,
    /// What it rests on.
    pub basis: Basis,
    /// Index into the book's sources.
    pub source: Option<u16>,
}

/// A distribution over the choices, or over the measured quantity.
#[derive(Debug, Clone, PartialEq)]
pub enum Says {
    /// Per mille for each choice, summing to 1000.
    Shares(Vec<u16>),
    /// Normal: mean and standard deviation. Length: both in tenths of a millimetre. Heft: of the natural
    /// logarithm of g/cm3, both in thousandths.
    Spread {
        /// Centre.
        mean: i32,
        /// Standard deviation, above zero.
        sd: u32,
    },
}

/// A candidate kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Kind {
    /// Permanent, never reused.
    pub code: u16,
    /// As in the data files.
    pub id: String,
    /// Named by its form.
    pub name: String,
    /// At most four words, for lists and keys.
    pub short: String,
    /// What stands apart from the rest.
    pub standing: Standing,
    /// Indices of roles that it could have served as, whatever it was made as.
    pub serves: Vec<u16>,
    /// By make, in order of `makes`; none where a make does not occur.
    pub makes: Vec<Option<MakeFacts>>,
    /// Indices into `cautions`.
    pub cautions: Vec<u16>,
    /// Indices of kinds that cannot be told from this one without more evidence.
    pub either: Vec<u16>,
}

/// Where a kind stands towards the guide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// A kind of this guide.
    Inside,
    /// Recognised, but not what this guide is about (a full-size iron); the finding says so.
    Outside,
    /// The broad table for whatever the guide does not know. Exactly one, the last.
    Unknown,
}

/// What differs by make within a kind.
#[derive(Debug, Clone, PartialEq)]
pub struct MakeFacts {
    /// When it was made.
    pub period: Period,
    /// What the years rest on.
    pub period_basis: Basis,
    /// Index into the book's sources.
    pub period_source: Option<u16>,
    /// What half of sound typical examples sell for; none where nobody knows.
    pub worth: Option<Worth>,
}

/// The middle half of prices.
#[derive(Debug, Clone, PartialEq)]
pub struct Worth {
    /// A quarter sell below.
    pub low: Money,
    /// A quarter sell above. Same currency.
    pub high: Money,
    /// Year of the money.
    pub year: Year,
    /// What it rests on.
    pub basis: Basis,
    /// Index into the book's sources.
    pub source: Option<u16>,
}

/// Two kinds that are taken for each other, and the check that settles it.
#[derive(Debug, Clone, PartialEq)]
pub struct Confusion {
    /// Index into `kinds`.
    pub kind: u16,
    /// The deciding check, one sentence.
    pub check: String,
}

/// A warning.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// Permanent, never reused.
    pub code: u16,
    /// As in the data files.
    pub id: String,
    /// One or two sentences: the hazard and the usual caution.
    pub text: String,
    /// It stands above everything (mains, fuel, asbestos, lead), not among the notes.
    pub grave: bool,
    /// Answers that raise it, as question and choice indices, whatever the kind.
    pub raised_by: Vec<(u16, u16)>,
}

/// What a piece was made as.
#[derive(Debug, Clone, PartialEq)]
pub struct RoleRow {
    /// Per mille by role, summing to 1000.
    pub shares: Vec<u16>,
    /// What it rests on.
    pub basis: Basis,
}

/// Kind x make x form, with every table resolved.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Index into `kinds`.
    pub kind: u16,
    /// Index into `makes`.
    pub make: u16,
    /// Which of the kind's forms (variants), from 0.
    pub form: u16,
    /// Relative prior by place, in order of `places`; comparable across candidates, at most 10^9.
    pub prior: Vec<u32>,
    /// Index into `role_rows`.
    pub roles: u16,
    /// By question, index into its `rows`.
    pub rows: Vec<u16>,
}

/// Long texts, loaded after the first paint.
#[derive(Debug, Clone, PartialEq)]
pub struct Book {
    /// Id of the pack it belongs to.
    pub id: String,
    /// First eight bytes of the SHA-256 of the core it was made with.
    pub core: [u8; 8],
    /// What the core lacks.
    pub late: Late,
    /// Sources, in the order that the core refers to.
    pub sources: Vec<Source>,
    /// By kind.
    pub kinds: Vec<KindText>,
    /// By question.
    pub questions: Vec<QuestionText>,
    /// The figures of all drawings, with their phrases; those of the opening again.
    pub art: Vec<Figure>,
    /// Words and their meanings.
    pub terms: Vec<Term>,
    /// What the pack teaches.
    pub lessons: Lessons,
}

/// What of a core travels with the book.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Late {
    /// Questions outside the opening, in their order.
    pub questions: Vec<Rest>,
    /// By candidate its priors at all places but the first.
    pub priors: Vec<Vec<u32>>,
    /// Ids of the kinds.
    pub kinds: Vec<String>,
}

/// Words and tables of a question outside the opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Rest {
    /// As in the data files.
    pub id: String,
    /// The heading, a question.
    pub ask: String,
    /// Where and how to look.
    pub look: String,
    /// By choice.
    pub choices: Vec<Saying>,
    /// Distributions.
    pub rows: Vec<Row>,
    /// By candidate, index into `rows`.
    pub of: Vec<u16>,
}

/// Words of a choice.
#[derive(Debug, Clone, PartialEq)]
pub struct Saying {
    /// As in the data files.
    pub id: String,
    /// On the key.
    pub label: String,
    /// As a clue in the finding.
    pub clue: String,
    /// What to draw.
    pub draw: String,
}

/// The long texts of a kind.
#[derive(Debug, Clone, PartialEq)]
pub struct KindText {
    /// What it was for: one sentence.
    pub purpose: String,
    /// What a typical one looks like, in the words of the `sketch` crate.
    pub draw: String,
    /// What a collector would tell about it, in paragraphs.
    pub notes: Vec<String>,
    /// Kinds it is taken for.
    pub confusions: Vec<Confusion>,
    /// Countries where it is met; may be empty.
    pub found: String,
    /// What belongs to it; may be empty.
    pub companions: String,
    /// Identifiers in open vocabularies: `aat:300022906`.
    pub same_as: Vec<String>,
    /// Statements that the tables do not follow.
    pub also_said: Vec<Statement>,
}

/// A statement with what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Statement {
    /// One sentence.
    pub says: String,
    /// What it rests on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// The long texts of a question.
#[derive(Debug, Clone, PartialEq)]
pub struct QuestionText {
    /// The question put to a seller who is not here, complete in itself.
    pub seller: String,
    /// What newcomers get wrong; may be empty.
    pub newcomers: String,
    /// By choice what it says of a part put on, taken off or worked over later; an empty text, or none at all, for nothing.
    pub altered: Vec<String>,
}

/// A figure of the drawings, under the name of a word such as `grip.wire`.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// The name.
    pub name: String,
    /// Its strokes, in the language of the `sketch` crate.
    pub strokes: String,
    /// What can be seen, as a phrase.
    pub says: String,
}

/// A source.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    /// As in the data files.
    pub key: String,
    /// As a reader would cite it.
    pub text: String,
}

/// A word of the field.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// The word.
    pub word: String,
    /// What it means.
    pub means: String,
}

fields! {
    Core { head, places, tools, parts, roles, makes, groups, mixed, questions, kinds, candidates, role_rows, opening, cautions,
        fit_limits, art }
    Head { id, name, edition, licence, language, notice }
    Named { code, id, name }
    Question { code, id, ask, look, part, tool, seconds, by_picture, tellable, misread_sure, misread_unsure, group, gate,
        form, choices, rows }
    Gate { question, choices }
    Choice { code, id, label, clue, draw, confused, upper }
    Row { says, basis, source }
    Kind { code, id, name, short, standing, serves, makes, cautions, either }
    MakeFacts { period, period_basis, period_source, worth }
    Worth { low, high, year, basis, source }
    Confusion { kind, check }
    Caution { code, id, text, grave, raised_by }
    RoleRow { shares, basis }
    Candidate { kind, make, form, prior, roles, rows }
    Book { id, core, late, sources, kinds, questions, art, terms, lessons }
    Late { questions, priors, kinds }
    Rest { id, ask, look, choices, rows, of }
    Saying { id, label, clue, draw }
    KindText { purpose, draw, notes, confusions, found, companions, same_as, also_said }
    Statement { says, basis, source }
    QuestionText { seller, newcomers, altered }
    Figure { name, strokes, says }
    Source { key, text }
    Term { word, means }
}
places! {
    Form: Choice Length Heft;
    Standing: Inside Outside Unknown;
}

impl Wire for Says {
    fn put(&self, out: &mut Vec<u8>) {
        match self {
            Says::Shares(shares) => {
                false.put(out);
                shares.put(out);
            }
            Says::Spread { mean, sd } => {
                true.put(out);
                (*mean, *sd).put(out);
            }
        }
    }
    fn take(from: &mut Bytes<'_>) -> Option<Self> {
        if bool::take(from)? {
            let (mean, sd) = Wire::take(from)?;
            Some(Says::Spread { mean, sd })
        } else {
            Wire::take(from).map(Says::Shares)
        }
    }
}
