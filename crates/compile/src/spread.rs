//! Measured quantities: the middle 95 % as written, to the mean and standard deviation that travel.

use pack::Says;

/// Half the width of the middle 95 % of a normal distribution is 1.96 standard deviations (published: any table
/// of the normal distribution), so its whole width is this many.
pub(crate) const WIDTH_95: f64 = 3.92;
/// A length spreads at least so much of its mean (practice: castings of one pattern from several foundries
/// differ about so much, and packs are written from few pieces).
pub(crate) const LENGTH_FLOOR: f64 = 0.06;
/// The logarithm of heft spreads at least so much (practice: hollows, plugs and lost parts make that difference).
pub(crate) const HEFT_FLOOR: f64 = 0.12;
/// Where nothing is said of heft: from a hollow sheet toy to solid metal of any sort, g/cm3 of length cubed
/// (practice).
pub(crate) const HEFT_UNSAID: (f64, f64) = (0.1, 3.0);

/// What a spread measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Quantity {
    /// Millimetres.
    Length,
    /// Mass over length cubed, g/cm3.
    Heft,
}

impl Quantity {
    /// The field that holds it.
    pub(crate) fn field(self) -> &'static str {
        match self {
            Quantity::Length => "length",
            Quantity::Heft => "heft",
        }
    }

    /// What can be written, in its unit.
    pub(crate) fn bounds(self) -> (f64, f64) {
        match self {
            Quantity::Length => (1.0, 2000.0),
            Quantity::Heft => (0.001, 50.0),
        }
    }

    /// The spread of which 95 % lie between `from` and `to`, no narrower than the floor.
    pub(crate) fn spread(self, from: f64, to: f64) -> Says {
        let (mean, sd) = match self {
            Quantity::Length => {
                let (from, to) = (from * 10.0, to * 10.0);
                let mean = (from + to) / 2.0;
                (mean, ((to - from) / WIDTH_95).max(mean * LENGTH_FLOOR))
            }
            Quantity::Heft => {
                let (from, to) = (libm::log(from) * 1000.0, libm::log(to) * 1000.0);
                ((from + to) / 2.0, ((to - from) / WIDTH_95).max(HEFT_FLOOR * 1000.0))
            }
        };
        whole(mean, sd)
    }
}

/// A spread about the middle of all others and twice as wide as they are together: for what the guide does not
/// know. None when there are none.
pub(crate) fn twice_all(spreads: impl Iterator<Item = (i32, u32)>) -> Option<Says> {
    let mut ends: Option<(f64, f64)> = None;
    for (mean, sd) in spreads {
        let (mean, half) = (f64::from(mean), f64::from(sd) * WIDTH_95 / 2.0);
        let (low, high) = ends.unwrap_or((mean, mean));
        ends = Some((low.min(mean - half), high.max(mean + half)));
    }
    ends.map(|(low, high)| whole((low + high) / 2.0, 2.0 * (high - low) / WIDTH_95))
}

fn whole(mean: f64, sd: f64) -> Says {
    let mean = libm::round(mean.clamp(-999_999.0, 999_999.0)) as i32;
    let sd = libm::round(sd.clamp(1.0, 999_999.0)) as u32;
    Says::Spread { mean, sd }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spreads_by_hand() {
        // 38 to 100 mm: mean 69 mm, sd 62/3.92 = 15.8 mm. 60 to 62 mm: sd at least .06 of 61 mm = 3.7 mm.
        assert_eq!(Quantity::Length.spread(38.0, 100.0), Says::Spread { mean: 690, sd: 158 });
        assert_eq!(Quantity::Length.spread(60.0, 62.0), Says::Spread { mean: 610, sd: 37 });
        // ln .40 = -.9163, ln .65 = -.4308: mean -.6735, sd .4855/3.92 = .1239. The same twice: the floor, .12.
        assert_eq!(Quantity::Heft.spread(0.40, 0.65), Says::Spread { mean: -674, sd: 124 });
        assert_eq!(Quantity::Heft.spread(1.0, 1.01), Says::Spread { mean: 5, sd: 120 });
    }

    #[test]
    fn the_unknown_is_twice_as_wide() {
        // Ends 690 -+ 1.96*158 = 380..1000 and 300 -+ 1.96*20 = 261..339: 261..1000 about 630, twice as wide.
        let wide = twice_all([(690, 158), (300, 20)].into_iter());
        assert_eq!(wide, Some(Says::Spread { mean: 630, sd: 377 }));
        assert_eq!(twice_all(std::iter::empty()), None);
    }
}
