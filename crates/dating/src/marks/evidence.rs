//! What a reading says about years: a likelihood for a piece of its time and one for later makes.
//!
//! A recast carries its pattern's lettering and a later casting copies it. So for later makes only what is physically
//! impossible counts: an old date neither acquits nor condemns a copy.

use crate::curve::FIRST_YEAR;
use pack::marks::Proof;
use units::Year;

/// The likelihood of a year beyond a hard bound. Basis: practice; never zero, so that no slip ends all reckoning.
pub const FLOOR: f64 = 1e-6;
/// The least likelihood of a year that habit alone speaks against. Basis: memory.
pub const SOFT: f64 = 0.05;
/// Years before a habit in which use falls by half. Basis: memory.
const RISES: f64 = 8.0;

/// Bounds on the years of a piece that bears a mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Span {
    /// Impossible before.
    pub hard_from: Option<Year>,
    /// Usual from.
    pub from: Option<Year>,
    /// Usual to.
    pub to: Option<Year>,
    /// Impossible after, for a piece of its time.
    pub hard_to: Option<Year>,
    /// Years in which use beyond `to` falls by half; 0 where it ends there.
    pub fades: u16,
}

impl Span {
    /// No bounds at all.
    pub const OPEN: Span = Span { hard_from: None, from: None, to: None, hard_to: None, fades: 0 };

    /// 1 within the hard bounds, [`FLOOR`] outside; for later makes only the lower bound counts.
    #[must_use]
    pub fn hard(&self, year: Year, period: bool) -> f64 {
        let early = self.hard_from.is_some_and(|from| year < from);
        let late = period && self.hard_to.is_some_and(|to| year > to);
        if early || late { FLOOR } else { 1.0 }
    }

    /// How usual the mark was in a year, from [`SOFT`] to 1, whatever the hard bounds.
    #[must_use]
    pub fn soft(&self, year: Year) -> f64 {
        let halves = |years: Year, half: f64| libm::exp2(-f64::from(years) / half);
        let before = self.from.filter(|from| year < *from).map(|from| halves(from - year, RISES));
        let after = self.to.filter(|to| year > *to).map(|to| match self.fades {
            0 => 0.0,
            fades => halves(year - to, f64::from(fades)),
        });
        before.or(after).unwrap_or(1.0).max(SOFT)
    }

    /// P(the mark | a piece of its time, made in the year), up to a factor.
    #[must_use]
    pub fn period(&self, year: Year) -> f64 {
        self.hard(year, true) * self.soft(year)
    }

    /// The same for later makes.
    #[must_use]
    pub fn later(&self, year: Year) -> f64 {
        self.hard(year, false)
    }
}

/// Spans with their shares: what one reading says.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// Shares sum to one.
    pub spans: Vec<(f64, Span)>,
    /// What sort of proof it is.
    pub proof: Proof,
}

/// In order, and each span once with all of its shares.
pub(crate) fn merged(all: Vec<(f64, Span)>) -> Vec<(f64, Span)> {
    // Years come in order as a rule.
    let all = if all.is_sorted_by(|a, b| a.1 <= b.1) {
        all
    } else {
        let order = units::order(all.len(), &|a, b| all[a].1.cmp(&all[b].1));
        units::arranged(all, &order)
    };
    let mut list: Vec<(f64, Span)> = Vec::new();
    for (share, span) in all {
        match list.last_mut() {
            Some(last) if last.1 == span => last.0 += share,
            _ => list.push((share, span)),
        }
    }
    list
}

impl Evidence {
    /// The mixture over the spans for a piece of its time: hard part, and soft part within it.
    #[must_use]
    pub fn parts(&self, year: Year) -> (f64, f64) {
        let mut hard = 0.0;
        let mut both = 0.0;
        for (share, span) in &self.spans {
            let h = share * span.hard(year, true);
            hard += h;
            both += h * span.soft(year);
        }
        if hard > 0.0 { (hard, both / hard) } else { (1.0, 1.0) }
    }

    /// P(the mark | later make, made in the year), up to a factor.
    #[must_use]
    pub fn later(&self, year: Year) -> f64 {
        if self.spans.is_empty() {
            1.0
        } else {
            self.spans.iter().map(|(s, span)| s * span.later(year)).sum()
        }
    }

    /// By year from [`FIRST_YEAR`] to `this_year`: for a piece of its time, and for later makes.
    #[must_use]
    pub fn likelihoods(&self, this_year: Year) -> [Vec<f64>; 2] {
        let years = FIRST_YEAR..=this_year.max(FIRST_YEAR);
        let period = years.clone().map(|y| {
            let (hard, soft) = self.parts(y);
            hard * soft
        });
        [period.collect(), years.map(|y| self.later(y)).collect()]
    }

    /// The year before which it cannot be, when all spans have one.
    #[must_use]
    pub fn not_before(&self) -> Option<Year> {
        let each: Option<Vec<Year>> = self.spans.iter().map(|(_, s)| s.hard_from).collect();
        each.and_then(|all| all.into_iter().min())
    }

    /// The year after which it cannot be, when all spans have one.
    #[must_use]
    pub fn not_after(&self) -> Option<Year> {
        let each: Option<Vec<Year>> = self.spans.iter().map(|(_, s)| s.hard_to).collect();
        each.and_then(|all| all.into_iter().max())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PATENT: Span =
        Span { hard_from: Some(1871), from: Some(1871), to: Some(1888), hard_to: None, fades: 12 };

    #[test]
    fn a_patent_of_1871() {
        // Arithmetic: level for 17 years, half 12 years on, a quarter 24 years on, never under the least.
        for (year, l) in
            [(1870, SOFT * FLOOR), (1871, 1.0), (1888, 1.0), (1900, 0.5), (1912, 0.25), (1990, SOFT)]
        {
            let got = PATENT.period(year);
            assert!((got - l).abs() < 1e-9 || (year == 1870 && got <= FLOOR), "{year}: {got}");
        }
        // Later makes know the lower bound only.
        assert_eq!((PATENT.later(1870), PATENT.later(1871), PATENT.later(1990)), (FLOOR, 1.0, 1.0));
    }

    #[test]
    fn nothing_known_is_one_everywhere() {
        let none = Evidence { spans: vec![(1.0, Span::OPEN)], proof: Proof::Nothing };
        assert!(none.likelihoods(2026).iter().flatten().all(|p| (p - 1.0).abs() < 1e-12));
        let empty = Evidence { spans: Vec::new(), proof: Proof::Nothing };
        assert!(empty.likelihoods(2026).iter().flatten().all(|p| (p - 1.0).abs() < 1e-12));
    }

    #[test]
    fn a_mixture_splits_into_hard_and_soft() {
        let other = Span { hard_from: Some(1890), ..PATENT };
        let both = Evidence { spans: vec![(0.7, PATENT), (0.3, other)], proof: Proof::Habit };
        for year in [1860, 1875, 1900, 2000] {
            let (hard, soft) = both.parts(year);
            let sum = 0.7 * PATENT.period(year) + 0.3 * other.period(year);
            assert!(
                (hard * soft - sum).abs() < 1e-12 && (SOFT - 1e-12..=1.0 + 1e-12).contains(&soft),
                "{year}"
            );
        }
        assert_eq!((both.not_before(), both.not_after()), (Some(1871), None));
    }
}
