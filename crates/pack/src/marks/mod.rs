//! The tables behind marks, as they travel: numbers by year, wordings with their bounds, letters of the diamond mark.
//! A file of its own beside a pack, with its own half letter. Days count from 1 January 1600.

mod check;

use crate::codec::{Bytes, Wire, fields, places};
use crate::frame::{Fault, frame, unframe};
use crate::wire::Source;
use alloc::string::String;
use alloc::vec::Vec;
use units::{Basis, Period, Year};

pub use check::check_marks;

/// The largest file of tables that is read, in bytes.
pub const LARGEST_MARKS: usize = 1 << 20;

/// Days since 1 January 1600.
pub type Day = i32;

/// All tables.
#[derive(Debug, Clone, PartialEq)]
pub struct Marks {
    /// ISO date of the edition.
    pub edition: String,
    /// SPDX expression.
    pub licence: String,
    /// Sources that the rest refers to.
    pub sources: Vec<Source>,
    /// What is assumed when letters are worn.
    pub reading: Reading,
    /// Rights that are numbered in one row.
    pub series: Vec<Series>,
    /// On which days the dated series was granted.
    pub issues: Vec<IssueRule>,
    /// Wordings that can be dated, and some that cannot.
    pub marks: Vec<Mark>,
    /// Words that tell how the rest is to be read.
    pub words: Vec<Word>,
    /// The British diamond mark.
    pub diamond: Diamond,
    /// What a bare number may mean.
    pub sizes: Vec<Size>,
    /// What is measured on irons of any sort: beside it a number is held against a measure.
    pub irons: Irons,
    /// Characters that are taken for each other.
    pub alike: Vec<Alike>,
}

/// Assumptions about worn lettering; shares are per mille.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// No reading that is offered is right, though every letter was told.
    pub misread: u16,
    /// The same, for each lost character.
    pub misread_lost: u16,
    /// Other lettering: one in so many per character.
    pub junk: u16,
    /// Of patent dates: no patent was granted on that day.
    pub no_issue_day: u16,
    /// When the rights were granted whose marks are met.
    pub met: Period,
    /// Soft sources of one sort are raised to their number to this power, in thousandths.
    pub tempered: i16,
    /// What all this rests on, but for the power.
    pub basis: Basis,
    /// Index into the sources: where the power is from.
    pub source: Option<u16>,
}

/// A row of numbers by date. Steps are held as differences, which pack small.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// As in the data files.
    pub id: String,
    /// As shown.
    pub name: String,
    /// What happened to its rights: `granted`, `registered`.
    pub done: String,
    /// Index into `marks`: what its words are when no number stands with them.
    pub alone: u16,
    /// Words that introduce its numbers.
    pub writes: Vec<String>,
    /// Whether dates of it are marked as well as numbers. One series at most.
    pub dated: bool,
    /// Of a thousand bare numbers, how many are of this series.
    pub weight: u16,
    /// Of a thousand marks, how many begin with its words.
    pub opens: u16,
    /// Years before the year of the table in which a number may have been in use.
    pub slack: u16,
    /// The same for years that rest on memory.
    pub memory_slack: u16,
    /// Granted from this day: years of protection.
    pub terms: Vec<(Day, u16)>,
    /// Years in which use beyond the term falls by half.
    pub fades: u16,
    /// What it proves.
    pub says: String,
    /// What to be careful about; may be empty.
    pub caution: String,
    /// What the terms rest on.
    pub basis: Basis,
    /// The day of the first step.
    pub first_day: Day,
    /// The number of the first step.
    pub first_number: u32,
    /// Days from each step to the next.
    pub days: Vec<u16>,
    /// Numbers from each step to the next.
    pub numbers: Vec<u32>,
    /// Whether numbers go on behind the last step; else the last step is where they end.
    pub open: bool,
    /// What the steps rest on, as runs.
    pub runs: Vec<Run>,
}

/// Steps in order that rest on one thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// How many.
    pub steps: u16,
    /// What they rest on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// On which days patents were granted.
