//! A small seeded generator for simulations: same numbers on every platform.

/// `SplitMix64`: published by Steele, Lea and Flood, OOPSLA 2014, figure 17.
#[derive(Debug, Clone)]
pub struct Random(u64);

impl Random {
    /// A generator with this seed.
    #[must_use]
    pub fn seeded(seed: u64) -> Random {
        Random(seed)
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Uniform in 0..1.
    pub fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / 9_007_199_254_740_992.0
    }

    /// Uniform in 0..n; 0 for n = 0.
    pub fn below(&mut self, n: usize) -> usize {
        ((self.unit() * n as f64) as usize).min(n.saturating_sub(1))
    }

    /// An index drawn with these weights (at least one above zero).
    pub fn pick(&mut self, weights: &[f64]) -> usize {
        let mut at = self.unit() * weights.iter().sum::<f64>();
        for (i, w) in weights.iter().enumerate() {
            at -= w;
            if at < 0.0 {
                return i;
            }
        }
        weights.iter().rposition(|w| *w > 0.0).unwrap_or(0)
    }

    /// Standard normal, by the sum of twelve uniforms (close enough for drawing sizes).
    pub fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
    }
}
