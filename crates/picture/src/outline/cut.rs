//! Cutting the piece out of the photograph, a bounded amount of work at a call.

use super::Contour;
use super::background::{Background, Seen};
use super::contour::smoothed;
use super::finer::finer;
use super::mask::Field;
use crate::photo::{CARD, Placed};
use crate::{Pixels, Point};

/// The part of the plane that is looked at, mm from the middle of the card.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Its upper left corner.
    pub from: Point,
    /// Its lower right corner.
    pub to: Point,
}

impl Window {
    /// Around points on the piece, with room for the ground it lies on.
    #[must_use]
    pub fn around(points: &[Point]) -> Window {
        let least = |of: &dyn Fn(&Point) -> f64| points.iter().map(of).fold(f64::INFINITY, f64::min);
        let (from, to) = ([least(&|p| p.x), least(&|p| p.y)], [-least(&|p| -p.x), -least(&|p| -p.y)]);
        let room = 10.0 + 0.15 * (to[0] - from[0]).max(to[1] - from[1]);
        Window {
            from: Point::new(from[0] - room, from[1] - room),
            to: Point::new(to[0] + room, to[1] + room),
        }
    }
}

/// What a person says where the cut went wrong: this spot belongs to the piece, or to the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mend {
    /// mm from the middle of the card.
    pub at: Point,
    /// mm.
    pub radius: f64,
    /// Whether it is the piece.
    pub piece: bool,
}

/// Why no outline was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Uncut {
    /// The window is empty, too large, or hardly on the picture.
    NoWindow,
    /// The ground around the piece is of many colours, or there is too little of it.
    NoGround,
    /// Nothing stands out from the ground.
    NoPiece,
    /// What stands out reaches the border of the window.
    Touches,
}

/// Millimetres a pixel of the window has at least.
const FINE: f64 = 0.2;
/// Pixels of the window's longer side at most.
const MOST: f64 = 640.0;
/// Rows of the window at a call.
const ROWS: usize = 40;
/// Half deviations of the ground by which a piece must stand out on average.
const STANDS_OUT: f64 = 8.0;

enum Stage {
    Sampling(usize),
    Ground,
    Weighing(Background, usize),
    Smoothing,
    Parting(Field, u8),
    Following(Field),
    Done(Result<Contour, Uncut>),
}

/// A cut under way. Call [`Cutting::step`] with the same picture until it says that it is done.
pub struct Cutting {
    placed: Placed,
    height: f64,
    window: Window,
    mends: Vec<Mend>,
    /// mm a pixel of the window.
    grain: f64,
    size: [usize; 2],
    colours: Vec<[u8; 3]>,
    /// 1 where the card lies or the picture ends.
    void: Field,
    strange: Field,
    stage: Stage,
}

impl Cutting {
    /// Begins with a window of the plane `height` mm above the card's.
    #[must_use]
    pub fn new(placed: Placed, height: f64, window: Window, mends: Vec<Mend>) -> Cutting {
        let (w, h) = (window.to.x - window.from.x, window.to.y - window.from.y);
        let fits = (5.0..2000.0).contains(&w) && (5.0..2000.0).contains(&h);
        let grain = (w.max(h) / MOST).max(FINE);
        let pixels_of = |mm: f64| if fits { libm::round(mm / grain) as usize } else { 0 };
        let size = [pixels_of(w), pixels_of(h)];
        let field = Field::new(size[0], size[1]);
        Cutting {
            placed,
            height,
            window,
            mends,
            grain,
            size,
            colours: Vec::with_capacity(size[0] * size[1]),
            void: field.clone(),
            strange: field,
            stage: if fits { Stage::Sampling(0) } else { Stage::Done(Err(Uncut::NoWindow)) },
        }
    }

    /// Does a little. Gives the outline, or why there is none, when done.
    pub fn step(&mut self, pixels: Pixels<'_>) -> Option<Result<Contour, Uncut>> {
        let stage = core::mem::replace(&mut self.stage, Stage::Ground);
        self.stage = match stage {
            Stage::Sampling(row) if row >= self.size[1] => Stage::Ground,
            Stage::Sampling(row) => {
                let to = (row + ROWS).min(self.size[1]);
                (row..to).for_each(|y| self.sample(pixels, y));
                Stage::Sampling(to)
            }
            Stage::Ground => match Background::of(&self.border()) {
                Some(ground) => Stage::Weighing(ground, 0),
                None => Stage::Done(Err(Uncut::NoGround)),
            },
            Stage::Weighing(_, row) if row >= self.size[1] => Stage::Smoothing,
            Stage::Weighing(ground, row) => {
                let to = (row + 2 * ROWS).min(self.size[1]);
                (row..to).for_each(|y| self.weigh(&ground, y));
                Stage::Weighing(ground, to)
            }
            Stage::Smoothing => match self.smooth() {
                Some((strange, threshold)) => Stage::Parting(strange, threshold),
                None => Stage::Done(Err(Uncut::NoPiece)),
            },
            Stage::Parting(strange, threshold) => match strange.largest(threshold) {
                (_, true) => Stage::Done(Err(Uncut::Touches)),
                (piece, false) => Stage::Following(piece),
            },
            Stage::Following(piece) => Stage::Done(self.follow(pixels, &piece)),
            done @ Stage::Done(_) => done,
        };
        if let Stage::Done(found) = &self.stage { Some(found.clone()) } else { None }
    }

