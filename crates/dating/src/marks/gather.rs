//! From slots to marks: which digits belong to which words, and what is left over.

use super::bare::{self, Around};
use super::date::{self, Parts};
use super::diamond;
use super::evidence::{Evidence, Span};
use super::glyph::{Glyph, glyphs};
use super::number::{Row, of_series};
use super::path::{Slot, What, slots};
use super::phrase::Target;
use super::reading::{Kind, Mark, Read, Reading};
use super::tables::Tables;
use crate::calendar;
use pack::marks::{Proof, Role};
use units::{Length, Year};

/// Wordings that are less likely than this are not offered. Basis: practice.
const LEAST: f64 = 0.01;
/// However much is lost, the words around it still say what it is: of a thousand. Basis: memory.
const MOST_MISREAD: f64 = 300.0;
/// Make-ups of a date, beside that with day, month and year in their places. Basis: memory.
const RUN_TOGETHER: f64 = 0.2;
const YEAR_FIRST: f64 = 0.4;
const NO_DAY: f64 = 0.3;
const IN_FIGURES: f64 = 0.5;

/// Works through the slots of one text.
struct Gatherer<'a> {
    tables: &'a Tables,
    text: &'a str,
    glyphs: &'a [Glyph],
    slots: Vec<Slot>,
    taken: Vec<bool>,
    marks: Vec<Mark>,
    patent: bool,
    length: Option<Length>,
}

/// Reads a text.
pub(crate) fn gather(tables: &Tables, text: &str, length: Option<Length>) -> Read {
    let (all, cut) = glyphs(text);
    let mut marks = Vec::new();
    let mut rest = all.clone();
    // A described diamond is taken out first: its letters would be read as words.
    if let Some((from, described)) = diamond::find(tables, &all) {
        let readings = diamond::readings(tables, &described);
        if !readings.is_empty() {
            let lost = all[from..described.to].iter().filter(|g| g.one_of.is_empty()).count();
            let at = (all[from].at.0, all[described.to - 1].at.1);
            marks.push(Mark::of(text[at.0..at.1].to_string(), at, readings, none(tables, lost)));
            rest.drain(from..described.to);
            if let Some(next) = rest.get_mut(from) {
                next.gap.push(';');
            }
        }
    }
    let slots = slots(tables, &rest);
    let taken = vec![false; slots.len()];
    let mut g = Gatherer { tables, text, glyphs: &rest, slots, taken, marks, patent: false, length };
    g.patent = (0..g.slots.len()).any(|i| g.is(i, Role::Patent) || g.speaks(i));
    g.dates();
    g.figures();
    g.numbers();
    g.bare();
    g.words();
    let unread = (0..g.slots.len()).filter(|i| !g.taken[*i]).map(|i| g.shown(i, i)).collect();
    let order = units::order(g.marks.len(), &|a, b| g.marks[a].at.cmp(&g.marks[b].at));
    Read { marks: units::arranged(g.marks, &order), unread, cut }
}

/// The chance that no reading is right, by lost characters.
fn none(tables: &Tables, lost: usize) -> f64 {
    let r = &tables.marks.reading;
    (f64::from(r.misread) + f64::from(r.misread_lost) * lost as f64).min(MOST_MISREAD) / 1000.0
}

impl<'a> Gatherer<'a> {
    /// The chance that a slot is a word of this role, with the months it may be.
    fn role(&self, at: usize, role: Role) -> f64 {
        let Some(What::Words(list)) = self.slots.get(at).map(|s| &s.what) else { return 0.0 };
        list.iter()
            .filter(|(t, _)| self.tables.role(*t).is_some_and(|(r, _)| r == role))
            .map(|(_, p)| p)
            .sum()
    }

    fn is(&self, at: usize, role: Role) -> bool {
        self.role(at, role) > 0.3
    }

    /// Words such as "patent pending" speak of a patent too.
    fn speaks(&self, at: usize) -> bool {
        let Some(What::Words(list)) = self.slots.get(at).map(|s| &s.what) else { return false };
        let pending = |t: &Target| matches!(t, Target::Mark(m) if self.tables.speaks[*m]);
        list.iter().any(|(t, p)| *p > 0.3 && pending(t))
    }

    fn digits(&self, at: usize) -> bool {
        self.slots.get(at).is_some_and(|s| s.what == What::Digits) && !self.taken[at]
    }

