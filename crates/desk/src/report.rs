//! Faults and quality as blocks of a page, in words for a person who never saw a program from inside.

use compile::{Compiled, Fault, MOST_FAULTS};
use consult::Guide;
use consult::book::{Block, Line, Tone};
use survey::quality::{Pair, Quality, stated_check};
use survey::{Fares, MADE_UP, sizes, told_by};

/// So many of the hardest pairs are shown.
const HARDEST: usize = 5;
/// So many faults are shown at once; the others show when these are mended.
const MOST_SHOWN: usize = 60;

fn text(tone: Tone, says: impl Into<String>) -> Block {
    Block::Text(tone, Line { says: says.into(), ..Line::default() })
}

fn section(title: String, inside: Vec<Block>) -> Block {
    Block::Section(title, true, inside)
}

/// A whole number out of a share, in a hundred.
fn of_100(share: f64) -> u32 {
    (100.0 * share + 0.5) as u32
}

fn counted(n: usize, what: &str) -> String {
    format!("{n} {what}{}", if n == 1 { "" } else { "s" })
}

/// What a pack without a sound form gets told.
pub(crate) fn broken(faults: &[Fault], aside: &[Fault]) -> Vec<Block> {
    let more = if faults.len() >= MOST_FAULTS { ", and perhaps more" } else { "" };
    let says = format!("{}{more} to mend before this is a pack.", counted(faults.len(), "fault"));
    let mut blocks = vec![text(Tone::Care, says)];
    blocks.extend(listed(faults, "column "));
    if !aside.is_empty() {
        blocks.push(Block::Section("Left aside".to_string(), false, listed(aside, "")));
    }
    blocks
}

/// Faults in a card for each file. What names a field of a sheet is a column; in a report on quality it is a kind or a
/// question.
fn listed(faults: &[Fault], column: &str) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut file = None;
    let mut lines: Vec<Line> = Vec::new();
    let mut end = |file: Option<&str>, lines: &mut Vec<Line>| {
        if let Some(file) = file {
            blocks.push(section(file.to_string(), vec![Block::Lines(core::mem::take(lines))]));
        }
    };
    for fault in faults.iter().take(MOST_SHOWN) {
        if file != Some(fault.file.as_str()) {
            end(file, &mut lines);
            file = Some(&fault.file);
        }
        lines.push(line(fault, column));
    }
    end(file, &mut lines);
    if faults.len() > MOST_SHOWN {
        let says = format!("And {} more, shown once these are mended.", faults.len() - MOST_SHOWN);
        blocks.push(text(Tone::Small, says));
    }
    blocks
}

/// `Row 3, column grip:` or `Line 12, grip:`.
fn line(fault: &Fault, column: &str) -> Line {
    let sheet = fault.file.ends_with(".csv");
    let place = match (fault.line, sheet) {
        (0, _) => String::new(),
        (n, true) => format!("Row {n}"),
        (n, false) => format!("Line {n}"),
    };
    let field = match (fault.field.as_str(), sheet) {
        ("", _) => String::new(),
        (field, true) => format!("{column}{field}"),
        (field, false) => field.to_string(),
    };
    let between = if place.is_empty() || field.is_empty() { "" } else { ", " };
    let mut strong = format!("{place}{between}{field}");
    if let Some(first) = strong.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    if !strong.is_empty() {
        strong.push_str(": ");
    }
    let hint = if fault.hint.is_empty() { String::new() } else { format!(" {}", fault.hint) };
    Line { to: String::new(), strong, says: format!("{}{hint}", fault.says) }
}

