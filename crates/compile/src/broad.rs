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
    let known: Vec<Draft> = drafts
        .iter()
        .filter(|d| model.kinds[d.kind].standing != Standing::Unknown)
        .cloned()
        .collect();
    for draft in drafts
        .iter_mut()
        .filter(|d| model.kinds[d.kind].standing == Standing::Unknown)
    {
        for q in 0..model.questions.len() {
            if draft.entries[q].is_none() {
                draft.entries[q] = broad(model, &known, q, draft.make);
            }
        }
        if draft.roles.is_none() {
            draft.roles = roles(model, &known);
        }
    }
}

/// Kinds weigh alike, forms within a kind by their share; of the same make where any kind has it.
fn broad(model: &Model, known: &[Draft], question: usize, make: usize) -> Option<Entry> {
    let n = model.questions[question].wire.choices.len();
    let of_make: Vec<&Draft> = known.iter().filter(|d| d.make == make).collect();
    let drafts: Vec<&Draft> = if of_make.is_empty() {
        known.iter().collect()
    } else {
        of_make
    };
    let entries = || {
        drafts
            .iter()
            .filter_map(|d| d.entries[question].as_ref().map(|e| (*d, e)))
    };
    let basis = entries()
        .map(|(_, e)| e.rests.basis)
        .max()
        .unwrap_or(Basis::Memory)
        .max(Basis::Practice);
    let rests = Rests { basis, source: None };
    if model.questions[question].quantity.is_some() {
        let spreads = entries().filter_map(|(_, e)| match e.says {
            Says::Spread { mean, sd } => Some((mean, sd)),
            Says::Shares(_) => None,
        });
        return twice_all(spreads).map(|says| Entry { says, rests });
    }
    let weigh = |d: &Draft| d.form_share * d.make_share;
    let mut mean = vec![0.0; n];
    for k in 0..model.kinds.len() {
        let whole: f64 = entries()
            .filter(|(d, _)| d.kind == k)
            .map(|(d, _)| weigh(d))
            .sum();
        for (draft, entry) in entries().filter(|(d, _)| d.kind == k) {
            if let Says::Shares(shares) = &entry.says {
                for (m, s) in mean.iter_mut().zip(shares) {
                    *m += f64::from(*s) * weigh(draft) / whole;
                }
            }
        }
    }
    let sum: f64 = mean.iter().sum();
    if sum <= 0.0 {
        return None;
    }
    let mixed: Vec<f64> = mean
        .iter()
        .map(|m| (1.0 - ANYTHING) * m / sum + ANYTHING / n as f64)
        .collect();
    Some(Entry {
        says: Says::Shares(even::per_mille(&mixed)),
        rests,
    })
}

/// The mean over kinds of what they were made as.
fn roles(model: &Model, known: &[Draft]) -> Option<RoleLine> {
    let mut mean = vec![0.0; model.manifest.roles.len()];
    let mut basis = Basis::Practice;
    for line in known.iter().filter_map(|d| d.roles.as_ref()) {
        basis = basis.max(line.basis);
        for (m, s) in mean.iter_mut().zip(&line.shares) {
            *m += f64::from(*s);
        }
    }
    (!mean.is_empty()).then(|| RoleLine {
        shares: even::per_mille(&mean),
        basis,
    })
}
