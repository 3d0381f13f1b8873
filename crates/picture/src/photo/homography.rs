//! The plane map of four corners, and lines through taps.

use crate::Point;
use crate::linear::{Mat3, inverse, product, times};

/// A map from one plane to another that keeps straight lines straight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Homography(pub(crate) Mat3);

impl Homography {
    /// The map that takes the corners of `from` to those of `to`, in order. Nothing when three corners of either lie on
    /// one line.
    #[must_use]
    pub fn of_corners(from: &[Point; 4], to: &[Point; 4]) -> Option<Homography> {
        let map = product(&of_unit_square(to)?, &inverse(&of_unit_square(from)?)?);
        Some(Homography(map.map(|row| row.map(|x| x / map[2][2]))))
    }

    /// Where a point goes; not finite on the line that goes to infinity.
    #[must_use]
    pub fn map(&self, p: Point) -> Point {
        let [x, y, w] = times(&self.0, [p.x, p.y, 1.0]);
        Point { x: x / w, y: y / w }
    }

    /// The map back.
    #[must_use]
    pub fn inverse(&self) -> Option<Homography> {
        inverse(&self.0).map(Homography)
    }
}

/// The map of the unit square's corners (0 0, 1 0, 1 1, 0 1) to `q` (Heckbert, "Fundamentals of texture mapping and image
/// warping", 1989, section 2.2.3).
fn of_unit_square(q: &[Point; 4]) -> Option<Mat3> {
    let (d1, d2) = (q[1].from(q[2]), q[3].from(q[2]));
    let sum = Point::new(q[0].x - q[1].x + q[2].x - q[3].x, q[0].y - q[1].y + q[2].y - q[3].y);
    let det = d1.cross(d2);
    let (g, h) = (sum.cross(d2) / det, d1.cross(sum) / det);
    let map = [
        [q[1].x - q[0].x + g * q[1].x, q[3].x - q[0].x + h * q[3].x, q[0].x],
        [q[1].y - q[0].y + g * q[1].y, q[3].y - q[0].y + h * q[3].y, q[0].y],
        [g, h, 1.0],
    ];
    inverse(&map).map(|_| map)
}

/// Where two lines, each through two points, meet; not finite when they are parallel.
#[must_use]
pub fn crossing(a: [Point; 2], b: [Point; 2]) -> Point {
    let (da, db) = (a[1].from(a[0]), b[1].from(b[0]));
    a[0].towards(a[1], b[0].from(a[0]).cross(db) / da.cross(db))
}
