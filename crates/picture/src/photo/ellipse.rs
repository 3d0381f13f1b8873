//! The ellipse through taps on a round rim.

use crate::Point;
use crate::linear::inverse_of_symmetric;

/// An ellipse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ellipse {
    /// Its middle.
    pub middle: Point,
    /// Half its long and its short axis.
    pub half: [f64; 2],
    /// Direction of the long axis, of length one.
    pub along: Point,
}

impl Ellipse {
    /// Fits A x2 + B xy + C y2 + D x + E y = 1 by least squares, about the middle of the points and in units of their
    /// spread. Nothing with fewer than five points, or when no ellipse lies nearest.
    #[must_use]
    pub fn of(points: &[Point]) -> Option<Ellipse> {
        let n = points.len() as f64;
        if points.len() < 5 {
            return None;
        }
        let sum = points.iter().fold(Point::default(), |s, p| Point::new(s.x + p.x, s.y + p.y));
        let centre = Point::new(sum.x / n, sum.y / n);
        let spread = (points.iter().map(|p| p.distance(centre) * p.distance(centre)).sum::<f64>() / n).sqrt();
        let mut normal = [[0.0; 5]; 5];
        let mut right = [0.0; 5];
        for p in points {
            let (x, y) = ((p.x - centre.x) / spread, (p.y - centre.y) / spread);
            let row = [x * x, x * y, y * y, x, y];
            for i in 0..5 {
                right[i] += row[i];
                for j in 0..5 {
                    normal[i][j] += row[i] * row[j];
                }
            }
        }
        let inverse = inverse_of_symmetric(&normal)?;
        let [a, b, c, d, e] = inverse.map(|row| row.iter().zip(right).map(|(x, y)| x * y).sum::<f64>());
        // Where the gradient is nothing, and the value there.
        let det = 4.0 * a * c - b * b;
        let (x, y) = ((b * e - 2.0 * c * d) / det, (b * d - 2.0 * a * e) / det);
        let value = 1.0 - 0.5 * (d * x + e * y);
        // Eigenvalues of the quadratic form: the smaller one belongs to the long axis.
        let (mean, differ) = (0.5 * (a + c), 0.5 * ((a - c) * (a - c) + b * b).sqrt());
        let half = [(value / (mean - differ)).sqrt() * spread, (value / (mean + differ)).sqrt() * spread];
        let least = mean - differ;
        // The longer of the two forms of the eigenvector keeps its digits.
        let (u, v) = (Point::new(least - c, 0.5 * b), Point::new(0.5 * b, least - a));
        let way = if u.norm() > v.norm() { u } else { v };
        let size = way.norm();
        let along = if size > 1e-12 { Point::new(way.x / size, way.y / size) } else { Point::new(1.0, 0.0) };
        let whole = det > 0.0 && half.iter().all(|h| h.is_finite() && *h > 0.0);
        whole.then_some(Ellipse {
            middle: Point::new(centre.x + x * spread, centre.y + y * spread),
            half,
            along,
        })
    }
}
