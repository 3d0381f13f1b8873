//! Lines by voting (Duda and Hart, Communications of the ACM 15, 1972), each steep place for the few lines that run across
//! its own slope.

use super::steep::Steep;
use crate::Point;
use units::descending;

/// Directions of a line's normal over half a turn.
const WAYS: usize = 180;
/// Pixels of distance for one box.
const BOX: f64 = 2.0;
/// Lines that are kept.
const KEPT: usize = 36;

/// x cos + y sin = far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    pub(super) normal: Point,
    pub(super) far: f64,
}

impl Line {
    /// Where two lines meet; not finite when they are parallel.
    pub(super) fn meets(&self, other: &Line) -> Point {
        let det = self.normal.cross(other.normal);
        Point::new(
            (self.far * other.normal.y - other.far * self.normal.y) / det,
            (other.far * self.normal.x - self.far * other.normal.x) / det,
        )
    }
}

pub(super) struct Votes {
    boxes: usize,
    of: Vec<u32>,
    normals: Vec<Point>,
}

impl Votes {
    pub(super) fn new(steep: &Steep) -> Votes {
        let (w, h) = (steep.width as f64, steep.height as f64);
        // Distances from minus to plus the diagonal.
        let boxes = (2.0 * (w * w + h * h).sqrt() / BOX) as usize + 2;
        let normal = |i: usize| {
            let a = core::f64::consts::PI * i as f64 / WAYS as f64;
            Point::new(libm::cos(a), libm::sin(a))
        };
        Votes { boxes, of: vec![0; boxes * WAYS], normals: (0..WAYS).map(normal).collect() }
    }

    /// The votes of one row.
    pub(super) fn count(&mut self, steep: &Steep, y: usize) {
        for x in (0..steep.width).filter(|x| steep.crest(*x, y)) {
            let here = y * steep.width + x;
            let way = usize::from(steep.way[here]) % 128 * WAYS / 128;
            // A loud edge counts more than a faint one, but not for all.
            let vote = u32::from(steep.height_of[here].min(50));
            for off in 0..5 {
                let way = (way + WAYS + off - 2) % WAYS;
                let n = self.normals[way];
                let far = (x as f64 + 0.5) * n.x + (y as f64 + 0.5) * n.y;
                let at = far / BOX + 0.5 * self.boxes as f64;
                self.of[way * self.boxes + (at as usize).min(self.boxes - 1)] += vote;
            }
        }
    }

    /// The lines with most votes, none too near to a better one.
    pub(super) fn best(&self) -> Vec<Line> {
        let peak = |at: &usize| {
            let (way, far) = (at / self.boxes, at % self.boxes);
            let own = self.of[*at];
            own > 200
                && far > 0
                && far + 1 < self.boxes
                && own >= self.of[at - 1]
                && own > self.of[at + 1]
                && (way == 0 || own >= self.of[at - self.boxes])
                && (way + 1 == WAYS || own >= self.of[at + self.boxes])
        };
        let peaks: Vec<usize> = (0..self.of.len()).filter(peak).collect();
        let votes: Vec<f64> = peaks.iter().map(|at| f64::from(self.of[*at])).collect();
        let mut kept: Vec<(usize, usize)> = Vec::new();
        for i in descending(&votes) {
            let (way, far) = (peaks[i] / self.boxes, peaks[i] % self.boxes);
            let near = |(w, f): &(usize, usize)| {
                let turned = w.abs_diff(way);
                // Half a turn on, the same line has its distance with the other sign.
                (turned <= 4 && f.abs_diff(far) <= 3)
                    || (WAYS - turned <= 4 && (self.boxes - f).abs_diff(far) <= 4)
            };
            if !kept.iter().any(near) {
                kept.push((way, far));
            }
            if kept.len() == KEPT {
                break;
            }
        }
        let line = |(way, far): (usize, usize)| Line {
            normal: self.normals[way],
            far: (far as f64 + 0.5 - 0.5 * self.boxes as f64) * BOX,
        };
        kept.into_iter().map(line).collect()
    }
}
