//! A row of worn digits as a number of a series: every year it may be of.

use super::evidence::Evidence;
use super::glyph::Glyph;
use super::pattern::{MOST_DIGITS, Pattern};
use super::reading::{Flag, Issue, Kind, Reading};
use super::tables::Tables;
use pack::marks::Proof;
use units::Basis;

/// A lost character that may have been no digit but a gap, a comma or a full stop; and one behind a gap. Basis: memory.
const NO_DIGIT: f64 = 0.25;
const NO_DIGIT_APART: f64 = 0.05;
/// From this share of a reading on it is said that years rest on memory, or on a line. Basis: practice.
const TOLD_OF: f64 = 0.05;
/// Issues with a smaller share have no example.
const LEAST_EXAMPLE: f64 = 1e-2;
/// The most ways in which a row is read.
const MOST_WAYS: usize = 16;

/// The ways in which a row may be a number: as it stands, or with lost characters that were none of its digits.
pub(crate) struct Row {
    /// Its digits as they are told: `1134?8`.
    pub(crate) shown: String,
    /// One for each way.
    patterns: Vec<Pattern>,
    /// The same where no digit is misread.
    told: Vec<Pattern>,
}

impl Row {
    /// From the glyphs between two places. `open` says at which end a lost character touches a letter without a gap.
    pub(crate) fn new(tables: &Tables, glyphs: &[&Glyph], open: (bool, bool)) -> Row {
        let lost = |g: Option<&&Glyph>| g.is_some_and(|g| g.lost());
        let mut ways: Vec<(Vec<&Glyph>, f64)> = vec![(glyphs.to_vec(), 1.0)];
        let mut also = |way: Vec<_>, weight: f64| {
            if !way.is_empty() && ways.len() < 12 {
                ways.push((way, weight));
            }
        };
        // At its ends, the likelier where it touches a letter without a gap.
        if lost(glyphs.first()) {
            also(glyphs[1..].to_vec(), if open.0 { NO_DIGIT } else { NO_DIGIT_APART });
        }
        if lost(glyphs.last()) {
            also(glyphs[..glyphs.len() - 1].to_vec(), if open.1 { NO_DIGIT } else { NO_DIGIT_APART });
        }
        for (i, glyph) in glyphs.iter().enumerate().skip(1) {
            // A comma of thousands has three digits behind it.
            if glyph.lost() && (glyphs.len() - i - 1).is_multiple_of(3) && i + 1 < glyphs.len() {
                let without = glyphs.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, g)| *g);
                also(without.collect(), NO_DIGIT);
            }
        }
        let shown = shown(glyphs);
        let ways = ways.into_iter().flat_map(|(way, weight)| expand(&way, weight));
        let ways: Vec<(Vec<&Glyph>, f64)> = ways.take(MOST_WAYS).collect();
        let one = |(way, weight): &(Vec<&Glyph>, f64)| Pattern::new(way, &tables.alike, *weight);
        let told = ways.iter().filter_map(|(way, _)| Pattern::as_told(way)).collect();
        Row { shown, patterns: ways.iter().filter_map(one).collect(), told }
    }

    /// Whole numbers up to a limit that fit it, with their weights; few, since sizes and years are small.
    pub(crate) fn small(&self, from: u32, to: u32) -> Vec<(u32, f64, bool)> {
        let weight = |n: u32| self.patterns.iter().map(|p| p.weight * p.of(n)).sum::<f64>();
        let told = |n: u32| self.told.iter().any(|p| p.of(n) > 0.0);
        (from..=to).map(|n| (n, weight(n), told(n))).filter(|(_, w, _)| *w > 0.0).collect()
    }

    /// The weight of a whole range.
    pub(crate) fn within(&self, from: u32, to: u32) -> f64 {
        self.patterns.iter().map(|p| p.weight * p.within(from, to)).sum()
    }
}

