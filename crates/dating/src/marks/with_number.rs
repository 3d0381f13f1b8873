//! Numbers in the text: those that a word introduces, and those without one.

use super::bare::{self, Around};
use super::date::{self, Parts};
use super::gather::Gatherer;
use super::glyph::Glyph;
use super::number::{Row, of_series};
use super::path::What;
use super::phrase::Target;
use super::reading::{Kind, Reading};
use pack::marks::Role;

/// The most characters of a number, lost commas included.
const MOST_GLYPHS: usize = 11;

/// How often a number that touches unread lettering is only a part of something. Basis: memory.
const TORN: f64 = 0.5;

impl<'a> Gatherer<'a> {
    /// Numbers that a word introduces: `Rd No 543765`, `D.R.P. 53563`, `PAT. NO. 1,234,567`.
    pub(crate) fn numbers(&mut self) {
        for at in 0..self.slots.len() {
            if self.taken[at] {
                continue;
            }
            let series = self.series(at);
            let known: f64 = series.iter().map(|(_, p)| p).sum();
            let patent = self.role(at, Role::Patent);
            if known < 0.05 && patent < 0.05 {
                continue;
            }
            let mut next = at + 1;
            while next < self.slots.len()
                && !self.taken[next]
                && (self.is(next, Role::Number) || self.lost_word(next))
            {
                next += 1;
            }
            let (from, to, start, end) = if self.figure(next) {
                let end = self.joined(next);
                (at, end, next, end)
            } else if let Some(b) = at.checked_sub(1).filter(|b| self.digits(*b)) {
                let start = self.joined_back(b);
                (start, at, start, b)
            } else {
                continue;
            };
            let glyphs: Vec<&Glyph> = (start..=end).flat_map(|i| self.row(i)).collect();
            let row = Row::new(self.tables, &glyphs, self.open(start, end));
            let mut readings: Vec<Reading> = Vec::new();
            for (s, p) in &series {
                add(&mut readings, of_series(self.tables, *s, &row), *p);
            }
            if let Some(dated) = self.tables.dated().filter(|_| patent >= 0.05) {
                add(&mut readings, of_series(self.tables, dated, &row), patent);
                // A lone year behind the word: the year of the grant.
                if start == end
                    && next == at + 1
                    && glyphs.len() <= 5
                    && date::can_be_year(self.tables, &glyphs)
                {
                    let months = vec![(0, 1.0)];
                    let parts =
                        [Parts { day: Vec::new(), months, year: glyphs.clone(), weight: patent * 0.05 }];
                    readings.extend(date::readings(self.tables, &parts, true));
                }
                // Rights of other series were marked with the same word now and then.
                let others = self.tables.marks.series.iter().enumerate().filter(|(i, _)| *i != dated);
                for (i, s) in others {
                    let share = patent * f64::from(s.weight) / 1000.0;
                    add(&mut readings, of_series(self.tables, i, &row), share);
                }
            }
            // The word may be none of these, and the number one like any other.
            let rest = 1.0 - known - patent;
            if rest > 0.0 {
                let around = Around { patent: self.patent, measured: self.measured, ..Around::default() };
                for mut r in bare::readings(self.tables, &row, around) {
                    r.chance *= rest;
                    match r.kind {
                        Kind::Number(_) => add(&mut readings, Some(r), 1.0),
                        _ => readings.push(r),
                    }
                }
            }
            let less = self.torn(start, end);
            self.push(from, to, readings, less);
        }
    }

    /// The chance that a number is part of something longer: lettering that was not read stands beside it without a space.
    fn torn(&self, start: usize, end: usize) -> f64 {
        let unread = |at: usize| {
            self.slots.get(at).is_some_and(|s| match &s.what {
                What::Digits => !self.taken[at],
                What::Other => !self.taken[at] && !self.all_lost(at),
                What::Words(list) => list.iter().map(|(_, p)| p).sum::<f64>() < 0.3,
            })
        };
        let close = |at: usize| !self.gap(at).contains(' ');
        let before = start.checked_sub(1).is_some_and(|b| unread(b) && close(start));
        let after = unread(end + 1) && close(end + 1);
        if before || after { TORN } else { 0.0 }
    }

    /// The series that a slot's words may introduce, with their chances.
    fn series(&self, at: usize) -> Vec<(usize, f64)> {
        let Some(What::Words(list)) = self.slots.get(at).map(|s| &s.what) else { return Vec::new() };
        let one = |(t, p): &(Target, f64)| match t {
            Target::Series(s) => Some((*s, *p)),
            _ => None,
        };
        list.iter().filter_map(one).collect()
    }

