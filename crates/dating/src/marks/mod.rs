//! Marks: worn lettering to readings, readings to likelihoods over years.

mod alike;
mod bare;
mod date;
mod diamond;
mod evidence;
mod gather;
mod glyph;
mod held;
mod number;
mod path;
mod pattern;
mod phrase;
mod reading;
mod say;
mod steps;
mod tables;
mod together;
mod way;
mod with_month;
mod with_number;

pub use evidence::{Evidence, FLOOR, SOFT, Span};
pub use held::{Held, Measure, Measured, Verdict};
pub use reading::{Flag, Issue, Kind, MOST_READINGS, Mark, Read, Reading};
pub use say::{bounds, clash_in_words, years_in_words};
pub use tables::Tables;
pub use together::{CLASH, Clash, Together, Weighed, proves};

impl Tables {
    /// Reads what a person tells of the lettering: `PAT. MAY ?3 18?1`, `No 1134?8`, `MADE IN J?PAN`; several marks at
    /// once, in any order and case. `?` is one character lost, `*` some, `3/8` this or that. What was measured on the
    /// piece tells bare numbers apart.
    #[must_use]
    pub fn read(&self, text: &str, measured: Measured) -> Read {
        let mut read = gather::gather(self, text, measured);
        together::pair(self, &mut read.marks);
        read
    }
}