/// `1134?8`, `1(3/8)4`.
pub(crate) fn shown(glyphs: &[&Glyph]) -> String {
    let mut text = String::new();
    for g in glyphs {
        match g.one_of.as_slice() {
            [] => text.push(if g.many { '*' } else { '?' }),
            [c] => text.push(*c),
            several => {
                for (i, c) in several.iter().enumerate() {
                    if i > 0 {
                        text.push('/');
                    }
                    text.push(*c);
                }
            }
        }
    }
    text
}

/// A row with `*` as rows of every length that it may have had.
fn expand<'a>(way: &[&'a Glyph], weight: f64) -> Vec<(Vec<&'a Glyph>, f64)> {
    let stars = way.iter().filter(|g| g.many).count();
    if stars == 0 {
        return vec![(way.to_vec(), weight)];
    }
    let known = way.len() - stars;
    let mut list = Vec::new();
    for length in known.max(1)..=MOST_DIGITS {
        // All lost digits at the first star: how they are shared out among several tells little.
        let mut row: Vec<&Glyph> = Vec::new();
        let mut free = length - known;
        for g in way {
            if g.many {
                row.extend(core::iter::repeat_n(lost(), free));
                free = 0;
            } else {
                row.push(g);
            }
        }
        list.push((row, weight * 0.5));
    }
    list
}

/// A character of which nothing is left.
fn lost<'a>() -> &'a Glyph {
    static LOST: Glyph = Glyph { one_of: Vec::new(), many: false, gap: String::new(), at: (0, 0) };
    &LOST
}

/// The row as a number of one series, weighted by how likely such numbers are met; none when no number fits.
pub(crate) fn of_series(tables: &Tables, series: usize, row: &Row) -> Option<Reading> {
    let (patterns, told) = (&row.patterns, &row.told);
    let s = &tables.marks.series[series];
    let steps = &tables.steps[series].list;
    let bounds = &tables.steps[series].bounds;
    let spread = |all: &[Pattern]| -> Vec<f64> {
        let mut sum = vec![0.0; steps.len()];
        all.iter().for_each(|p| p.spread(bounds, p.weight, &mut sum));
        sum
    };
    let (weights, fits) = (spread(patterns), spread(told));
    let total: f64 = steps.iter().zip(&weights).map(|(step, weight)| weight * step.each).sum();
    if total <= 0.0 {
        return None;
    }
    let mut issues: Vec<Issue> = Vec::new();
    for ((step, weight), fit) in steps.iter().zip(weights).zip(fits) {
        // Years that hardly count are left out: they would only lengthen the list.
        if weight * step.each <= total * 1e-5 {
            continue;
        }
        let nearest = if fit > 0.0 { told } else { patterns };
        // What is less likely is not worth a search.
        let likely = weight * step.each > total * LEAST_EXAMPLE;
        let example = nearest.iter().filter(|_| likely).find_map(|p| p.example(step.number, step.until));
        issues.push(Issue {
            share: weight * step.each,
            from: step.from,
            to: step.to,
            fit: fit as u64,
            example: example.unwrap_or(0),
            basis: step.basis,
            drawn: step.drawn,
            source: step.source,
            span: step.span,
        });
    }
    let best = issues.iter().max_by(|a, b| a.share.total_cmp(&b.share));
    let (basis, source) = best.map_or((s.basis, None), |b| (b.basis, b.source));
    let as_told = issues.iter().any(|i| i.fit > 0);
    let share = |of: &dyn Fn(&Issue) -> bool| issues.iter().filter(|i| of(i)).map(|i| i.share).sum::<f64>();
    let mut flags = Vec::new();
    if share(&|i| i.basis != Basis::Published) > total * TOLD_OF {
        flags.push(Flag::Memory);
    }
    if share(&|i| i.drawn) > total * TOLD_OF {
        flags.push(Flag::Drawn);
    }
    let mut reading = Reading {
        chance: total,
        kind: Kind::Number(series),
        reads: row.shown.clone(),
        name: s.name.clone(),
        as_told,
        issues,
        evidence: Evidence { spans: Vec::new(), proof: Proof::Habit },
        says: s.says.clone(),
        caution: s.caution.clone(),
        basis,
        habit_basis: s.basis,
        source,
        flags,
    };
    reading.settle();
    Some(reading)
}
