//! Money of one year in money of another, by the general rise of prices.

use crate::round::part;
use pack::prices::Index;
use units::Year;

/// A ratio of whole numbers, both above zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ratio {
    /// Above the line.
    pub top: u32,
    /// Below it.
    pub bottom: u32,
}

impl Ratio {
    /// One to one.
    pub const ONE: Ratio = Ratio { top: 1, bottom: 1 };

    /// The amount times the ratio, rounded half up to the minor unit.
    #[must_use]
    pub fn of(self, minor: i64) -> i64 {
        part(minor, u64::from(self.top), u64::from(self.bottom))
    }

    pub(crate) fn log(self) -> f64 {
        libm::log(f64::from(self.top.max(1))) - libm::log(f64::from(self.bottom.max(1)))
    }
}

/// The last year of an index: the year whose money everything is told in.
#[must_use]
pub fn last_year(index: &Index) -> Year {
    let years = i16::try_from(index.values.len()).unwrap_or(i16::MAX);
    index.first.saturating_add(years.saturating_sub(1))
}

/// What an amount of one year is to be multiplied with to be money of another. Years after the last of the table
/// count as the last, since nothing is published yet; none before the first, or for a table that was not checked.
#[must_use]
pub fn factor(index: &Index, from: Year, to: Year) -> Option<Ratio> {
    let value = |year: Year| {
        let at = usize::try_from(i32::from(year.min(last_year(index))) - i32::from(index.first)).ok()?;
        index.values.get(at).copied().filter(|v| *v > 0)
    };
    Some(Ratio { top: value(to)?, bottom: value(from)? })
}

#[cfg(test)]
mod tests {
    use super::*;
    use units::{Basis, Currency};

    #[test]
    fn years_outside_the_table() {
        let index = Index {
            currency: Currency::new("USD").expect("a code"),
            name: String::new(),
            first: 2000,
            values: vec![100_000, 110_000, 121_000],
            basis: Basis::Invented,
            source: None,
        };
        assert_eq!(last_year(&index), 2002);
        assert_eq!(factor(&index, 2000, 2002).map(|r| r.of(1000)), Some(1210));
        assert_eq!(factor(&index, 2002, 2000).map(|r| r.of(1210)), Some(1000));
        assert_eq!(factor(&index, 2005, 2002).map(|r| r.of(777)), Some(777), "not published yet");
        assert_eq!(factor(&index, 1999, 2002), None);
        let empty = Index { values: Vec::new(), ..index };
        assert_eq!(factor(&empty, 2000, 2000), None);
    }
}
