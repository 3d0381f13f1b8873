//! From how strange each pixel is to the one piece in the middle: threshold, flood from the border, parts.

/// Numbers of one byte for each pixel of a window.
#[derive(Debug, Clone)]
pub(super) struct Field {
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) of: Vec<u8>,
}

impl Field {
    pub(super) fn new(width: usize, height: usize) -> Field {
        Field { width, height, of: vec![0; width * height] }
    }

    fn at(&self, x: usize, y: usize) -> u8 {
        self.of[y * self.width + x]
    }

    /// The mean over a square of `2 r + 1` pixels, at the borders over what there is of it.
    pub(super) fn blurred(&self, r: usize) -> Field {
        let along = |from: &Field, step: usize, line: usize, n: usize, lines: usize| {
            let mut to = from.clone();
            for k in 0..lines {
                let at = |i: usize| k * line + i * step;
                let mut sum: u32 = (0..r.min(n)).map(|i| u32::from(from.of[at(i)])).sum();
                let mut count = r.min(n) as u32;
                for i in 0..n {
                    if i + r < n {
                        sum += u32::from(from.of[at(i + r)]);
                        count += 1;
                    }
                    to.of[at(i)] = ((sum + count / 2) / count.max(1)) as u8;
                    if i >= r {
                        sum -= u32::from(from.of[at(i - r)]);
                        count -= 1;
                    }
                }
            }
            to
        };
        let across = along(self, 1, self.width, self.width, self.height);
        along(&across, self.width, 1, self.height, self.width)
    }

    /// Otsu's threshold (IEEE Transactions on Systems, Man and Cybernetics 9, 1979): the values above it differ most from
    /// those up to it. Gives the threshold and the two means.
    pub(super) fn threshold(&self) -> (u8, f64, f64) {
        let mut counts = [0.0; 256];
        for v in &self.of {
            counts[usize::from(*v)] += 1.0;
        }
        let all: f64 = counts.iter().sum();
        let total: f64 = counts.iter().enumerate().map(|(v, n)| v as f64 * n).sum();
        let (mut below, mut sum, mut best) = (0.0, 0.0, (0, 0.0, 0.0));
        let mut most = -1.0;
        for (v, n) in (0_u8..=255).zip(counts) {
            below += n;
            sum += f64::from(v) * n;
            if below == 0.0 || below >= all {
                continue;
            }
            let (low, high) = (sum / below, (total - sum) / (all - below));
            let between = below * (all - below) * (high - low) * (high - low);
            if between > most {
                (most, best) = (between, (v, low, high));
            }
        }
        best
    }

    /// Puts `to` on all pixels connected by their sides to one of `from` that now hold a value for which `is`.
    fn flood(&mut self, mut from: Vec<usize>, is: &dyn Fn(u8) -> bool, to: u8) -> usize {
        let mut count = 0;
        while let Some(at) = from.pop() {
            if !is(self.of[at]) {
                continue;
            }
            self.of[at] = to;
            count += 1;
            let x = at % self.width;
            if x > 0 {
                from.push(at - 1);
            }
            if x + 1 < self.width {
                from.push(at + 1);
            }
            if at >= self.width {
                from.push(at - self.width);
            }
            if at + self.width < self.of.len() {
                from.push(at + self.width);
            }
        }
        count
    }

    fn border(&self) -> Vec<usize> {
        let (w, h) = (self.width, self.height);
        let mut all: Vec<usize> = (0..w).flat_map(|x| [x, (h - 1) * w + x]).collect();
        all.extend((0..h).flat_map(|y| [y * w, y * w + w - 1]));
        all
    }

    /// The largest part of what is above the threshold, holes filled: 1 on it, 0 elsewhere. And whether it reaches the
    /// border.
    pub(super) fn largest(&self, threshold: u8) -> (Field, bool) {
        const PIECE: u8 = 254;
        const GROUND: u8 = 255;
        let mut parts = Field { of: self.of.iter().map(|v| u8::from(*v > threshold)).collect(), ..*self };
        // What the border's ground does not reach is inside of something.
        let border = parts.border();
        parts.flood(border, &|v| v == 0, GROUND);
        let mut best = (0, 0);
        for at in 0..parts.of.len() {
            if parts.of[at] < 2 {
                let size = parts.flood(vec![at], &|v| v < 2, 2);
                if size > best.0 {
                    best = (size, at);
                }
            }
        }
        if best.0 > 0 {
            parts.flood(vec![best.1], &|v| v == 2, PIECE);
        }
        let touches = parts.border().iter().any(|at| parts.of[*at] == PIECE);
        for v in &mut parts.of {
            *v = u8::from(*v == PIECE);
        }
        (parts, touches)
    }

    /// The corners of pixels along the edge of what is 1, once round from its topmost pixel, what is 1 on the right hand.
    pub(super) fn edge(&self) -> Vec<[i32; 2]> {
        let Some(first) = self.of.iter().position(|v| *v == 1) else { return Vec::new() };
        let is = |x: i32, y: i32| {
            let inside = x >= 0 && y >= 0 && (x as usize) < self.width && (y as usize) < self.height;
            inside && self.at(x as usize, y as usize) == 1
        };
        let start = [(first % self.width) as i32, (first / self.width) as i32];
        let (mut at, mut way) = (start, [1, 0]);
        let mut all = Vec::new();
        // No edge is longer than four sides of every pixel.
        for _ in 0..4 * self.of.len() {
            all.push(at);
            at = [at[0] + way[0], at[1] + way[1]];
            // The pixels ahead to the left and to the right of the way.
            let right = [-way[1], way[0]];
            let ahead = |side: i32| {
                let at = |i: usize| at[i] + (way[i] + side * right[i] - 1) / 2;
                is(at(0), at(1))
            };
            way = match (ahead(-1), ahead(1)) {
                (false, true) => way,
                (_, false) => right,
                (true, true) => [way[1], -way[0]],
            };
            if at == start {
                break;
            }
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn field(rows: &[&str]) -> Field {
        let of = rows.iter().flat_map(|r| r.bytes()).map(|b| if b == b'#' { 200 } else { 3 }).collect();
        Field { width: rows[0].len(), height: rows.len(), of }
    }

    #[test]
    fn the_largest_part_without_its_hole() {
        let field = field(&["........", ".####..#", ".#..#..#", ".####...", "..##....", "........"]);
        let (threshold, low, high) = field.threshold();
        assert!((3..200).contains(&threshold) && (low - 3.0).abs() < 1e-9 && (high - 200.0).abs() < 1e-9);
        let (piece, touches) = field.largest(threshold);
        assert!(!touches);
        // By hand: three rows of four and one of two; a rim of 4 + 4 and 1 + 1 + 3 + 3.
        assert_eq!(piece.of.iter().filter(|v| **v == 1).count(), 14);
        let edge = piece.edge();
        assert_eq!(edge.len(), 16);
        let twice: i32 =
            (0..16).map(|i| (edge[i], edge[(i + 1) % 16])).map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum();
        assert_eq!(twice, 28);
    }

    #[test]
    fn a_blur_keeps_what_is_even() {
        let even = Field { width: 7, height: 5, of: vec![90; 35] };
        assert_eq!(even.blurred(2).of, even.of);
        let mut spike = Field::new(5, 5);
        spike.of[12] = 225;
        // 225 over nine pixels.
        assert_eq!(spike.blurred(1).of[6], 25);
        assert_eq!(spike.blurred(1).of[0], 0);
    }
}
