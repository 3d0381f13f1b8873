//! The edges of a figure drawn finely in the whole picture.

use super::quads::Quad;
use crate::{Pixels, Point};

/// Places on each edge where the step of brightness is looked for.
const PLACES: usize = 40;
/// How far from the coarse edge it is looked for, pixels of the small picture.
const REACH: f64 = 4.0;

/// Two places on each edge. Nothing where an edge is not found.
pub(super) fn refined(quad: &Quad, pixels: &Pixels, by: usize) -> Option<[[Point; 2]; 4]> {
    let by = by as f64;
    let corner = |i: usize| Point::new(quad.corners[i % 4].x * by, quad.corners[i % 4].y * by);
    let mut edges = [[Point::default(); 2]; 4];
    for (i, edge) in edges.iter_mut().enumerate() {
        *edge = drawn(corner(i), corner(i + 1), pixels, by)?;
    }
    Some(edges)
}

fn drawn(from: Point, to: Point, pixels: &Pixels, by: f64) -> Option<[Point; 2]> {
    let long = from.distance(to);
    let normal = Point::new((from.y - to.y) / long, (to.x - from.x) / long);
    let grey = |p: Point| pixels.between(p).map(|[r, g, b]| 0.25 * (r + 2.0 * g + b));
    // Steps of brightness across, in steps of half a small pixel.
    let step = 0.5 * by;
    let reach = (REACH * by / step) as i32;
    let slope = |place: Point, k: i32| {
        let at = |k: f64| grey(Point::new(place.x + k * step * normal.x, place.y + k * step * normal.y));
        Some(at(f64::from(k) + 1.5)? - at(f64::from(k) - 1.5)?)
    };
    let places: Vec<Point> =
        (0..PLACES).map(|i| from.towards(to, 0.1 + 0.8 * i as f64 / (PLACES - 1) as f64)).collect();
    let slopes: Vec<Vec<f64>> =
        places.iter().map(|p| (-reach..=reach).map(|k| slope(*p, k).unwrap_or(0.0)).collect()).collect();
    // Which way up the edge is on the whole.
    let sum: f64 = slopes
        .iter()
        .map(|s| s.iter().copied().fold(0.0, |m, v| if v.abs() > f64::abs(m) { v } else { m }))
        .sum();
    let sign = if sum < 0.0 { -1.0 } else { 1.0 };
    // Along the edge and off it.
    let mut found: Vec<[f64; 2]> = Vec::new();
    for (i, slopes) in slopes.iter().enumerate() {
        let v = |k: usize| sign * slopes[k];
        let best = (1..slopes.len() - 1).fold(1, |best, k| if v(k) > v(best) { k } else { best });
        let (a, b, c) = (v(best - 1), v(best), v(best + 1));
        if b < 3.0 || a > b || c > b {
            continue;
        }
        let bend = a - 2.0 * b + c;
        let shift = if bend < 0.0 { 0.5 * (a - c) / bend } else { 0.0 };
        found.push([i as f64 / (PLACES - 1) as f64 - 0.5, (best as f64 - f64::from(reach) + shift) * step]);
    }
    // A straight line through most of them: least squares, four times, what is far off left out.
    let (mut off, mut lean) = (median(&found), 0.0);
    let mut limit = 2.0 * by;
    for _ in 0..4 {
        let near: Vec<[f64; 2]> =
            found.iter().copied().filter(|[t, d]| (d - off - lean * t).abs() <= limit).collect();
        if near.len() * 3 < PLACES {
            return None;
        }
        let n = near.len() as f64;
        let sum = |of: &dyn Fn(&[f64; 2]) -> f64| near.iter().map(of).sum::<f64>();
        let (t, d) = (sum(&|p| p[0]) / n, sum(&|p| p[1]) / n);
        let tt = sum(&|p| (p[0] - t) * (p[0] - t));
        lean = sum(&|p| (p[0] - t) * (p[1] - d)) / tt.max(1e-9);
        off = d - lean * t;
        limit = (0.7 * limit).max(0.7 * by);
    }
    let at = |i: usize, t: f64| {
        let d = off + lean * t;
        Point::new(places[i].x + d * normal.x, places[i].y + d * normal.y)
    };
    Some([at(0, -0.5), at(PLACES - 1, 0.5)])
}

/// The middle one of the distances.
fn median(of: &[[f64; 2]]) -> f64 {
    let all: Vec<f64> = of.iter().map(|p| p[1]).collect();
    units::descending(&all).get(all.len() / 2).map_or(0.0, |i| all[*i])
}
