//! Patterns within a shape: hatching, grain, stripes. Lines are cut to the shape by even and odd crossings, in
//! whole numbers; what looks like chance comes from a fixed row of numbers, so that a drawing is always the same.

use crate::map::Point;
use crate::pen::{LONGEST, number};

/// Lines `a*x + b*y = c`, `step` tenths between the values of c.
struct Pattern {
    a: i32,
    b: i32,
    step: i32,
    /// Length of a stroke, tenths; 0 for one that is never broken, 1 for dots.
    on: i32,
    /// Length of a gap, tenths.
    off: i32,
    /// How far from even: the share of a length that chance may add, per cent.
    rough: u32,
}

const fn pattern_of(a: i32, b: i32, step: i32, on: i32, off: i32, rough: u32) -> Pattern {
    Pattern { a, b, step, on, off, rough }
}

/// By number, as `X` in the art names them.
static PATTERNS: [Pattern; 23] = [
    pattern_of(1, 1, 110, 0, 0, 0),       // 0 section
    pattern_of(1, -1, 110, 0, 0, 0),      // 1 section the other way
    pattern_of(1, 0, 70, 0, 0, 0),        // 2 upright lines
    pattern_of(0, 1, 70, 0, 0, 0),        // 3 level lines
    pattern_of(0, 1, 75, 1, 85, 0),       // 4 even dots
    pattern_of(0, 1, 42, 1, 55, 170),     // 5 sand
    pattern_of(0, 1, 36, 130, 90, 240),   // 6 fine scratches lengthwise
    pattern_of(1, 0, 42, 0, 0, 0),        // 7 belt stripes
    pattern_of(3, 1, 260, 90, 160, 200),  // 8 file strokes
    pattern_of(3, -2, 300, 70, 190, 200), // 9 file strokes crossing
    pattern_of(0, 1, 60, 1, 130, 200),    // 10 sparse dots
    pattern_of(1, 0, 120, 0, 0, 0),       // 11 ribs
    pattern_of(0, 1, 120, 0, 0, 0),       // 12 ribs crossing
    pattern_of(2, 1, 90, 0, 0, 0),        // 13 steep lines
    pattern_of(0, 1, 95, 420, 90, 120),   // 14 wood grain
    pattern_of(1, 2, 400, 160, 420, 90),  // 15 wide glints
    pattern_of(1, 1, 60, 0, 0, 0),        // 16 close slant
    pattern_of(1, -1, 60, 0, 0, 0),       // 17 close slant crossing
    pattern_of(0, 1, 30, 1, 26, 90),      // 18 dust
    pattern_of(0, 1, 48, 0, 0, 0),        // 19 close level lines
    pattern_of(0, 1, 75, 60, 110, 130),   // 20 short dashes
    pattern_of(2, 1, 260, 0, 0, 0),       // 21 wide steep lines
    pattern_of(0, 1, 56, 300, 60, 140),   // 22 close grain
];

/// A fixed row of numbers that look like chance.
struct Chance(u32);

impl Chance {
    fn below(&mut self, n: u32) -> i32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (((self.0 >> 16) * n.max(1)) >> 16) as i32
    }

    fn about(&mut self, v: i32, rough: u32) -> i32 {
        v + v * self.below(rough + 1) / 100
    }
}

/// Adds what a path command draws to a contour, curves as eight chords.
pub(crate) fn flatten(contour: &mut Vec<Point>, from: Point, to: &[Point]) {
    const CHORDS: i32 = 8;
    let mix = |a: i32, b: i32, t: i32| a * (CHORDS - t) + b * t;
    match *to {
        [p] => contour.push(p),
        [c, p] => contour.extend((1..=CHORDS).map(|t| {
            let on = |a, b, c| mix(mix(a, b, t), mix(b, c, t), t) / (CHORDS * CHORDS);
            (on(from.0, c.0, p.0), on(from.1, c.1, p.1))
        })),
        [c, d, p] => contour.extend((1..=CHORDS).map(|t| {
            let on = |a, b, c, d| {
                mix(mix(mix(a, b, t), mix(b, c, t), t), mix(mix(b, c, t), mix(c, d, t), t), t) / CHORDS.pow(3)
            };
            (on(from.0, c.0, d.0, p.0), on(from.1, c.1, d.1, p.1))
        })),
        _ => {}
    }
}

/// Writes pattern number `which` within the contours; a number that is not known draws nothing.
pub(crate) fn pattern(path: &mut String, contours: &[Vec<Point>], which: i32) {
    let Some(p) = usize::try_from(which).ok().and_then(|i| PATTERNS.get(i)) else {
        return;
    };
    let value = |q: Point| p.a * q.0 + p.b * q.1;
    let along = |q: Point| p.a * q.1 - p.b * q.0;
    let all = || contours.iter().flatten().map(|q| value(*q));
    let (Some(low), Some(high)) = (all().min(), all().max()) else {
        return;
    };
    let mut chance = Chance(which as u32 + 7);
    let mut c = low + p.step * 2 / 3;
    while c < high && path.len() < LONGEST {
        let mut cuts: Vec<Point> = Vec::new();
        for contour in contours {
            let mut a = *contour.last().unwrap_or(&(0, 0));
            for &b in contour {
                let (u, v) = (value(a) - c, value(b) - c);
                if (u < 0) != (v < 0) {
                    let t = |x: i32, y: i32| x + (y - x) * u / (u - v);
                    let cut = (t(a.0, b.0), t(a.1, b.1));
                    // In order along the line; the library's sort would be a tenth of this crate's wasm.
                    let place = cuts.iter().position(|q| along(*q) > along(cut)).unwrap_or(cuts.len());
                    cuts.insert(place, cut);
                }
                a = b;
            }
        }
        for pair in cuts.chunks_exact(2) {
            stroke(path, pair[0], pair[1], p, &mut chance);
        }
        c += p.step;
    }
}

/// One line of a pattern from a to b, kept off the outline and broken as the pattern says.
fn stroke(path: &mut String, a: Point, b: Point, p: &Pattern, chance: &mut Chance) {
    const CLEAR: i32 = 18;
    let length = (b.0 - a.0).abs().max((b.1 - a.1).abs());
    let at = |t: i32| (a.0 + (b.0 - a.0) * t / length, a.1 + (b.1 - a.1) * t / length);
    let mut t = CLEAR + if p.on > 0 { chance.below((p.on + p.off) as u32 * 2) } else { 0 };
    while t < length - CLEAR {
        let end = if p.on > 0 { t + chance.about(p.on, p.rough) } else { length };
        let (from, to) = (at(t), at(end.min(length - CLEAR)));
        path.push('M');
        number(path, from.0, false);
        number(path, from.1, true);
        path.push('L');
        number(path, to.0, false);
        number(path, to.1, true);
        t = end + chance.about(p.off, p.rough).max(1);
    }
}
