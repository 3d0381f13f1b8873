//! What marks say, in words for a person.

use super::reading::{Flag, Issue, Kind, Mark, Reading};
use super::tables::Tables;
use super::together::Together;
use crate::calendar;
use crate::curve::FIRST_YEAR;
use crate::text::bounds_in_words;
use pack::marks::Proof;
use units::{Basis, Year};

/// How much of a reading's chance the years that are named hold.
const NAMED: f64 = 0.9;
/// From this share of the greatest chance on the last year counts as likely as any.
const OPEN: f64 = 0.9;

impl Reading {
    /// One or more sentences: what it is, when it was granted, what that proves, and what is odd about it.
    #[must_use]
    pub fn in_words(&self, tables: &Tables) -> String {
        let mut all = vec![self.title(tables)];
        all.extend(self.explained(tables));
        all.join(" ")
    }

    /// The sentences after the title: what it proves, what is odd about it, what to be careful about.
    #[must_use]
    pub fn explained(&self, tables: &Tables) -> Vec<String> {
        let mut all = vec![self.says.clone()];
        all.extend(self.flags.iter().map(|f| self.flag(tables, *f)));
        if matches!(self.kind, Kind::Size(_)) && !self.flags.iter().any(|f| matches!(f, Flag::Held(_))) {
            all.push(String::from("Nothing that can be measured settles it."));
        }
        all.push(self.caution.clone());
        if !self.as_told {
            all.push(String::from("For this a character must have been misread."));
        }
        all.retain(|s| !s.is_empty());
        all
    }

    /// What it is, with the years of grant: `United States patent 1134?8, granted in 1871.`
    #[must_use]
    pub fn title(&self, tables: &Tables) -> String {
        let series = match self.kind {
            Kind::Number(s) => tables.marks().series.get(s),
            _ => None,
        };
        let when = self.granted(series.map_or("", |s| s.done.as_str()));
        match self.kind {
            Kind::Dated(_) => format!("{} of {}.", self.name, self.reads),
            Kind::Date => format!("{}.", self.reads),
            Kind::Number(_) => format!("{} {}, {when}.", self.name, self.reads),
            Kind::Words(_) => format!("{}.", self.name),
            Kind::Diamond => format!("{} of {}.", self.name, self.reads),
            Kind::Size(_) if self.reads.is_empty() => format!("{}.", capital(&self.name)),
            Kind::Size(_) => format!("{}: {}.", self.reads, self.name),
        }
    }

    /// `granted in 1871`, `granted between 1903 and 1906, most likely in 1905`.
    fn granted(&self, done: &str) -> String {
        let years = self.years();
        let most = years.iter().fold((0, 0.0), |best: (Year, f64), y| if y.1 > best.1 { *y } else { best });
        // The fewest years that hold most of the chance.
        let shares: Vec<f64> = years.iter().map(|(_, s)| *s).collect();
        let (mut held, mut named) = (0.0, Vec::new());
        for i in units::descending(&shares) {
            if held >= NAMED {
                break;
            }
            held += years[i].1;
            named.push(years[i].0);
        }
        let (Some(from), Some(to)) = (named.iter().min(), named.iter().max()) else {
            return String::from("of unknown date");
        };
        match (from == to, most.1 > 0.5 && named.len() > 1) {
            (true, _) => format!("{done} in {from}"),
            (false, true) => format!("{done} between {from} and {to}, most likely in {}", most.0),
            (false, false) if named.len() == 2 => format!("{done} in {from} or {to}"),
            (false, false) => format!("{done} between {from} and {to}"),
        }
    }

    fn flag(&self, tables: &Tables, flag: Flag) -> String {
        let marks = tables.marks();
        match flag {
            // The date's own sentence says it.
            Flag::NoIssue => String::new(),
            Flag::MissedWeeks => {
                String::from("About that time some weeks had no issue; it may be one of them.")
            }
            Flag::Memory => match self.memory() {
                (Some(a), Some(b)) if a != b => {
                    format!("The table rests on memory for years from {a} to {b}, and may be a year out.")
                }
                (Some(a), _) => format!("The table rests on memory for {a}, and may be a year out."),
                _ => String::from("The table rests on memory here, and may be a year out."),
            },
            Flag::Drawn => String::from(
                "Between figures that are years apart a straight line was drawn: the single years are rough.",
            ),
            Flag::Exception(e) => marks.diamond.instead.get(e).map(|i| i.note.clone()).unwrap_or_default(),
            Flag::Class(c) => marks.diamond.classes.get(c).map_or(String::new(), |(numeral, what)| {
                format!("Class {numeral} is for {what}; a metal iron should bear class I.")
            }),
            Flag::BorneOut => String::from("Number and date bear each other out: they are of one patent."),
            Flag::Held(held) => held.in_words(&self.reads),
        }
    }