    /// Where a place of the window is seen in the picture.
    #[must_use]
    pub fn pixel(&self, mm: Point) -> Point {
        self.placed.pixel(mm, self.height)
    }

    /// How much of the work is done, per mille.
    #[must_use]
    pub fn done(&self) -> u32 {
        let rows = self.size[1].max(1);
        let share = |row: usize, of: usize| (row.min(rows) * of / rows) as u32;
        match &self.stage {
            Stage::Sampling(row) => share(*row, 600),
            Stage::Ground => 600,
            Stage::Weighing(_, row) => 650 + share(*row, 200),
            Stage::Smoothing => 850,
            Stage::Parting(..) => 900,
            Stage::Following(_) => 950,
            Stage::Done(_) => 1000,
        }
    }

    /// The middle of a pixel of the window, mm.
    fn middle(&self, x: usize, y: usize) -> Point {
        let of = |from: f64, i: usize| from + (i as f64 + 0.5) * self.grain;
        Point::new(of(self.window.from.x, x), of(self.window.from.y, y))
    }

    fn sample(&mut self, pixels: Pixels<'_>, y: usize) {
        // The card with a little around it, in its own plane.
        let on_card = |p: Point| p.x.abs() < 0.5 * CARD[0] + 1.5 && p.y.abs() < 0.5 * CARD[1] + 1.5;
        for x in 0..self.size[0] {
            let pixel = self.placed.pixel(self.middle(x, y), self.height);
            let colour = pixels.between(pixel).filter(|_| !on_card(self.placed.on_plane(pixel, 0.0)));
            self.void.of[y * self.size[0] + x] = u8::from(colour.is_none());
            self.colours.push(colour.unwrap_or_default().map(|c| c as u8));
        }
    }

    /// Where a pixel lies in the window, from -1 to 1.
    fn place(&self, x: usize, y: usize) -> [f64; 2] {
        let of = |i: usize, n: usize| 2.0 * (i as f64 + 0.5) / n as f64 - 1.0;
        [of(x, self.size[0]), of(y, self.size[1])]
    }

    /// Every second pixel of the outer twentieth.
    fn border(&self) -> Vec<Seen> {
        let [w, h] = self.size;
        let rim = w.min(h) / 20 + 2;
        let mut all = Vec::new();
        for y in (0..h).step_by(2) {
            for x in (0..w).step_by(2) {
                let at = y * w + x;
                let outer = x < rim || y < rim || x + rim >= w || y + rim >= h;
                if outer && self.void.of[at] == 0 {
                    all.push((self.place(x, y), self.colours[at].map(f64::from)));
                }
            }
        }
        // A ground of which more than half is hidden tells too little.
        if 4 * all.len() < rim * (w + h) / 2 { Vec::new() } else { all }
    }

    fn weigh(&mut self, ground: &Background, y: usize) {
        for x in 0..self.size[0] {
            let at = y * self.size[0] + x;
            let seen = self.void.of[at] == 0;
            let strange = ground.strangeness(self.place(x, y), self.colours[at].map(f64::from));
            let middle = self.middle(x, y);
            let mended = self.mends.iter().rev().find(|m| m.at.distance(middle) <= m.radius);
            self.strange.of[at] = match mended {
                Some(mend) => {
                    if mend.piece {
                        255
                    } else {
                        0
                    }
                }
                None => {
                    if seen {
                        strange
                    } else {
                        0
                    }
                }
            };
        }
    }

    /// How strange each place is, and the threshold above which it is the piece.
    fn smooth(&self) -> Option<(Field, u8)> {
        // A square of half a millimetre and more: the grain of wood, the threads of a cloth.
        let r = libm::round(0.5 / self.grain).max(1.0) as usize;
        let strange = self.strange.blurred(r).blurred(r);
        let (threshold, low, high) = strange.threshold();
        (high - low >= STANDS_OUT).then_some((strange, threshold))
    }

    fn follow(&self, pixels: Pixels<'_>, piece: &Field) -> Result<Contour, Uncut> {
        // At least a hundredth of the window.
        let edge = piece.edge();
        if 100 * piece.of.iter().filter(|v| **v == 1).count() < piece.of.len() {
            return Err(Uncut::NoPiece);
        }
        let mm = |[x, y]: &[i32; 2]| {
            Point::new(
                self.window.from.x + f64::from(*x) * self.grain,
                self.window.from.y + f64::from(*y) * self.grain,
            )
        };
        let rough: Vec<Point> = edge.iter().map(mm).collect();
        // A bell of half a millimetre: sqrt(rounds / 2) points of one grain each.
        let bell = 0.5 / self.grain;
        let rounds = (2.0 * bell * bell).max(4.0) as usize;
        let found = Contour::of(&smoothed(&rough, rounds)).ok_or(Uncut::NoPiece)?;
        // What a person drew stays as it was drawn.
        let colour = |p: Point| {
            let drawn = self.mends.iter().any(|m| m.at.distance(p) <= m.radius);
            if drawn { None } else { pixels.between(self.placed.pixel(p, self.height)) }
        };
        finer(&found, &colour).ok_or(Uncut::NoPiece)
    }
}