    /// A worn word between the word of a right and its number: "Rd ?? 543765".
    fn lost_word(&self, at: usize) -> bool {
        let Some(slot) = self.slots.get(at) else { return false };
        let worn = match &slot.what {
            What::Digits => false,
            What::Other => true,
            What::Words(list) => list.iter().all(|(_, p)| *p < 0.3),
        };
        let lost = self.row(at).iter().any(|g| g.one_of.is_empty());
        worn && lost && slot.to - slot.from <= 3 && self.joined(at) == at && self.figure(at + 1)
    }

    /// Digits with at least one that is told, or a letter that looks like one before a comma and more digits.
    fn figure(&self, at: usize) -> bool {
        self.digits(at) && !self.all_lost(at) || self.like_digits(at) && self.joined(at) > at
    }

    /// The last slot of a number that goes on behind a comma: `113,448`.
    pub(crate) fn joined(&self, from: usize) -> usize {
        let told = |at: usize| self.row(at).iter().filter(|g| g.digit()).count();
        let mut end = from;
        let mut digits = self.row(from).len();
        while end + 1 < self.slots.len() && digits + 3 <= MOST_GLYPHS && leads(&self.row(end), end == from) {
            let comma = matches!(self.gap(end + 1), "," | "." | "'" | " " | ", " | "\u{2019}");
            let row = self.row(end + 1);
            let sound = told(end + 1) > 0 || row.iter().all(|g| g.one_of.is_empty());
            if !comma || !sound || !self.like_digits(end + 1) || !follows(&row) {
                break;
            }
            digits += row.len();
            end += 1;
        }
        // Letters and lost characters alone make no number.
        if (from..=end).map(told).sum::<usize>() == 0 { from } else { end }
    }

    fn joined_back(&self, last: usize) -> usize {
        let mut start = last;
        while let Some(before) = start.checked_sub(1).filter(|b| self.like_digits(*b)) {
            if self.joined(before) < last {
                break;
            }
            start = before;
        }
        start
    }

    /// Whether the row touches a letter at either end without a gap.
    fn open(&self, start: usize, end: usize) -> (bool, bool) {
        let (from, to) = (self.slots[start].from, self.slots[end].to);
        let before = from > 0 && !self.glyphs[from].apart();
        let after = self.glyphs.get(to).is_some_and(|g| !g.apart());
        (before, after)
    }

    /// Numbers without a word of their own.
    pub(crate) fn bare(&mut self) {
        for at in 0..self.slots.len() {
            if !self.figure(at) {
                continue;
            }
            let end = self.joined(at);
            let glyphs: Vec<&Glyph> = (at..=end).flat_map(|i| self.row(i)).collect();
            let row = Row::new(self.tables, &glyphs, self.open(at, end));
            let before = |role: Role| at.checked_sub(1).is_some_and(|b| self.is(b, role));
            let around = Around {
                patent: self.patent,
                pounds: self.is(end + 1, Role::Pounds),
                size: before(Role::Size),
                number: before(Role::Number),
                lost: at.checked_sub(1).is_some_and(|b| self.all_lost(b) && !self.taken[b])
                    && !self.gap(at).is_empty(),
                measured: self.measured,
            };
            let readings = bare::readings(self.tables, &row, around);
            let from = if (around.size || around.number) && !self.taken[at - 1] { at - 1 } else { at };
            let to = if around.pounds { end + 1 } else { end };
            let less = self.torn(at, end);
            self.push(from, to, readings, less);
        }
    }
}

/// Whether more thousands may follow a group: one to three digits, with lost characters that may have been gaps or commas
/// beside them: `?113`, `2?231`.
fn leads(row: &[&Glyph], first: bool) -> bool {
    let gap = |i: usize| row[i].lost() && (row.len() - i - 1).is_multiple_of(3) && i <= 3;
    let few = row.len() <= 3 || row.len() == 4 && row[0].lost();
    (if first { few } else { row.len() == 3 }) || (1..row.len().saturating_sub(1)).any(gap)
}

/// Whether a group may be the thousands behind a comma: three digits, or more with a lost comma, or a lost gap behind.
fn follows(row: &[&Glyph]) -> bool {
    match row.len() {
        1 | 2 => row.iter().any(|g| g.many),
        3 => true,
        4 | 7 => row[3].lost(),
        _ => false,
    }
}

/// Adds a number of a series, once for each series.
fn add(readings: &mut Vec<Reading>, found: Option<Reading>, factor: f64) {
    let Some(mut found) = found else { return };
    found.chance *= factor;
    match readings.iter_mut().find(|r| r.kind == found.kind) {
        Some(old) => old.chance += found.chance,
        None => readings.push(found),
    }
}
