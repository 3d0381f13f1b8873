//! A camera over a plane: which point of the plane a pixel shows.

use super::lens::Lens;
use crate::Point;
use crate::linear::{Mat3, Vec3, dot, plus, product, rotation, scaled, times, transposed, unit};

/// How many unknowns a view has: three of turning, three of place, focal length, distortion, two of the thing's size.
pub(crate) const UNKNOWNS: usize = 10;
pub(crate) type Step = [f64; UNKNOWNS];

/// A camera over the plane of a card or coin, whose middle is the origin. z goes away from the camera.
#[derive(Debug, Clone, Copy)]
pub(crate) struct View {
    pub(crate) lens: Lens,
    /// Turns the plane's axes into the camera's.
    pub(crate) turn: Mat3,
    /// Where the origin is seen from the camera, mm.
    pub(crate) place: Vec3,
    /// What the focal length differs from the lens's, as a share; what the straightening differs from none.
    pub(crate) focal: f64,
    pub(crate) bend: f64,
    /// What the thing's two sizes differ from their nominal ones, mm.
    pub(crate) size: [f64; 2],
}

impl View {
    /// From the first two columns of the plane's map to the camera's plane at one focal length.
    pub(crate) fn of_map(lens: Lens, map: &Mat3) -> View {
        let [x, y, t] = transposed(map);
        let norm = |v: Vec3| (v[0] * v[0] + v[1] * v[1] + v[2] * v[2]).sqrt();
        let by = 2.0 / (norm(x) + norm(y)) * if t[2] < 0.0 { -1.0 } else { 1.0 };
        let turn = rotation([scaled(x, by), scaled(y, by)]);
        View { lens, turn, place: scaled(t, by), focal: 0.0, bend: 0.0, size: [0.0; 2] }
    }

    /// Where the camera is above the plane, mm. Its z is below zero.
    pub(crate) fn camera(&self) -> Vec3 {
        scaled(times(&transposed(&self.turn), self.place), -1.0)
    }

    /// Cosine of the angle between the camera's axis and the plane's normal.
    pub(crate) fn upright(&self) -> f64 {
        self.turn[2][2]
    }

    /// The point that a pixel shows of the plane `height` mm above this one. Not finite above the horizon.
    pub(crate) fn seen(&self, pixel: Point, height: f64) -> Point {
        let p = self.lens.centred(pixel);
        let near = 1.0 + self.focal;
        let bent = 1.0 - self.bend * (p.x * p.x + p.y * p.y);
        let ray = times(&transposed(&self.turn), [p.x * bent / near, p.y * bent / near, 1.0]);
        let from = self.camera();
        let way = (-height - from[2]) / ray[2];
        let way = if way > 0.0 && ray[2] > 0.0 { way } else { f64::NAN };
        Point::new(from[0] + way * ray[0], from[1] + way * ray[1])
    }

    /// The pixel that shows a point of the plane `height` mm above this one.
    pub(crate) fn shown(&self, p: Point, height: f64) -> Point {
        let [x, y, z] = plus(times(&self.turn, [p.x, p.y, -height]), self.place);
        let near = (1.0 + self.focal) / z;
        let (x, y) = (x * near, y * near);
        // Undoes the straightening of `seen`; two rounds are good to a millionth for the distortions allowed for.
        let mut r2 = x * x + y * y;
        for _ in 0..3 {
            let bent = 1.0 / (1.0 - self.bend * r2);
            r2 = (x * x + y * y) * bent * bent;
        }
        let bent = 1.0 / (1.0 - self.bend * r2);
        self.lens.pixel(Point::new(x * bent, y * bent))
    }

    /// The same plane leaning as much the other way about its line of sight: from far a picture hardly tells the two apart.
    pub(crate) fn leaning_back(&self) -> View {
        let sight = unit(self.place);
        // Mirrors the plane's axes in depth along the line of sight.
        let mirrored = |axis: Vec3| plus(axis, scaled(sight, -2.0 * dot(axis, sight)));
        let [x, y, _] = transposed(&self.turn);
        View { turn: rotation([mirrored(x), mirrored(y)]), ..*self }
    }

    /// The view one step away. Turning is about the plane's own axes, places are shares of the distance.
    pub(crate) fn stepped(&self, d: &Step) -> View {
        let spin = [[1.0, -d[2], d[1]], [d[2], 1.0, -d[0]], [-d[1], d[0], 1.0]];
        let [x, y, _] = transposed(&product(&self.turn, &spin));
        let far = self.place[2];
        View {
            lens: self.lens,
            turn: rotation([x, y]),
            place: plus(self.place, [d[3] * far, d[4] * far, d[5] * far]),
            focal: self.focal + d[6],
            bend: self.bend + d[7],
            size: [self.size[0] + d[8], self.size[1] + d[9]],
        }
    }
}
