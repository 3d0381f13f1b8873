//! A point of a plane: pixels of a picture (right and down from its top left corner), or millimetres.

/// A point.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// A point.
    #[must_use]
    pub fn new(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    /// The vector from `other` to here.
    #[must_use]
    pub fn from(self, other: Point) -> Point {
        Point { x: self.x - other.x, y: self.y - other.y }
    }

    /// How far `other` is.
    #[must_use]
    pub fn distance(self, other: Point) -> f64 {
        self.from(other).norm()
    }

    /// The point at `t` of the way to `other`.
    #[must_use]
    pub fn towards(self, other: Point, t: f64) -> Point {
        Point { x: self.x + t * (other.x - self.x), y: self.y + t * (other.y - self.y) }
    }

    pub(crate) fn norm(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// z of the cross product; above zero when `other` is clockwise of here as a picture is seen.
    pub(crate) fn cross(self, other: Point) -> f64 {
        self.x * other.y - self.y * other.x
    }

    pub(crate) fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
}
