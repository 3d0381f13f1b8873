//! Reads the compact art of the tables and writes paths. Art is a line of shapes, each a lower-case letter for its
//! look and then path commands: M L H V C Q Z as in SVG, `O x y r` a circle, `E x y rx ry` an ellipse (a negative
//! rx runs the other way round and so cuts a hole), `R x y w h r` a box with round corners, `G x y s'..'` signs of
//! height s, `X n` pattern n within the shape so far, `Y n` the same but never in
//! the accent. Numbers are in drawing units with at most one decimal place.

use crate::fill;
use crate::glyphs;
use crate::{Look, Shape};

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
        Map::new(x, y, self.sx * inner.sx / 1000, self.sy * inner.sy / 1000)
    }

    fn at(self, x: i32, y: i32) -> (i32, i32) {
        (self.x + scaled(x, self.sx), self.y + scaled(y, self.sy))
    }
}

/// Rounds to the nearest, so that mirrored art stays symmetric.
fn scaled(v: i32, per_mille: i32) -> i32 {
    let p = v * per_mille;
    (p + 500 * p.signum()) / 1000
}

pub(crate) type Point = (i32, i32);

/// What is being drawn, and with which map and accent.
pub(crate) struct Pen {
    pub(crate) shapes: Vec<Shape>,
    pub(crate) map: Map,
    /// True while the asked feature is drawn.
    pub(crate) accent: bool,
    path: String,
    contours: Vec<Vec<Point>>,
    look: u8,
    now: Point,
}

impl Pen {
    pub(crate) fn new() -> Pen {
        Pen {
            shapes: Vec::new(),
            map: Map::SAME,
            accent: false,
            path: String::new(),
            contours: Vec::new(),
            look: b'l',
            now: (0, 0),
        }
    }

    /// Draws all shapes of a line of art.
    pub(crate) fn draw(&mut self, art: &str) {
        self.add(art);
        self.end();
    }

    /// Draws art under another map and accent and comes back to the present ones.
    pub(crate) fn with(&mut self, map: Map, accent: bool, art: &str) {
        let kept = (self.map, self.accent);
        (self.map, self.accent) = (map, accent);
        self.draw(art);
        (self.map, self.accent) = kept;
    }

    /// Reads art and leaves its last shape open, so that the next art goes on with it.
    pub(crate) fn add(&mut self, art: &str) {
        let bytes = art.as_bytes();
        let (mut i, mut command) = (0, b'M');
        let (mut n, mut count) = ([0i32; 6], 0);
        while let Some(&c) = bytes.get(i) {
            i += 1;
            match c {
                b' ' => {}
                b'a'..=b'z' => {
                    self.end();
                    self.look = c;
                }
                b'Z' => self.path.push('Z'),
                b'A'..=b'Y' => (command, count) = (c, 0),
                b'\'' => {
                    let from = i;
                    while bytes.get(i).is_some_and(|&c| c != b'\'') {
                        i += 1;
                    }
                    self.signs(&bytes[from..i], n[0], n[1], n[2]);
                    i += 1;
                }
                _ => {
                    let minus = c == b'-';
                    let mut v = if minus { 0 } else { i32::from(c) - 48 };
                    while let Some(&d @ b'0'..=b'9') = bytes.get(i) {
                        v = v * 10 + i32::from(d) - 48;
                        i += 1;
                    }
                    v *= 10;
                    if bytes.get(i) == Some(&b'.') {
                        v += i32::from(bytes.get(i + 1).map_or(0, |d| d - 48));
                        i += 2;
                    }
                    n[count] = if minus { -v } else { v };
                    count += 1;
                    if count == arity(command) {
                        self.command(command, n);
                        count = 0;
                        if command == b'M' {
                            command = b'L';
                        }
                    }
                }
            }
        }
    }

    fn command(&mut self, command: u8, n: [i32; 6]) {
        let [a, b, c, d, e, f] = n;
        match command {
            b'M' => self.go('M', &[(a, b)]),
            b'L' => self.go('L', &[(a, b)]),
            b'H' => self.go('L', &[(a, self.now.1)]),
            b'V' => self.go('L', &[(self.now.0, a)]),
            b'Q' => self.go('Q', &[(a, b), (c, d)]),
            b'C' => self.go('C', &[(a, b), (c, d), (e, f)]),
            b'O' => self.ellipse(a, b, c, c),
            b'E' => self.ellipse(a, b, c, d),
            b'R' => {
                let (x, y) = (a + c, b + d);
                self.go('M', &[(a + e, b)]);
                self.go('L', &[(x - e, b)]);
                self.corner((x, b), (x, b + e));
                self.go('L', &[(x, y - e)]);
                self.corner((x, y), (x - e, y));
                self.go('L', &[(a + e, y)]);
                self.corner((a, y), (a, y - e));
                self.go('L', &[(a, b + e)]);
                self.corner((a, b), (a + e, b));
                self.path.push('Z');
            }
            b'X' => self.pattern(a / 10, b't'),
            _ => self.pattern(a / 10, b'f'),
        }
    }

