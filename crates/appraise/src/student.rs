//! Student's t: the spread of a price when its middle and its width are both known from few sales only.

/// The most terms of the continued fraction. It needs about the root of the greater of both powers.
const MOST_TERMS: u32 = 400;
const ROOT_OF_PI: f64 = 1.772_453_850_905_516;

/// P(T not above x), with so many degrees of freedom (above zero, whole or not). By the incomplete beta function.
#[must_use]
pub(crate) fn below(x: f64, freedom: f64) -> f64 {
    let square = x * x;
    if square.is_infinite() {
        return if x > 0.0 { 1.0 } else { 0.0 };
    }
    let half = 0.5 * beta(freedom / (freedom + square), square / (freedom + square), freedom / 2.0);
    if x > 0.0 { 1.0 - half } else { half }
}

/// The regularised incomplete beta function I_x(a, 1/2), with `y` = 1 - x, by the continued fraction 8.17.22 of the NIST
/// Digital Library of Mathematical Functions, on the side on which it converges fast.
fn beta(x: f64, y: f64, a: f64) -> f64 {
    if y <= 0.0 || x <= 0.0 {
        return if y <= 0.0 { 1.0 } else { 0.0 };
    }
    let front = libm::exp(a * libm::log(x)) * y.sqrt() * gammas(a) / ROOT_OF_PI;
    if x < (a + 1.0) / (a + 2.5) {
        front * fraction(x, a, 0.5) / a
    } else {
        1.0 - front * fraction(y, 0.5, a) / 0.5
    }
}

/// The gamma function of a + 1/2 over that of a: by their recurrence up to 30, then by the asymptotic series of the
/// logarithm, whose first omitted term is below 1e-16 there. Less code than a gamma function for its own sake.
fn gammas(mut a: f64) -> f64 {
    let mut below = 1.0;
    while a < 30.0 {
        below *= a / (a + 0.5);
        a += 1.0;
    }
    let square = a * a;
    let rest = -1.0 / 8.0 + (1.0 / 192.0 + (-1.0 / 640.0 + 17.0 / 14_336.0 / square) / square) / square;
    below * a.sqrt() * libm::exp(rest / a)
}

/// The continued fraction, forwards, with both ratios of successive convergents kept from zero (Lentz's way).
fn fraction(x: f64, a: f64, b: f64) -> f64 {
    let apart = |v: f64| if v.abs() < 1e-300 { 1e-300 } else { v };
    let mut c = 1.0;
    let mut d = 1.0 / apart(1.0 - (a + b) * x / (a + 1.0));
    let mut value = d;
    for n in 1..MOST_TERMS {
        let m = f64::from(n);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let mut step = 1.0;
        for term in [even, odd] {
            d = 1.0 / apart(1.0 + term * d);
            c = apart(1.0 + term / c);
            step = c * d;
            value *= step;
        }
        if (step - 1.0).abs() < 1e-15 {
            break;
        }
    }
    value
}

#[cfg(test)]
mod tests {
    use super::below;

    #[test]
    fn as_any_table_of_t_has_it() {
        // Published in any table of Student's t: the value that a share of 0.90, 0.95, 0.975, 0.995 falls below.
        for (freedom, shares) in [
            (1.0, [3.078, 6.314, 12.706, 63.657]),
            (4.0, [1.533, 2.132, 2.776, 4.604]),
            (10.0, [1.372, 1.812, 2.228, 3.169]),
            (30.0, [1.310, 1.697, 2.042, 2.750]),
            (120.0, [1.289, 1.658, 1.980, 2.617]),
        ] {
            for (x, share) in shares.into_iter().zip([0.90, 0.95, 0.975, 0.995]) {
                // Half a unit of the last place printed.
                assert!(
                    below(x - 0.000_5, freedom) <= share && share <= below(x + 0.000_5, freedom),
                    "{freedom} {x}"
                );
            }
        }
    }

    #[test]
    fn one_and_two_degrees_have_closed_forms() {
        // Arithmetic: with one degree it is an arc tangent, with two an algebraic function.
        for x in [-40.0, -3.0, -0.5, -1e-9, 0.0, 0.2, 1.0, 7.5, 300.0] {
            let one = 0.5 + libm::atan(x) / core::f64::consts::PI;
            let two = 0.5 + x / (2.0 * libm::sqrt(2.0 + x * x));
            assert!((below(x, 1.0) - one).abs() < 1e-13 && (below(x, 2.0) - two).abs() < 1e-13, "{x}");
        }
        assert!(below(f64::NEG_INFINITY, 5.0) <= 0.0 && below(f64::INFINITY, 5.0) >= 1.0);
    }

    #[test]
    fn many_degrees_are_nearly_normal() {
        for x in [-2.0, -0.7, 0.0, 1.3, 2.5] {
            let normal = 0.5 * libm::erfc(-x / core::f64::consts::SQRT_2);
            assert!((below(x, 40_000.0) - normal).abs() < 1e-5, "{x}");
        }
    }
}
