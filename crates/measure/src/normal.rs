//! The normal distribution, and a quantity that lies anywhere in a range and is then read with a normal error.

const ROOT_2: f64 = core::f64::consts::SQRT_2;
const ROOT_TAU: f64 = 2.506_628_274_631_000_7;

/// P(Z <= z) for a standard normal Z.
fn below(z: f64) -> f64 {
    0.5 * libm::erfc(-z / ROOT_2)
}

/// Density at `x` of a reading with standard uncertainty `u` (above zero) of a quantity that lies anywhere in
/// `from..=to` with equal chance.
pub(crate) fn read_of_range(x: f64, u: f64, from: f64, to: f64) -> f64 {
    let width = to - from;
    if width <= 1e-9 * u {
        let z = (x - f64::midpoint(from, to)) / u;
        return libm::exp(-0.5 * z * z) / (u * ROOT_TAU);
    }
    // On the side of the smaller tail, where a difference keeps its digits.
    let (a, b) = ((x - to) / u, (x - from) / u);
    let mass = if a > 0.0 { below(-a) - below(-b) } else { below(b) - below(a) };
    mass / width
}

/// What a sum of `n` squared standard normals exceeds in one case of a thousand, `n` at least 1 (Wilson and Hilferty,
/// Proceedings of the National Academy of Sciences 17, 1931: within 4 % for one, better for more).
pub(crate) fn one_in_a_thousand(n: usize) -> f64 {
    let k = 2.0 / (9.0 * n as f64);
    let root = 1.0 - k + 3.090_232 * k.sqrt();
    n as f64 * root * root * root
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_values() {
        // A range without width is the normal itself: 0.398942 at its middle, 0.241971 at one deviation (published: any
        // normal table). A range of two deviations either way, read at its middle: 0.954500 / 4.
        assert!((read_of_range(5.0, 1.0, 5.0, 5.0) - 0.398_942_3).abs() < 1e-6);
        assert!((read_of_range(6.0, 1.0, 5.0, 5.0) - 0.241_970_7).abs() < 1e-6);
        assert!((read_of_range(5.0, 1.0, 3.0, 7.0) - 0.954_499_7 / 4.0).abs() < 1e-6);
        // Far above the range something is left, and as much as below it: P(10 < Z < 12) = 7.619853e-24 (published).
        let (above, beneath) = (read_of_range(15.0, 1.0, 3.0, 5.0), read_of_range(-7.0, 1.0, 3.0, 5.0));
        assert!((above / 3.809_926_5e-24 - 1.0).abs() < 1e-5, "{above}");
        assert!((above / beneath - 1.0).abs() < 1e-9);
    }

    #[test]
    fn upper_points_of_chi_squared() {
        // NIST/SEMATECH e-Handbook, table 1.3.6.7.4, probability 0.999.
        for (n, point) in [(1, 10.828), (2, 13.816), (3, 16.266), (5, 20.515), (10, 29.588), (20, 45.315)] {
            let found = one_in_a_thousand(n);
            assert!((found / point - 1.0).abs() < 0.04, "{n}: {found}");
        }
    }
}
