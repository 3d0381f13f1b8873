//! Lengths from taps on a photograph: where the camera was is found from a card or coin of known size, and what a length
//! is worth follows from how well that is known (GUM, JCGM 100:2008, by the covariance of the fit).

mod card;
mod coin;
mod ellipse;
mod fit;
mod homography;
mod interval;
mod leaning;
mod length;
mod lens;
mod refused;
mod rim;
mod view;

pub use card::{card_corners, place_card};
pub use coin::place_coin;
pub use ellipse::Ellipse;
pub use homography::{Homography, crossing};
pub use length::{Height, Measured};
pub use lens::Lens;
pub use refused::Refused;
pub use rim::CARD;

use crate::Point;
use fit::Fit;

/// Where a card or coin lies in the picture, and so where the camera was.
#[derive(Debug, Clone)]
pub struct Placed {
    best: Fit,
    /// Every leaning of the plane that the taps allow, with its chance.
    all: Vec<(f64, Fit)>,
}

impl Placed {
    /// How far the camera is above the plane of the card, mm.
    #[must_use]
    pub fn distance(&self) -> f64 {
        -self.best.view.camera()[2]
    }

    /// Cosine of the angle at which the plane is seen: 1 from straight above.
    #[must_use]
    pub fn upright(&self) -> f64 {
        self.best.view.upright()
    }

    /// How far the plane leans from one seen from straight above, tenths of a degree.
    #[must_use]
    pub fn leans(&self) -> i32 {
        let cosine = self.upright().clamp(0.0, 1.0);
        libm::round(libm::acos(cosine).to_degrees() * 10.0) as i32
    }

    /// How far the taps are from those of a perfect card, sum of squares in standard uncertainties.
    pub(crate) fn misfit(&self) -> f64 {
        self.best.misfit
    }

    /// The pixel that shows a point `height` mm above the plane; mm from the middle of the card, x along its long side.
    /// Not finite behind the camera.
    #[must_use]
    pub fn pixel(&self, mm: Point, height: f64) -> Point {
        self.best.view.shown(mm, height)
    }

    /// The point `height` mm above the plane that a pixel shows; not finite above the horizon.
    #[must_use]
    pub fn on_plane(&self, pixel: Point, height: f64) -> Point {
        self.best.view.seen(pixel, height)
    }
}
