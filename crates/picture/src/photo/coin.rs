//! A coin by five or more taps on its rim: the lesser way, because a small circle hardly tells how the camera leaned.

use super::card::OBLIQUE;
use super::fit::{Tap, Taps};
use super::leaning::leanings;
use super::rim::Rim;
use super::view::View;
use super::{Ellipse, Lens, Placed, Refused};
use crate::Point;
use crate::linear::rotation;

/// The smallest half axis must have this many times a tap's uncertainty, and this many pixels.
const LEAST: (f64, f64) = (5.0, 15.0);
/// Finds the camera from taps on the rim of a coin of this diameter in mm. `tap` is the standard uncertainty of a tap in
/// each direction, pixels.
///
/// # Errors
/// When the taps are not on a round rim, or the coin is too small or seen too much from the side.
pub fn place_coin(lens: &Lens, rim: &[Point], diameter: f64, tap: f64) -> Result<Placed, Refused> {
    let tap = tap.max(0.1);
    if rim.len() < 5 || !rim.iter().all(|p| p.is_finite()) || !(5.0..=120.0).contains(&diameter) {
        return Err(Refused::NotRound);
    }
    if !rim.iter().all(|p| lens.holds(*p, 0.0)) {
        return Err(Refused::CutOff);
    }
    let ellipse = Ellipse::of(rim).ok_or(Refused::NotRound)?;
    if ellipse.half[1] < (LEAST.0 * tap).max(LEAST.1) {
        return Err(Refused::TooSmall);
    }
    let taps: Vec<Tap> = rim.iter().map(|at| Tap { edge: 0, at: *at }).collect();
    let taps = Taps { rim: Rim::Coin(diameter), at: &taps, u: tap };
    let placed = leanings([1.0, -1.0].map(|side| first(lens, &ellipse, diameter, side)), taps)
        .ok_or(Refused::Unclear)?;
    // Wilson and Hilferty's bound for one case in ten thousand: five unknowns of the rim's ellipse.
    let free = (rim.len() as f64 - 5.0).max(1.0);
    let k = 2.0 / (9.0 * free);
    let root = 1.0 - k + 3.719 * k.sqrt();
    if placed.best.misfit > free * root * root * root {
        return Err(Refused::NotRound);
    }
    if placed.best.view.upright() < OBLIQUE {
        return Err(Refused::TooOblique);
    }
    Ok(placed)
}

/// A circle seen from far: leaning about the ellipse's long axis, towards one side or the other.
fn first(lens: &Lens, ellipse: &Ellipse, diameter: f64, side: f64) -> View {
    let (a, b) = (ellipse.half[0], ellipse.half[1]);
    let far = 0.5 * diameter * lens.focal / a;
    let cosine = (b / a).min(0.998);
    let sine = (1.0 - cosine * cosine).sqrt() * side;
    let (x, y) = (ellipse.along.x, ellipse.along.y);
    let middle = lens.centred(ellipse.middle);
    View {
        lens: *lens,
        turn: rotation([[x, y, 0.0], [-y * cosine, x * cosine, sine]]),
        place: [middle.x * far, middle.y * far, far],
        focal: 0.0,
        bend: 0.0,
        size: [0.0; 2],
    }
}
