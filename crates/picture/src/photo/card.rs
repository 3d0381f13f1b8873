//! A card by two taps on each of its edges. Its corners are round, so nobody can tap them: the edges are crossed.

use super::fit::{Tap, Taps};
use super::leaning::leanings;
use super::rim::{CARD, Rim};
use super::view::View;
use super::{Homography, Lens, Placed, Refused, crossing};
use crate::Point;

/// A corner may lie outside of the picture by this share of its width: the round corner is still inside.
const MARGIN: f64 = 0.01;
/// The shortest edge must have this many times a tap's uncertainty, and this many pixels.
const LEAST: (f64, f64) = (16.0, 60.0);
/// Cosine of 50 degrees.
pub(super) const OBLIQUE: f64 = 0.642_787_6;
/// What a sum of two squared standard normals exceeds in one case of 10 000: 2 ln 10 000. Eight taps, six unknowns of place.
const MISFIT: f64 = 18.42;

/// The card's four corners, crossed from the edges; the corner after edge i lies between edges i and i + 1.
///
/// # Errors
/// When the edges are not told well enough or do not close to a figure with four corners.
pub fn card_corners(edges: &[[Point; 2]; 4], tap: f64) -> Result<[Point; 4], Refused> {
    for (i, [a, b]) in (0_u8..).zip(edges) {
        if !(a.is_finite() && b.is_finite() && a.distance(*b) > 4.0 * tap.max(1.0)) {
            return Err(Refused::TapsTooNear(i));
        }
    }
    let corners: [Point; 4] = core::array::from_fn(|i| crossing(edges[i], edges[(i + 1) % 4]));
    let turn = |i: usize| {
        let (a, b, c) = (corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]);
        b.from(a).cross(c.from(b))
    };
    let first = turn(0);
    let closed = corners.iter().all(|c| c.is_finite()) && (0..4).all(|i| turn(i) * first > 0.0);
    // Each edge was tapped between its corners, or not far from there.
    let between = (0..4).all(|i| {
        let (from, to) = (corners[(i + 3) % 4], corners[i]);
        let along = |p: Point| {
            let way = to.from(from);
            (p.from(from).x * way.x + p.from(from).y * way.y) / (way.x * way.x + way.y * way.y)
        };
        edges[i].iter().all(|p| (-0.1..=1.1).contains(&along(*p)))
    });
    if closed && between { Ok(corners) } else { Err(Refused::NoFourCorners) }
}

/// Finds the camera from two taps on each edge of an ID-1 card, edges in turn round the card from any of them.
/// `tap` is the standard uncertainty of a tap in each direction, pixels.
///
/// # Errors
/// When the taps are not those of a whole, flat card of that size, seen from above and large enough.
pub fn place_card(lens: &Lens, edges: &[[Point; 2]; 4], tap: f64) -> Result<Placed, Refused> {
    let tap = tap.max(0.1);
    let mut edges = *edges;
    let mut corners = card_corners(&edges, tap)?;
    // Clockwise as the picture is seen, a long edge first.
    if corners[1].from(corners[0]).cross(corners[2].from(corners[1])) < 0.0 {
        edges.reverse();
        corners = card_corners(&edges, tap)?;
    }
    let side = |i: usize| corners[(i + 3) % 4].distance(corners[i]);
    if side(0) + side(2) < side(1) + side(3) {
        edges.rotate_left(1);
        corners.rotate_left(1);
    }
    if !corners.iter().all(|c| lens.holds(*c, MARGIN * lens.width)) {
        return Err(Refused::CutOff);
    }
    let shortest = (0..4).map(|i| corners[(i + 3) % 4].distance(corners[i])).fold(f64::MAX, f64::min);
    if shortest < (LEAST.0 * tap).max(LEAST.1) {
        return Err(Refused::TooSmall);
    }
    let (x, y) = (0.5 * CARD[0], 0.5 * CARD[1]);
    // Corner i ends edge i: the first edge is the upper one, so the first corner is the upper right one.
    let own = [Point::new(x, -y), Point::new(x, y), Point::new(-x, y), Point::new(-x, -y)];
    let map =
        Homography::of_corners(&own, &corners.map(|c| lens.centred(c))).ok_or(Refused::NoFourCorners)?;
    let taps: Vec<Tap> = (0..8).map(|i| Tap { edge: i / 2, at: edges[i / 2][i % 2] }).collect();
    let taps = Taps { rim: Rim::Card, at: &taps, u: tap };
    let view = View::of_map(*lens, &map.0);
    let placed = leanings([view, view.leaning_back()], taps).ok_or(Refused::Unclear)?;
    if placed.best.misfit > MISFIT {
        return Err(Refused::NotFlat);
    }
    if placed.best.view.upright() < OBLIQUE {
        return Err(Refused::TooOblique);
    }
    Ok(placed)
}
