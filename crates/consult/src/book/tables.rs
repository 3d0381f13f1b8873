//! What pieces of one sort show: the tables of their candidates, mixed, and how far two of them lie apart. All by the
//! pack's own shares; what a user may misread is left out.

use super::Pages;
use super::write::top;
use pack::{Candidate, Form, Says, Standing};

/// A question behind a gate speaks of a kind only where the gate is open at least this often; as in `reason`.
const OPEN: f64 = 0.10;
/// Steps in which a spread is compared.
const STEPS: usize = 160;
/// So many standard deviations hold nineteen in twenty. Published: any table of the normal distribution.
const NINETEEN: f64 = 1.96;

/// Some candidates with their weights, which sum to one.
pub(super) struct Sort<'a>(Vec<(f64, &'a Candidate)>);

/// What a sort of piece shows at a question.
pub(super) struct Shown {
    /// How often the question comes up at all.
    pub(super) open: f64,
    /// P(choice), for a question with choices; empty for a measured one.
    pub(super) shares: Vec<f64>,
    /// Weight, mean and standard deviation, for a measured one.
    spreads: Vec<(f64, f64, f64)>,
}

impl Pages {
    /// Pieces of one kind and make.
    pub(super) fn sort(&self, kind: usize, make: usize) -> Sort<'_> {
        self.weighed(|c| usize::from(c.kind) == kind && usize::from(c.make) == make)
    }

    /// All pieces of this guide together.
    pub(super) fn all(&self) -> Sort<'_> {
        self.weighed(|c| self.core.kinds[usize::from(c.kind)].standing == Standing::Inside)
    }

    fn weighed(&self, takes: impl Fn(&Candidate) -> bool) -> Sort<'_> {
        let taken: Vec<&Candidate> = self.core.candidates.iter().filter(|c| takes(c)).collect();
        let prior = |c: &Candidate| c.prior.first().copied().map_or(0.0, f64::from);
        let sum: f64 = taken.iter().map(|c| prior(c)).sum();
        let even = 1.0 / taken.len().max(1) as f64;
        Sort(taken.into_iter().map(|c| (if sum > 0.0 { prior(c) / sum } else { even }, c)).collect())
    }

    /// The make in which a kind is met most, where nothing is said of the place.
    pub(super) fn main_make(&self, kind: usize) -> usize {
        top(&self.make_shares(kind))
    }

    /// How often a kind is met in a make, where nothing is said of the place.
    pub(super) fn share(&self, kind: usize, make: usize) -> f64 {
        self.make_shares(kind)[make]
    }

    /// How common a kind is, where nothing is said of the place.
    pub(super) fn common(&self, kind: usize) -> f64 {
        let mut sum = 0.0;
        for c in self.core.candidates.iter().filter(|c| usize::from(c.kind) == kind) {
            sum += c.prior.first().copied().map_or(0.0, f64::from);
        }
        sum
    }

    fn make_shares(&self, kind: usize) -> Vec<f64> {
        let mut shares = vec![0.0; self.core.makes.len()];
        for (weight, c) in self.weighed(|c| usize::from(c.kind) == kind).0 {
            shares[usize::from(c.make)] += weight;
        }
        shares
    }

    /// What a sort of piece shows at a question; none where it hardly ever comes up.
    pub(super) fn shown(&self, sort: &Sort<'_>, question: usize) -> Option<Shown> {
        let q = &self.core.questions[question];
        let choices = if q.form == Form::Choice { q.choices.len() } else { 0 };
        let mut shown = Shown { open: 0.0, shares: vec![0.0; choices], spreads: Vec::new() };
        for (weight, candidate) in &sort.0 {
            let weight = weight * self.opens(candidate, question);
            let row = q.rows.get(usize::from(*candidate.rows.get(question)?))?;
            shown.open += weight;
            match &row.says {
                Says::Shares(shares) => {
                    for (sum, share) in shown.shares.iter_mut().zip(shares) {
                        *sum += weight * f64::from(*share) / 1000.0;
                    }
                }
                Says::Spread { mean, sd } => {
                    shown.spreads.push((weight, f64::from(*mean), f64::from(*sd)));
                }
            }
        }
        let open = shown.open;
        if open < OPEN {
            return None;
        }
        shown.shares.iter_mut().for_each(|s| *s /= open);
        shown.spreads.iter_mut().for_each(|s| s.0 /= open);
        Some(shown)
    }

    /// P(the question comes up | candidate).
    fn opens(&self, candidate: &Candidate, question: usize) -> f64 {
        let Some(gate) = &self.core.questions[question].gate else { return 1.0 };
        let asked = usize::from(gate.question);
        let row =
            candidate.rows.get(asked).and_then(|r| self.core.questions[asked].rows.get(usize::from(*r)));
        let Some(Says::Shares(shares)) = row.map(|r| &r.says) else { return 0.0 };
        let open: f64 = gate.choices.iter().map(|c| f64::from(shares[usize::from(*c)]) / 1000.0).sum();
        open * self.opens(candidate, asked)
    }

    /// What a sort was made as.
    pub(super) fn roles(&self, sort: &Sort<'_>) -> Vec<f64> {
        let mut roles = vec![0.0; self.core.roles.len()];
        for (weight, c) in &sort.0 {
            let row = &self.core.role_rows[usize::from(c.roles)];
            roles.iter_mut().zip(&row.shares).for_each(|(sum, s)| *sum += weight * f64::from(*s) / 1000.0);
        }
        roles
    }
}

impl Sort<'_> {
    /// Indices of the tables of the first candidate, by question.
    pub(super) fn rows(&self) -> &[u16] {
        self.0.first().map_or(&[], |(_, c)| &c.rows)
    }
}

