//! Reads strokes and writes paths. The language is told in `data/art/README.md`. Strokes come from outside: whatever
//! is no part of the language is passed over, numbers and the length of what is written are bounded.

use crate::art::Find;
use crate::drawing::name;
use crate::fill;
use crate::map::{Map, Point, scaled};
use crate::{Look, Shape};

/// The longest that all paths of a drawing may be, bytes; what goes beyond is left out. The fullest drawing so far
/// takes a tenth of it.
pub(crate) const LONGEST: usize = 200_000;
/// No skin.
pub(crate) const BARE: (u8, i32) = (0, -1);

/// What is being drawn, and with which map and accent.
pub(crate) struct Pen<'a> {
    pub(crate) shapes: Vec<Shape>,
    pub(crate) map: Map,
    /// True while the asked feature is drawn.
    pub(crate) accent: bool,
    /// What `U` draws, and the point about which it is scaled.
    pub(crate) slot: (&'a str, Point),
    /// The map under which `U` drew last.
    pub(crate) slot_map: Map,
    /// Whether a figure was wanted that is not there.
    pub(crate) missing: bool,
    /// What the parts are filled with: a look such as that of a hole and the number of a pattern; 0 where it is neither.
    pub(crate) skin: (u8, i32),
    /// True while lines are drawn fine, because what they show is drawn small.
    pub(crate) fine: bool,
    find: &'a Find<'a>,
    /// True within a sign or a slot: these use no others.
    within: bool,
    written: usize,
    path: String,
    contours: Vec<Vec<Point>>,
    look: u8,
    now: Point,
}

impl<'a> Pen<'a> {
    pub(crate) fn new(find: &'a Find<'a>) -> Pen<'a> {
        Pen {
            shapes: Vec::new(),
            map: Map::SAME,
            accent: false,
            slot: ("", (0, 0)),
            slot_map: Map::SAME,
            missing: false,
            skin: BARE,
            fine: false,
            find,
            within: false,
            written: 0,
            path: String::new(),
            contours: Vec::new(),
            look: b'l',
            now: (0, 0),
        }
    }

    /// The strokes of a figure; none, and a note of it, when it is not there.
    pub(crate) fn get(&mut self, key: &str, value: &str) -> &'a str {
        let found = self.find(key, value);
        self.missing |= found.is_none();
        found.unwrap_or_default()
    }

    /// Draws a figure.
    pub(crate) fn part(&mut self, key: &str, value: &str) {
        let strokes = self.get(key, value);
        self.draw(strokes);
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
            if self.written + self.path.len() > LONGEST {
                return;
            }
            if matches!(c, b'-' | b'0'..=b'9') {
                n[count] = tenths(bytes, &mut i);
                count += 1;
                if count == arity(command) {
                    self.command(command, n);
                    count = 0;
                    if command == b'M' {
                        command = b'L';
                    }
                }
                continue;
            }
            i += 1;
            match c {
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
                    self.signs(art.get(from..i).unwrap_or_default(), n);
                    i += 1;
                }
                _ => {}
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
            b'U' => {
                let (strokes, (x, y)) = self.slot;
                let map = self.map;
                let inner = Map::new(x * (1000 - a) / 1000, y * (1000 - b) / 1000, a, b);
                self.slot_map = map.of(inner);
                self.inner(self.slot_map, strokes);
                self.map = map;
            }
            b'X' => self.pattern(a / 10, b't'),
            b'Y' => self.pattern(a / 10, b'f'),
            _ => {}
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

    fn signs(&mut self, signs: &str, [mut x, y, size, ..]: [i32; 6]) {
        let (map, look) = (self.map, self.look);
        for sign in signs.chars() {
            let strokes = self.get("sign", sign.encode_utf8(&mut [0; 4]));
            self.inner(map.of(Map::new(x, y, size * 10, size * 10)), strokes);
            x += size * 95 / 100;
        }
        (self.map, self.look) = (map, look);
    }

    /// Strokes within strokes, one deep.
    fn inner(&mut self, map: Map, strokes: &str) {
        if !self.within {
            self.within = true;
            self.map = map;
            self.add(strokes);
            self.within = false;
        }
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
        let contours = core::mem::take(&mut self.contours);
        let (fill, pattern) = self.skin;
        if self.look != b'b' || path.is_empty() || self.skin == BARE {
            return self.emit(self.look, path);
        }
        if fill == 0 {
            self.emit(b'b', path);
        } else {
            self.emit(fill, path.clone());
            self.emit(b'i', path);
        }
        let mut path = String::new();
        fill::pattern(&mut path, &contours, pattern);
        self.emit(b't', path);
    }

    /// Gives the shape that was begun another look.
    pub(crate) fn relook(&mut self, look: u8) {
        self.look = look;
    }

    /// Whether there is such a figure; its strokes.
    pub(crate) fn find(&self, key: &str, value: &str) -> Option<&'a str> {
        (self.find)(&name(key, value)).map(|f| f.strokes.as_str())
    }

    fn emit(&mut self, look: u8, path: String) {
        if path.is_empty() || self.written > LONGEST {
            return;
        }
        self.written += path.len();
        let look = match (look, self.accent) {
            (b'b', false) => Look::Body,
            (b'b', true) => Look::AskedBody,
            (b'l', false) if self.fine => Look::Thin,
            (b'l', false) => Look::Line,
            (b't', false) => Look::Thin,
            (b'n' | b't', true) => Look::AskedThin,
            (b'h' | b'd' | b'y' | b'r', accent) => {
                let fill = match look {
                    b'h' => Look::Hole,
                    b'd' => Look::Day,
                    b'y' => Look::Yellow,
                    _ => Look::Brown,
                };
                if accent {
                    self.shapes.push(Shape { path: path.clone(), look: fill });
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

/// How many numbers a command takes. Those of `G` are taken by the signs that follow, those of what is unknown by
/// nobody: no more than six are kept.
fn arity(command: u8) -> usize {
    match command {
        b'H' | b'V' | b'X' | b'Y' => 1,
        b'M' | b'L' | b'U' => 2,
        b'O' | b'G' => 3,
        b'Q' | b'E' => 4,
        b'R' => 5,
        _ => 6,
    }
}

/// Reads a number with at most three digits and one decimal place, in tenths.
fn tenths(bytes: &[u8], i: &mut usize) -> i32 {
    let minus = bytes.get(*i) == Some(&b'-');
    *i += usize::from(minus);
    let mut v = 0;
    while let Some(d @ b'0'..=b'9') = bytes.get(*i) {
        v = (v * 10 + i32::from(d - b'0')).min(999);
        *i += 1;
    }
    v *= 10;
    if bytes.get(*i) == Some(&b'.') {
        *i += 1;
        if let Some(d @ b'0'..=b'9') = bytes.get(*i) {
            v += i32::from(d - b'0');
            *i += 1;
        }
    }
    if minus { -v } else { v }
}

/// The numbers at the beginning of a head, in tenths; 0 for those that are not there.
pub(crate) fn numbers(head: &str) -> [i32; 6] {
    let mut n = [0; 6];
    for (n, word) in n.iter_mut().zip(head.split_ascii_whitespace()) {
        *n = tenths(word.as_bytes(), &mut 0);
    }
    n
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
