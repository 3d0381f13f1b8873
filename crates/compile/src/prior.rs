//! Priors: how often a candidate is met at a place.

use crate::model::Model;
use crate::resolve::Draft;
use pack::Standing;

/// What all candidates at a place sum to, but for rounding.
const WHOLE: f64 = 2e5;

/// For each draft its priors by place. None of a candidate that occurs is rounded away.
pub(crate) fn priors(model: &Model, drafts: &[Draft]) -> Vec<Vec<u32>> {
    let mut priors = vec![Vec::new(); drafts.len()];
    for place in 0..model.manifest.places.len() {
        let exact = at_place(model, drafts, place);
        for (list, share) in priors.iter_mut().zip(exact) {
            let scaled = libm::round(share * WHOLE) as u32;
            list.push(if share > 0.0 { scaled.max(1) } else { 0 });
        }
    }
    priors
}

/// Shares at one place, summing to one.
fn at_place(model: &Model, drafts: &[Draft], place: usize) -> Vec<f64> {
    let weights: Vec<f64> = drafts
        .iter()
        .zip(make_shares(model, drafts, place))
        .map(|(d, make_share)| kind_weight(model, d.kind, place) * make_share * d.form_share)
        .collect();
    let is_unknown = |d: &Draft| model.kinds[d.kind].standing == Standing::Unknown;
    let sum = |unknown: bool| -> f64 {
        let of = drafts.iter().zip(&weights).filter(|(d, _)| is_unknown(d) == unknown);
        of.map(|(_, w)| w).sum()
    };
    let (known, unknown) = (sum(false), sum(true));
    let share = |d: &Draft, w: f64| {
        let (part, whole) = if is_unknown(d) {
            (model.manifest.unknown, unknown)
        } else {
            (1.0 - model.manifest.unknown, known)
        };
        if whole > 0.0 { part * w / whole } else { 0.0 }
    };
    drafts.iter().zip(&weights).map(|(d, w)| share(d, *w)).collect()
}

/// Commonness times the factor of the place: the kind's own, else its family's, else 1.
fn kind_weight(model: &Model, kind: usize, place: usize) -> f64 {
    let kind = &model.kinds[kind];
    let family = kind.family.and_then(|f| model.families[f].at.get(place).copied().flatten());
    let factor = kind.own.at.get(place).copied().flatten().or(family).unwrap_or(1.0);
    model.manifest.common[kind.common] * factor
}

/// Share of the make of each draft within its kind at this place: the makes' own factors shift it, the sum stays one.
fn make_shares(model: &Model, drafts: &[Draft], place: usize) -> Vec<f64> {
    let here = |d: &Draft| {
        let factor = model.makes.get(d.make).and_then(|m| m.at.get(place).copied().flatten());
        d.make_share * factor.unwrap_or(1.0)
    };
    // Of each make the first form stands for all.
    let mut all = vec![0.0; model.kinds.len()];
    for draft in drafts.iter().filter(|d| d.form == 0) {
        all[draft.kind] += here(draft);
    }
    let share = |d: &Draft| {
        if all[d.kind] > 0.0 { here(d) / all[d.kind] } else { 0.0 }
    };
    drafts.iter().map(share).collect()
}
