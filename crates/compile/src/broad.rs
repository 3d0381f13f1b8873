//! The unknown kind: a broad table for whatever the guide does not know, made of all others.

use crate::even;
use crate::model::{Entry, Model, Rests, RoleLine};
use crate::resolve::Draft;
use crate::spread::twice_all;
use pack::{Says, Standing};
use units::Basis;

/// How much of a broad table is "anything"; the rest is the mean of all kinds (practice).
const ANYTHING: f64 = 0.5;

/// Fills in what the unknown kind does not say.
pub(crate) fn fill(model: &Model, drafts: &mut [Draft]) {
    let known: Vec<Draft> =
        drafts.iter().filter(|d| model.kinds[d.kind].standing != Standing::Unknown).cloned().collect();
    for draft in drafts.iter_mut().filter(|d| model.kinds[d.kind].standing == Standing::Unknown) {
        for q in 0..model.questions.len() {
            if draft.entries[q].is_none() {
                draft.entries[q] = broad(model, &known, q, draft.make);
            }
        }
        if draft.roles.is_none() {
            draft.roles = Some(roles(model, &known, draft.make));
        }
    }
}

/// The known candidates of a make; of all makes when no kind has it.
fn of_make(known: &[Draft], make: usize) -> Vec<&Draft> {
    let found: Vec<&Draft> = known.iter().filter(|d| d.make == make).collect();
    if found.is_empty() { known.iter().collect() } else { found }
}

/// The mean of shares: kinds weigh alike, the candidates of a kind by their share in it. Sums to one.
fn mean<'a>(drafts: &[&'a Draft], n: usize, shares: impl Fn(&'a Draft) -> Option<&'a Vec<u16>>) -> Vec<f64> {
    let weigh = |d: &Draft| d.form_share * d.make_share;
    let mut whole = vec![0.0; drafts.iter().map(|d| d.kind + 1).max().unwrap_or(0)];
    for draft in drafts {
        whole[draft.kind] += weigh(draft);
    }
    let mut mean = vec![0.0; n];
    for draft in drafts {
        for (m, s) in mean.iter_mut().zip(shares(draft).into_iter().flatten()) {
            *m += f64::from(*s) * weigh(draft) / whole[draft.kind];
        }
    }
    let sum: f64 = mean.iter().sum();
    mean.iter().map(|m| if sum > 0.0 { m / sum } else { 1.0 / n as f64 }).collect()
}

fn broad(model: &Model, known: &[Draft], question: usize, make: usize) -> Option<Entry> {
    let n = model.questions[question].wire.choices.len();
    let drafts = of_make(known, make);
    let entries = || drafts.iter().filter_map(|d| d.entries[question].as_ref());
    // Made by this program of what others said: never stronger than practice.
    let basis = entries().map(|e| e.rests.basis).fold(Basis::Practice, Basis::max);
    let rests = Rests { basis, source: None };
    if model.questions[question].quantity.is_some() {
        let spreads = entries().filter_map(|e| match e.says {
            Says::Spread { mean, sd } => Some((mean, sd)),
            Says::Shares(_) => None,
        });
        return twice_all(spreads).map(|says| Entry { says, rests });
    }
    let mean = mean(&drafts, n, |d| match d.entries[question].as_ref().map(|e| &e.says) {
        Some(Says::Shares(shares)) => Some(shares),
        _ => None,
    });
    let mixed: Vec<f64> = mean.iter().map(|m| (1.0 - ANYTHING) * m + ANYTHING / n as f64).collect();
    Some(Entry { says: Says::Shares(even::per_mille(&mixed)), rests })
}

fn roles(model: &Model, known: &[Draft], make: usize) -> RoleLine {
    let drafts = of_make(known, make);
    let lines = drafts.iter().filter_map(|d| d.roles.as_ref());
    let basis = lines.map(|r| r.basis).fold(Basis::Practice, Basis::max);
    let mean = mean(&drafts, model.manifest.roles.len(), |d| d.roles.as_ref().map(|r| &r.shares));
    RoleLine { shares: even::per_mille(&mean), basis }
}
