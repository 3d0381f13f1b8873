//! What comes out: marks with their readings.

use super::evidence::{Evidence, SOFT, Span, merged};
use super::held::Held;
use crate::calendar::{self, Day};
use crate::curve::FIRST_YEAR;
use pack::marks::Proof;
use units::{Basis, Year};

/// The most readings of one mark that are handed out.
pub const MOST_READINGS: usize = 24;
/// Shares under which a reading is left out: of those that hold as told, and of those that need a misread character.
/// Basis: practice.
pub(crate) const LEAST_TOLD: f64 = 1e-5;
pub(crate) const LEAST_MISREAD: f64 = 1e-3;

/// A text read.
#[derive(Debug, Clone, PartialEq)]
pub struct Read {
    /// The marks in it, in the order of the text.
    pub marks: Vec<Mark>,
    /// Stretches that are no known mark, as typed.
    pub unread: Vec<String>,
    /// The text was longer than what is read.
    pub cut: bool,
}

/// A stretch of the text that can be read in one or several ways.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// As typed.
    pub text: String,
    /// Where it stands, in bytes.
    pub at: (usize, usize),
    /// Likeliest first.
    pub readings: Vec<Reading>,
    /// The chance that none of the readings is right.
    pub misread: f64,
    /// There were more readings than are handed out: so many in all.
    pub more: Option<usize>,
    /// What those that are not handed out say together, and their chance.
    pub rest: Option<(f64, Evidence)>,
    /// Index of another mark that is the date or number of the same patent: the two are one source.
    pub same_as: Option<usize>,
}

/// One way to read a mark.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The chance that it is this.
    pub chance: f64,
    /// What it is.
    pub kind: Kind,
    /// What it would say in full: `23 May 1871`, `1134?8`.
    pub reads: String,
    /// What it is, as shown: `United States patent`.
    pub name: String,
    /// No character has to be taken for misread.
    pub as_told: bool,
    /// When what it names was granted or registered; empty for what is not.
    pub issues: Vec<Issue>,
    /// What it says of the years of a piece.
    pub evidence: Evidence,
    /// What it proves, in words.
    pub says: String,
    /// What to be careful about; may be empty.
    pub caution: String,
    /// What the bounds rest on.
    pub basis: Basis,
    /// What the habit of use rests on.
    pub habit_basis: Basis,
    /// Index into the sources of the tables.
    pub source: Option<u16>,
    /// What is odd about it.
    pub flags: Vec<Flag>,
}

/// What a reading is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// The date of a right of a series.
    Dated(usize),
    /// A date of something else.
    Date,
    /// A number of a series.
    Number(usize),
    /// A wording of the tables.
    Words(usize),
    /// The British diamond mark.
    Diamond,
    /// A size or other number, by index into the sizes.
    Size(usize),
}

/// What is odd about a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flag {
    /// No patent was granted on that day: misread, a foreign patent, or false.
    NoIssue,
    /// About that time some weeks had no issue.
    MissedWeeks,
    /// The years rest on memory.
    Memory,
    /// The years rest on a line drawn between figures that are years apart.
    Drawn,
    /// The letters follow an exception of the tables, by index.
    Exception(usize),
    /// The numeral in the circle is that of another material than metal, by index into the classes.
    Class(usize),
    /// It bears out the other mark that it shares a patent with.
    BorneOut,
    /// The number held against what was measured.
    Held(Held),
}

/// A time in which numbers that fit were granted.
#[derive(Debug, Clone, PartialEq)]
pub struct Issue {
    /// Share of the reading's chance; the shares of a reading sum to one.
    pub share: f64,
    /// First day.
    pub from: Day,
    /// Last day.
    pub to: Day,
    /// How many numbers fit as told; 0 where a character must be misread.
    pub fit: u64,
    /// One of them; 0 where the share is under a hundredth.
    pub example: u32,
    /// What the time rests on.
    pub basis: Basis,
    /// A line was drawn between figures that are years apart.
    pub drawn: bool,
    /// Index into the sources.
    pub source: Option<u16>,
    /// What it says of the years of a piece.
    pub span: Span,
}

impl Reading {
    /// Makes the evidence follow from the issues, after their shares have changed.
    pub(crate) fn settle(&mut self) {
        if self.issues.is_empty() {
            return;
        }
        let sum: f64 = self.issues.iter().map(|i| i.share).sum();
        if sum > 0.0 {
            self.issues.iter_mut().for_each(|i| i.share /= sum);
        }
        let spans = merged(self.issues.iter().map(|i| (i.share, i.span)).collect());
        self.evidence.spans = spans;
    }

    /// Years of grant with their shares, in order.
    #[must_use]
    pub fn years(&self) -> Vec<(Year, f64)> {
        let mut list: Vec<(Year, f64)> = Vec::new();
        for i in &self.issues {
            let (from, to) = (calendar::year_of(i.from), calendar::year_of(i.to));
            let share = i.share / f64::from(to - from + 1);
            for year in from..=to {
                match list.iter_mut().find(|(y, _)| *y == year) {
                    Some(old) => old.1 += share,
                    None => list.push((year, share)),
                }
            }
        }
        let order = units::order(list.len(), &|a, b| list[a].0.cmp(&list[b].0));
        units::arranged(list, &order)
    }
}