    fn corner(&mut self, over: Point, to: Point) {
        if self.now != to {
            self.go('Q', &[over, to]);
        }
    }

    fn ellipse(&mut self, x: i32, y: i32, rx: i32, ry: i32) {
        // 0.552: the handle of the cubic that comes nearest to a quarter circle.
        let (kx, ky) = (scaled(rx, 552), scaled(ry, 552));
        self.go('M', &[(x + rx, y)]);
        self.go('C', &[(x + rx, y + ky), (x + kx, y + ry), (x, y + ry)]);
        self.go('C', &[(x - kx, y + ry), (x - rx, y + ky), (x - rx, y)]);
        self.go('C', &[(x - rx, y - ky), (x - kx, y - ry), (x, y - ry)]);
        self.go('C', &[(x + kx, y - ry), (x + rx, y - ky), (x + rx, y)]);
        self.path.push('Z');
    }

    fn signs(&mut self, signs: &[u8], mut x: i32, y: i32, size: i32) {
        let (map, look) = (self.map, self.look);
        for &sign in signs {
            self.map = map.of(Map::new(x, y, size * 10, size * 10));
            self.add(glyphs::glyph(sign));
            x += size * 95 / 100;
        }
        (self.map, self.look) = (map, look);
    }

    /// One command with its points, in the units of the art.
    fn go(&mut self, command: char, to: &[Point]) {
        self.path.push(command);
        let start = self.map.at(self.now.0, self.now.1);
        let mut mapped = [(0, 0); 3];
        for (i, p) in to.iter().enumerate() {
            mapped[i] = self.map.at(p.0, p.1);
            number(&mut self.path, mapped[i].0, i > 0);
            number(&mut self.path, mapped[i].1, true);
            self.now = *p;
        }
        if command == 'M' || self.contours.is_empty() {
            self.contours.push(Vec::new());
        }
        if let Some(contour) = self.contours.last_mut() {
            fill::flatten(contour, start, &mapped[..to.len()]);
        }
    }

    /// Closes the shape that was begun.
    pub(crate) fn end(&mut self) {
        let path = core::mem::take(&mut self.path);
        self.contours.clear();
        self.emit(self.look, path);
    }

    fn emit(&mut self, look: u8, path: String) {
        if path.is_empty() {
            return;
        }
        let look = match (look, self.accent) {
            (b'b', false) => Look::Body,
            (b'b', true) => Look::AskedBody,
            (b'l', false) => Look::Line,
            (b't', false) => Look::Thin,
            (b'n' | b't', true) => Look::AskedThin,
            (b'h' | b'd', accent) => {
                let fill = if look == b'h' { Look::Hole } else { Look::Day };
                if accent {
                    self.shapes.push(Shape {
                        path: path.clone(),
                        look: fill,
                    });
                    Look::Asked
                } else {
                    fill
                }
            }
            // Fine lines that stay plain inside an asked part.
            (b'f', _) => Look::Thin,
            // Plain whatever is asked.
            (b'p', _) => Look::Body,
            (b'i', _) => Look::Line,
            (b'k', _) => Look::Hole,
            // Arrows and the like: only where something is asked.
            (b'a' | b'n', false) => return,
            _ => Look::Asked,
        };
        self.shapes.push(Shape { path, look });
    }

    /// Fills the shape begun so far with a pattern, as a shape of its own above it.
    fn pattern(&mut self, which: i32, look: u8) {
        let contours = core::mem::take(&mut self.contours);
        self.end();
        let mut path = String::new();
        fill::pattern(&mut path, &contours, which);
        self.emit(look, path);
        self.contours = contours;
    }
}

fn arity(command: u8) -> usize {
    match command {
        b'H' | b'V' | b'X' | b'Y' => 1,
        b'O' => 3,
        b'Q' | b'E' => 4,
        b'R' => 5,
        b'C' => 6,
        // The three numbers of `G` are taken by the signs that follow.
        b'G' => 7,
        _ => 2,
    }
}

/// Appends a whole number; `gap` asks for a space where no minus parts it from the number before.
pub(crate) fn number(path: &mut String, v: i32, gap: bool) {
    if v < 0 {
        path.push('-');
    } else if gap {
        path.push(' ');
    }
    digits(path, v.unsigned_abs());
}

fn digits(path: &mut String, v: u32) {
    if v > 9 {
        digits(path, v / 10);
    }
    path.push(char::from(b'0' + (v % 10) as u8));
}
