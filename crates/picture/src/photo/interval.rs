//! Half the width of the interval that holds the truth in 95 of 100 cases.

/// Of an error that is the sum of a normal one with standard uncertainty `u` and one that lies anywhere within +-`range`
/// with equal chance. Taking the root of the sum of squares twice would be too wide where the range rules
/// (GUM supplement 1, 9.2.3, shows the case).
#[must_use]
pub(crate) fn half_width(u: f64, range: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.96 * u + range);
    if range <= 1e-6 * u {
        return high;
    }
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if within(middle, u.max(1e-9 * range), range) < 0.95 { low = middle } else { high = middle }
    }
    high
}

/// Chance that the sum lies within +-`w`.
fn within(w: f64, u: f64, range: f64) -> f64 {
    // The normal's distribution, integrated once: Z(x) = x P(x) + p(x).
    let once = |x: f64| {
        let below = 0.5 * libm::erfc(-x / core::f64::consts::SQRT_2);
        x * below + libm::exp(-0.5 * x * x) / 2.506_628_274_631_000_7
    };
    let (a, b) = ((w + range) / u, (w - range) / u);
    // P(S <= w) is the mean of the normal's distribution over the range; the other tail is its mirror image.
    2.0 * (once(a) - once(b)) * u / (2.0 * range) - 1.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_cases() {
        // Normal alone: 1.96 u. Rectangular alone: 95 % of its half width. Both by definition.
        assert!((half_width(2.0, 0.0) - 3.92).abs() < 1e-9);
        assert!((half_width(0.0, 3.0) - 2.85).abs() < 1e-6);
        // Between them: scipy 1.15, norm.cdf integrated by quad, solved by brentq.
        for (u, range, half) in [
            (1.0, 1.732_050_807_57, 2.711_646_383),
            (1.0, 10.0, 9.811_950_741),
            (1.0, 0.5, 2.039_409_077),
            (0.2, 3.0, 2.885_176_717),
        ] {
            assert!((half_width(u, range) - half).abs() < 1e-6, "{u} {range}: {}", half_width(u, range));
        }
    }
}
