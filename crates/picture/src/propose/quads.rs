//! Four lines that may be the edges of a card.

use super::lines::Line;
use super::steep::Steep;
use crate::Point;
use units::descending;

/// A figure with four corners, in turn, in the small picture; edge i runs from corner i to the next.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Quad {
    pub(super) corners: [Point; 4],
    /// Share of its edges that is steep, the faintest edge twice.
    pub(super) support: f64,
}

/// Shortest side as a share of the picture's diagonal, at least.
const SHORTEST: f64 = 0.06;
/// Long sides over short ones: 1.586 for the card, less or more when it leans.
const SHAPE: (f64, f64) = (1.1, 2.2);
/// Share of each edge that must be steep.
const LEAST: f64 = 0.45;
/// Places looked at on each edge.
const PLACES: usize = 24;

/// All that may be cards, the best supported first.
pub(super) fn quads(lines: &[Line], steep: &Steep) -> Vec<Quad> {
    let n = lines.len();
    let mut all = Vec::new();
    // Pairs of opposite edges: nearly parallel.
    let dot = |a: &Line, b: &Line| a.normal.x * b.normal.x + a.normal.y * b.normal.y;
    let mut pairs = Vec::new();
    for a in 0..n {
        for b in a + 1..n {
            // Within 24 degrees.
            if dot(&lines[a], &lines[b]).abs() > 0.91 {
                pairs.push((&lines[a], &lines[b]));
            }
        }
    }
    for (i, (a, c)) in pairs.iter().enumerate() {
        for (b, d) in &pairs[i + 1..] {
            // Edges that meet: more than 50 degrees apart.
            if dot(a, b).abs() > 0.64
                || dot(a, d).abs() > 0.64
                || dot(c, b).abs() > 0.64
                || dot(c, d).abs() > 0.64
            {
                continue;
            }
            let corners = [a.meets(b), b.meets(c), c.meets(d), d.meets(a)];
            if let Some(quad) = quad(corners, steep) {
                all.push(quad);
            }
        }
    }
    let support: Vec<f64> = all.iter().map(|q| q.support).collect();
    units::arranged(all, &descending(&support))
}

fn quad(corners: [Point; 4], steep: &Steep) -> Option<Quad> {
    let (w, h) = (steep.width as f64, steep.height as f64);
    let inside = |p: &Point| p.x > -2.0 && p.y > -2.0 && p.x < w + 2.0 && p.y < h + 2.0;
    if !corners.iter().all(inside) {
        return None;
    }
    let side = |i: usize| corners[i].distance(corners[(i + 1) % 4]);
    let sides = [side(0) + side(2), side(1) + side(3)];
    let (long, short) = (sides[0].max(sides[1]), sides[0].min(sides[1]));
    let shortest = (0..4).map(side).fold(f64::MAX, f64::min);
    let diagonal = (w * w + h * h).sqrt();
    if shortest < SHORTEST * diagonal || !(SHAPE.0..SHAPE.1).contains(&(long / short)) {
        return None;
    }
    let mut all = [0.0; 4];
    for (i, found) in all.iter_mut().enumerate() {
        *found = supported(corners[i], corners[(i + 1) % 4], steep);
        if *found < LEAST {
            return None;
        }
    }
    let faintest = all.iter().copied().fold(1.0, f64::min);
    Some(Quad { corners, support: (all.iter().sum::<f64>() + faintest) / 5.0 })
}

/// Share of an edge that is steep across it, all the same way up; the round corners are left out.
fn supported(from: Point, to: Point, steep: &Steep) -> f64 {
    let turn = libm::atan2(to.y - from.y, to.x - from.x) / core::f64::consts::TAU + 0.25;
    let way = (libm::round(turn * 256.0) as i32 & 255) as u8;
    let place = |k: usize| from.towards(to, 0.08 + 0.84 * (k as f64 + 0.5) / PLACES as f64);
    let signs = (0..PLACES).map(|k| steep.along(place(k), way));
    let (up, down) = signs.fold((0.0, 0.0), |(u, d), s| if s > 0.0 { (u + 1.0, d) } else { (u, d - s) });
    f64::max(up, down) / PLACES as f64
}
