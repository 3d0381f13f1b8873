//! What a program is shown: plain values with ids of the pack, in words for people and numbers for programs. The types
//! in `package/types.d.ts` say the same; a test holds real values against them.

use serde::Serialize;

/// What a pack says of itself.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct About {
    /// Id, part of every link.
    pub id: String,
    /// Its name.
    pub name: String,
    /// The day of the edition.
    pub edition: String,
    /// Under what licence it stands.
    pub licence: String,
    /// Language of its texts.
    pub language: String,
    /// A sentence that stands on every finding; may be empty.
    pub notice: String,
    /// Its kinds.
    pub kinds: Vec<Named>,
    /// Places where a piece may be offered; the first is: not said.
    pub places: Vec<Named>,
    /// All questions.
    pub questions: Vec<Asked>,
}

/// An id with its name.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Named {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
}

/// A question.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Asked {
    /// Id.
    pub id: String,
    /// The question.
    pub ask: String,
    /// How to look.
    pub look: String,
    /// `choice`, `length` or `heft`.
    pub answer: &'static str,
    /// What can be answered.
    pub choices: Vec<Offered>,
}

/// A choice.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Offered {
    /// Id.
    pub id: String,
    /// For a key.
    pub label: String,
    /// Words for `drawing`; may be empty.
    pub draw: String,
}

/// A finding.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Finding {
    /// The name of the first kind.
    pub title: String,
    /// `likely, 8 in 10`.
    pub likely: String,
    /// Per mille.
    pub share: u16,
    /// What it is for.
    pub purpose: String,
    /// What it was made as.
    pub made_as: String,
    /// Old or later, in words.
    pub make: String,
    /// When it is outside of what the pack is about.
    pub outside: Option<String>,
    /// What the pack wants on every finding; may be empty.
    pub notice: String,
    /// Warnings that stand above everything.
    pub grave: Vec<String>,
    /// Other warnings.
    pub cautions: Vec<String>,
    /// When it was made.
    pub years: Years,
    /// What such pieces fetch; price evidence, never an appraisal.
    pub worth: Option<Worth>,
    /// Why there is no worth.
    pub worth_missing: Option<String>,
    /// What to look at next.
    pub next: Option<Next>,
    /// Whether it is settled, in words.
    pub standing: String,
    /// For and against, the strongest first.
    pub clues: Vec<Clue>,
    /// What would change it.
    pub change: Vec<String>,
    /// All kinds that fit.
    pub kinds: Vec<Fits>,
    /// What it may have been made as, with chances in words.
    pub roles: Vec<Fits>,
    /// Notes on the kind.
    pub notes: Vec<String>,
    /// Sources of its figures.
    pub sources: Vec<String>,
    /// Words for `drawing`; may be empty.
    pub draw: String,
}

/// When.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Years {
    /// Even chances.
    pub half: String,
    /// Nine in ten.
    pub nine: String,
    /// The same as EDTF (ISO 8601-2).
    pub edtf: String,
}

/// What such pieces fetch.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Worth {
    /// Half of such pieces.
    pub half: String,
    /// Eight in ten.
    pub eight: String,
    /// ISO 4217.
    pub currency: String,
    /// What it rests on.
    pub basis: String,
}

/// A look to take.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Next {
    /// Id of the question.
    pub question: String,
    /// The question.
    pub ask: String,
    /// Why.
    pub why: String,
}

/// A clue.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Clue {
    /// Id of the question; none for what is no question's, such as marks.
    pub question: Option<String>,
    /// What was found.
    pub text: String,
    /// Hundredths of powers of ten for the first kind against the second.
    pub strength: i32,
    /// The same in words.
    pub words: String,
    /// What it rests on.
    pub basis: String,
    /// Whether it was told as not sure.
    pub unsure: bool,
    /// A reason to look again.
    pub again: Option<String>,
}

/// A kind or a role with its chance.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Fits {
    /// Its name.
    pub name: String,
    /// `8 in 10`.
    pub chance: String,
}

/// What lettering may say.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Lettering {
    /// The marks in it.
    pub marks: Vec<Mark>,
    /// What is no known mark, in sentences.
    pub unread: Vec<String>,
    /// What cannot both be right.
    pub clashes: Vec<String>,
    /// The years by the marks alone; empty when they say nothing.
    pub years: String,
}

/// A mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Mark {
    /// As typed.
    pub text: String,
    /// Likeliest first.
    pub readings: Vec<Reading>,
}

/// One way to read a mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Reading {
    /// What it is.
    pub title: String,
    /// `likely, 8 in 10`.
    pub likely: String,
    /// The years that it proves; empty when it dates nothing.
    pub years: String,
}

/// A drawing, to be made into SVG or anything else.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Drawn {
    /// Width; the origin is the upper left corner.
    pub width: i32,
    /// Height.
    pub height: i32,
    /// What it shows, in words.
    pub alt: String,
    /// Paths, the hindmost first.
    pub paths: Vec<DrawnPath>,
}

/// A path of a drawing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct DrawnPath {
    /// Path data as SVG has it.
    pub d: String,
    /// What it is for: stroke and fill follow from it.
    pub look: &'static str,
}
