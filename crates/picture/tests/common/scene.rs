//! Photographs of a table with a card and the sole of an iron, rendered from a known camera.

use super::{Camera, Dice};
use picture::Point;

/// What the things lie on, and how they are lit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Ground {
    Plain,
    Wood,
    Cloth,
    /// Plain, with the shadows that the card and the iron cast.
    Shadow,
}

pub(crate) const GROUNDS: [Ground; 4] = [Ground::Plain, Ground::Wood, Ground::Cloth, Ground::Shadow];

/// The sole of an invented iron: an oval nose, straight sides, rounded corners at the heel.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sole {
    pub(crate) middle: Point,
    /// Direction of the toe.
    pub(crate) turn: f64,
    pub(crate) length: f64,
    pub(crate) width: f64,
    /// Share of the length that the nose takes.
    pub(crate) nose: f64,
    /// 0.5 for an oval nose, more for a pointed one.
    pub(crate) sharp: f64,
}

impl Sole {
    /// Half the width at a share of the length from the toe.
    pub(crate) fn half(&self, t: f64) -> f64 {
        const HEEL: f64 = 0.06;
        let round = |s: f64, power: f64| libm::pow((1.0 - s * s).max(0.0), power);
        let shape = if !(0.0..=1.0).contains(&t) {
            0.0
        } else if t < self.nose {
            round(1.0 - t / self.nose, self.sharp)
        } else if t > 1.0 - HEEL {
            0.75 + 0.25 * round((t - 1.0 + HEEL) / HEEL, 0.5)
        } else {
            1.0
        };
        0.5 * self.width * shape
    }

    /// A point of the table as share of the length from the toe, and mm from the axis.
    fn own(&self, p: Point) -> (f64, f64) {
        let (s, c) = (libm::sin(self.turn), libm::cos(self.turn));
        let (x, y) = (p.x - self.middle.x, p.y - self.middle.y);
        (0.5 - (x * c + y * s) / self.length, y * c - x * s)
    }

    /// And back.
    pub(crate) fn table(&self, t: f64, v: f64) -> Point {
        let (s, c) = (libm::sin(self.turn), libm::cos(self.turn));
        let u = (0.5 - t) * self.length;
        Point::new(self.middle.x + u * c - v * s, self.middle.y + u * s + v * c)
    }

    /// Roughly how far inside of the outline a point lies, mm.
    fn inside(&self, p: Point) -> f64 {
        if p.distance(self.middle) > 0.7 * self.length {
            return -10.0;
        }
        let (t, v) = self.own(p);
        let ends = t.min(1.0 - t) * self.length;
        let on = t.clamp(0.0, 1.0);
        let h = 0.01;
        let slope = (self.half((on + h).min(1.0)) - self.half((on - h).max(0.0))) / (2.0 * h * self.length);
        let sides = (self.half(on) - v.abs()) / (1.0 + slope * slope).sqrt();
        sides.min(if ends < 0.0 { ends } else { ends + 0.2 })
    }

    /// Its true outline.
    pub(crate) fn outline(&self) -> Vec<Point> {
        let n = 400;
        let side = |i: i32, sign: f64| {
            // Closer to each other at the ends.
            let t = 0.5 - 0.5 * libm::cos(core::f64::consts::PI * f64::from(i) / f64::from(n));
            self.table(t, sign * self.half(t))
        };
        (0..=n).map(|i| side(i, 1.0)).chain((0..n).rev().map(|i| side(i, -1.0))).collect()
    }
}

pub(crate) struct Scene {
    pub(crate) camera: Camera,
    pub(crate) ground: Ground,
    pub(crate) sole: Sole,
    pub(crate) card: [f64; 2],
    pub(crate) iron: [f64; 3],
    pub(crate) print: [f64; 3],
    pub(crate) seed: u64,
}

