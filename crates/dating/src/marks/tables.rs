//! The reference tables made ready: wordings by letter, rows of numbers by day, how often rights of each year are met.

use super::alike::Alike;
use super::phrase::{Phrase, Target};
use super::steps::{self, Steps};
use crate::calendar::{self, Day};
use crate::curve::{Curve, FIRST_YEAR};
use pack::marks::{IssueKind, Marks, Role, Series};
use units::Year;

/// Everything that reading a mark looks up.
#[derive(Debug, Clone)]
pub struct Tables {
    pub(crate) marks: Marks,
    pub(crate) alike: Alike,
    pub(crate) phrases: Vec<Phrase>,
    pub(crate) steps: Vec<Steps>,
    /// By year from [`FIRST_YEAR`], how likely a right of that year is met; sums to one.
    pub(crate) met: Vec<f64>,
    /// By series, the share of words before a number that are its own.
    pub(crate) led_to: Vec<f64>,
    /// By mark, whether it speaks of a patent: it begins with a word for one.
    pub(crate) speaks: Vec<bool>,
    /// The logarithm of one in how many other characters.
    pub(crate) junk: f64,
    pub(crate) this_year: Year,
}

/// What is known of a day as a day of issue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Issue {
    /// Patents were granted on such days.
    Yes,
    /// They were, but some weeks about then had no issue.
    Perhaps,
    /// None were.
    No,
}

impl Tables {
    /// Makes tables ready. They must have been checked, as those are that `pack::marks::read_marks` hands out.
    #[must_use]
    pub fn new(marks: Marks, this_year: Year) -> Tables {
        let this_year = this_year.clamp(FIRST_YEAR, 2299);
        let met = Curve::of_periods(&[(1.0, marks.reading.met)], this_year).p;
        let steps = marks.series.iter().map(|s| Steps::new(s, &met, this_year)).collect();
        let mut phrases = Vec::new();
        let mut add = |writes: &[String], target: Target, weight: u16| {
            // The usual spelling stands first; the others follow as words do in any text: Zipf's law (published).
            let all: f64 = (1..=writes.len()).map(|k| 1.0 / k as f64).sum();
            let each = writes.iter().zip(1_u8..);
            phrases.extend(each.map(|(w, k)| Phrase::new(w, target, weight, 1.0 / f64::from(k) / all)));
        };
        for (i, mark) in marks.marks.iter().enumerate() {
            add(&mark.writes, Target::Mark(i), mark.weight);
        }
        for (i, series) in marks.series.iter().enumerate() {
            add(&series.writes, Target::Series(i), series.opens);
        }
        for (i, word) in marks.words.iter().enumerate() {
            add(&word.writes, Target::Word(i), word.weight);
        }
        let patent = marks.words.iter().filter(|w| w.role == Role::Patent).flat_map(|w| &w.writes);
        let patent: Vec<String> = patent.map(|w| format!("{w} ")).collect();
        let opens = |w: &String| patent.iter().any(|p| w.starts_with(p.as_str()));
        let speaks = marks.marks.iter().map(|m| m.writes.iter().any(opens)).collect();
        let weight = |role: Role| marks.words.iter().find(|w| w.role == role).map_or(0, |w| w.weight);
        let own =
            |s: &Series| f64::from(s.opens) + if s.dated { f64::from(weight(Role::Patent)) } else { 0.0 };
        let all = f64::from(weight(Role::Number)) + marks.series.iter().map(own).sum::<f64>();
        let led_to = marks.series.iter().map(|s| own(s) / all.max(1.0)).collect();
        Tables {
            led_to,
            speaks,
            alike: Alike::new(&marks.alike),
            phrases,
            steps,
            met,
            junk: libm::log(f64::from(marks.reading.junk.max(2))),
            this_year,
            marks,
        }
    }

    /// The tables as they came.
    #[must_use]
    pub fn marks(&self) -> &Marks {
        &self.marks
    }

    /// The year in which the reading takes place.
    #[must_use]
    pub fn this_year(&self) -> Year {
        self.this_year
    }

    /// How likely a right of that year is met.
    pub(crate) fn met(&self, year: Year) -> f64 {
        let at = usize::try_from(i32::from(year) - i32::from(FIRST_YEAR)).ok();
        at.and_then(|at| self.met.get(at)).copied().unwrap_or(0.0)
    }

    /// What a word of the tables does, and which month it is.
    pub(crate) fn role(&self, target: Target) -> Option<(Role, u8)> {
        match target {
            Target::Word(i) => self.marks.words.get(i).map(|w| (w.role, w.which)),
            _ => None,
        }
    }

    /// Whether a number is what a wording leads to.
    pub(crate) fn leads(&self, target: Target) -> bool {
        match target {
            Target::Mark(_) => false,
            Target::Series(_) => true,
            Target::Word(_) => {
                matches!(self.role(target), Some((Role::Patent | Role::Number | Role::Size | Role::Month, _)))
            }
        }
    }

    /// The series whose dates are marked.
    pub(crate) fn dated(&self) -> Option<usize> {
        self.marks.series.iter().position(|s| s.dated)
    }

    /// What is known of a day as a day of issue of the dated series.
    pub(crate) fn issue(&self, day: Day) -> Issue {
        let weekday = calendar::weekday(day);
        let within = |i: &&pack::marks::IssueRule| i.from <= day && i.to.is_none_or(|to| day <= to);
        let of = |kind: IssueKind| self.marks.issues.iter().filter(within).find(move |i| i.kind == kind);
        if of(IssueKind::Extra).is_some() {
            return Issue::Yes;
        }
        let Some(rule) = of(IssueKind::Rule) else {
            return Issue::No;
        };
        if rule.weekday.is_some_and(|w| usize::from(w) != weekday) {
            return Issue::No;
        }
        // Of the long span of missed Christmas weeks only the last days of December are meant.
        let missed = of(IssueKind::Missed).is_some_and(|i| {
            let years = i.to.map_or(0, |to| calendar::year_of(to) - calendar::year_of(i.from));
            let (_, month, date) = calendar::date(day);
            years == 0 || (month == 12 && date >= 23)
        });
        if missed { Issue::Perhaps } else { Issue::Yes }
    }

    /// Years of protection of a right granted on a day.
    pub(crate) fn term(&self, series: usize, day: Day) -> u16 {
        steps::term(&self.marks.series[series], day)
    }
}
