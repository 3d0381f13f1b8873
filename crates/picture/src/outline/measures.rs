//! What an outline measures.

use super::Contour;
use super::contour::{area, sides};
use super::hull::hull;
use crate::Point;

/// Lengths in mm, shares from 0 to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// Along its axis.
    pub length: f64,
    /// Greatest across its axis.
    pub width: f64,
    /// Where it is widest: share of the length from the narrower end.
    pub widest: f64,
    /// mm2.
    pub area: f64,
    /// How alike the halves on either side of the axis are: 1 for mirror images.
    pub symmetry: f64,
    /// How many of its two ends are pointed.
    pub points: u8,
    /// Area over that of the tightest band around it: 1 without hollows.
    pub convexity: f64,
    /// Both ends of the axis in the outline's own place, the narrower one first.
    pub ends: [Point; 2],
}

/// Sections across the axis.
const SECTIONS: usize = 100;
/// An end is pointed when, a twentieth of the length from it, the piece has less than this share of its width. A round or
/// oval one has 0.44 there (2 sqrt (0.05 x 0.95)), a wedge that takes half the length 0.1. Practice.
const POINTED: f64 = 0.33;

impl Shape {
    /// Measures an outline.
    #[must_use]
    pub fn of(contour: &Contour) -> Shape {
        let along = axis(contour);
        let mut turned = contour.turned(along);
        let mut sections = Sections::of(&turned);
        let mut back = false;
        if sections.narrow_end_last() {
            back = true;
            turned = turned.iter().map(|p| Point::new(-p.x, -p.y)).collect();
            sections = Sections::of(&turned);
        }
        let length = sections.to - sections.from;
        let wide = |i: &usize| sections.across[*i][1] - sections.across[*i][0];
        let widest = (0..SECTIONS).fold(0, |best, i| if wide(&i) > wide(&best) { i } else { best });
        // A part that runs with the same width has its middle there.
        let as_wide: Vec<usize> = (0..SECTIONS).filter(|i| wide(i) > 0.995 * wide(&widest)).collect();
        let middle = as_wide.iter().map(|i| *i as f64 + 0.5).sum::<f64>() / as_wide.len().max(1) as f64;
        let pointed = |i: usize| u8::from(wide(&i) < POINTED * wide(&widest));
        let end = |x: f64| {
            let sign = if back { -1.0 } else { 1.0 };
            let y = sections.middle;
            Point::new(sign * (x * along.x - y * along.y), sign * (x * along.y + y * along.x))
        };
        Shape {
            length,
            width: sections.highest - sections.lowest,
            widest: middle / SECTIONS as f64,
            area: contour.area(),
            symmetry: sections.symmetry(),
            // The section that holds a twentieth of the length.
            points: pointed(SECTIONS / 20) + pointed(SECTIONS - 1 - SECTIONS / 20),
            convexity: (contour.area() / area(&hull(contour.points()))).min(1.0),
            ends: [end(sections.from), end(sections.to)],
        }
    }
}

/// The direction of the long axis: that of greatest spread of the area, then turned by up to 6 degrees to where the halves
/// are most alike.
fn axis(contour: &Contour) -> Point {
    // Second moments of a polygon about its centroid (Steger, 1996; sums over its triangles).
    let points = contour.points();
    let (mut whole, mut cx, mut cy) = (0.0, 0.0, 0.0);
    for (a, b) in sides(points) {
        let c = a.cross(b);
        whole += c;
        cx += c * (a.x + b.x) / 3.0;
        cy += c * (a.y + b.y) / 3.0;
    }
    let centre = Point::new(cx / whole, cy / whole);
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for (a, b) in sides(points) {
        let (a, b) = (a.from(centre), b.from(centre));
        let c = a.cross(b);
        xx += c * (a.x * a.x + a.x * b.x + b.x * b.x);
        yy += c * (a.y * a.y + a.y * b.y + b.y * b.y);
        xy += c * (a.x * b.y + 2.0 * a.x * a.y + 2.0 * b.x * b.y + b.x * a.y) / 2.0;
    }
    let angle = 0.5 * libm::atan2(2.0 * xy, xx - yy);
    let way = |k: i32| {
        let a = angle + f64::from(k) * 0.5 * core::f64::consts::PI / 180.0;
        Point::new(libm::cos(a), libm::sin(a))
    };
    let mut best = (way(0), Sections::of(&contour.turned(way(0))).symmetry());
    for k in -12..=12 {
        let found = Sections::of(&contour.turned(way(k))).symmetry();
        // A step aside must be worth it: a rectangle, an oval and a disc keep their first axis.
        if found > best.1 + 0.002 {
            best = (way(k), found);
        }
    }
    best.0
}

/// From where to where an outline reaches in sections across x.
struct Sections {
    from: f64,
    to: f64,
    lowest: f64,
    highest: f64,
    across: Vec<[f64; 2]>,
    /// The middle of the area, across.
    middle: f64,
}

impl Sections {
    fn of(points: &[Point]) -> Sections {
        let least = |of: &dyn Fn(&Point) -> f64| points.iter().map(of).fold(f64::MAX, f64::min);
        let (from, to) = (least(&|p| p.x), -least(&|p| -p.x));
        let (lowest, highest) = (least(&|p| p.y), -least(&|p| -p.y));
        let mut across = vec![[f64::MAX, f64::MIN]; SECTIONS];
        let step = (to - from) / SECTIONS as f64;
        for (a, b) in sides(points) {
            let (a, b) = if a.x < b.x { (a, b) } else { (b, a) };
            let index = |x: f64| (x - from) / step - 0.5;
            let (first, last) = (libm::ceil(index(a.x)).max(0.0) as usize, libm::floor(index(b.x)));
            let mut i = first;
            while i < SECTIONS && i as f64 <= last {
                let x = from + (i as f64 + 0.5) * step;
                let y = a.towards(b, (x - a.x) / (b.x - a.x).max(1e-12)).y;
                let [low, high] = across[i];
                across[i] = [low.min(y), high.max(y)];
                i += 1;
            }
        }
        for section in &mut across {
            if section[0] > section[1] {
                *section = [0.0, 0.0];
            }
        }
        let sum = |of: &dyn Fn(&[f64; 2]) -> f64| across.iter().map(of).sum::<f64>();
        let middle = sum(&|s| 0.5 * (s[1] * s[1] - s[0] * s[0])) / sum(&|s| s[1] - s[0]).max(1e-12);
        Sections { from, to, lowest, highest, across, middle }
    }

    fn symmetry(&self) -> f64 {
        let both: f64 = self.across.iter().map(|s| s[1] - s[0]).sum();
        let differ: f64 = self.across.iter().map(|s| (s[1] + s[0] - 2.0 * self.middle).abs()).sum();
        1.0 - differ / both.max(1e-12)
    }

    /// Whether the quarter at the greater x has less area.
    fn narrow_end_last(&self) -> bool {
        let sum =
            |range: core::ops::Range<usize>| self.across[range].iter().map(|s| s[1] - s[0]).sum::<f64>();
        sum(SECTIONS * 3 / 4..SECTIONS) < sum(0..SECTIONS / 4)
    }
}