    /// The first and last year of grant that rest on memory.
    fn memory(&self) -> (Option<Year>, Option<Year>) {
        let years = || {
            let resting = |i: &&Issue| i.basis != Basis::Published && i.share > 0.01;
            self.issues.iter().filter(resting).map(|i| calendar::year_of(i.from))
        };
        (years().min(), years().max())
    }
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

/// The years of a piece of its time as a person would write them, from its marks alone: `1871 or later, most likely 1871
/// to 1893`; empty when they say nothing.
#[must_use]
pub fn years_in_words(marks: &[Mark], together: &Together) -> String {
    let (from, to) = bounds(marks, together);
    let likely = together.sources.iter().flatten().any(|m| {
        marks[*m]
            .readings
            .iter()
            .take(1)
            .any(|r| !matches!(r.evidence.proof, Proof::Nothing | Proof::NotBefore))
    });
    if !likely {
        return bounds_in_words(from, to, &[]);
    }
    let curve = together.curve();
    let top = curve.p.iter().copied().fold(0.0, f64::max);
    // Where the last year is as likely as any, years have a start and no end.
    if curve.p.last().is_some_and(|p| *p > OPEN * top) {
        let words = bounds_in_words(from, to, &[]);
        let start = curve.p.iter().position(|p| *p > 0.95 * top).unwrap_or(0);
        let start = FIRST_YEAR.saturating_add(Year::try_from(start).unwrap_or(0));
        return match (
            words.is_empty(),
            from.is_some_and(|(_, b)| start <= b.saturating_add(2)),
            start > FIRST_YEAR,
        ) {
            (_, true, _) | (_, _, false) => words,
            (true, ..) => format!("most likely {start} or later"),
            (false, ..) => format!("{words}, most likely {start} or later"),
        };
    }
    bounds_in_words(from, to, &curve.densest(0.5))
}

/// The tightest bounds that hold for all that a mark may be: the range of the lower one, and the upper one.
#[must_use]
pub fn bounds(marks: &[Mark], together: &Together) -> (Option<(Year, Year)>, Option<Year>) {
    let strong = || together.sources.iter().flatten().map(|m| &marks[*m]).filter(|m| m.misread < 0.3);
    let from = strong().filter_map(likely_bound).max_by_key(|(a, _)| *a);
    let to = strong().filter_map(Mark::not_after).min();
    (from, to)
}

/// The range of the lower bound over the readings that hold most of the chance.
fn likely_bound(mark: &Mark) -> Option<(Year, Year)> {
    let (mut held, mut range) = (0.0, None::<(Year, Year)>);
    let total: f64 = mark.readings.iter().map(|r| r.chance).sum();
    for r in &mark.readings {
        if held >= NAMED * total {
            break;
        }
        held += r.chance;
        let each: Option<Vec<Year>> =
            r.evidence.spans.iter().filter(|(s, _)| *s > 0.02).map(|(_, s)| s.hard_from).collect();
        let each = each?;
        let (a, b) = (each.iter().copied().min()?, each.iter().copied().max()?);
        range = Some(range.map_or((a, b), |(x, y)| (x.min(a), y.max(b))));
    }
    range
}

/// Which two marks cannot both be right, and what that may mean.
#[must_use]
pub fn clash_in_words(marks: &[Mark], together: &Together) -> Vec<String> {
    let named = |m: usize| {
        let mark = &marks[m];
        let what = mark.readings.first().map_or("", |r| r.name.as_str());
        format!("\u{201c}{}\u{201d} ({what})", mark.text)
    };
    let one = |c: &super::together::Clash| {
        format!(
            "{} and {} cannot both be right on a piece of its time. One is misread, not what it seems, or carried over from \
             an older piece.",
            named(c.marks.0),
            named(c.marks.1)
        )
    };
    together.clashes.iter().map(one).collect()
}
