//! What the piece lies on: a colour that changes evenly over the picture, and how far a pixel is from it.

use crate::linear::{inverse, times};

/// How much of the light a shadow leaves at least, and how much more than its mean the ground may send back: the piece must
/// be darker, or of another colour. Practice.
const LIGHT: (f64, f64) = (0.55, 1.2);
/// Least standard deviation of a plain ground, of 255: the noise of a camera.
const NOISE: f64 = 3.0;

/// A place from -1 to 1 each way, and the colour there.
pub(super) type Seen = ([f64; 2], [f64; 3]);

/// A plane for each colour, over places from -1 to 1.
#[derive(Debug, Clone)]
pub(super) struct Background {
    planes: [[f64; 3]; 3],
    /// What the ground's own pixels are off, root of the mean square.
    noise: f64,
}

impl Background {
    /// Fits places and colours of the border, thrice, each time without what is far off: a shadow, a thread, a corner of
    /// the card. Nothing with too few of them.
    pub(super) fn of(border: &[Seen]) -> Option<Background> {
        let mut found = Background { planes: [[0.0; 3]; 3], noise: 0.0 };
        let mut limit = f64::MAX;
        for _ in 0..4 {
            let near = |(at, colour): &&Seen| found.far(*at, *colour) < limit;
            let kept: Vec<_> = border.iter().filter(near).collect();
            if kept.len() < 30 {
                return None;
            }
            let mut normal = [[0.0; 3]; 3];
            let mut right = [[0.0; 3]; 3];
            for ([x, y], colour) in kept.iter().copied() {
                let row = [1.0, *x, *y];
                for i in 0..3 {
                    for j in 0..3 {
                        normal[i][j] += row[i] * row[j];
                        right[i][j] += colour[i] * row[j];
                    }
                }
            }
            let inverse = inverse(&normal)?;
            let next = Background { planes: right.map(|r| times(&inverse, r)), noise: 0.0 };
            let root = |of: &dyn Fn(&Seen) -> f64| {
                let sum: f64 = kept.iter().map(|seen| of(seen)).map(|d| d * d).sum();
                (sum / kept.len() as f64).sqrt().max(NOISE)
            };
            limit = 2.2 * root(&|seen| next.far(seen.0, seen.1));
            let noise = root(&|seen| next.off(seen.0, seen.1));
            found = Background { noise, ..next };
        }
        Some(found)
    }

    fn colour(&self, [x, y]: [f64; 2]) -> [f64; 3] {
        self.planes.map(|[a, b, c]| a + b * x + c * y)
    }

    /// Distance in colour from the ground as it is lit, of 255.
    fn far(&self, at: [f64; 2], colour: [f64; 3]) -> f64 {
        let ground = self.colour(at);
        (0..3).map(|i| colour[i] - ground[i]).map(|d| d * d).sum::<f64>().sqrt()
    }

    /// Distance from the ground's colour in whatever light.
    fn off(&self, at: [f64; 2], colour: [f64; 3]) -> f64 {
        let ground = self.colour(at);
        let dot = |a: [f64; 3], b: [f64; 3]| a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
        let light = (dot(colour, ground) / dot(ground, ground).max(1.0)).clamp(LIGHT.0, LIGHT.1);
        (0..3).map(|i| colour[i] - light * ground[i]).map(|d| d * d).sum::<f64>().sqrt()
    }

    /// The same in half deviations, up to 255.
    pub(super) fn strangeness(&self, at: [f64; 2], colour: [f64; 3]) -> u8 {
        // The conversion saturates.
        (2.0 * self.off(at, colour) / self.noise) as u8
    }
}
