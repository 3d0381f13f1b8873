//! A row of worn digits as a number of a series: every year it may be of.

use super::evidence::{Evidence, Span};
use super::glyph::Glyph;
use super::pattern::{MOST_DIGITS, Pattern};
use super::reading::{Flag, Issue, Kind, Reading};
use super::steps::Step;
use super::tables::Tables;
use crate::calendar;
use pack::marks::Proof;
use units::{Basis, Year};

/// A lost character that may have been no digit but a gap, a comma or a full stop; and one behind a gap. Basis: memory.
const NO_DIGIT: f64 = 0.25;
const NO_DIGIT_APART: f64 = 0.05;
/// From this share of a reading on it is said that years rest on memory, or on a line. Basis: practice.
const TOLD_OF: f64 = 0.05;
/// The most ways in which a row is read.
const MOST_WAYS: usize = 16;

/// The ways in which a row may be a number: as it stands, or with lost characters that were none of its digits.
pub(crate) struct Row<'a> {
    ways: Vec<(Vec<&'a Glyph>, f64)>,
}

impl<'a> Row<'a> {
    /// From the glyphs between two places. `open` says at which end a lost character touches a letter without a gap.
    pub(crate) fn new(glyphs: &[&'a Glyph], open: (bool, bool)) -> Row<'a> {
        let lost = |g: Option<&&Glyph>| g.is_some_and(|g| g.lost());
        let mut ways: Vec<(Vec<&Glyph>, f64)> = vec![(glyphs.to_vec(), 1.0)];
        let mut also = |way: Vec<&'a Glyph>, weight: f64| {
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
        let ways = ways.into_iter().flat_map(|(way, weight)| expand(&way, weight));
        Row { ways: ways.take(MOST_WAYS).collect() }
    }

    /// The patterns of its ways.
    fn patterns(&self, tables: &Tables) -> Vec<Pattern> {
        let one = |(way, weight): &(Vec<&Glyph>, f64)| Pattern::new(way, &tables.alike, *weight);
        self.ways.iter().filter_map(one).collect()
    }

    fn as_told(&self) -> Vec<Pattern> {
        self.ways.iter().filter_map(|(way, _)| Pattern::as_told(way)).collect()
    }

    /// Its digits as they are told: `1134?8`.
    pub(crate) fn shown(&self) -> String {
        self.ways.first().map(|(way, _)| shown(way)).unwrap_or_default()
    }

    /// Whole numbers up to a limit that fit it, with their weights; few, since sizes and years are small.
    pub(crate) fn small(&self, tables: &Tables, from: u32, to: u32) -> Vec<(u32, f64, bool)> {
        let (patterns, told) = (self.patterns(tables), self.as_told());
        let weight = |n: u32| patterns.iter().map(|p| p.weight * p.of(n)).sum::<f64>();
        let told = |n: u32| told.iter().any(|p| p.of(n) > 0.0);
        (from..=to).map(|n| (n, weight(n), told(n))).filter(|(_, w, _)| *w > 0.0).collect()
    }

    /// The weight of a whole range.
    pub(crate) fn within(&self, tables: &Tables, from: u32, to: u32) -> f64 {
        self.patterns(tables).iter().map(|p| p.weight * p.within(from, to)).sum()
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

/// What a right granted in a step says of the years of a piece.
pub(crate) fn span(tables: &Tables, series: usize, step: &Step) -> Span {
    let s = &tables.marks.series[series];
    let term = tables.term(series, step.from);
    let slack = if step.basis == Basis::Published { s.slack } else { s.slack.max(s.memory_slack) };
    let year = calendar::year_of(step.from);
    let back = |y: Year, n: u16| y.saturating_sub(Year::try_from(n).unwrap_or(0));
    Span {
        hard_from: Some(back(calendar::year_of(step.surely), slack)),
        from: Some(year),
        to: Some(calendar::year_of(step.to).saturating_add(Year::try_from(term).unwrap_or(0))),
        hard_to: None,
        fades: s.fades,
    }
}

/// The row as a number of one series, weighted by how likely such numbers are met; none when no number fits.
pub(crate) fn of_series(tables: &Tables, series: usize, row: &Row<'_>) -> Option<Reading> {
    let (patterns, told) = (row.patterns(tables), row.as_told());
    let s = &tables.marks.series[series];
    let steps = &tables.steps[series].list;
    // Steps follow each other without a gap.
    let bounds: Vec<u32> =
        steps.first().map(|s| s.number).into_iter().chain(steps.iter().map(|s| s.until)).collect();
    let spread = |all: &[Pattern]| -> Vec<f64> {
        let mut sum = vec![0.0; steps.len()];
        for p in all {
            sum.iter_mut().zip(p.spread(&bounds)).for_each(|(sum, w)| *sum += p.weight * w);
        }
        sum
    };
    let (weights, fits) = (spread(&patterns), spread(&told));
    let mut issues: Vec<Issue> = Vec::new();
    let mut total = 0.0;
    for ((step, weight), fit) in steps.iter().zip(weights).zip(fits) {
        if weight <= 0.0 {
            continue;
        }
        let nearest = if fit > 0.0 { &told } else { &patterns };
        let example = nearest.iter().find_map(|p| p.example(step.number, step.until));
        total += weight * step.each;
        issues.push(Issue {
            share: weight * step.each,
            from: step.from,
            to: step.to,
            fit: fit as u64,
            example: example.unwrap_or(step.number),
            basis: step.basis,
            drawn: step.drawn,
            source: step.source,
            span: span(tables, series, step),
        });
    }
    if total <= 0.0 {
        return None;
    }
    // Years that hardly count are left out: they would only lengthen the list.
    issues.retain(|i| i.share > total * 1e-5);
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
        reads: row.shown(),
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
