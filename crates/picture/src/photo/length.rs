//! A length between two taps on the piece.

use super::fit::{Fit, neighbours, slopes};
use super::interval::{Spread, quantile};
use super::view::{UNKNOWNS, View};
use super::{Placed, Refused};
use crate::Point;
use units::Length;

/// How high the tapped points of the piece lie above the plane of the card, mm: anywhere in a range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Height {
    /// At least.
    pub from: f64,
    /// At most.
    pub to: f64,
}

impl Height {
    /// The card lies at the height of what is measured.
    pub const AT_CARD: Height = Height { from: 0.0, to: 0.0 };
    /// Nobody said: a piece beside a card on the table. Practice.
    pub const UNKNOWN: Height = Height { from: 0.0, to: 60.0 };

    /// As a person told it: within a millimetre and a twentieth. Practice.
    #[must_use]
    pub fn about(mm: f64) -> Height {
        let within = 1.0 + 0.05 * mm;
        Height { from: (mm - within).max(0.0), to: mm + within }
    }

    /// The middle of the range.
    #[must_use]
    pub fn middle(self) -> f64 {
        0.5 * (self.from + self.to)
    }
}

/// A length with what it is worth, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// The length, corrected for the middle of the height's range.
    pub mm: f64,
    /// Standard uncertainty of all together.
    pub u: f64,
    /// Of it by the range of heights alone.
    pub by_height: f64,
    /// The truth lies from here
    pub low: f64,
    /// to here in 95 cases of 100.
    pub high: f64,
}

impl Measured {
    /// To the nearest tenth of a millimetre.
    #[must_use]
    pub fn length(&self) -> Length {
        Length(tenths(self.mm))
    }

    /// From where to where the truth lies in 95 of 100 cases, rounded outwards.
    #[must_use]
    pub fn between(&self) -> [Length; 2] {
        let low = libm::floor(self.low.max(0.0) * 10.0) / 10.0;
        [Length(tenths(low)), Length(tenths(libm::ceil(self.high * 10.0) / 10.0))]
    }
}

/// The conversion saturates, and what is not a number becomes nothing.
fn tenths(mm: f64) -> u32 {
    libm::round(mm * 10.0) as u32
}

impl Placed {
    /// The distance of two taps on the piece, both in one plane parallel to the card's. `tap` is their standard
    /// uncertainty in each direction, pixels.
    ///
    /// # Errors
    /// When the taps are not on the plane, or the length would be worth nothing.
    pub fn length(&self, ends: [Point; 2], height: Height, tap: f64) -> Result<Measured, Refused> {
        if !ends.iter().all(|p| self.best.view.lens.holds(*p, 0.0)) {
            return Err(Refused::OffThePlane);
        }
        if height.from.max(height.to) > 0.6 * self.distance() {
            return Err(Refused::TooHigh);
        }
        let spreads: Option<Vec<Spread>> =
            self.all.iter().map(|(w, fit)| of(fit, *w, ends, height, tap)).collect();
        let spreads = spreads.ok_or(Refused::OffThePlane)?;
        let mean = |of: &dyn Fn(&Spread) -> f64| spreads.iter().map(|s| s.chance * of(s)).sum::<f64>();
        let mm = mean(&|s| s.middle);
        // A range has the variance a2/3 (GUM 4.3.7).
        let by_height = mean(&|s| s.range * s.range / 3.0);
        let u = (by_height + mean(&|s| s.u * s.u + (s.middle - mm) * (s.middle - mm))).sqrt();
        let (low, high) = (quantile(&spreads, 0.025), quantile(&spreads, 0.975));
        let found = Measured { mm, u, by_height: by_height.sqrt(), low, high };
        if mm > 0.0 && high - low < 0.67 * mm { Ok(found) } else { Err(Refused::TooUncertain) }
    }
}

/// The length if the plane leans as in `fit`.
fn of(fit: &Fit, chance: f64, ends: [Point; 2], height: Height, tap: f64) -> Option<Spread> {
    let long = |view: &View, ends: [Point; 2], h: f64| view.seen(ends[0], h).distance(view.seen(ends[1], h));
    let at = height.middle();
    let middle = long(&fit.view, ends, at);
    // Along the length a tap counts in full, across it not at all: both follow from the slopes.
    let moved = |end: usize, dx: f64, dy: f64| {
        let mut ends = ends;
        ends[end] = Point::new(ends[end].x + dx, ends[end].y + dy);
        long(&fit.view, ends, at)
    };
    let gained = |end, dx, dy| (moved(end, dx, dy) - moved(end, -dx, -dy)) * tap;
    let by_taps: f64 =
        [0, 1].iter().flat_map(|i| [gained(*i, 0.5, 0.0), gained(*i, 0.0, 0.5)]).map(|d| d * d).sum();
    let slope = slopes(&neighbours(&fit.view), &|view| long(view, ends, at));
    let mut by_view = 0.0;
    for i in 0..UNKNOWNS {
        for j in 0..UNKNOWNS {
            by_view += slope[i] * fit.covariance[i][j] * slope[j];
        }
    }
    let u = (by_taps + by_view.max(0.0)).sqrt();
    let range = 0.5 * (long(&fit.view, ends, height.from) - long(&fit.view, ends, height.to)).abs();
    // At the lens itself a length has no end, and no number.
    (middle.is_finite() && u.is_finite() && range.is_finite()).then_some(Spread {
        chance,
        middle,
        u: u.max(1e-9),
        range,
    })
}
