//! The order of a list.

use super::words::folded;
use crate::edtf::{self, End};
use crate::record::{Number, Version};
use core::cmp::Ordering;
use units::Money;

/// By what a list is ordered. What lacks it stands last, forwards and backwards.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Sort {
    /// By number, part by part.
    #[default]
    Number,
    /// By title.
    Title,
    /// By the earliest year that it may be.
    Date,
    /// By length.
    Length,
    /// By weight.
    Weight,
    /// By when it was saved.
    Saved,
    /// By the upper end of its latest valuation; those of one currency together.
    Value,
}

/// What a record is ordered by.
#[derive(Debug)]
pub(super) struct Keys {
    number: Option<Number>,
    title: Option<String>,
    date: Option<i64>,
    length: Option<u32>,
    weight: Option<u32>,
    saved: i64,
    value: Option<Money>,
}

impl Keys {
    pub(super) fn new(version: &Version) -> Keys {
        let record = &version.record;
        let size = |what| record.measured(what).and_then(|m| m.value);
        let span = edtf::read(&record.edtf);
        let year = |end: End| if let End::At(day) = end { Some(day.year) } else { None };
        Keys {
            number: record.number.clone(),
            title: Some(folded(&record.title)).filter(|t| !t.is_empty()),
            date: span.and_then(|s| year(s.earliest).or(year(s.latest))),
            length: size("length").and_then(|s| s.length()).map(|l| l.0),
            weight: size("weight").and_then(|s| s.mass()).map(|m| m.0),
            saved: version.stamp.time.0,
            value: record.valued().and_then(|v| v.high.or(v.low)),
        }
    }
}

/// What is there before what is not.
fn both<T>(a: Option<&T>, b: Option<&T>, compare: &dyn Fn(&T, &T) -> Ordering) -> Ordering {
    match (a, b) {
        (Some(a), Some(b)) => compare(a, b),
        (a, b) => b.is_some().cmp(&a.is_some()),
    }
}

impl Sort {
    pub(super) fn compare(self, a: &Keys, b: &Keys, backwards: bool) -> Ordering {
        let turn = |o: Ordering| if backwards { o.reverse() } else { o };
        let whole = |a: Option<u32>, b: Option<u32>| both(a.as_ref(), b.as_ref(), &|a, b| turn(a.cmp(b)));
        match self {
            Sort::Number => both(a.number.as_ref(), b.number.as_ref(), &|a, b| turn(a.order(b))),
            Sort::Title => both(a.title.as_ref(), b.title.as_ref(), &|a, b| turn(a.cmp(b))),
            Sort::Date => both(a.date.as_ref(), b.date.as_ref(), &|a, b| turn(a.cmp(b))),
            Sort::Length => whole(a.length, b.length),
            Sort::Weight => whole(a.weight, b.weight),
            Sort::Saved => turn(a.saved.cmp(&b.saved)),
            Sort::Value => both(a.value.as_ref(), b.value.as_ref(), &|a, b| {
                a.currency.cmp(&b.currency).then(turn(a.minor.cmp(&b.minor)))
            }),
        }
    }
}
