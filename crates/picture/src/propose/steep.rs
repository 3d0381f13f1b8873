//! The picture in grey, small, and where it is steep.

use crate::{Pixels, Point};

/// Pixels of the longer side at most.
const MOST: usize = 1000;
/// One in so many pixels counts as steep at most.
const ONE_IN: u32 = 12;
/// Least steepness that counts, grey levels over two pixels.
const LEAST: u8 = 7;

/// Bytes for each pixel of the small picture.
pub(super) struct Steep {
    pub(super) width: usize,
    pub(super) height: usize,
    /// Pixels of the picture for one of the small one, each way.
    pub(super) by: usize,
    grey: Vec<u8>,
    /// How steep.
    pub(super) height_of: Vec<u8>,
    /// Which way is up, in 256 parts of a turn.
    pub(super) way: Vec<u8>,
    pub(super) limit: u8,
}

impl Steep {
    pub(super) fn new(width: usize, height: usize) -> Steep {
        let by = width.max(height).div_ceil(MOST).max(1);
        let (width, height) = (width / by, height / by);
        let zeros = vec![0; width * height];
        Steep { width, height, by, grey: zeros.clone(), height_of: zeros.clone(), way: zeros, limit: LEAST }
    }

    /// One row of the small picture in grey: the mean of a square, green twice.
    pub(super) fn shrink(&mut self, pixels: &Pixels, y: usize) {
        let by = self.by;
        for x in 0..self.width {
            let mut sum = 0;
            for dy in 0..by {
                for dx in 0..by {
                    let [r, g, b] = pixels.colour(x * by + dx, y * by + dy).map(u32::from);
                    sum += r + 2 * g + b;
                }
            }
            self.grey[y * self.width + x] = (sum / (4 * by * by) as u32) as u8;
        }
    }

    /// One row of slopes (Sobel's operator).
    pub(super) fn steepen(&mut self, y: usize) {
        if y == 0 || y + 1 >= self.height {
            return;
        }
        for x in 1..self.width.saturating_sub(1) {
            let at = |dx: usize, dy: usize| i32::from(self.grey[(y + dy - 1) * self.width + x + dx - 1]);
            let gx = at(2, 0) + 2 * at(2, 1) + at(2, 2) - at(0, 0) - 2 * at(0, 1) - at(0, 2);
            let gy = at(0, 2) + 2 * at(1, 2) + at(2, 2) - at(0, 0) - 2 * at(1, 0) - at(2, 0);
            let steep = f64::from(gx * gx + gy * gy).sqrt() / 4.0;
            let here = y * self.width + x;
            self.height_of[here] = steep as u8;
            if steep >= f64::from(LEAST) {
                let turn = libm::atan2(f64::from(gy), f64::from(gx)) / core::f64::consts::TAU;
                self.way[here] = (libm::round(turn * 256.0) as i32 & 255) as u8;
            }
        }
    }

    /// Sets the limit of what is steep.
    pub(super) fn settle(&mut self) {
        let mut counts = [0_u32; 256];
        for v in &self.height_of {
            counts[usize::from(*v)] += 1;
        }
        let most = self.height_of.len() as u32 / ONE_IN;
        let mut above = 0;
        let reached = (0..=255_u8).rev().find(|v| {
            above += counts[usize::from(*v)];
            above > most
        });
        self.limit = reached.map_or(LEAST, |v| v.saturating_add(1)).max(LEAST);
    }

    /// Whether a pixel is steep and the steepest along its own way.
    pub(super) fn crest(&self, x: usize, y: usize) -> bool {
        let here = y * self.width + x;
        let own = self.height_of[here];
        if own < self.limit || x == 0 || y == 0 || x + 1 >= self.width || y + 1 >= self.height {
            return false;
        }
        // Eighths of a turn, from -1/16 on.
        let step = match self.way[here].wrapping_add(16) / 32 % 4 {
            0 => 1,
            1 => self.width + 1,
            2 => self.width,
            _ => self.width - 1,
        };
        own >= self.height_of[here - step] && own >= self.height_of[here + step]
    }

    /// How near to steep along a direction (256 parts) the three pixels next to a place are: 1 with the slope, -1 against.
    pub(super) fn along(&self, p: Point, way: u8) -> f64 {
        if !(p.x >= 2.0 && p.y >= 2.0 && p.x + 3.0 < self.width as f64 && p.y + 3.0 < self.height as f64) {
            return 0.0;
        }
        let here = p.y as usize * self.width + p.x as usize;
        let across = if !(32..96).contains(&(way % 128)) { 1 } else { self.width };
        for at in [here, here - across, here + across] {
            if self.height_of[at] >= self.limit {
                let off = self.way[at].wrapping_sub(way);
                // Within a twentieth of a turn.
                if !(13..=243).contains(&off) {
                    return 1.0;
                }
                if (115..=141).contains(&off) {
                    return -1.0;
                }
            }
        }
        0.0
    }
}
