//! Elliptic Fourier descriptors (Kuhl and Giardina, Computer Graphics and Image Processing 18, 1982): an outline as a sum
//! of ellipses, made independent of its place, size, turning and starting point.

use super::contour::sides;
use crate::Point;

/// How many ellipses are kept.
pub const HARMONICS: usize = 16;

/// a, b, c, d of each ellipse: x gains a cos + b sin, y gains c cos + d sin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Descriptors(pub [[f64; 4]; HARMONICS]);

impl Descriptors {
    /// Of a closed outline through points in turn; all zero for one without length.
    #[must_use]
    pub fn of(points: &[Point]) -> Descriptors {
        raw(points).normal()
    }

    /// How far two outlines are from each other: root of the mean square of what their points differ, in half lengths of
    /// the first ellipse. An outline has two starting points, at the ends of its long axis: the better one counts.
    #[must_use]
    pub fn distance(&self, other: &Descriptors) -> f64 {
        let far = |flip: bool| {
            let mut sum = 0.0;
            for (n, (a, b)) in self.0.iter().zip(other.0).enumerate() {
                // Half a turn of the start changes the signs of the odd ellipses, half a turn of the plane those of all.
                let sign = if flip && n % 2 == 1 { -1.0 } else { 1.0 };
                sum += a.iter().zip(b).map(|(a, b)| a - sign * b).map(|d| d * d).sum::<f64>();
            }
            (0.5 * sum).sqrt()
        };
        far(false).min(far(true))
    }

    /// Equations 2 to 17 of the paper: start at the end of the first ellipse's long axis, that axis along x and of length 1.
    fn normal(self) -> Descriptors {
        let [a, b, c, d] = self.0[0];
        let start = 0.5 * libm::atan2(2.0 * (a * b + c * d), a * a - b * b + c * c - d * d);
        let mut turned = self.0;
        for (n, [a, b, c, d]) in turned.iter_mut().enumerate() {
            let angle = (n + 1) as f64 * start;
            let (cos, sin) = (libm::cos(angle), libm::sin(angle));
            (*a, *b) = (*a * cos + *b * sin, *b * cos - *a * sin);
            (*c, *d) = (*c * cos + *d * sin, *d * cos - *c * sin);
        }
        let [a, _, c, _] = turned[0];
        let size = (a * a + c * c).sqrt();
        if size <= 0.0 || !size.is_finite() {
            return Descriptors([[0.0; 4]; HARMONICS]);
        }
        let (cos, sin) = (a / size, c / size);
        for [a, b, c, d] in &mut turned {
            (*a, *c) = ((*a * cos + *c * sin) / size, (*c * cos - *a * sin) / size);
            (*b, *d) = ((*b * cos + *d * sin) / size, (*d * cos - *b * sin) / size);
        }
        Descriptors(turned)
    }
}

/// Equation 1 of the paper, by the length along the line.
fn raw(points: &[Point]) -> Descriptors {
    let whole: f64 = sides(points).map(|(a, b)| a.distance(b)).sum();
    let mut found = [[0.0; 4]; HARMONICS];
    let mut passed = 0.0;
    for (a, b) in sides(points) {
        let side = a.distance(b);
        // Two points in one place add nothing.
        if side <= 0.0 {
            continue;
        }
        let (dx, dy) = ((b.x - a.x) / side, (b.y - a.y) / side);
        for (n, of) in found.iter_mut().enumerate() {
            let n = (n + 1) as f64;
            let (from, to) = (
                core::f64::consts::TAU * n * passed / whole,
                core::f64::consts::TAU * n * (passed + side) / whole,
            );
            let by = whole / (2.0 * n * n * core::f64::consts::PI * core::f64::consts::PI);
            let (cos, sin) = (by * (libm::cos(to) - libm::cos(from)), by * (libm::sin(to) - libm::sin(from)));
            of[0] += dx * cos;
            of[1] += dx * sin;
            of[2] += dy * cos;
            of[3] += dy * sin;
        }
        passed += side;
    }
    Descriptors(found)
}
