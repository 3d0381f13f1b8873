//! The order of a list.

use super::card::Card;
use super::words::folded;
use crate::edtf::{self, End};
use crate::record::Number;
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
    pub(super) fn new(card: &Card) -> Keys {
        Keys {
            number: card.number.clone(),
            title: Some(folded(&card.title)).filter(|t| !t.is_empty()),
            date: card.year,
            length: card.length,
            weight: card.weight,
            saved: card.saved.0,
            value: card.value,
        }
    }
}

/// The first year that an EDTF date may mean, or the last where it has no beginning.
pub(super) fn year(text: &str) -> Option<i64> {
    let span = edtf::read(text)?;
    let year = |end: End| if let End::At(day) = end { Some(day.year) } else { None };
    year(span.earliest).or(year(span.latest))
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
