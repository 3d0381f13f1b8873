//! The interval that holds the truth in 95 of 100 cases.

/// An error that is the sum of a normal one and one that lies anywhere in a range with equal chance: the root of the sum
/// of squares taken twice would be too wide where the range rules (GUM supplement 1 has such cases).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Spread {
    /// Chance of this one among others; all together have one.
    pub(crate) chance: f64,
    pub(crate) middle: f64,
    /// Standard uncertainty of the normal part, above zero.
    pub(crate) u: f64,
    /// Half the range.
    pub(crate) range: f64,
}

impl Spread {
    /// Chance that it lies below `x`.
    fn below(&self, x: f64) -> f64 {
        let half = |x: f64| 0.5 * libm::erfc(-x / core::f64::consts::SQRT_2);
        let at = (x - self.middle) / self.u;
        let range = self.range / self.u;
        if range < 1e-3 {
            return half(at);
        }
        // The normal's distribution, integrated once: x P(x) + p(x).
        let once = |x: f64| x * half(x) + libm::exp(-0.5 * x * x) / 2.506_628_274_631_000_7;
        (once(at + range) - once(at - range)) / (2.0 * range)
    }
}

/// What a mixture lies below with this chance.
pub(crate) fn quantile(of: &[Spread], chance: f64) -> f64 {
    let reach = |s: &Spread| 5.0 * s.u + s.range;
    let mut low = of.iter().map(|s| s.middle - reach(s)).fold(f64::MAX, f64::min);
    let mut high = of.iter().map(|s| s.middle + reach(s)).fold(f64::MIN, f64::max);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        let below: f64 = of.iter().map(|s| s.chance * s.below(middle)).sum();
        if below < chance { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_cases() {
        // Normal alone: 1.96 u. Rectangular alone: 95 % of its half width. Both by definition. Between them: scipy 1.15,
        // norm.cdf integrated by quad, solved by brentq.
        for (u, range, half) in [
            (2.0, 0.0, 3.919_928),
            (1e-6, 3.0, 2.85),
            (1.0, 1.732_050_807_57, 2.711_646_383),
            (1.0, 10.0, 9.811_950_741),
            (1.0, 0.5, 2.039_409_077),
            (0.2, 3.0, 2.885_176_717),
        ] {
            let spread = [Spread { chance: 1.0, middle: 7.0, u, range }];
            for (chance, side) in [(0.025, -1.0), (0.975, 1.0)] {
                let found = quantile(&spread, chance);
                assert!((found - 7.0 - side * half).abs() < 2e-6, "{u} {range}: {found}");
            }
        }
    }
}
