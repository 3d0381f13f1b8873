//! A bare number: a size, pounds, a pattern, a year; and as a number of any series.

use super::evidence::{Evidence, Span};
use super::held::{self, Held, Measured};
use super::number::{Row, of_series};
use super::reading::{Flag, Issue, Kind, Reading};
use super::tables::Tables;
use crate::calendar;
use pack::marks::{Proof, Size};
use units::{Basis, Year};

/// How much likelier a bare number is of a patent when the text speaks of one. Basis: memory.
const SPEAKS: f64 = 12.0;
/// How much likelier it is of pounds when the word stands behind it. Basis: memory.
const SAYS_POUNDS: f64 = 60.0;
/// How often a lost word before a number led to it. Basis: memory.
const LED: f64 = 0.5;
/// Sizes above this are not listed number by number.
const LISTED: u32 = 2_200;
/// When more numbers fit as told they are told as one.
const SINGLE: usize = 12;

/// What stands around a bare number.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Around {
    /// The text speaks of a patent.
    pub(crate) patent: bool,
    /// A word for pounds stands behind it.
    pub(crate) pounds: bool,
    /// A word such as "size" stands before it.
    pub(crate) size: bool,
    /// A word such as "No" stands before it.
    pub(crate) number: bool,
    /// A lost word stands before it.
    pub(crate) lost: bool,
    /// What was measured on the piece.
    pub(crate) measured: Measured,
}

/// All readings of a bare number.
pub(crate) fn readings(tables: &Tables, row: &Row, around: Around) -> Vec<Reading> {
    let mut list = Vec::new();
    let led = if around.lost { LED } else { 0.0 };
    if !around.pounds && !around.size {
        for (i, series) in tables.marks.series.iter().enumerate() {
            let speaks = if around.patent && series.dated { SPEAKS } else { 1.0 };
            if let Some(mut r) = of_series(tables, i, row) {
                let bare = f64::from(series.weight) / 1000.0 * speaks;
                r.chance *= bare * (1.0 - led) + tables.led_to[i] * led;
                list.push(r);
            }
        }
    }
    for (i, size) in tables.marks.sizes.iter().enumerate() {
        let mut weight = f64::from(size.weight) / 1000.0 * (1.0 - led);
        if around.pounds {
            weight *= if size.units { SAYS_POUNDS } else { 0.1 };
        }
        if around.size && size.is_year {
            weight *= 0.05;
        }
        of_size(tables, (i, size), row, weight, around.measured, &mut list);
    }
    list
}

fn of_size(
    tables: &Tables,
    (index, size): (usize, &Size),
    row: &Row,
    weight: f64,
    measured: Measured,
    list: &mut Vec<Reading>,
) {
    let each = weight / f64::from(size.to - size.from + 1);
    let make = |chance: f64, reads: String, told: bool, issues: Vec<Issue>, flags: Vec<Flag>| {
        let proof = if issues.is_empty() { Proof::Nothing } else { Proof::Habit };
        let mut reading = Reading {
            chance,
            kind: Kind::Size(index),
            reads,
            name: size.name.clone(),
            as_told: told,
            issues,
            evidence: Evidence { spans: vec![(1.0, Span::OPEN)], proof },
            says: size.says.clone(),
            caution: String::new(),
            basis: size.basis,
            habit_basis: Basis::Practice,
            source: size.source,
            flags,
        };
        reading.settle();
        reading
    };
    if size.to - size.from > LISTED {
        let sum = row.within(size.from.max(1), size.to + 1);
        if sum > 0.0 {
            list.push(make(sum * each, row.shown.clone(), true, Vec::new(), Vec::new()));
        }
        return;
    }
    let issue = |n: u32, share: f64, told: bool| {
        let year = Year::try_from(n).ok().filter(|y| size.is_year && *y <= tables.this_year)?;
        Some(Issue {
            share,
            from: calendar::new_year(year),
            to: calendar::new_year(year + 1) - 1,
            fit: u64::from(told),
            example: n,
            basis: size.basis,
            drawn: false,
            source: size.source,
            span: Span { from: Some(year), ..Span::OPEN },
        })
    };
    let mut fits = row.small(size.from, size.to);
    fits.retain(|(n, _, _)| !size.is_year || issue(*n, 1.0, true).is_some());
    let irons = &tables.marks.irons;
    let fits: Vec<(u32, f64, bool, Option<Held>)> = fits
        .into_iter()
        .map(|(n, w, told)| match held::hold(size, irons, n, measured) {
            Some(fit) => (n, w * each * fit.factor, told, Some(fit.held)),
            None => (n, w * each, told, None),
        })
        .collect();
    if fits.iter().filter(|(_, _, told, _)| *told).count() > SINGLE {
        // So much is lost that single numbers would only fill the list.
        let sum: f64 = fits.iter().map(|(_, w, ..)| w).sum();
        let likely = |w: f64| w > 1e-5 * sum;
        let issues = fits.iter().filter_map(|(n, w, told, _)| issue(*n, *w, *told));
        let issues = issues.filter(|i| likely(i.share)).collect();
        let held = held::several(fits.iter().filter(|f| f.2).filter_map(|f| f.3));
        list.push(make(sum, row.shown.clone(), true, issues, held.map(Flag::Held).into_iter().collect()));
        return;
    }
    for (n, w, told, held) in fits {
        let issues = issue(n, 1.0, told).into_iter().collect();
        list.push(make(w, n.to_string(), told, issues, held.map(Flag::Held).into_iter().collect()));
    }
}
