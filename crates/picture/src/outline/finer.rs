//! The edge drawn where the colour is half way between the piece's and that of what lies just beside it: a threshold for
//! the whole picture, which also has to leave out shadows, lies a little too far inside.

use super::contour::{Contour, smoothed};
use crate::Point;

/// How far to either side the edge is looked for, mm, and places on each side.
const REACH: f64 = 1.6;
const PLACES: usize = 8;
/// Difference of colour that is an edge, of 255.
const EDGE: f64 = 20.0;

/// The outline, each point moved across it to its own edge where there is one; `colour` of a place.
pub(super) fn finer(rough: &Contour, colour: &dyn Fn(Point) -> Option<[f64; 3]>) -> Option<Contour> {
    let points = rough.points();
    let n = points.len();
    // Points go clockwise: outside is to the left.
    let normal = |i: usize| {
        let way = points[(i + 2) % n].from(points[(i + n - 2) % n]);
        let long = way.norm().max(1e-9);
        Point::new(way.y / long, -way.x / long)
    };
    let moved =
        |i: usize, by: f64| Point::new(points[i].x + by * normal(i).x, points[i].y + by * normal(i).y);
    let shifts: Vec<f64> = (0..n).map(|i| crossing(&|mm| colour(moved(i, mm))).unwrap_or(0.0)).collect();
    // The middle one of five neighbours: a glint or a speck of rust moves nothing.
    let calm = |i: usize| {
        let near: [f64; 5] = core::array::from_fn(|k| shifts[(i + n + k - 2) % n]);
        units::descending(&near).get(2).map_or(0.0, |k| near[*k])
    };
    let all: Vec<Point> = (0..n).map(|i| moved(i, calm(i))).collect();
    Contour::of(&smoothed(&all, 2))
}

/// Where, mm outwards, the colour is half way; the place nearest to 0.
fn crossing(colour: &dyn Fn(f64) -> Option<[f64; 3]>) -> Option<f64> {
    let step = REACH / PLACES as f64;
    let place = |k: usize| (k as f64 - PLACES as f64) * step;
    let seen: Vec<[f64; 3]> = (0..=2 * PLACES).map(|k| colour(place(k))).collect::<Option<_>>()?;
    let mean =
        |of: &[[f64; 3]]| [0, 1, 2].map(|i| of.iter().map(|c| c[i]).sum::<f64>() / of.len().max(1) as f64);
    let (inner, outer) = (mean(&seen[..3]), mean(&seen[2 * PLACES - 2..]));
    let way = [0, 1, 2].map(|i| outer[i] - inner[i]);
    let size: f64 = way.iter().map(|d| d * d).sum();
    if size < EDGE * EDGE {
        return None;
    }
    let share = |c: &[f64; 3]| (0..3).map(|i| (c[i] - inner[i]) * way[i]).sum::<f64>() / size;
    let mut best: Option<f64> = None;
    for k in 1..seen.len() {
        let (a, b) = (share(&seen[k - 1]), share(&seen[k]));
        if a < 0.5 && b >= 0.5 {
            let at = place(k - 1) + step * (0.5 - a) / (b - a);
            if best.is_none_or(|best| at.abs() < best.abs()) {
                best = Some(at);
            }
        }
    }
    best
}
