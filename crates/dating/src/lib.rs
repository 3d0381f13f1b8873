//! Marks and kinds into years: worn lettering to readings to likelihoods, periods to a curve over a year grid. Never in
//! here: a clock (this year is given), trade knowledge (its tables arrive as bytes), a browser.

pub mod calendar;
mod curve;
mod marks;
mod text;

pub use curve::{Curve, FIRST_YEAR};
pub use marks::{
    CLASH, Clash, Evidence, FLOOR, Flag, Held, Issue, Kind, MOST_READINGS, Mark, Measure, Measured, Read,
    Reading, SOFT, Span, Tables, Together, Verdict, Weighed, bounds, clash_in_words, proves, years_in_words,
};
pub use text::{bounds_in_words, edtf, edtf_bounds, in_words};
