//! A pack as read: everything checked as far as one file goes, names resolved to indices, tables not yet resolved.

use crate::fault::Spot;
use crate::shares::Weights;
use crate::spread::Quantity;
use pack::{Says, Standing, Worth};
use std::collections::BTreeMap;
use units::{Basis, Period};

/// What a figure rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Rests {
    pub(crate) basis: Basis,
    /// Index into the sources.
    pub(crate) source: Option<u16>,
}

/// Something in a list of `pack.toml`.
#[derive(Debug, Clone)]
pub(crate) struct Thing {
    pub(crate) id: String,
    pub(crate) name: String,
    pub(crate) spot: Spot,
}

/// A name used in a file before what it names has been read.
#[derive(Debug, Clone)]
pub(crate) struct Mention {
    pub(crate) id: String,
    pub(crate) spot: Spot,
}

/// `pack.toml`.
#[derive(Debug)]
pub(crate) struct Manifest {
    pub(crate) head: pack::Head,
    /// Public key in the format of minisign, or empty.
    pub(crate) key: String,
    pub(crate) rests: Rests,
    /// Share of the unknown kind, 0..1.
    pub(crate) unknown: f64,
    /// Per mille of the groups of looks that are not the piece's own.
    pub(crate) mixed: u16,
    pub(crate) opening: Vec<Mention>,
    pub(crate) words: Weights,
    /// Weight of the steps of commonness.
    pub(crate) common: [f64; 5],
    pub(crate) places: Vec<Thing>,
    pub(crate) tools: Vec<Thing>,
    pub(crate) parts: Vec<Thing>,
    pub(crate) roles: Vec<Thing>,
    pub(crate) makes: Vec<Thing>,
    /// Id and per mille of overlap.
    pub(crate) groups: Vec<(String, u16)>,
}

/// A line of a table, or a spread, with what it rests on.
#[derive(Debug, Clone)]
pub(crate) struct Entry {
    pub(crate) says: Says,
    pub(crate) rests: Rests,
}

/// Tables by index of the question.
pub(crate) type Looks = BTreeMap<usize, Entry>;

/// What a piece was made as.
#[derive(Debug, Clone)]
pub(crate) struct RoleLine {
    pub(crate) shares: Vec<u16>,
    pub(crate) basis: Basis,
}

/// What a kind, a family, a form or a make says of looks and roles.
#[derive(Debug, Clone, Default)]
pub(crate) struct Section {
    pub(crate) looks: Looks,
    pub(crate) roles: Option<RoleLine>,
}

/// What a kind or family says of one make.
#[derive(Debug, Clone, Default)]
pub(crate) struct OfMake {
    pub(crate) section: Section,
    pub(crate) years: Option<(Period, Rests)>,
    pub(crate) worth: Option<Worth>,
}

/// One way in which a kind appears.
#[derive(Debug, Clone)]
pub(crate) struct Form {
    /// Share, 0..1.
    pub(crate) share: f64,
    pub(crate) section: Section,
}

/// A family, or the part of a kind that a family can state for it.
#[derive(Debug, Clone, Default)]
pub(crate) struct Common {
    pub(crate) section: Section,
    /// By make.
    pub(crate) by_make: Vec<OfMake>,
    /// By place, a factor; none where nothing is said.
    pub(crate) at: Vec<Option<f64>>,
    /// By make, weights.
    pub(crate) makes: Option<Vec<f64>>,
    pub(crate) serves: Option<Vec<u16>>,
    pub(crate) cautions: Option<Vec<u16>>,
}

