//! How lengths of originals and of recasts are spread, and the likelihood of what was measured.
//!
//! An original differs from its reference by what castings of one pattern differ: log ratio ~ N(0, V), V = together^2 +
//! u^2. A recast of generation n has shrunk n times by s, of which rapping has made up a share k where the length does not
//! run along the draw: log ratio ~ N(n log(1 - s (1 - k)), V). s lies anywhere between the least and the greatest
//! published shrinkage of the metal; k is the end of its range for what is moulded by hand and lies anywhere in it for the
//! rest; both are the same for all lengths and each generation. With mean m the likelihood ratio to an original is exp((m d - m^2 / 2) / V): never less for a smaller d, as no
//! m is above zero.

use super::Side;
use super::lengths::Group;
use pack::metals::{Metal, Metals};

/// Steps of Simpson's rule over the shrinkage and over the share of rapping; even.
const STEPS: usize = 64;
/// Exponents are held here: far beyond any cap, and e to twice this power is still a number.
const HIGHEST: f64 = 300.0;

/// Spread and shrinkage of one metal.
pub(super) struct Model {
    shrinkage: (f64, f64),
    rapping: (f64, f64),
    by_hand: f64,
    together: f64,
    generations: Vec<f64>,
}

impl Model {
    /// None for a metal without shrinkage in the table.
    pub(super) fn new(metals: &Metals, metal: &Metal) -> Option<Model> {
        let (from, to) = metal.shrinks()?;
        let r = &metals.recast;
        Some(Model {
            shrinkage: (f64::from(from) / 1e5, f64::from(to) / 1e5),
            rapping: (f64::from(r.rapping.from) / 1e3, f64::from(r.rapping.to) / 1e3),
            by_hand: f64::from(r.by_hand) / 1e3,
            together: f64::from(r.together) / 1e5,
            generations: r.generations.iter().map(|share| f64::from(*share) / 1e3).collect(),
        })
    }

    /// The shrinkage in the middle of its range.
    pub(super) fn middle(&self) -> f64 {
        f64::midpoint(self.shrinkage.0, self.shrinkage.1)
    }

    fn variance(&self, group: &Group) -> f64 {
        self.together * self.together + group.u * group.u
    }

    /// Whether the lengths are three deviations beyond an original on the one side, or beyond the last generation on the
    /// other (practice).
    pub(super) fn beyond(&self, group: &Group) -> Option<Side> {
        let leeway = 3.0 * self.variance(group).sqrt();
        let last = self.generations.len() as f64 * libm::log(1.0 - self.shrinkage.1);
        match group.log {
            d if d > leeway => Some(Side::Larger),
            d if d < last - leeway => Some(Side::Smaller),
            _ => None,
        }
    }

    /// For each generation its share among recasts times its likelihood over that of an original.
    pub(super) fn likelihoods(&self, groups: &[&Group]) -> Vec<f64> {
        let of = |(n, share): (usize, &f64)| {
            let generation = (n + 1) as f64;
            let at = |s: f64, k: f64| {
                let one = |g: &&Group| {
                    let left = if g.along { s } else { s * (1.0 - k) };
                    let m = generation * libm::log(1.0 - left);
                    ((m * g.log - m * m / 2.0) / self.variance(g)).min(HIGHEST)
                };
                libm::exp(groups.iter().map(one).sum())
            };
            let over_rapping = |s: f64| {
                let by_machine = mean(self.rapping, &|k| at(s, k));
                self.by_hand * at(s, self.rapping.1) + (1.0 - self.by_hand) * by_machine
            };
            let over_shrinkage = mean(self.shrinkage, &over_rapping);
            share * over_shrinkage
        };
        self.generations.iter().enumerate().map(of).collect()
    }
}

/// The mean of a function over a range, by Simpson's rule.
fn mean((from, to): (f64, f64), of: &dyn Fn(f64) -> f64) -> f64 {
    let at = |i: usize| of(from + (to - from) * i as f64 / STEPS as f64);
    let inner: f64 = (1..STEPS).map(|i| if i % 2 == 1 { 4.0 * at(i) } else { 2.0 * at(i) }).sum();
    (at(0) + inner + at(STEPS)) / (3 * STEPS) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn simpson_is_exact_for_cubes() {
        // Mean of x^3 over 1 to 3: (81 - 1) / 4 / 2 = 10. Arithmetic.
        assert!((mean((1.0, 3.0), &|x| x * x * x) - 10.0).abs() < 1e-12);
        assert!((mean((2.0, 2.0), &|x| x) - 2.0).abs() < 1e-12);
    }
}
