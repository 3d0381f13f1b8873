//! Years and the four corners of a period of making.

use alloc::format;
use alloc::string::String;

/// A year of the common era.
pub type Year = i16;

/// When a kind was made: a trapezoid over years with corners in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Period {
    /// Not before this year.
    pub earliest: Year,
    /// Common from this year.
    pub likely_from: Year,
    /// Common up to this year.
    pub likely_to: Year,
    /// Not after this year.
    pub latest: Year,
}

impl Period {
    /// Corners in order and inside 800..=2200.
    #[must_use]
    pub fn is_sound(self) -> bool {
        800 <= self.earliest
            && self.earliest <= self.likely_from
            && self.likely_from <= self.likely_to
            && self.likely_to <= self.latest
            && self.latest <= 2200
    }

    /// `1850 to 1935, most 1880 to 1915`.
    #[must_use]
    pub fn in_words(self) -> String {
        format!("{} to {}, most {} to {}", self.earliest, self.latest, self.likely_from, self.likely_to)
    }
}
