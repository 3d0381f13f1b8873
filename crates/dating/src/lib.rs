//! Marks and kinds into years: for now the periods of the candidates as one curve over a year grid. Never in
//! here: a clock (this year is given), trade knowledge, a browser.

pub mod calendar;
mod curve;
mod text;

pub use curve::{Curve, FIRST_YEAR};
pub use text::{edtf, in_words};