/// Noise between 0 and 1 that belongs to a place, smooth over one unit.
fn grain(x: f64, y: f64, seed: u64) -> f64 {
    let (i, j) = (libm::floor(x), libm::floor(y));
    let soft = |f: f64| f * f * (3.0 - 2.0 * f);
    let (fx, fy) = (soft(x - i), soft(y - j));
    let at = |dx: f64, dy: f64| {
        let key = ((i + dx) as i64 as u64).wrapping_mul(0x9E37_79B9)
            ^ ((j + dy) as i64 as u64).wrapping_mul(0x85EB_CA6B_0001);
        (Dice(key ^ seed.wrapping_mul(0xC2B2_AE3D)).whole() >> 40) as f64 / (1_u64 << 24) as f64
    };
    let upper = at(0.0, 0.0) + fx * (at(1.0, 0.0) - at(0.0, 0.0));
    let lower = at(0.0, 1.0) + fx * (at(1.0, 1.0) - at(0.0, 1.0));
    upper + fy * (lower - upper)
}

/// From 0 to 1 over an edge as wide as a pixel: `inside` mm, `pixel` mm.
fn cover(inside: f64, pixel: f64) -> f64 {
    (0.5 + inside / pixel).clamp(0.0, 1.0)
}

impl Scene {
    fn table(&self, p: Point) -> [f64; 3] {
        match self.ground {
            Ground::Plain | Ground::Shadow => {
                let g = 4.0 * (grain(p.x / 3.0, p.y / 3.0, self.seed) - 0.5);
                [196.0 + g, 192.0 + g, 182.0 + g]
            }
            Ground::Wood => {
                // Rings cut along, fine fibres across.
                let ring = grain(p.x / 90.0, p.y / 7.0, self.seed)
                    + 0.5 * grain(p.x / 40.0, p.y / 2.5, self.seed + 1);
                let fibre = grain(p.x / 12.0, p.y / 0.6, self.seed + 2);
                let g = 26.0 * (ring - 0.75) + 10.0 * (fibre - 0.5);
                [186.0 + g, 146.0 + 0.9 * g, 98.0 + 0.7 * g]
            }
            Ground::Cloth => {
                let weave = libm::sin(p.x * 3.1) * libm::sin(p.y * 3.1);
                let fold = grain(p.x / 45.0, p.y / 45.0, self.seed) - 0.5;
                let g =
                    12.0 * weave + 24.0 * fold + 10.0 * (grain(p.x / 1.5, p.y / 1.5, self.seed + 3) - 0.5);
                [150.0 + g, 172.0 + g, 190.0 + g]
            }
        }
    }

    /// How far inside of the card with its round corners (3.18 mm, ISO/IEC 7810) a point lies, mm.
    fn on_card(&self, p: Point) -> f64 {
        let r = 3.18;
        let (x, y) = (p.x.abs() - 0.5 * self.card[0] + r, p.y.abs() - 0.5 * self.card[1] + r);
        let corner = Point::new(x.max(0.0), y.max(0.0)).distance(Point::default());
        r - corner - x.max(y).min(0.0)
    }

    fn colour(&self, p: Point, pixel: f64) -> [f64; 3] {
        let mix = |a: [f64; 3], b: [f64; 3], t: f64| core::array::from_fn(|i| a[i] + t * (b[i] - a[i]));
        let mut seen = self.table(p);
        // Light from the upper left: what stands up darkens what is to its lower right, softly.
        let shade = |seen: [f64; 3], inside: f64, soft: f64, depth: f64| {
            seen.map(|c| c * (1.0 - depth * (0.5 + inside / soft).clamp(0.0, 1.0)))
        };
        if self.ground == Ground::Shadow {
            seen = shade(seen, self.sole.inside(Point::new(p.x - 7.0, p.y + 6.0)), 4.0, 0.42);
            seen = shade(seen, self.on_card(Point::new(p.x - 1.5, p.y + 1.2)), 0.8, 0.35);
        }
        let inside = self.on_card(p);
        if inside > -2.0 * pixel {
            // A card of two colours with a stripe and a chip.
            let print = if p.y.abs() < 8.0 && p.x < 10.0 { [70.0, 90.0, 150.0] } else { self.print };
            let chip = Point::new((p.x + 26.0).abs() - 6.0, (p.y - 4.0).abs() - 5.0);
            let print = if chip.x.max(chip.y) < 0.0 { [200.0, 170.0, 90.0] } else { print };
            seen = mix(seen, print, cover(inside, pixel));
        }
        let inside = self.sole.inside(p);
        if inside > -2.0 * pixel {
            let rust = 24.0 * (grain(p.x / 4.0, p.y / 4.0, self.seed + 5) - 0.5);
            let iron = self.iron.map(|c| c + rust);
            seen = mix(seen, iron, cover(inside, pixel));
        }
        seen
    }

