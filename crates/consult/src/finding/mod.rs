//! The finding: what it is, old or later, when, worth, what next, and why.

mod clues;
mod facts;
mod make;
mod what;
mod worth;
mod years;

pub use facts::shares;

pub(crate) use facts::Facts;
pub(crate) use what::view;
pub(crate) use years::half as half_of_years;
