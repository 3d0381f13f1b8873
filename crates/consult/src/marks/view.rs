//! The marks room: every mark with its readings, what they prove together, and what they do to the finding.

use super::{Diamond, Told};
use crate::finding::{Facts, half_of_years};
use crate::guide::Guide;
use crate::state::State;
use crate::words::{chance, likely, sentence};
use dating::{Mark, Reading, Tables, clash_in_words, years_in_words};
use serde::Serialize;

/// Readings shown of a mark before more are asked for. Basis: practice.
const FIRST: usize = 3;
/// A reading below this chance is not worth a line, unless all are asked for. Basis: practice.
const LISTED: f64 = 0.005;

/// The marks room.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarksView {
    /// What was typed.
    pub text: String,
    /// The tables are not there yet.
    pub coming: bool,
    /// The marks in the text.
    pub marks: Vec<MarkView>,
    /// What is no known mark, or was too long, in sentences.
    pub unread: Vec<String>,
    /// What cannot both be right.
    pub clashes: Vec<String>,
    /// The years by the marks alone, in words; empty when they say nothing.
    pub years: String,
    /// What the marks do to the finding, once something was looked at.
    pub finding: Option<WithMarks>,
    /// The diamond that is being entered.
    #[serde(skip)]
    pub diamond: Option<Diamond>,
}

/// The years of the finding with and without the marks.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WithMarks {
    /// The first kind, with its chance.
    pub kind: String,
    /// Even chances without the marks.
    pub without: String,
    /// Even chances with them.
    pub with: String,
}

/// A stretch of the text and what it may be.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkView {
    /// As typed.
    pub text: String,
    /// Likeliest first.
    pub readings: Vec<ReadingView>,
    /// How many more there are, and whether all are shown: the label of the key for it.
    pub more: Option<String>,
    /// The chance that it is none of them, when that is worth saying.
    pub none: Option<String>,
}

/// One way to read a mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReadingView {
    /// Index of the reading.
    pub reading: usize,
    /// `United States patent of 23 May 1871.`
    pub title: String,
    /// The years of a piece of its time with this mark; empty when it dates nothing.
    pub years: String,
    /// `likely, 8 in 10`.
    pub likely: String,
    /// What it proves, what is odd about it, what it rests on; shown when open.
    pub open: Option<Vec<String>>,
}

pub(crate) fn view(guide: &Guide, state: &State, facts: &Facts) -> MarksView {
    let marks = &state.marks;
    let told = marks.told.as_deref().zip(guide.reader().map(|r| r.tables()));
    let mut view = MarksView {
        text: marks.text.clone(),
        coming: guide.reader().is_none(),
        marks: Vec::new(),
        unread: Vec::new(),
        clashes: Vec::new(),
        years: String::new(),
        finding: None,
        diamond: marks.diamond.clone(),
    };
    let Some((told, tables)) = told else { return view };
    let all = told.read.marks.iter().enumerate();
    view.marks = all.map(|(at, mark)| one(tables, state, at, mark)).collect();
    view.unread = unread(told);
    view.clashes = clash_in_words(&told.read.marks, &told.together);
    view.years = years_in_words(&told.read.marks, &told.together);
    view.finding = facts.told().then(|| {
        let [without, with] = half_of_years(guide, state, facts);
        let kind = &guide.core.kinds[facts.first].name;
        WithMarks { kind: format!("{kind}: {}", likely(facts.first_share())), without, with }
    });
    view
}

fn unread(told: &Told) -> Vec<String> {
    let one = |text: &String| format!("\u{201c}{text}\u{201d} is no mark that this guide knows.");
    let mut list: Vec<String> = told.read.unread.iter().map(one).collect();
    if told.read.cut {
        list.push("The text is too long to be read to its end.".to_string());
    }
    list
}

fn one(tables: &Tables, state: &State, at: usize, mark: &Mark) -> MarkView {
    let all = state.marks.all == Some(at);
    let worth = mark.readings.iter().take_while(|r| r.chance >= LISTED).count().max(1);
    let first = worth.min(FIRST);
    let shown = if all { mark.readings.len() } else { first };
    let reading = |(i, r): (usize, &Reading)| ReadingView {
        reading: i,
        title: r.title(tables),
        years: years(tables, r),
        likely: likely(r.chance),
        open: (state.marks.open == Some((at, i))).then(|| explained(tables, r)),
    };
    let left = mark.readings.len().saturating_sub(first);
    let more = match (left, all) {
        (0, _) => None,
        (_, true) => Some("Fewer readings".to_string()),
        (1, false) => Some("One more reading".to_string()),
        (n, false) => Some(format!("{n} more readings")),
    };
    MarkView {
        text: mark.text.clone(),
        readings: mark.readings.iter().enumerate().take(shown).map(reading).collect(),
        more,
        none: (mark.misread >= 0.05).then(|| format!("None of these: {}.", chance(mark.misread))),
    }
}

/// The years of a piece of its time, if this reading is right.
fn years(tables: &Tables, reading: &Reading) -> String {
    let alone = [Mark::alone(reading)];
    years_in_words(&alone, &tables.together(&alone))
}

fn explained(tables: &Tables, r: &Reading) -> Vec<String> {
    let mut lines = r.explained(tables);
    let source = r.source.and_then(|s| tables.marks().sources.get(usize::from(s)));
    let source = source.map_or(String::new(), |s| format!(": {}", s.text));
    lines.push(sentence(&format!("The bounds are {}{source}", r.basis.phrase())));
    if r.habit_basis != r.basis {
        lines.push(format!("How long it was used is {}.", r.habit_basis.phrase()));
    }
    lines
}
