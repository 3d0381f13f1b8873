//! Dates in the text: which digits beside a month are its day and its year.

use super::date::{self, Parts};
use super::gather::Gatherer;
use super::glyph::Glyph;
use super::number::Row;
use super::path::{Slot, What};
use super::phrase::Target;
use super::reading::Reading;
use pack::marks::Role;

/// Make-ups of a date, beside that with day, month and year in their places. Basis: memory.
const RUN_TOGETHER: f64 = 0.2;
const YEAR_FIRST: f64 = 0.4;
const NO_DAY: f64 = 0.3;
const IN_FIGURES: f64 = 0.5;
/// Words that are a month with less than this chance are none, and with less than that they need day and year in their
/// places. Basis: memory.
const LEAST_MONTH: f64 = 0.05;
const PLAIN_MONTH: f64 = 0.6;

impl<'a> Gatherer<'a> {
    /// The day with the suffix that may stand behind it: the slot of the day and the next free one.
    fn after_suffix(&self, at: usize) -> usize {
        let suffix = self.is(at, Role::Suffix) && self.gap(at).is_empty();
        if suffix { at + 1 } else { at }
    }

    /// A number and the day or year of a date that run together, since the gap between them is lost: "628?1946 JUN 18".
    pub(crate) fn part_rows(&mut self) {
        for at in (1..self.slots.len()).rev() {
            let month = self.role(at, Role::Month) > PLAIN_MONTH;
            let whole =
                self.slots.get(at + 1..at + 3).is_some_and(|s| s.iter().all(|s| s.what == What::Digits));
            if !month || whole || self.slots[at - 1].what != What::Digits {
                continue;
            }
            let row = self.row(at - 1);
            let told = |part: &[&Glyph]| part.iter().filter(|g| g.digit()).count();
            let gap = (3..row.len()).rev().find(|i| {
                let tail = &row[i + 1..];
                let sound = matches!(tail.len(), 1 | 2) || tail.len() == 4 && told(tail) >= 3;
                row[*i].lost() && sound && told(tail) > 0 && told(&row[..*i]) >= 3
            });
            if let Some(gap) = gap {
                let (from, to) = (self.slots[at - 1].from, self.slots[at - 1].to);
                let one = |from: usize, to: usize, what: What| Slot { from, to, what };
                let parts = [
                    one(from, from + gap, What::Digits),
                    one(from + gap, from + gap + 1, What::Other),
                    one(from + gap + 1, to, What::Digits),
                ];
                self.slots.splice(at - 1..at, parts);
                self.taken.extend([false, false]);
            }
        }
    }

    /// Dates with a month in words.
    pub(crate) fn dates(&mut self) {
        // Plain months first: what is left of a worn word may look like one too.
        let sure: Vec<f64> = (0..self.slots.len()).map(|at| self.role(at, Role::Month)).collect();
        for at in units::descending(&sure) {
            if self.taken[at] || sure[at] < LEAST_MONTH {
                continue;
            }
            let Some((from, to, readings)) = self.date(at) else { continue };
            // The word of the patent belongs to its first date.
            let first = from.checked_sub(1).filter(|f| !self.taken[*f] && self.is(*f, Role::Patent));
            self.push(first.unwrap_or(from), to, readings, 0.0);
        }
    }

    /// One lost character that stands by itself.
    fn lone(&self, at: usize) -> bool {
        self.slots.get(at).is_some_and(|s| s.to - s.from == 1) && self.all_lost(at)
    }

