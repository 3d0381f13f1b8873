//! The pixels of a picture, as a canvas gives them.

use crate::Point;

/// Red, green, blue and opacity of each pixel, by rows.
#[derive(Debug, Clone, Copy)]
pub struct Pixels<'a> {
    width: usize,
    height: usize,
    rgba: &'a [u8],
}

impl<'a> Pixels<'a> {
    /// Nothing when there are not four bytes for each pixel, or no pixels.
    #[must_use]
    pub fn of(width: usize, height: usize, rgba: &'a [u8]) -> Option<Pixels<'a>> {
        let size = width.checked_mul(height)?.checked_mul(4)?;
        (size > 0 && rgba.len() == size).then_some(Pixels { width, height, rgba })
    }

    /// Pixels across.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// Pixels down.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// The colour of a pixel; beyond the edges that of the edge.
    pub(crate) fn colour(&self, x: usize, y: usize) -> [u8; 3] {
        let at = 4 * (y.min(self.height - 1) * self.width + x.min(self.width - 1));
        [self.rgba[at], self.rgba[at + 1], self.rgba[at + 2]]
    }

    /// Between pixels, whose middles lie at halves. Nothing outside of the picture.
    pub(crate) fn between(&self, p: Point) -> Option<[f64; 3]> {
        let (w, h) = (self.width as f64, self.height as f64);
        if !(p.x >= 0.0 && p.y >= 0.0 && p.x <= w && p.y <= h) {
            return None;
        }
        let (x, y) = ((p.x - 0.5).max(0.0), (p.y - 0.5).max(0.0));
        let (left, top) = (x as usize, y as usize);
        let (fx, fy) = (x - left as f64, y - top as f64);
        let of = |dx: usize, dy: usize| self.colour(left + dx, top + dy);
        let (a, b, c, d) = (of(0, 0), of(1, 0), of(0, 1), of(1, 1));
        Some(core::array::from_fn(|i| {
            let mix = |p: u8, q: u8| f64::from(p) + fx * (f64::from(q) - f64::from(p));
            let (upper, lower) = (mix(a[i], b[i]), mix(c[i], d[i]));
            upper + fy * (lower - upper)
        }))
    }
}
