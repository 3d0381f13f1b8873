//! A closed line in millimetres.

use crate::Point;
use core::fmt::Write;

/// A closed outline: points in mm, as far from each other along the line, clockwise as a picture is seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Contour {
    points: Vec<Point>,
}

/// How many points a contour has.
const POINTS: usize = 256;

impl Contour {
    /// Through points in turn. Nothing with fewer than three places or without area.
    #[must_use]
    pub fn of(points: &[Point]) -> Option<Contour> {
        let area = area(points);
        if points.len() < 3 || !points.iter().all(|p| p.is_finite()) || area.abs() < 1e-9 {
            return None;
        }
        let mut points = evenly(points, POINTS);
        if area < 0.0 {
            points.reverse();
        }
        Some(Contour { points })
    }

    /// The points.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// mm2.
    #[must_use]
    pub fn area(&self) -> f64 {
        area(&self.points)
    }

    /// `d` of an SVG path in tenths of a millimetre, from the corner of the box around it.
    #[must_use]
    pub fn path(&self) -> String {
        let [from, _] = self.bounds();
        let mut d = String::new();
        for (i, p) in self.points.iter().enumerate() {
            let tenth = |mm: f64| libm::round(mm * 10.0) as i32;
            // Writing to a string does not fail.
            let _ = write!(
                d,
                "{}{} {}",
                if i == 0 { 'M' } else { 'L' },
                tenth(p.x - from.x),
                tenth(p.y - from.y)
            );
        }
        d.push('Z');
        d
    }

    /// Upper left and lower right corner of the box around it, mm.
    #[must_use]
    pub fn bounds(&self) -> [Point; 2] {
        let inf = Point::new(f64::INFINITY, f64::INFINITY);
        self.points.iter().fold([inf, Point::new(-inf.x, -inf.y)], |[a, b], p| {
            [Point::new(a.x.min(p.x), a.y.min(p.y)), Point::new(b.x.max(p.x), b.y.max(p.y))]
        })
    }

    /// Turned so that a vector of length one lies along x.
    pub(super) fn turned(&self, along: Point) -> Vec<Point> {
        let turn = |p: &Point| Point::new(p.x * along.x + p.y * along.y, along.cross(*p));
        self.points.iter().map(turn).collect()
    }
}

/// Above zero when the points go clockwise as a picture is seen.
pub(super) fn area(points: &[Point]) -> f64 {
    0.5 * sides(points).map(|(a, b)| a.cross(b)).sum::<f64>()
}

/// Every side, the last one back to the first point.
pub(super) fn sides(points: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    points.iter().zip(points.iter().cycle().skip(1)).map(|(a, b)| (*a, *b))
}

/// Each point moved to a quarter of its neighbours and half of itself, as often as said: a bell of sqrt(rounds / 2) points.
pub(super) fn smoothed(points: &[Point], rounds: usize) -> Vec<Point> {
    let mut now = points.to_vec();
    for _ in 0..rounds {
        let n = now.len();
        let mix = |i: usize| {
            let (a, b, c) = (now[(i + n - 1) % n], now[i], now[(i + 1) % n]);
            Point::new(0.25 * (a.x + c.x) + 0.5 * b.x, 0.25 * (a.y + c.y) + 0.5 * b.y)
        };
        now = (0..n).map(mix).collect();
    }
    now
}

/// `n` points at even distances along the closed line.
fn evenly(points: &[Point], n: usize) -> Vec<Point> {
    let whole: f64 = sides(points).map(|(a, b)| a.distance(b)).sum();
    let mut all = Vec::with_capacity(n);
    let mut passed = 0.0;
    for (a, b) in sides(points) {
        let side = a.distance(b);
        while all.len() < n && whole * all.len() as f64 / n as f64 <= passed + side {
            let rest = whole * all.len() as f64 / n as f64 - passed;
            all.push(if side > 0.0 { a.towards(b, rest / side) } else { a });
        }
        passed += side;
    }
    // Rounding may keep the last one back.
    while all.len() < n {
        all.push(points[points.len() - 1]);
    }
    all
}
