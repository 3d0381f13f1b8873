//! The normal distribution.

const ROOT_2: f64 = core::f64::consts::SQRT_2;
const ROOT_TAU: f64 = 2.506_628_274_631_000_7;

/// P(X <= x) for X normal with `mean` and `sd`.
pub(crate) fn below(x: f64, mean: f64, sd: f64) -> f64 {
    0.5 * libm::erfc(-(x - mean) / (sd * ROOT_2))
}

/// Density at x.
pub(crate) fn density(x: f64, mean: f64, sd: f64) -> f64 {
    let z = (x - mean) / sd;
    libm::exp(-0.5 * z * z) / (sd * ROOT_TAU)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_values() {
        // Published: any table of the standard normal, for example NIST/SEMATECH handbook 1.3.6.7.1.
        for (z, p) in [(0.0, 0.5), (1.0, 0.841_344_746), (1.96, 0.975_002_105), (-2.0, 0.022_750_132)] {
            assert!((below(z, 0.0, 1.0) - p).abs() < 1e-9, "{z}");
        }
        assert!((density(0.0, 0.0, 1.0) - 0.398_942_280_4).abs() < 1e-9);
        assert!((density(62.0, 60.0, 4.0) - 0.088_016_331_7).abs() < 1e-9);
    }
}
