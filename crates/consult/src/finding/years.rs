//! The years of the finding: the mixture of the candidates' periods, and what the marks make of it.

use super::facts::Facts;
use super::what::LEANS;
use crate::bands::weakest;
use crate::guide::Guide;
use crate::marks::{Told, years_with};
use crate::state::State;
use crate::view::{MarkYears, YearsView};
use crate::words::inside;
use dating::{Curve, FIRST_YEAR, bounds, bounds_in_words, clash_in_words, edtf, in_words};
use units::{Basis, Year};

/// Years outside this share are not drawn. Basis: practice.
const DRAWN: f64 = 0.985;

pub(crate) fn view(guide: &Guide, state: &State, facts: &Facts) -> YearsView {
    let (bare, worst) = bare(guide, &facts.posterior.p);
    let Some(told) = &state.marks.told else {
        return drawn(
            guide,
            &bare,
            None,
            format!("By this guide's tables ({}); no marks read yet.", worst.phrase()),
        );
    };
    let before = bare_of(guide, state, facts);
    let curve = years_with(guide, told, &facts.posterior.p);
    let basis = format!("By this guide's tables ({}) and the marks.", worst.phrase());
    let view = drawn(guide, &curve, Some(&before), basis);
    let (from, to) = bounds(&told.read.marks, &told.together);
    let held = facts.period() >= LEANS;
    // A later casting carries the words of its pattern: what a period piece cannot be younger than binds no casting.
    let bound = bounds_in_words(from, to.filter(|_| held), &[]);
    let marks = told.together.sources.iter().map(|s| {
        let of = |y: Year| s.iter().map(|m| product(told.read.marks[*m].parts(y))).fold(1.0, f64::min);
        let heights = (view.from..=view.to).map(|y| (of(y) * 1000.0) as u16).collect();
        let texts: Vec<&str> = s.iter().map(|m| told.read.marks[*m].text.as_str()).collect();
        MarkYears { text: texts.join(", "), heights }
    });
    let marks = marks.collect();
    YearsView { bound, marks, clashes: clashes(guide, facts, told), ..view }
}

/// Even chances in words without the marks and with them.
pub(crate) fn half(guide: &Guide, state: &State, facts: &Facts) -> [String; 2] {
    let before = in_words(&bare_of(guide, state, facts).densest(0.5));
    let YearsView { bound, half, .. } = view(guide, state, facts);
    [before, if bound.is_empty() { half } else { format!("{bound}; {half}") }]
}

fn product((hard, soft): (f64, f64)) -> f64 {
    hard * soft
}

fn bare_of(guide: &Guide, state: &State, facts: &Facts) -> Curve {
    bare(guide, &facts.without_marks(guide, state).p).0
}

/// Marks against each other, and against the kind that stands first.
fn clashes(guide: &Guide, facts: &Facts, told: &Told) -> Vec<String> {
    let mut list = clash_in_words(&told.read.marks, &told.together);
    let kind = &guide.core.kinds[facts.first];
    let period = kind.makes.first().and_then(Option::as_ref).map(|f| f.period);
    let period = period.map(|p| Curve::of_periods(&[(1.0, p)], guide.this_year));
    if period.is_some_and(|curve| told.together.weigh(&curve, &curve).clash) {
        list.push(format!(
            "The marks and a period {} cannot both be right: a mark is misread, a part is from another piece, or it is a \
             later casting.",
            inside(&kind.name)
        ));
    }
    list
}

/// The mixture of the periods of all candidates with these shares, and the worst basis among those that matter.
fn bare(guide: &Guide, shares: &[f64]) -> (Curve, Basis) {
    let mut parts = Vec::new();
    let mut rests = Vec::new();
    for (p, c) in shares.iter().zip(&guide.core.candidates) {
        if usize::from(c.kind) == guide.unknown() {
            continue;
        }
        if let Some(f) = &guide.core.kinds[usize::from(c.kind)].makes[usize::from(c.make)] {
            parts.push((*p, f.period));
            rests.push((*p, f.period_basis));
        }
    }
    // Without a figure nothing is claimed to be published.
    (Curve::of_periods(&parts, guide.this_year), weakest(&rests).unwrap_or(Basis::Memory))
}

fn drawn(guide: &Guide, curve: &Curve, before: Option<&Curve>, basis: String) -> YearsView {
    let (half_runs, nine_runs) = (curve.densest(0.5), curve.densest(0.9));
    let mut drawn = curve.densest(DRAWN);
    drawn.extend(before.iter().flat_map(|b| b.densest(DRAWN)));
    let from = drawn.iter().map(|r| r.0).min().map_or(FIRST_YEAR, |y| y.min(guide.this_year));
    let to = drawn.iter().map(|r| r.1).max().unwrap_or(guide.this_year);
    let tallest =
        curve.p.iter().chain(before.iter().flat_map(|b| &b.p)).copied().fold(f64::MIN_POSITIVE, f64::max);
    let at = |y: Year| (y - FIRST_YEAR) as usize;
    let heights =
        |curve: &Curve| curve.p[at(from)..=at(to)].iter().map(|p| (p / tallest * 1000.0) as u16).collect();
    YearsView {
        half: in_words(&half_runs),
        nine: in_words(&nine_runs),
        bound: String::new(),
        edtf: edtf(&nine_runs),
        from,
        to,
        heights: heights(curve),
        half_runs,
        nine_runs,
        basis,
        without: before.map(heights).unwrap_or_default(),
        marks: Vec::new(),
        clashes: Vec::new(),
    }
}
