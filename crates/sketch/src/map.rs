//! Where points of the art come to lie: whole numbers all the way, bounded.

/// How far from the origin a point may lie, tenths of a unit: beyond the widest frame, and small enough for all
/// products of the patterns.
const FARTHEST: i32 = 5_000;

/// A scale and a move: per mille, then tenths of a unit.
#[derive(Clone, Copy)]
pub(crate) struct Map {
    pub(crate) x: i32,
    pub(crate) y: i32,
    pub(crate) sx: i32,
    pub(crate) sy: i32,
}

impl Map {
    pub(crate) const SAME: Map = Map::new(0, 0, 1000, 1000);

    pub(crate) const fn new(x: i32, y: i32, sx: i32, sy: i32) -> Map {
        Map { x, y, sx, sy }
    }

    /// First `inner`, then `self`.
    pub(crate) fn of(self, inner: Map) -> Map {
        let (x, y) = self.at(inner.x, inner.y);
        Map::new(x, y, times(self.sx, inner.sx, 0), times(self.sy, inner.sy, 0))
    }

    pub(crate) fn at(self, x: i32, y: i32) -> Point {
        let far = |v: i32| v.clamp(-FARTHEST, FARTHEST);
        (far(self.x + scaled(x, self.sx)), far(self.y + scaled(y, self.sy)))
    }
}

/// Rounds to the nearest, so that mirrored art stays symmetric.
pub(crate) fn scaled(v: i32, per_mille: i32) -> i32 {
    times(v, per_mille, 500)
}

fn times(v: i32, per_mille: i32, round: i64) -> i32 {
    const MOST: i64 = 1_000_000;
    let p = i64::from(v) * i64::from(per_mille);
    // Within `MOST`, so that it fits.
    ((p + round * p.signum()) / 1000).clamp(-MOST, MOST) as i32
}

pub(crate) type Point = (i32, i32);
