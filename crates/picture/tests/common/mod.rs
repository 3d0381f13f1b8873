//! A camera of the tests' own: nothing of it is taken from the crate, so that the two can disagree.

pub(crate) mod scene;

use picture::Point;
use picture::photo::Lens;

/// Whether full counts are asked for.
pub(crate) fn deep() -> bool {
    std::env::var_os("PRESSMARK_DEEP").is_some()
}

/// Splitmix64 (Steele, Lea and Flood 2014): the same numbers everywhere.
pub(crate) struct Dice(pub u64);

impl Dice {
    pub(crate) fn whole(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Anywhere in a range.
    pub(crate) fn within(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * (self.whole() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Standard normal (Box and Muller).
    pub(crate) fn normal(&mut self) -> f64 {
        let (a, b) = (self.within(1e-16, 1.0), self.within(0.0, 1.0));
        (-2.0 * libm::log(a)).sqrt() * libm::cos(core::f64::consts::TAU * b)
    }
}

/// A pinhole camera with Brown's radial distortion, looking at the table's point `aim` from `distance` mm along its axis.
#[derive(Clone)]
pub(crate) struct Camera {
    pub(crate) width: u32,
    pub(crate) height: u32,
    pub(crate) focal: f64,
    /// x (1 + k r2) of what a straight lens would show.
    pub(crate) k: f64,
    right: [f64; 3],
    down: [f64; 3],
    ahead: [f64; 3],
    at: [f64; 3],
}

impl Camera {
    /// `tilt` from straight down towards the direction `azimuth`, the picture turned by `roll`; all in radians. The table's
    /// z goes up.
    pub(crate) fn over(
        size: (u32, u32),
        focal: f64,
        k: f64,
        pose: [f64; 3],
        distance: f64,
        aim: Point,
    ) -> Camera {
        let [tilt, azimuth, roll] = pose;
        let (st, ct) = (libm::sin(tilt), libm::cos(tilt));
        let (sa, ca) = (libm::sin(azimuth), libm::cos(azimuth));
        let ahead = [-st * ca, -st * sa, -ct];
        // Table axes x right, y towards the far side; picture y goes down.
        let (level, up) = ([-sa, ca, 0.0], [-ct * ca, -ct * sa, st]);
        let (sr, cr) = (libm::sin(roll), libm::cos(roll));
        let mix = |a: f64, b: f64| core::array::from_fn(|i| a * level[i] + b * up[i]);
        let right: [f64; 3] = mix(cr, sr);
        let down: [f64; 3] = [
            ahead[1] * right[2] - ahead[2] * right[1],
            ahead[2] * right[0] - ahead[0] * right[2],
            ahead[0] * right[1] - ahead[1] * right[0],
        ];
        let at = [aim.x - distance * ahead[0], aim.y - distance * ahead[1], -distance * ahead[2]];
        Camera { width: size.0, height: size.1, focal, k, right, down, ahead, at }
    }

    pub(crate) fn shows(&self, p: [f64; 3]) -> Point {
        let d = [p[0] - self.at[0], p[1] - self.at[1], p[2] - self.at[2]];
        let dot = |a: [f64; 3]| a[0] * d[0] + a[1] * d[1] + a[2] * d[2];
        let (x, y) = (dot(self.right) / dot(self.ahead), dot(self.down) / dot(self.ahead));
        let bent = self.focal * (1.0 + self.k * (x * x + y * y));
        Point::new(0.5 * f64::from(self.width) + x * bent, 0.5 * f64::from(self.height) + y * bent)
    }

    /// The point of the table at height z that a pixel shows.
    pub(crate) fn table(&self, pixel: Point, z: f64) -> Point {
        let (u, v) = (
            (pixel.x - 0.5 * f64::from(self.width)) / self.focal,
            (pixel.y - 0.5 * f64::from(self.height)) / self.focal,
        );
        let (mut x, mut y) = (u, v);
        for _ in 0..4 {
            let bent = 1.0 + self.k * (x * x + y * y);
            (x, y) = (u / bent, v / bent);
        }
        let ray: [f64; 3] = core::array::from_fn(|i| self.ahead[i] + x * self.right[i] + y * self.down[i]);
        let way = (z - self.at[2]) / ray[2];
        Point::new(self.at[0] + way * ray[0], self.at[1] + way * ray[1])
    }

    pub(crate) fn holds(&self, p: Point) -> bool {
        (0.0..=f64::from(self.width)).contains(&p.x) && (0.0..=f64::from(self.height)).contains(&p.y)
    }

    /// What is known of it when its EXIF says nothing.
    pub(crate) fn lens(&self, equivalent: Option<u16>) -> Lens {
        Lens::of(self.width, self.height, equivalent)
    }
}

/// Corners of a card of this size about the origin, in turn; edge i runs from corner i to the next.
pub(crate) fn corners(size: [f64; 2]) -> [Point; 4] {
    let (x, y) = (0.5 * size[0], 0.5 * size[1]);
    [Point::new(-x, y), Point::new(x, y), Point::new(x, -y), Point::new(-x, -y)]
}

pub(crate) fn flat(p: Point, z: f64) -> [f64; 3] {
    [p.x, p.y, z]
}