/// A kind.
#[derive(Debug, Clone)]
pub(crate) struct Kind {
    pub(crate) id: String,
    pub(crate) spot: Spot,
    pub(crate) name: String,
    pub(crate) short: String,
    pub(crate) purpose: String,
    pub(crate) draw: String,
    pub(crate) standing: Standing,
    /// Step of commonness, from 0.
    pub(crate) common: usize,
    pub(crate) own: Common,
    pub(crate) forms: Vec<Form>,
    pub(crate) taken_for: Vec<(Mention, String)>,
    /// Kinds that nothing but further evidence can tell from this one.
    pub(crate) either: Vec<Mention>,
    pub(crate) notes: Vec<String>,
    /// Countries where it is met; may be empty.
    pub(crate) found: String,
    /// What belongs to it; may be empty.
    pub(crate) companions: String,
    /// Identifiers in open vocabularies.
    pub(crate) same_as: Vec<String>,
    /// Statements that the tables do not follow.
    pub(crate) also_said: Vec<pack::Statement>,
    pub(crate) examples: Vec<Example>,
    /// Index into the families; none for a kind in a file without one.
    pub(crate) family: Option<usize>,
}

/// A described piece that the kind must be found by.
#[derive(Debug, Clone)]
pub(crate) struct Example {
    pub(crate) spot: Spot,
    pub(crate) name: String,
    /// Index into the makes.
    pub(crate) make: u16,
    /// Question id and answer, as written.
    pub(crate) looks: Vec<(String, String)>,
    /// The question whose answer is unusual.
    pub(crate) unusual: Mention,
    /// The kind comes among the first so many.
    pub(crate) within: usize,
}

/// A make, from `makes.toml`.
#[derive(Debug, Clone, Default)]
pub(crate) struct Make {
    pub(crate) at: Vec<Option<f64>>,
    pub(crate) section: Section,
}

/// A question with its choices.
#[derive(Debug, Clone)]
pub(crate) struct Question {
    pub(crate) id: String,
    pub(crate) spot: Spot,
    pub(crate) choice_spots: Vec<Spot>,
    /// Read in the tables of the make.
    pub(crate) about_make: bool,
    /// None for a question with choices.
    pub(crate) quantity: Option<Quantity>,
    /// As it travels, but for code and rows.
    pub(crate) wire: pack::Question,
    pub(crate) usual: Option<Entry>,
    pub(crate) seller: String,
    pub(crate) newcomers: String,
    /// One a choice, as in [`QuestionText`](pack::QuestionText).
    pub(crate) altered: Vec<String>,
}

/// A caution.
#[derive(Debug, Clone)]
pub(crate) struct Caution {
    pub(crate) id: String,
    pub(crate) spot: Spot,
    pub(crate) text: String,
    pub(crate) grave: bool,
    pub(crate) raised_by: Vec<(u16, u16)>,
}

/// A lesson, with where its code is asked for.
#[derive(Debug, Clone)]
pub(crate) struct Lesson {
    pub(crate) id: String,
    pub(crate) spot: Spot,
    /// As it travels, but for the code.
    pub(crate) wire: pack::Lesson,
}

/// What a mark proves.
#[derive(Debug, Clone)]
pub(crate) struct Proof {
    pub(crate) id: String,
    pub(crate) spot: Spot,
    /// As it travels, but for the code.
    pub(crate) wire: pack::Proof,
}

/// The files in `lessons/`.
#[derive(Debug, Clone, Default)]
pub(crate) struct Taught {
    pub(crate) lessons: Vec<Lesson>,
    pub(crate) blocks: Vec<pack::Block>,
    pub(crate) proofs: Vec<Proof>,
}

/// Everything in the files.
#[derive(Debug)]
pub(crate) struct Model {
    pub(crate) manifest: Manifest,
    pub(crate) sources: Vec<pack::Source>,
    pub(crate) terms: Vec<pack::Term>,
    pub(crate) questions: Vec<Question>,
    pub(crate) makes: Vec<Make>,
    pub(crate) cautions: Vec<Caution>,
    pub(crate) families: Vec<Common>,
    /// The unknown kind is the last.
    pub(crate) kinds: Vec<Kind>,
    pub(crate) taught: Taught,
    /// What drawings are put together from; empty when the caller handed over no art.
    pub(crate) art: Vec<crate::art::Figure>,
    /// Figures in the files, in the order of `Basis::ALL`.
    pub(crate) counts: [usize; 4],
}