/// What a pack is, and how good.
pub(crate) fn whole(c: &Compiled, guide: &Guide, q: &Quality, fares: &Fares, aside: &[Fault]) -> Vec<Block> {
    let head = &c.core.head;
    let mut blocks = Vec::new();
    let verdict = match q.faults.len() {
        0 => text(Tone::Check, "No faults. This is a pack."),
        n => text(Tone::Care, format!("This is a pack, but {} to mend for it to be a good one.", is(n))),
    };
    blocks.push(verdict);
    let row = |name: &str, says: String| (name.to_string(), says);
    let rows = vec![
        row("Name", head.name.clone()),
        row("Edition", head.edition.clone()),
        row("Licence", head.licence.clone()),
        row("Holds", held(c)),
        row("Digest", short(&c.whole_digest).to_string()),
    ];
    blocks.push(section("What the pack is".to_string(), vec![Block::Rows(rows)]));
    if !q.faults.is_empty() {
        blocks.push(Block::Section("To mend".to_string(), false, listed(&q.faults, "")));
    }
    blocks.push(section("How good it is".to_string(), quality(c, q, fares)));
    let hardest: Vec<Line> = q.pairs.iter().take(HARDEST).map(|p| pair(guide, p)).collect();
    if !hardest.is_empty() {
        let hint = "With the tools of a pocket; how often all looks together tell the two apart.";
        let inside = vec![text(Tone::Hint, hint), Block::Lines(hardest)];
        blocks.push(section("Hardest to tell apart".to_string(), inside));
    }
    let mut notes: Vec<Fault> = c.notes.iter().chain(&q.notes).chain(aside).cloned().collect();
    notes.sort();
    if !notes.is_empty() {
        blocks.push(Block::Section("Worth a look".to_string(), false, listed(&notes, "")));
    }
    blocks
}

fn is(n: usize) -> String {
    if n == 1 { "one thing is".to_string() } else { format!("{n} things are") }
}

/// `12 kinds, 9 questions, 4 sources`.
fn held(c: &Compiled) -> String {
    let wanted = sizes(c).into_iter().filter(|(what, _)| ["kinds", "questions", "sources"].contains(what));
    let all: Vec<String> = wanted.map(|(what, n)| counted(n, what.trim_end_matches('s'))).collect();
    all.join(", ")
}

fn quality(c: &Compiled, q: &Quality, fares: &Fares) -> Vec<Block> {
    let mut blocks = Vec::new();
    let (all, found, first) = (q.fared.all, q.fared.found, q.fared.first);
    blocks.push(text(
        Tone::Plain,
        match all {
            0 => "No piece is described in it yet. Two for each kind show whether the kind is found by them."
                .to_string(),
            _ => format!(
                "Of {} {found} came out as they must, {first} of them first.",
                counted(all, "described piece")
            ),
        },
    ));
    let (sure, right) = fares.figures.sure_kind;
    let tenths = (10.0 * fares.figures.until + 0.5) as u32;
    blocks.push(text(Tone::Plain, format!(
        "Of {MADE_UP} pieces made up of its own tables {} in 100 are found first, after {}.{} answers on the average. {} in 100 \
         are shown at 90 or more; of these {} in 100 are right.",
        of_100(fares.figures.first),
        tenths / 10,
        tenths % 10,
        of_100(sure),
        of_100(right)
    )));
    let rests = c.counts.iter().filter(|(_, n)| *n > 0);
    let rests = rests.map(|(basis, n)| (sentence(basis.phrase()), n.to_string())).collect();
    blocks.push(text(Tone::Ask, "What its figures rest on"));
    blocks.push(Block::Shares(rests));
    blocks
}

fn sentence(words: &str) -> String {
    let mut words = words.to_string();
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
}

fn pair(guide: &Guide, pair: &Pair) -> Line {
    let name = |k: usize| guide.core.kinds.get(k).map_or("", |k| k.short.as_str());
    let by: Vec<&str> = told_by(guide, pair).into_iter().take(2).map(|(q, _)| q).collect();
    let by = if by.is_empty() { String::new() } else { format!(", most by {}", by.join(" and ")) };
    let check = stated_check(guide, pair.kinds.0, pair.kinds.1)
        .map_or_else(|| "No check is stated.".to_string(), |check| check.to_string());
    Line {
        to: String::new(),
        strong: format!("{} and {}: ", name(pair.kinds.0), name(pair.kinds.1)),
        says: format!("{} in 100{by}. {check}", of_100(pair.told_apart())),
    }
}

/// As much of a digest as is compared by eye.
fn short(digest: &str) -> &str {
    digest.get(..12).unwrap_or(digest)
}