impl Shown {
    /// Between which two values nineteen in twenty lie, and the middle.
    pub(super) fn range(&self) -> Option<(f64, f64, f64)> {
        let low = self.spreads.iter().map(|s| s.1 - NINETEEN * s.2).reduce(f64::min)?;
        let high = self.spreads.iter().map(|s| s.1 + NINETEEN * s.2).reduce(f64::max)?;
        Some((low, self.spreads.iter().map(|s| s.0 * s.1).sum(), high))
    }

    /// Bits that one look tells on average about which of two sorts it is, at even chances: from 0 (they show the
    /// same) to 1 (never the same). The divergence of Jensen and Shannon.
    pub(super) fn apart(&self, other: &Shown) -> f64 {
        let bits = |(a, b): (f64, f64)| {
            let middle = (a + b) / 2.0;
            let part = |x: f64| if x > 0.0 { x * libm::log2(x / middle) / 2.0 } else { 0.0 };
            part(a) + part(b)
        };
        let sum: f64 = self.both(other).into_iter().map(bits).sum();
        (sum * self.open.min(other.open)).clamp(0.0, 1.0)
    }

    /// Bits by which what it shows stands out from another sort, and the choice that does it most.
    pub(super) fn stands_out(&self, other: &Shown) -> (f64, usize) {
        let parts: Vec<f64> = (self.shares.iter().zip(&other.shares))
            .map(|(a, b)| if *a > 0.0 { a * libm::log2(a / b.max(1e-3)) } else { 0.0 })
            .collect();
        (parts.iter().sum::<f64>() * self.open, top(&parts))
    }

    /// Shares of the two at the same choices, or in the same steps of what is measured.
    fn both(&self, other: &Shown) -> Vec<(f64, f64)> {
        if self.spreads.is_empty() || other.spreads.is_empty() {
            return self.shares.iter().copied().zip(other.shares.iter().copied()).collect();
        }
        let all = || self.spreads.iter().chain(&other.spreads);
        let low = all().map(|s| s.1 - 4.0 * s.2).fold(f64::INFINITY, f64::min);
        let high = all().map(|s| s.1 + 4.0 * s.2).fold(f64::NEG_INFINITY, f64::max);
        let x = |step: usize| low + (high - low) * (step as f64 + 0.5) / STEPS as f64;
        let shares = |shown: &Shown| -> Vec<f64> {
            let density = |x: f64| -> f64 {
                let one = |(w, mean, sd): &(f64, f64, f64)| {
                    let z = (x - mean) / sd;
                    w / sd * libm::exp(-z * z / 2.0)
                };
                shown.spreads.iter().map(one).sum()
            };
            let mut shares: Vec<f64> = (0..STEPS).map(|step| density(x(step))).collect();
            let sum: f64 = shares.iter().sum();
            shares.iter_mut().for_each(|s| *s /= sum);
            shares
        };
        shares(self).into_iter().zip(shares(other)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn choices(shares: &[f64]) -> Shown {
        Shown { open: 1.0, shares: shares.to_vec(), spreads: Vec::new() }
    }

    fn spread(mean: f64, sd: f64) -> Shown {
        Shown { open: 1.0, shares: Vec::new(), spreads: vec![(1.0, mean, sd)] }
    }

    #[test]
    fn apart_runs_from_nothing_to_one_bit() {
        // By definition: no difference tells nothing, no overlap tells all there is to tell about two.
        assert!(choices(&[0.3, 0.7]).apart(&choices(&[0.3, 0.7])).abs() < 1e-12);
        assert!((choices(&[1.0, 0.0]).apart(&choices(&[0.0, 1.0])) - 1.0).abs() < 1e-12);
        // By hand: shares 1 and 1/2 of one choice: 3/2 - 3/4 log2(3) = 0.311278.
        let half = choices(&[1.0, 0.0]).apart(&choices(&[0.5, 0.5]));
        assert!((half - 0.311_278).abs() < 1e-6, "{half}");
        assert!((spread(50.0, 5.0).apart(&spread(500.0, 5.0)) - 1.0).abs() < 1e-6);
        assert!(spread(50.0, 5.0).apart(&spread(50.0, 5.0)).abs() < 1e-12);
        // Against the same sum in far finer steps.
        let one = spread(0.0, 1.0).apart(&spread(1.0, 1.0));
        let fine = fine_apart(1.0);
        assert!((one - fine).abs() < 1e-3, "{one} {fine}");
    }

    /// The same by a sum a thousand times finer, written for two normals of spread one.
    fn fine_apart(distance: f64) -> f64 {
        let (mut sum, step) = (0.0, 1e-4);
        for i in -80_000..90_000 {
            let x = f64::from(i) * step;
            let d = |m: f64| libm::exp(-(x - m) * (x - m) / 2.0) / libm::sqrt(2.0 * core::f64::consts::PI);
            let (a, b) = (d(0.0), d(distance));
            let m = (a + b) / 2.0;
            sum += step * (a * libm::log2(a / m) + b * libm::log2(b / m)) / 2.0;
        }
        sum
    }

    #[test]
    fn what_stands_out_is_the_choice_that_does_it() {
        let (bits, choice) = choices(&[0.5, 0.1, 0.4]).stands_out(&choices(&[0.5, 0.4, 0.1]));
        // By hand: 0.1 log2(1/4) + 0.4 log2(4) = 0.6.
        assert!((bits - 0.6).abs() < 1e-9, "{bits}");
        assert_eq!(choice, 2);
    }

    #[test]
    fn nineteen_in_twenty() {
        let (low, middle, high) = spread(60.0, 10.0).range().unwrap_or_default();
        // Published: 1.96 standard deviations each way.
        assert!((low - 40.4).abs() < 1e-9 && (middle - 60.0).abs() < 1e-9 && (high - 79.6).abs() < 1e-9);
    }
}
