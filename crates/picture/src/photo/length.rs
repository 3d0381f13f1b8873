//! A length between two taps on the piece.

use super::fit::{Fit, neighbours, slopes};
use super::interval::half_width;
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
    /// Standard uncertainty by taps, card, camera and leaning.
    pub u: f64,
    /// Half of what the height's range may change.
    pub by_height: f64,
    /// The truth is within `mm` +- `half` in 95 cases of 100.
    pub half: f64,
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
        let low = libm::floor((self.mm - self.half).max(0.0) * 10.0) / 10.0;
        [Length(tenths(low)), Length(tenths(libm::ceil((self.mm + self.half) * 10.0) / 10.0))]
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
        let inside = |fit: &Fit| ends.iter().all(|p| fit.view.lens.holds(*p, 0.0));
        let all: Vec<Measured> = self.fits.iter().filter(|f| inside(f)).map_while(|f| of(f, ends, height, tap)).collect();
        if self.fits.iter().any(|fit| height.to > 0.6 * -fit.view.camera()[2]) {
            return Err(Refused::TooHigh);
        }
        let found = match all[..] {
            [one] => one,
            [one, other] => either(one, other),
            _ => return Err(Refused::OffThePlane),
        };
        if found.mm > 0.0 && found.half < found.mm / 3.0 { Ok(found) } else { Err(Refused::TooUncertain) }
    }
}

/// A coin leans one way or the other: from the lowest end to the highest.
fn either(one: Measured, other: Measured) -> Measured {
    let low = (one.mm - one.half).min(other.mm - other.half);
    let high = (one.mm + one.half).max(other.mm + other.half);
    Measured {
        mm: 0.5 * (low + high),
        u: one.u.max(other.u),
        by_height: one.by_height.max(other.by_height),
        half: 0.5 * (high - low),
    }
}

fn of(fit: &Fit, ends: [Point; 2], height: Height, tap: f64) -> Option<Measured> {
    let long = |view: &View, ends: [Point; 2], h: f64| view.seen(ends[0], h).distance(view.seen(ends[1], h));
    let at = height.middle();
    let mm = long(&fit.view, ends, at);
    // Along its own line a tap counts in full, across it not at all: both follow from the slopes.
    let moved = |i: usize, by: f64| {
        let mut ends = ends;
        let end = &mut ends[i / 2];
        if i % 2 == 0 { end.x += by } else { end.y += by }
        long(&fit.view, ends, at)
    };
    let by_taps: f64 = (0..4).map(|i| (moved(i, 0.5) - moved(i, -0.5)) * tap).map(|d| d * d).sum();
    let slope = slopes(&neighbours(&fit.view), &|view| long(view, ends, at));
    let mut by_view = 0.0;
    for i in 0..UNKNOWNS {
        for j in 0..UNKNOWNS {
            by_view += slope[i] * fit.covariance[i][j] * slope[j];
        }
    }
    let u = (by_taps + by_view.max(0.0)).sqrt();
    let by_height = 0.5 * (long(&fit.view, ends, height.from) - long(&fit.view, ends, height.to)).abs();
    let found = Measured { mm, u, by_height, half: half_width(u, by_height) };
    (mm.is_finite() && u.is_finite()).then_some(found)
}