    fn date(&self, at: usize) -> Option<(usize, usize, Vec<Reading>)> {
        let What::Words(words) = &self.slots[at].what else { return None };
        let month = |(t, p): &(Target, f64)| match self.tables.role(*t) {
            Some((Role::Month, which)) => Some((which, *p)),
            _ => None,
        };
        let months: Vec<(u8, f64)> = words.iter().filter_map(month).collect();
        // "3,187": digits that go on behind a comma are a number.
        let figure =
            |at: &usize| self.like_digits(*at) && !(self.gap(at + 1) == "," && self.joined(*at) > *at);
        let before = at.checked_sub(1).filter(figure);
        // "23rd May": the suffix stands between.
        let before = before.or_else(|| {
            let suffix = at.checked_sub(1).filter(|s| self.is(*s, Role::Suffix) && self.gap(*s).is_empty());
            suffix.and_then(|s| s.checked_sub(1)).filter(figure)
        });
        // A lost character by itself may have been a stop: "Apr? 15. 1862", "June 24,?'62".
        let stop = |at: usize| self.lone(at) && figure(&(at + 1));
        let touches = before.is_some() && self.gap(at + 1).is_empty();
        let start = if stop(at + 1) && (figure(&(at + 3)) || touches) { at + 2 } else { at + 1 };
        let first = Some(start).filter(figure);
        let second =
            first.map(|a| self.after_suffix(a + 1)).map(|a| if stop(a) { a + 1 } else { a }).filter(figure);
        let mut parts: Vec<Parts<'_>> = Vec::new();
        let (mut from, mut to) = (at, at);
        // A make-up is taken when it can be one; slots `a` to `b` then belong to the date.
        let mut offer = |day: &[&'a Glyph], year: &[&'a Glyph], weight: f64, (a, b): (usize, usize)| {
            if day.len() <= 3 && date::can_be_year(self.tables, year) {
                (from, to) = (from.min(a), to.max(b));
                parts.push(Parts { day: day.to_vec(), months: months.clone(), year: year.to_vec(), weight });
            }
            !parts.is_empty()
        };
        let row = |slot: Option<usize>| slot.map(|s| self.row(s)).unwrap_or_default();
        let (x, a, b) = (row(before), row(first), row(second));
        let (at_x, at_a, at_b) = (before.unwrap_or(at), first.unwrap_or(at), second.unwrap_or(at));
        let whole = x.len() >= 4 || x.iter().any(|g| g.many);
        let told = |row: &[&Glyph]| row.iter().filter(|g| g.digit()).count();
        // "1851 Apr 1 No 8": the year stands in front.
        let in_front = told(&x) >= 3 && x.len() == 4 && told(&b) < 3;
        // May 23 1871; 23 May 1871; 1871 May 23.
        let found = in_front && first.is_some() && offer(&a, &x, YEAR_FIRST, (at_x, at_a))
            || second.is_some() && offer(&a, &b, 1.0, (at, at_b))
            || before.is_some() && first.is_some() && offer(&x, &a, 1.0, (at_x, at_a))
            || whole && first.is_some() && offer(&a, &x, YEAR_FIRST, (at_x, at_a));
        let plain = self.role(at, Role::Month) > PLAIN_MONTH;
        let mut run_together = false;
        if !found && plain && first.is_some() {
            if a.len() >= 4 {
                offer(&[], &a, NO_DAY, (at, at_a));
            }
            // "DES. 120 830": what goes on in thousands is a number.
            let alone = self.joined(at_a) == at_a;
            for (day, year, weight) in split(&a).into_iter().filter(|_| alone) {
                run_together |= offer(&day, &year, weight, (at, at_a));
            }
        }
        if parts.is_empty() {
            return None;
        }
        let readings = date::readings(self.tables, &parts, self.patent);
        // What runs together and holds only if a digit was misread is hardly a date.
        let told = !run_together || readings.iter().any(|r| r.as_told);
        told.then_some((from, to, readings))
    }

    /// Dates in figures: `5-23-1871`, `23.5.71`.
    pub(crate) fn figures(&mut self) {
        for at in 0..self.slots.len().saturating_sub(2) {
            let three = (at..at + 3).all(|i| self.digits(i));
            let sign = |i: usize| matches!(self.gap(i).trim(), "-" | "." | "\u{2013}");
            if !three || !sign(at + 1) || !sign(at + 2) {
                continue;
            }
            let (a, b, year) = (self.row(at), self.row(at + 1), self.row(at + 2));
            if a.len() > 2 || b.len() > 2 || !matches!(year.len(), 2 | 4) {
                continue;
            }
            let mut parts = Vec::new();
            for (day, month) in [(&a, &b), (&b, &a)] {
                let months: Vec<(u8, f64)> = Row::new(self.tables, month, (false, false))
                    .small(1, 12)
                    .into_iter()
                    .map(|(m, w, _)| (m as u8, w))
                    .collect();
                parts.push(Parts { day: day.clone(), months, year: year.clone(), weight: IN_FIGURES });
            }
            let readings = date::readings(self.tables, &parts, self.patent);
            self.push(at, at + 2, readings, 0.0);
        }
    }
}

/// Day and year that run together: `231871`, `3?1871`.
fn split<'a>(row: &[&'a Glyph]) -> Vec<(Vec<&'a Glyph>, Vec<&'a Glyph>, f64)> {
    let mut list = Vec::new();
    for day in 1..=2 {
        for year in [4, 2] {
            if row.len() == day + year {
                list.push((row[..day].to_vec(), row[day..].to_vec(), RUN_TOGETHER));
            }
            if row.len() == day + year + 1 && row[day].lost() {
                list.push((row[..day].to_vec(), row[day + 1..].to_vec(), RUN_TOGETHER));
            }
        }
    }
    // Some are lost between or at the end of the day: `2*71`, `*18*`.
    for at in (0..row.len().min(3)).filter(|at| row[*at].many && at + 1 < row.len()) {
        list.push((row[..=at].to_vec(), row[at + 1..].to_vec(), RUN_TOGETHER));
        if at > 0 {
            list.push((row[..at].to_vec(), row[at + 1..].to_vec(), RUN_TOGETHER));
        }
    }
    list
}
