//! A probability for every year.

use units::{Period, Year};

/// The first year of the grid.
pub const FIRST_YEAR: Year = 1600;
/// The share of a period that is spread flat over the whole grid, since its corners rest on memory. Basis: memory.
const FLAT: f64 = 0.05;

/// P(made in year), from [`FIRST_YEAR`] to this year, summing to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// One probability a year.
    pub p: Vec<f64>,
}

impl Curve {
    /// The mixture of periods with these weights (any positive scale). Uniform when there is nothing to mix.
    ///
    /// Each period is a trapezoid: rising from `earliest` to `likely_from`, level to `likely_to`, falling to
    /// `latest`; years beyond this year are cut off.
    #[must_use]
    pub fn of_periods(parts: &[(f64, Period)], this_year: Year) -> Curve {
        let years = (i32::from(this_year) - i32::from(FIRST_YEAR) + 1).max(1) as usize;
        let mut p = vec![0.0; years];
        let mut total = 0.0;
        for (weight, period) in parts.iter().filter(|(w, _)| *w > 0.0) {
            let shape: Vec<f64> = (0..years).map(|i| height(*period, FIRST_YEAR + i as Year)).collect();
            let sum: f64 = shape.iter().sum();
            for (p, h) in p.iter_mut().zip(&shape) {
                let level = 1.0 / years as f64;
                *p += weight * if sum > 0.0 { (1.0 - FLAT) * h / sum + FLAT * level } else { level };
            }
            total += weight;
        }
        if total > 0.0 {
            p.iter_mut().for_each(|x| *x /= total);
        } else {
            p.fill(1.0 / years as f64);
        }
        Curve { p }
    }

    /// The fewest years that hold this share, as runs of years in order: the highest-density region.
    #[must_use]
    pub fn densest(&self, share: f64) -> Vec<(Year, Year)> {
        let mut inside = vec![false; self.p.len()];
        let mut held = 0.0;
        for i in units::descending(&self.p) {
            if held >= share {
                break;
            }
            inside[i] = true;
            held += self.p[i];
        }
        let mut runs: Vec<(Year, Year)> = Vec::new();
        for (i, _) in inside.iter().enumerate().filter(|(_, x)| **x) {
            let year = FIRST_YEAR + i as Year;
            match runs.last_mut() {
                Some((_, to)) if *to + 1 == year => *to = year,
                _ => runs.push((year, year)),
            }
        }
        runs
    }
}

/// Height of the trapezoid in the middle of a year, top 1.
fn height(period: Period, year: Year) -> f64 {
    let [a, b, c, d] = [period.earliest, period.likely_from, period.likely_to, period.latest].map(f64::from);
    let y = f64::from(year);
    if y < a || y > d {
        0.0
    } else if y < b {
        (y - a + 0.5) / (b - a + 0.5)
    } else if y > c {
        (d - y + 0.5) / (d - c + 0.5)
    } else {
        1.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WORKED: Period = Period { earliest: 1880, likely_from: 1890, likely_to: 1910, latest: 1930 };

    #[test]
    fn trapezoid_against_a_worked_example() {
        // Arithmetic of the trapezoid distribution (mean (d2+cd+c2-b2-ab-a2)/(3(d+c-a-b)) = 1902.857 for these
        // corners): published formula, Lee and Bronk Ramsey, Radiocarbon 54(1), 2012.
        let curve = Curve::of_periods(&[(1.0, WORKED)], 2026);
        let flat_mean = (1600.0 + 2026.0) / 2.0;
        let mean: f64 = curve.p.iter().enumerate().map(|(i, p)| p * (1600.0 + i as f64)).sum();
        let trapezoid = (mean - FLAT * flat_mean) / (1.0 - FLAT);
        assert!((trapezoid - 1902.857).abs() < 0.15, "{trapezoid}");
        assert!((curve.p.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn regions_hold_their_share_and_nest() {
        let late = Period { earliest: 1965, likely_from: 1975, likely_to: 2010, latest: 2026 };
        let curve = Curve::of_periods(&[(0.5, WORKED), (0.5, late)], 2026);
        for share in [0.5, 0.9] {
            let held: f64 = curve
                .densest(share)
                .iter()
                .flat_map(|(a, b)| *a..=*b)
                .map(|y| curve.p[(y - FIRST_YEAR) as usize])
                .sum();
            assert!(held >= share && held < share + 0.02, "{held}");
        }
        assert_eq!(curve.densest(0.9).len(), 2, "two separate periods stay two pieces");
    }

    #[test]
    fn nothing_known_is_uniform() {
        let curve = Curve::of_periods(&[], 2026);
        assert!(curve.p.iter().all(|p| (p - 1.0 / 427.0).abs() < 1e-12));
    }
}
