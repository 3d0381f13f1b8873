//! The order of a list.

use super::card::Card;
use super::words::folded;
use crate::edtf::{self, End};
use core::cmp::Ordering;

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
    /// What cards are compared by in this order; only a title must be made ready for it.
    pub(super) fn key(self, card: &Card) -> String {
        if self == Sort::Title { folded(&card.title) } else { String::new() }
    }

    /// Which of two cards with their keys comes first.
    pub(super) fn compare(self, a: (&Card, &str), b: (&Card, &str), backwards: bool) -> Ordering {
        let turn = |o: Ordering| if backwards { o.reverse() } else { o };
        let whole = |a: Option<u32>, b: Option<u32>| both(a.as_ref(), b.as_ref(), &|a, b| turn(a.cmp(b)));
        let title = |key| Some(key).filter(|t: &&str| !t.is_empty());
        let ((a, key_a), (b, key_b)) = (a, b);
        match self {
            Sort::Number => both(a.number.as_ref(), b.number.as_ref(), &|a, b| turn(a.order(b))),
            Sort::Title => both(title(key_a).as_ref(), title(key_b).as_ref(), &|a, b| turn(a.cmp(b))),
            Sort::Date => both(a.year.as_ref(), b.year.as_ref(), &|a, b| turn(a.cmp(b))),
            Sort::Length => whole(a.length, b.length),
            Sort::Weight => whole(a.weight, b.weight),
            Sort::Saved => turn(a.saved.0.cmp(&b.saved.0)),
            Sort::Value => both(a.value.as_ref(), b.value.as_ref(), &|a, b| {
                a.currency.cmp(&b.currency).then(turn(a.minor.cmp(&b.minor)))
            }),
        }
    }
}