#[derive(Debug, Clone, PartialEq)]
pub struct IssueRule {
    /// A rule, an exception, or a span with missing weeks.
    pub kind: IssueKind,
    /// First day.
    pub from: Day,
    /// Last day; none when it holds to this day.
    pub to: Option<Day>,
    /// 0 for Monday to 6 for Sunday; none for any day.
    pub weekday: Option<u8>,
    /// A remark; may be empty.
    pub note: String,
    /// What it rests on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// Sorts of issue rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IssueKind {
    /// A weekday that holds in the span.
    Rule,
    /// Days of issue all the same.
    Extra,
    /// Some weeks of the span had no issue; which ones is not known.
    Missed,
}

/// What a mark proves about years.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proof {
    /// The piece is not older.
    NotBefore,
    /// When such a mark was in use.
    Habit,
    /// A span with both ends.
    Between,
    /// The piece is not younger.
    NotAfter,
    /// Nothing.
    Nothing,
}

/// A wording with its bounds. The bounds of law and those of habit are kept apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// As in the data files.
    pub id: String,
    /// As shown.
    pub name: String,
    /// Spellings, in capitals.
    pub writes: Vec<String>,
    /// Shapes: `9` a digit, `A` a letter, `A+` a word of letters, all else as it stands.
    pub shapes: Vec<String>,
    /// Of a thousand marks, how many open like this.
    pub weight: u16,
    /// What it proves.
    pub proof: Proof,
    /// Not before, by law or by the life of a state.
    pub legal_from: Option<Day>,
    /// Not after, by the same.
    pub legal_to: Option<Day>,
    /// In common use from.
    pub habit_from: Option<Year>,
    /// In common use to.
    pub habit_to: Option<Year>,
    /// Whether the legal start cannot be broken.
    pub hard_from: bool,
    /// Whether the legal end cannot be broken by a piece of its time.
    pub hard_to: bool,
    /// Years in which use beyond the end falls by half.
    pub fades: u16,
    /// What it proves, in words.
    pub says: String,
    /// What to be careful about; may be empty.
    pub caution: String,
    /// What the legal bounds rest on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
    /// What the habit rests on.
    pub habit_basis: Basis,
}

/// What a word does to what stands beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// A patent's number or date follows.
    Patent,
    /// A number follows.
    Number,
    /// Joins two.
    And,
    /// Behind the day of a month: 23rd.
    Suffix,
    /// A size follows.
    Size,
    /// Pounds stand before it.
    Pounds,
    /// A described diamond mark follows.
    Diamond,
    /// Its circle.
    Class,
    /// Its upper corner.
    Top,
    /// Its right corner.
    Right,
    /// Its lower corner.
    Bottom,
    /// Its left corner.
    Left,
    /// A month.
    Month,
}

/// Spellings of a word.
#[derive(Debug, Clone, PartialEq)]
pub struct Word {
    /// What it does.
    pub role: Role,
    /// Which month, from 1; else 0.
    pub which: u8,
    /// Of a thousand marks, how many open like this.
    pub weight: u16,
    /// Spellings, in capitals.
    pub writes: Vec<String>,
}

/// The British diamond mark.
#[derive(Debug, Clone, PartialEq)]
pub struct Diamond {
    /// As shown.
    pub name: String,
    /// What it proves.
    pub says: String,
    /// What to be careful about; may be empty.
    pub caution: String,
    /// First day.
    pub from: Day,
    /// Last day.
    pub to: Day,
    /// What these two rest on.
    pub bounds_basis: Basis,
    /// Years of protection.
    pub term: u16,
    /// Years in which use beyond it falls by half.
    pub fades: u16,
    /// What the letters rest on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
    /// Where things stand, by period.
    pub layouts: Vec<Layout>,
    /// Letters of the years.
    pub years: Vec<Letters>,
    /// Letters of the months, January first.
    pub months: String,
    /// What does not follow from the letters.
    pub instead: Vec<Instead>,
    /// Numerals and their materials.
    pub classes: Vec<(String, String)>,
}

/// What stands in a corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Corner {
    /// The letter of the year.
    Year,
    /// The letter of the month.
    Month,
    /// The day.
    Day,
    /// The parcel, which dates nothing.
    Parcel,
}

/// Which corner holds what, for a time.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// First day.
    pub from: Day,
    /// Last day.
    pub to: Day,
    /// Clockwise from the top.
    pub corners: Vec<Corner>,
}

/// Letters of consecutive years.
#[derive(Debug, Clone, PartialEq)]
pub struct Letters {
    /// The year of the first.
    pub from: Year,
    /// One a year.
    pub letters: String,
}

