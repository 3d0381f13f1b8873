//! Lists of whole numbers, written and read.

use crate::Point;

/// Numbers in a message at most.
pub const MOST_WORDS: usize = 8192;
/// Tenths of a pixel that a spot may be from the corner: pictures have far fewer.
const FAR: i32 = 200_000;

/// A place in the working picture, in tenths of a pixel from its upper left corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Spot {
    /// To the right.
    pub x: i32,
    /// Down.
    pub y: i32,
}

impl Spot {
    /// A spot.
    #[must_use]
    pub fn new(x: i32, y: i32) -> Spot {
        Spot { x, y }
    }

    /// In pixels.
    #[must_use]
    pub fn point(self) -> Point {
        Point::new(f64::from(self.x) / 10.0, f64::from(self.y) / 10.0)
    }

    /// From pixels, to the nearest tenth; nothing for a point that is none or far away.
    #[must_use]
    pub fn of(p: Point) -> Option<Spot> {
        let near = |v: f64| v.is_finite() && v.abs() * 10.0 < f64::from(FAR);
        (near(p.x) && near(p.y)).then(|| Spot::new(tenths(p.x), tenths(p.y)))
    }
}

/// To the nearest tenth. The conversion saturates.
pub(super) fn tenths(v: f64) -> i32 {
    libm::round(v * 10.0) as i32
}

/// Numbers that are read from the front.
pub(super) struct Reader<'a>(pub(super) &'a [i32]);

impl Reader<'_> {
    /// A number from `least` to `most`.
    pub(super) fn number(&mut self, least: i32, most: i32) -> Option<i32> {
        let (first, rest) = self.0.split_first()?;
        self.0 = rest;
        (least..=most).contains(first).then_some(*first)
    }

    pub(super) fn spot(&mut self) -> Option<Spot> {
        Some(Spot { x: self.number(-FAR, FAR)?, y: self.number(-FAR, FAR)? })
    }

    /// A count, from `least` to `most`, and as many of something.
    pub(super) fn list<T>(
        &mut self,
        least: i32,
        most: i32,
        one: &dyn Fn(&mut Self) -> Option<T>,
    ) -> Option<Vec<T>> {
        let count = self.number(least, most)?;
        (0..count).map(|_| one(self)).collect()
    }

    /// Nothing may be left over.
    pub(super) fn end<T>(self, found: T) -> Option<T> {
        self.0.is_empty().then_some(found)
    }
}

pub(super) fn put_spots(words: &mut Vec<i32>, spots: &[Spot]) {
    words.extend(spots.iter().flat_map(|s| [s.x, s.y]));
}

pub(super) fn put_list(words: &mut Vec<i32>, spots: &[Spot]) {
    words.push(spots.len() as i32);
    put_spots(words, spots);
}

/// The strokes of a drawn outline (`M L H V C Q Z`, absolute, whole numbers) as the corners of a polygon, curves in
/// eighths; nothing for strokes that are none.
#[must_use]
pub fn strokes(path: &str) -> Option<Vec<Spot>> {
    let mut found: Vec<Spot> = Vec::new();
    let mut rest = path.bytes().peekable();
    let mut command = b' ';
    let number = |rest: &mut core::iter::Peekable<core::str::Bytes<'_>>| -> Option<i32> {
        while rest.next_if(|b| matches!(b, b' ' | b',' | b'\n')).is_some() {}
        let sign = if rest.next_if_eq(&b'-').is_some() { -1 } else { 1 };
        let mut value = i32::from(rest.next_if(u8::is_ascii_digit)? - b'0');
        while let Some(digit) = rest.next_if(u8::is_ascii_digit) {
            value = value.checked_mul(10)?.checked_add(i32::from(digit - b'0'))?;
        }
        (value <= FAR).then_some(sign * value)
    };
    loop {
        while rest.next_if(|b| matches!(b, b' ' | b'\n')).is_some() {}
        let Some(next) = rest.peek().copied() else { break };
        if next.is_ascii_alphabetic() {
            rest.next();
            command = next;
            // A second figure is a hole or another part: the first is the outline.
            if command == b'Z' || command == b'M' && !found.is_empty() {
                break;
            }
        }
        let at = found.last().copied().unwrap_or_default();
        let mut spot = || Some(Spot { x: number(&mut rest)?, y: number(&mut rest)? });
        match command {
            b'M' | b'L' => found.push(spot()?),
            b'Q' => {
                let (a, b) = (spot()?, spot()?);
                let third = |p: Spot| Spot { x: (p.x + 2 * a.x) / 3, y: (p.y + 2 * a.y) / 3 };
                curve(&mut found, [at, third(at), third(b), b]);
            }
            b'C' => {
                let (a, b, c) = (spot()?, spot()?, spot()?);
                curve(&mut found, [at, a, b, c]);
            }
            b'H' => found.push(Spot { x: number(&mut rest)?, y: at.y }),
            b'V' => found.push(Spot { x: at.x, y: number(&mut rest)? }),
            _ => return None,
        }
        if found.len() > 400 {
            return None;
        }
    }
    (found.len() > 2).then_some(found)
}

fn curve(found: &mut Vec<Spot>, [a, b, c, d]: [Spot; 4]) {
    for t in 1..=8_i64 {
        let s = 8 - t;
        let at = |a: i32, b: i32, c: i32, d: i32| {
            let [a, b, c, d] = [a, b, c, d].map(i64::from);
            ((s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d) / 512) as i32
        };
        found.push(Spot { x: at(a.x, b.x, c.x, d.x), y: at(a.y, b.y, c.y, d.y) });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn drawn_strokes_become_a_polygon() {
        // By hand: a square, and half a circle's curve whose middle lies at (a + 3b + 3c + d) / 8.
        let square = strokes("M0 0L100 0 100 100H0Z").map(|s| s.len());
        assert_eq!(square, Some(4));
        let curve = strokes("M0 0C0 80 80 80 80 0Z").unwrap_or_default();
        assert_eq!(curve.get(4), Some(&Spot::new(40, 60)));
        assert_eq!(curve.last(), Some(&Spot::new(80, 0)));
        // The second figure is not of the outline.
        assert_eq!(strokes("M0 0L100 0 100 100ZM5 5L6 5 6 6Z").map(|s| s.len()), Some(3));
        for bad in ["", "M0 0", "M0 0L1 x 2 2", "A0 0", "M99999999999 0L1 1 2 2Z", "M0 0C1 1 2 2"] {
            assert_eq!(strokes(bad), None, "{bad}");
        }
    }
}