    /// Red, green, blue, opacity by rows.
    pub(crate) fn render(&self) -> Vec<u8> {
        let mut dice = Dice(self.seed);
        let (w, h) = (self.camera.width, self.camera.height);
        let mut all = Vec::with_capacity((w * h * 4) as usize);
        let middle = Point::new(0.5 * f64::from(w), 0.5 * f64::from(h));
        let near = |dx: f64| self.camera.table(Point::new(middle.x + dx, middle.y), 0.0);
        let pixel = 1.2 * near(0.0).distance(near(1.0));
        let lean = [dice.within(-0.12, 0.12), dice.within(-0.12, 0.12)];
        for y in 0..h {
            for x in 0..w {
                let at = Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5);
                let seen = self.colour(self.camera.table(at, 0.0), pixel);
                let (u, v) = (at.x / middle.x - 1.0, at.y / middle.y - 1.0);
                // One side nearer to the window, darker corners.
                let light = 1.0 + lean[0] * u + lean[1] * v - 0.06 * (u * u + v * v);
                // The sum of two even numbers, by their variance of a third.
                let noise = 2.5 * 1.225 * (dice.within(-1.0, 1.0) + dice.within(-1.0, 1.0));
                all.extend(seen.map(|c| (c * light + noise).clamp(0.0, 255.0) as u8));
                all.push(255);
            }
        }
        all
    }
}

/// An invented scene: the iron beside the card, both whole in the picture.
pub(crate) fn scene(dice: &mut Dice, ground: Ground, distance: f64, size: (u32, u32)) -> Scene {
    loop {
        let tilt = dice.within(0.0, 30.0).to_radians();
        let pose = [
            tilt,
            dice.within(0.0, core::f64::consts::TAU),
            dice.within(-0.5, 0.5) + f64::from(dice.whole() as u8 % 2) * core::f64::consts::FRAC_PI_2,
        ];
        let diagonal = f64::from(size.0 * size.0 + size.1 * size.1).sqrt();
        let focal = 26.0 / 43.266_615 * diagonal;
        let camera =
            Camera::over(size, focal, dice.within(-0.005, 0.005), pose, distance, Point::new(0.0, -35.0));
        let length = dice.within(55.0, 105.0);
        let width = length * dice.within(0.5, 0.68);
        let sole = Sole {
            middle: Point::new(dice.within(-10.0, 10.0), -38.0 - 0.5 * width.max(0.5 * length)),
            turn: dice.within(-0.35, 0.35) + f64::from(dice.whole() as u8 % 2) * core::f64::consts::PI,
            length,
            width,
            nose: dice.within(0.5, 0.8),
            sharp: dice.within(0.5, 0.75),
        };
        let card = [dice.within(85.55, 85.65), dice.within(53.95, 54.01)];
        // Cast iron, cleaned iron, rust, brass.
        let irons = [[42.0, 42.0, 46.0], [70.0, 70.0, 74.0], [96.0, 58.0, 36.0], [150.0, 116.0, 40.0]];
        // White, dark blue, green, and one hardly darker than a plain ground.
        let prints = [[232.0, 234.0, 238.0], [36.0, 50.0, 96.0], [60.0, 140.0, 90.0], [172.0, 166.0, 150.0]];
        let print = prints[(dice.whole() % 4) as usize];
        let found = Scene {
            print,
            camera,
            ground,
            sole,
            card,
            iron: irons[(dice.whole() % 4) as usize],
            seed: dice.whole(),
        };
        let shown = |p: &Point| found.camera.shows([p.x, p.y, 0.0]);
        let inner = |p: &Point| {
            let p = shown(p);
            let margin = 0.03 * f64::from(size.0);
            found.camera.holds(Point::new(p.x - margin, p.y - margin))
                && found.camera.holds(Point::new(p.x + margin, p.y + margin))
        };
        let corners = super::corners(found.card);
        let apart = found.sole.outline().iter().all(|p| found.on_card(*p) < -3.0);
        if apart && corners.iter().all(inner) && found.sole.outline().iter().all(inner) {
            return found;
        }
    }
}
