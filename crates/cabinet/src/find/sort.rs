//! The order of a list.

use super::card::Card;
use super::words::folded;
use crate::edtf::{self, End};
use crate::record::Rank;
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

/// A card among others that are ordered.
#[derive(Debug)]
pub(super) struct Placed<'a> {
    pub(super) card: &'a Card,
    /// Of its number.
    pub(super) rank: Option<Rank>,
    /// Its title, folded, where that is what is ordered by.
    pub(super) title: Option<String>,
}

impl Sort {
    /// A card, made ready for this order.
    pub(super) fn placed(self, card: &Card, rank: Option<Rank>) -> Placed<'_> {
        let title = (self == Sort::Title && !card.title.is_empty()).then(|| folded(&card.title));
        Placed { card, rank, title }
    }

    /// Which comes first.
    pub(super) fn compare(self, a: &Placed, b: &Placed, backwards: bool) -> Ordering {
        let turn = |o: Ordering| if backwards { o.reverse() } else { o };
        let whole = |a: Option<u32>, b: Option<u32>| both(a.as_ref(), b.as_ref(), &|a, b| turn(a.cmp(b)));
        let (one, other) = (a.card, b.card);
        match self {
            Sort::Number => both(a.rank.as_ref(), b.rank.as_ref(), &|a, b| turn(a.cmp(b))),
            Sort::Title => both(a.title.as_ref(), b.title.as_ref(), &|a, b| turn(a.cmp(b))),
            Sort::Date => both(one.year.as_ref(), other.year.as_ref(), &|a, b| turn(a.cmp(b))),
            Sort::Length => whole(one.length, other.length),
            Sort::Weight => whole(one.weight, other.weight),
            Sort::Saved => turn(one.saved.0.cmp(&other.saved.0)),
            Sort::Value => both(one.value.as_ref(), other.value.as_ref(), &|a, b| {
                a.currency.cmp(&b.currency).then(turn(a.minor.cmp(&b.minor)))
            }),
        }
    }
}