impl Mark {
    /// From readings with weights of any scale; `none` is the chance that none is right.
    pub(crate) fn of(text: String, at: (usize, usize), mut readings: Vec<Reading>, none: f64) -> Mark {
        readings.retain(|r| r.chance.is_finite() && r.chance > 0.0);
        let total: f64 = readings.iter().map(|r| r.chance).sum();
        // What needs a misread character and is hardly likely would only lengthen the list.
        readings.retain(|r| r.chance > total * if r.as_told { LEAST_TOLD } else { LEAST_MISREAD });
        let total: f64 = readings.iter().map(|r| r.chance).sum();
        let none = if readings.is_empty() { 1.0 } else { none.clamp(0.0, 0.99) };
        let mut mark = Mark { text, at, readings, misread: none, more: None, rest: None, same_as: None };
        mark.readings.iter_mut().for_each(|r| r.chance *= (1.0 - none) / total);
        mark.arrange();
        mark
    }

    /// A mark that can be this reading only: what it would prove if it were right.
    #[must_use]
    pub fn alone(reading: &Reading) -> Mark {
        Mark {
            text: reading.reads.clone(),
            at: (0, 0),
            readings: vec![Reading { chance: 1.0, ..reading.clone() }],
            misread: 0.0,
            more: None,
            rest: None,
            same_as: None,
        }
    }

    /// Likeliest first, and not too many.
    pub(crate) fn arrange(&mut self) {
        let readings = core::mem::take(&mut self.readings);
        let by = |a: usize, b: usize| readings[b].chance.total_cmp(&readings[a].chance);
        let order = units::order(readings.len(), &by);
        self.readings = units::arranged(readings, &order);
        if self.readings.len() <= MOST_READINGS {
            return;
        }
        self.more = Some(self.readings.len());
        let cut = self.readings.split_off(MOST_READINGS);
        let chance: f64 = cut.iter().map(|r| r.chance).sum();
        let spans = |r: &Reading| {
            r.evidence.spans.iter().map(|(s, k)| (s * r.chance / chance, *k)).collect::<Vec<_>>()
        };
        let spans = merged(cut.iter().flat_map(spans).collect());
        self.rest = (chance > 0.0).then_some((chance, Evidence { spans, proof: Proof::Habit }));
    }

    /// All evidence with its chances; what is misread is not among it.
    fn all(&self) -> impl Iterator<Item = (f64, &Evidence)> {
        let rest = self.rest.iter().map(|(chance, e)| (*chance, e));
        self.readings.iter().map(|r| (r.chance, &r.evidence)).chain(rest)
    }

    /// Hard and soft part of the likelihood in a year, for a piece of its time: every reading by its chance, and what is
    /// misread flat, at the least that habit alone can speak against a year.
    #[must_use]
    pub fn parts(&self, year: Year) -> (f64, f64) {
        let (mut hard, mut both) = (self.misread, self.misread * SOFT);
        for (chance, e) in self.all() {
            let (h, s) = e.parts(year);
            hard += chance * h;
            both += chance * h * s;
        }
        if hard > 0.0 { (hard, (both / hard).clamp(SOFT, 1.0)) } else { (1.0, 1.0) }
    }

    /// The likelihood in a year for a piece of its time, if one of the readings is right.
    #[must_use]
    pub fn as_read(&self, year: Year) -> f64 {
        let (mut sum, mut total) = (0.0, 0.0);
        for (chance, e) in self.all() {
            let (h, s) = e.parts(year);
            sum += chance * h * s;
            total += chance;
        }
        if total > 0.0 { sum / total } else { 1.0 }
    }

    /// The likelihood in a year for later makes.
    #[must_use]
    pub fn later(&self, year: Year) -> f64 {
        self.misread + self.all().map(|(chance, e)| chance * e.later(year)).sum::<f64>()
    }

    /// By year from [`FIRST_YEAR`]: for a piece of its time, and for later makes.
    #[must_use]
    pub fn likelihoods(&self, this_year: Year) -> [Vec<f64>; 2] {
        let years = FIRST_YEAR..=this_year.max(FIRST_YEAR);
        let period = years.clone().map(|y| {
            let (hard, soft) = self.parts(y);
            hard * soft
        });
        [period.collect(), years.map(|y| self.later(y)).collect()]
    }

    /// The first and the last year before which it cannot be, over all that it may be; none where one has no such bound.
    #[must_use]
    pub fn not_before(&self) -> Option<(Year, Year)> {
        let each: Option<Vec<Year>> = self.all().map(|(_, e)| e.not_before()).collect();
        let each = each.filter(|all| !all.is_empty())?;
        Some((each.iter().copied().min()?, each.iter().copied().max()?))
    }

    /// The year after which it cannot be, when that holds for all that it may be.
    #[must_use]
    pub fn not_after(&self) -> Option<Year> {
        let each: Option<Vec<Year>> = self.all().map(|(_, e)| e.not_after()).collect();
        each.and_then(|all| all.into_iter().max())
    }

    /// Whether anything it may be says something of years.
    #[must_use]
    pub fn dates(&self) -> bool {
        self.readings.iter().any(|r| r.evidence.proof != Proof::Nothing)
    }
}
