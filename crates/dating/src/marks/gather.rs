//! From slots to marks: which digits belong to which words, and what is left over.

use super::diamond;
use super::evidence::{Evidence, Span};
use super::glyph::{Glyph, glyphs};
use super::held::Measured;
use super::path::{Slot, What, slots};
use super::phrase::Target;
use super::reading::{Kind, Mark, Read, Reading};
use super::tables::Tables;
use crate::calendar;
use pack::marks::{Proof, Role};
use units::Year;

/// Wordings that are less likely than this are not offered. Basis: practice.
const LEAST: f64 = 0.002;
/// However much is lost, the words around it still say what it is: of a thousand. Basis: memory.
const MOST_MISREAD: f64 = 300.0;
/// A letter must look this much like a digit to be read as one where digits are expected. Basis: memory.
const LIKE_A_DIGIT: f64 = 0.002;

/// Works through the slots of one text.
pub(crate) struct Gatherer<'a> {
    pub(crate) tables: &'a Tables,
    text: &'a str,
    pub(crate) glyphs: &'a [Glyph],
    pub(crate) slots: Vec<Slot>,
    pub(crate) taken: Vec<bool>,
    marks: Vec<Mark>,
    /// The text speaks of a patent.
    pub(crate) patent: bool,
    pub(crate) measured: Measured,
}

/// Reads a text.
pub(crate) fn gather(tables: &Tables, text: &str, measured: Measured) -> Read {
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
    let mut g = Gatherer { tables, text, glyphs: &rest, slots, taken, marks, patent: false, measured };
    g.patent = (0..g.slots.len()).any(|i| g.is(i, Role::Patent) || g.speaks(i));
    g.part_rows();
    g.dates();
    g.figures();
    g.numbers();
    g.bare();
    g.words();
    let unread = g.unread();
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
    pub(crate) fn role(&self, at: usize, role: Role) -> f64 {
        let Some(What::Words(list)) = self.slots.get(at).map(|s| &s.what) else { return 0.0 };
        list.iter()
            .filter(|(t, _)| self.tables.role(*t).is_some_and(|(r, _)| r == role))
            .map(|(_, p)| p)
            .sum()
    }

    pub(crate) fn is(&self, at: usize, role: Role) -> bool {
        self.role(at, role) > 0.3
    }

    /// Words such as "patent pending" speak of a patent too.
    fn speaks(&self, at: usize) -> bool {
        let Some(What::Words(list)) = self.slots.get(at).map(|s| &s.what) else { return false };
        let pending = |t: &Target| matches!(t, Target::Mark(m) if self.tables.speaks[*m]);
        list.iter().any(|(t, p)| *p > 0.3 && pending(t))
    }

    pub(crate) fn digits(&self, at: usize) -> bool {
        self.slots.get(at).is_some_and(|s| s.what == What::Digits) && !self.taken[at]
    }

    /// A stretch that may be digits though it is not told to be: lost characters, or letters that look like digits.
    pub(crate) fn like_digits(&self, at: usize) -> bool {
        let Some(slot) = self.slots.get(at).filter(|_| !self.taken[at]) else { return false };
        let free = match &slot.what {
            What::Digits => return true,
            What::Other => true,
            What::Words(list) => list.iter().all(|(_, p)| *p < 0.3),
        };
        let like =
            |g: &Glyph| g.one_of.is_empty() || self.tables.alike.digits(g).iter().any(|p| *p >= LIKE_A_DIGIT);
        free && slot.to - slot.from <= 4 && self.glyphs[slot.from..slot.to].iter().all(like)
    }

    /// A stretch of which nothing is left.
    pub(crate) fn all_lost(&self, at: usize) -> bool {
        self.slots.get(at).is_some_and(|s| self.glyphs[s.from..s.to].iter().all(|g| g.one_of.is_empty()))
    }

    /// What was not read, as typed; neighbours in one.
    fn unread(&self) -> Vec<String> {
        let mut list: Vec<(usize, usize)> = Vec::new();
        for at in (0..self.slots.len()).filter(|i| !self.taken[*i]) {
            match list.last_mut() {
                Some(last) if last.1 + 1 == at => last.1 = at,
                _ => list.push((at, at)),
            }
        }
        list.into_iter().map(|(from, to)| self.shown(from, to)).collect()
    }

    pub(crate) fn row(&self, at: usize) -> Vec<&'a Glyph> {
        self.glyphs[self.slots[at].from..self.slots[at].to].iter().collect()
    }

    pub(crate) fn gap(&self, at: usize) -> &str {
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
    pub(crate) fn push(&mut self, from: usize, to: usize, readings: Vec<Reading>, less: f64) {
        if readings.is_empty() {
            return;
        }
        let none = none(self.tables, self.lost(from, to)).max(less);
        let mark = Mark::of(self.shown(from, to), self.span(from, to), readings, none);
        self.marks.push(mark);
        self.taken[from..=to].iter_mut().for_each(|t| *t = true);
    }

    /// Wordings that stand by themselves.
    fn words(&mut self) {
        for at in 0..self.slots.len() {
            if self.taken[at] {
                continue;
            }
            let What::Words(list) = self.slots[at].what.clone() else { continue };
            let mut readings: Vec<Reading> = Vec::new();
            let alone = !self.has_patent();
            let told = |target: &Target| match target {
                Target::Mark(m) => Some(*m),
                Target::Series(s) => Some(usize::from(self.tables.marks.series[*s].alone)),
                Target::Word(_) => match self.tables.role(*target) {
                    Some((Role::Patent, _)) if alone => self.patented(),
                    _ => None,
                },
            };
            for (target, p) in &list {
                if let Some(m) = told(target).filter(|_| *p >= LEAST) {
                    match readings.iter_mut().find(|r| r.kind == Kind::Words(m)) {
                        Some(old) => old.chance += p,
                        None => readings.push(words(self.tables, m, *p)),
                    }
                }
            }
            let sum: f64 = readings.iter().map(|r| r.chance).sum();
            // Words that only told how to read others are not left over.
            let helps = |(t, p): &(Target, f64)| {
                told(t).is_none().then(|| self.tables.role(*t)).flatten().map(|(r, _)| (r, *p))
            };
            let patent: f64 =
                list.iter().filter_map(helps).filter(|(r, _)| *r == Role::Patent).map(|(_, p)| p).sum();
            if sum < LEAST || patent > 0.3 && patent > sum {
                self.taken[at] = list.iter().filter_map(helps).any(|(_, p)| p > 0.3);
            } else {
                self.push(at, at, readings, 1.0 - sum);
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
