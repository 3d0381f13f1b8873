//! The years of the finding: the mixture of the candidates' periods.

use super::facts::Facts;
use crate::guide::Guide;
use crate::view::YearsView;
use dating::{Curve, FIRST_YEAR, edtf, in_words};
use units::{Basis, Year};

/// Years outside this share are not drawn. Basis: practice.
const DRAWN: f64 = 0.985;

pub(crate) fn view(guide: &Guide, facts: &Facts) -> YearsView {
    let mut parts = Vec::new();
    let mut worst = Basis::Published;
    for (p, c) in facts.posterior.p.iter().zip(&guide.core.candidates) {
        if usize::from(c.kind) == guide.unknown() {
            continue;
        }
        if let Some(f) = &guide.core.kinds[usize::from(c.kind)].makes[usize::from(c.make)] {
            parts.push((*p, f.period));
            if *p >= 0.05 {
                worst = worst.max(f.period_basis);
            }
        }
    }
    let curve = Curve::of_periods(&parts, guide.this_year);
    let (half_runs, nine_runs) = (curve.densest(0.5), curve.densest(0.9));
    let drawn = curve.densest(DRAWN);
    let from = drawn.first().map_or(FIRST_YEAR, |r| r.0).min(guide.this_year);
    let to = drawn.last().map_or(guide.this_year, |r| r.1);
    let tallest = curve.p.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
    let at = |y: Year| (y - FIRST_YEAR) as usize;
    YearsView {
        half: in_words(&half_runs),
        nine: in_words(&nine_runs),
        edtf: edtf(&nine_runs),
        from,
        to,
        heights: curve.p[at(from)..=at(to)].iter().map(|p| (p / tallest * 1000.0) as u16).collect(),
        half_runs,
        nine_runs,
        basis: format!("By this guide's tables ({}); no marks read yet.", worst.phrase()),
    }
}