    fn row(&self, at: usize) -> Vec<&'a Glyph> {
        self.glyphs[self.slots[at].from..self.slots[at].to].iter().collect()
    }

    fn gap(&self, at: usize) -> &str {
        self.slots.get(at).map_or("", |s| &self.glyphs[s.from].gap)
    }

    fn span(&self, from: usize, to: usize) -> (usize, usize) {
        (self.glyphs[self.slots[from].from].at.0, self.glyphs[self.slots[to].to - 1].at.1)
    }

    fn shown(&self, from: usize, to: usize) -> String {
        let (a, b) = self.span(from, to);
        self.text.get(a..b).unwrap_or_default().to_string()
    }

    fn lost(&self, from: usize, to: usize) -> usize {
        let all = &self.glyphs[self.slots[from].from..self.slots[to].to];
        all.iter().filter(|g| g.one_of.is_empty()).count()
    }

    /// Adds a mark over these slots.
    fn push(&mut self, from: usize, to: usize, readings: Vec<Reading>, less: f64) {
        if readings.is_empty() {
            return;
        }
        let none = none(self.tables, self.lost(from, to)).max(less);
        let mark = Mark::of(self.shown(from, to), self.span(from, to), readings, none);
        self.marks.push(mark);
        self.taken[from..=to].iter_mut().for_each(|t| *t = true);
    }

    /// The day with the suffix that may stand behind it: the slot of the day and the next free one.
    fn after_suffix(&self, at: usize) -> usize {
        let suffix = self.is(at, Role::Suffix) && self.gap(at).is_empty();
        if suffix { at + 1 } else { at }
    }

    /// Dates with a month in words.
    fn dates(&mut self) {
        for at in 0..self.slots.len() {
            if self.taken[at] || self.role(at, Role::Month) < 0.05 {
                continue;
            }
            let Some((from, to, readings)) = self.date(at) else { continue };
            // The word of the patent belongs to its first date.
            let first = from.checked_sub(1).filter(|f| !self.taken[*f] && self.is(*f, Role::Patent));
            self.push(first.unwrap_or(from), to, readings, 0.0);
        }
    }

    fn date(&self, at: usize) -> Option<(usize, usize, Vec<Reading>)> {
        let What::Words(words) = &self.slots[at].what else { return None };
        let month = |(t, p): &(Target, f64)| match self.tables.role(*t) {
            Some((Role::Month, which)) => Some((which, *p)),
            _ => None,
        };
        let months: Vec<(u8, f64)> = words.iter().filter_map(month).collect();
        let before = at.checked_sub(1).filter(|b| self.digits(*b));
        // "23rd May": the suffix stands between.
        let before = before.or_else(|| {
            let suffix = at.checked_sub(1).filter(|s| self.is(*s, Role::Suffix) && self.gap(*s).is_empty());
            suffix.and_then(|s| s.checked_sub(1)).filter(|b| self.digits(*b))
        });
        let first = Some(at + 1).filter(|a| self.digits(*a));
        let second = first.map(|a| self.after_suffix(a + 1)).filter(|a| self.digits(*a));
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
        // May 23 1871; 23 May 1871; 1871 May 23.
        let found = second.is_some() && offer(&a, &b, 1.0, (at, at_b))
            || before.is_some() && first.is_some() && offer(&x, &a, 1.0, (at_x, at_a))
            || whole && first.is_some() && offer(&a, &x, YEAR_FIRST, (at_x, at_a));
        if !found && first.is_some() {
            if a.len() >= 4 {
                offer(&[], &a, NO_DAY, (at, at_a));
            }
            for (day, year, weight) in split(&a) {
                offer(&day, &year, weight, (at, at_a));
            }
        }
        if parts.is_empty() {
            return None;
        }
        let readings = date::readings(self.tables, &parts, self.patent);
        Some((from, to, readings))
    }

    /// Dates in figures: `5-23-1871`, `23.5.71`.
    fn figures(&mut self) {
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
                let months: Vec<(u8, f64)> = Row::new(month, (false, false))
                    .small(self.tables, 1, 12)
                    .into_iter()
                    .map(|(m, w, _)| (m as u8, w))
                    .collect();
                parts.push(Parts { day: day.clone(), months, year: year.clone(), weight: IN_FIGURES });
            }
            let readings = date::readings(self.tables, &parts, self.patent);
            self.push(at, at + 2, readings, 0.0);
        }
    }

    /// Numbers that a word introduces: `Rd No 543765`, `D.R.P. 53563`, `PAT. NO. 1,234,567`.
    fn numbers(&mut self) {
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
            while self.is(next, Role::Number) && !self.taken[next] {
                next += 1;
            }
            let (from, to, start, end) = if self.digits(next) {
                let end = self.joined(next);
                (at, end, next, end)
            } else if let Some(b) = at.checked_sub(1).filter(|b| self.digits(*b)) {
                let start = self.joined_back(b);
                (start, at, start, b)
            } else {
                continue;
            };
            let glyphs: Vec<&Glyph> = (start..=end).flat_map(|i| self.row(i)).collect();
            let row = Row::new(&glyphs, self.open(start, end));
            let mut readings: Vec<Reading> = Vec::new();
            for (s, p) in &series {
                add(&mut readings, of_series(self.tables, *s, &row), *p);
            }
            if let Some(dated) = self.tables.dated().filter(|_| patent >= 0.05) {
                add(&mut readings, of_series(self.tables, dated, &row), patent);
                // A lone year behind the word: the year of the grant.
                if start == end && glyphs.len() <= 5 && date::can_be_year(self.tables, &glyphs) {
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
            self.push(from, to, readings, 0.0);
        }
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

    /// The last slot of a number that goes on behind a comma: `113,448`.
    fn joined(&self, from: usize) -> usize {
        let mut end = from;
        let mut digits = self.row(from).len();
        while self.digits(end + 1) && digits + 3 <= 8 {
            let gap = self.gap(end + 1);
            let comma = matches!(gap, "," | "." | "'" | " " | ", " | "\u{2019}");
            if !comma || self.row(end + 1).len() != 3 || (end == from && digits > 3) {
                break;
            }
            digits += 3;
            end += 1;
        }
        end
    }

    fn joined_back(&self, last: usize) -> usize {
        let mut start = last;
        while let Some(before) = start.checked_sub(1).filter(|b| self.digits(*b)) {
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
    fn bare(&mut self) {
        for at in 0..self.slots.len() {
            if !self.digits(at) {
                continue;
            }
            let end = self.joined(at);
            let glyphs: Vec<&Glyph> = (at..=end).flat_map(|i| self.row(i)).collect();
            let row = Row::new(&glyphs, self.open(at, end));
            let before = |role: Role| at.checked_sub(1).is_some_and(|b| self.is(b, role));
            let around = Around {
                patent: self.patent,
                pounds: self.is(end + 1, Role::Pounds),
                size: before(Role::Size),
                number: before(Role::Number),
                length: self.length,
            };
            let readings = bare::readings(self.tables, &row, around);
            let from = if (around.size || around.number) && !self.taken[at - 1] { at - 1 } else { at };
            let to = if around.pounds { end + 1 } else { end };
            self.push(from, to, readings, 0.0);
        }
    }

    /// Wordings that stand by themselves.
    fn words(&mut self) {
        for at in 0..self.slots.len() {
            if self.taken[at] {
                continue;
            }
            let What::Words(list) = self.slots[at].what.clone() else { continue };
            let mut readings: Vec<Reading> = Vec::new();
            for (target, p) in &list {
                let mark = match target {
                    Target::Mark(m) => Some(*m),
                    Target::Series(s) => Some(usize::from(self.tables.marks.series[*s].alone)),
                    Target::Word(_) => match self.tables.role(*target) {
                        Some((Role::Patent, _)) if !self.has_patent() => self.patented(),
                        _ => None,
                    },
                };
                if let Some(m) = mark.filter(|_| *p >= LEAST) {
                    match readings.iter_mut().find(|r| r.kind == Kind::Words(m)) {
                        Some(old) => old.chance += p,
                        None => readings.push(words(self.tables, m, *p)),
                    }
                }
            }
            let sum: f64 = readings.iter().map(|r| r.chance).sum();
            if sum >= LEAST {
                self.push(at, at, readings, 1.0 - sum);
            } else {
                // Words that only told how to read others are not left over.
                let helps = list.iter().any(|(t, p)| *p > 0.3 && self.tables.role(*t).is_some());
                self.taken[at] = helps;
            }
        }
    }

    /// A date or number of a patent was found.
    fn has_patent(&self) -> bool {
        let dated = self.tables.dated();
        let of = |r: &Reading| match r.kind {
            Kind::Dated(_) | Kind::Date => true,
            Kind::Number(s) => Some(s) == dated,
            _ => false,
        };
        self.marks.iter().any(|m| m.readings.first().is_some_and(of))
    }

    fn patented(&self) -> Option<usize> {
        self.tables.dated().map(|s| usize::from(self.tables.marks.series[s].alone))
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

/// A wording of the tables as a reading.
fn words(tables: &Tables, index: usize, chance: f64) -> Reading {
    let m = &tables.marks.marks[index];
    let year = |day: Option<i32>| day.map(calendar::year_of);
    let legal: [Option<Year>; 2] = [year(m.legal_from), year(m.legal_to)];
    let span = match m.proof {
        Proof::Nothing => Span::OPEN,
        _ => Span {
            hard_from: legal[0].filter(|_| m.hard_from),
            from: m.habit_from.or(legal[0]),
            to: m.habit_to.or(legal[1]),
            hard_to: legal[1].filter(|_| m.hard_to),
            fades: m.fades,
        },
    };
    Reading {
        chance,
        kind: Kind::Words(index),
        reads: m.name.clone(),
        name: m.name.clone(),
        as_told: true,
        issues: Vec::new(),
        evidence: Evidence { spans: vec![(1.0, span)], proof: m.proof },
        says: m.says.clone(),
        caution: m.caution.clone(),
        basis: m.basis,
        habit_basis: m.habit_basis,
        source: m.source,
        flags: Vec::new(),
    }
}