/// Letters that stood in the place of the usual ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Instead {
    /// First day.
    pub from: Day,
    /// Last day.
    pub to: Day,
    /// The letter of that year.
    pub year: Option<(String, Year)>,
    /// The letter of that month, from 1.
    pub month: Option<(String, u8)>,
    /// Of a thousand marks of these days.
    pub share: u16,
    /// What happened.
    pub note: String,
    /// What it rests on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// What a size is held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fits {
    /// Nothing.
    Free,
    /// The mass: `per` tenths of a gram to the number.
    Mass,
    /// The length of the sole: `per` tenths of a millimetre to the number, and `plus`.
    Length,
}

/// What a bare number may mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Size {
    /// As in the data files.
    pub id: String,
    /// As shown.
    pub name: String,
    /// Smallest number.
    pub from: u32,
    /// Greatest number.
    pub to: u32,
    /// Of a thousand bare numbers, how many mean this.
    pub weight: u16,
    /// What it is held against.
    pub fits: Fits,
    /// Tenths of a gram or of a millimetre to the number.
    pub per: u32,
    /// Tenths of a millimetre more.
    pub plus: i32,
    /// Give or take: tenths of a millimetre, or thousandths of the mass.
    pub spread: u32,
    /// Whether the words for pounds say so.
    pub units: bool,
    /// Whether the number is a year.
    pub is_year: bool,
    /// What it means, in words.
    pub says: String,
    /// What it rests on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// Irons of any sort. The spreads are those of the logarithm, per mille.
#[derive(Debug, Clone, PartialEq)]
pub struct Irons {
    /// The middle one of their lengths, in tenths of a millimetre.
    pub length: u32,
    /// How far lengths lie from it.
    pub length_spread: u16,
    /// Thousandths of a gram to the cube of the length in centimetres.
    pub heft: u16,
    /// How far masses lie from what the length lets expect.
    pub heft_spread: u16,
    /// What these rest on.
    pub basis: Basis,
}

/// Two characters that are taken for each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Alike {
    /// One.
    pub one: String,
    /// The other.
    pub other: String,
    /// Of a thousand such characters, either way.
    pub share: u16,
}

fields! {
    Marks { edition, licence, sources, reading, series, issues, marks, words, diamond, sizes, irons, alike }
    Reading { misread, misread_lost, junk, no_issue_day, met, tempered, basis, source }
    Series { id, name, done, alone, writes, dated, weight, opens, slack, memory_slack, terms, fades, says, caution, basis, first_day,
        first_number, days, numbers, open, runs }
    Run { steps, basis, source }
    IssueRule { kind, from, to, weekday, note, basis, source }
    Mark { id, name, writes, shapes, weight, proof, legal_from, legal_to, habit_from, habit_to, hard_from, hard_to, fades,
        says, caution, basis, source, habit_basis }
    Word { role, which, weight, writes }
    Diamond { name, says, caution, from, to, bounds_basis, term, fades, basis, source, layouts, years, months, instead,
        classes }
    Layout { from, to, corners }
    Letters { from, letters }
    Instead { from, to, year, month, share, note, basis, source }
    Size { id, name, from, to, weight, fits, per, plus, spread, units, is_year, says, basis, source }
    Irons { length, length_spread, heft, heft_spread, basis }
    Alike { one, other, share }
}
places! {
    IssueKind: Rule Extra Missed;
    Proof: NotBefore Habit Between NotAfter Nothing;
    Role: Patent Number And Suffix Size Pounds Diamond Class Top Right Bottom Left Month;
    Corner: Year Month Day Parcel;
    Fits: Free Mass Length;
}

/// Bytes of the tables.
///
/// # Errors
/// When they are not sound; a compiler that collects its own faults never meets this.
pub fn write_marks(marks: &Marks) -> Result<Vec<u8>, Fault> {
    check_marks(marks)?;
    let bytes = frame(b'm', marks);
    // What its own reader would refuse for a text is not written.
    unframe::<Marks>(b'm', &bytes, LARGEST_MARKS)?;
    Ok(bytes)
}

/// Reads tables, trusting nothing.
///
/// # Errors
/// A sentence that says what is wrong with the bytes.
pub fn read_marks(bytes: &[u8]) -> Result<Marks, Fault> {
    let marks: Marks = unframe(b'm', bytes, LARGEST_MARKS)?;
    check_marks(&marks)?;
    Ok(marks)
}
