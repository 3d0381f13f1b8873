//! Candidates: kind x make x form, each with its table for every question, found in the most special place.

use crate::checks::MOST_CANDIDATES;
use crate::fault::Faults;
use crate::model::{Common, Entry, Form, Kind, Make, Model, OfMake, Rests, RoleLine, Section};
use crate::spread::{HEFT_UNSAID, Quantity};
use pack::Standing;
use units::Basis;

/// The most forms of a kind.
pub(crate) const MOST_FORMS: usize = 20;

/// A candidate before its tables are numbered.
#[derive(Debug, Clone)]
pub(crate) struct Draft {
    pub(crate) kind: usize,
    pub(crate) make: usize,
    pub(crate) form: usize,
    /// By question. The unknown kind may say nothing: what it shows is then made of all others.
    pub(crate) entries: Vec<Option<Entry>>,
    pub(crate) roles: Option<RoleLine>,
    /// Share of the make within the kind and of the form, before the place.
    pub(crate) make_share: f64,
    pub(crate) form_share: f64,
}

/// Where a candidate's tables are looked for.
struct Places<'a> {
    kind_make: Option<&'a OfMake>,
    form: &'a Form,
    kind: &'a Common,
    family_make: Option<&'a OfMake>,
    family: Option<&'a Common>,
    make: Option<&'a Make>,
    standing: Standing,
}

impl<'a> Places<'a> {
    /// The most special first; the make itself comes last of all, see [`Places::entry`].
    fn order(&self) -> impl Iterator<Item = &'a Section> {
        [
            self.kind_make.map(|m| &m.section),
            Some(&self.form.section),
            Some(&self.kind.section),
            self.family_make.map(|m| &m.section),
            self.family.map(|f| &f.section),
        ]
        .into_iter()
        .flatten()
    }

    /// The table for a question, if any place has one.
    fn entry(&self, model: &Model, question: usize) -> Option<Entry> {
        let q = &model.questions[question];
        let stated = self.order().find_map(|s| s.looks.get(&question));
        let of_make = self.make.filter(|_| q.about_make).and_then(|m| m.section.looks.get(&question));
        let found = stated.or(of_make).cloned();
        if found.is_some() || self.standing == Standing::Unknown {
            return found;
        }
        if q.quantity == Some(Quantity::Heft) {
            return Some(heft_unsaid());
        }
        q.usual.clone()
    }

    /// What it was made as: what is said of the make goes before what is said of the kind as a whole.
    fn roles(&self) -> Option<RoleLine> {
        let section = |s: Option<&'a Section>| s.and_then(|s| s.roles.as_ref());
        section(self.kind_make.map(|m| &m.section))
            .or_else(|| section(self.family_make.map(|m| &m.section)))
            .or_else(|| section(self.make.map(|m| &m.section)))
            .or_else(|| section(Some(&self.form.section)))
            .or_else(|| section(Some(&self.kind.section)))
            .or_else(|| section(self.family.map(|f| &f.section)))
            .cloned()
    }
}

/// A spread so broad that heft says next to nothing.
fn heft_unsaid() -> Entry {
    Entry {
        says: Quantity::Heft.spread(HEFT_UNSAID.0, HEFT_UNSAID.1),
        rests: Rests { basis: Basis::Practice, source: None },
    }
}

/// The years and the worth of a kind's make: its own, else the family's.
pub(crate) fn facts(model: &Model, kind: &Kind, make: usize) -> Option<pack::MakeFacts> {
    let own = kind.own.by_make.get(make);
    let family = kind.family.and_then(|f| model.families[f].by_make.get(make));
    let (period, rests) = own.and_then(|m| m.years).or(family.and_then(|m| m.years))?;
    let worth = own.and_then(|m| m.worth.clone()).or(family.and_then(|m| m.worth.clone()));
    Some(pack::MakeFacts { period, period_basis: rests.basis, period_source: rests.source, worth })
}

/// Shares of the makes of a kind. Without a line the only make that has years.
fn make_shares(model: &Model, kind: &Kind, faults: &Faults) -> Vec<f64> {
    let n = model.manifest.makes.len();
    let family = kind.family.and_then(|f| model.families[f].makes.as_ref());
    let with_years: Vec<bool> = (0..n).map(|m| facts(model, kind, m).is_some()).collect();
    let Some(shares) = kind.own.makes.as_ref().or(family) else {
        let shares: Vec<f64> = with_years.iter().map(|y| if *y { 1.0 } else { 0.0 }).collect();
        match shares.iter().filter(|s| **s > 0.0).count() {
            0 if n > 0 => {
                let hint = format!("Add [kind.{}] with years = [...].", model.manifest.makes[0].id);
                faults.add(&kind.spot, "No make of this kind has years.", hint);
            }
            0 | 1 => {}
            _ => {
                let hint = "Add for example: makes = \"period 75, later 25\"";
                faults.add(&kind.spot, "The shares of the makes are missing.", hint);
            }
        }
        return shares;
    };
    let mut shares = shares.clone();
    for (m, share) in shares.iter_mut().enumerate() {
        let make = &model.manifest.makes[m].id;
        if *share > 0.0 && !with_years[m] {
            let hint = format!("Add [kind.{make}] with years = [...], or leave it out of makes.");
            faults.add(&kind.spot.of("makes"), format!("The make {make} has a share but no years."), hint);
            *share = 0.0;
        } else if *share <= 0.0 && kind.own.by_make[m].years.is_some() {
            let says = format!("The make {make} has years but no share in makes.");
            faults.note(&kind.spot.of(make), says, "It is left out.");
        }
    }
    shares
}

/// All candidates in the order of the files: kinds, then makes, then forms.
pub(crate) fn drafts(model: &Model, faults: &Faults) -> Vec<Draft> {
    let mut drafts = Vec::new();
    for (k, kind) in model.kinds.iter().enumerate() {
        if drafts.len() > MOST_CANDIDATES {
            break;
        }
        let family = kind.family.map(|f| &model.families[f]);
        let mut bare = vec![false; model.questions.len()];
        let mut roleless = false;
        for (m, make_share) in make_shares(model, kind, faults).into_iter().enumerate() {
            if make_share <= 0.0 {
                continue;
            }
            for (f, form) in kind.forms.iter().enumerate().take(MOST_FORMS) {
                let places = Places {
                    kind_make: kind.own.by_make.get(m),
                    form,
                    kind: &kind.own,
                    family_make: family.and_then(|c| c.by_make.get(m)),
                    family,
                    make: model.makes.get(m),
                    standing: kind.standing,
                };
                let entries: Vec<Option<Entry>> =
                    (0..model.questions.len()).map(|q| places.entry(model, q)).collect();
                for (bare, entry) in bare.iter_mut().zip(&entries) {
                    *bare |= entry.is_none();
                }
                let roles = places.roles();
                roleless |= roles.is_none();
                drafts.push(Draft {
                    kind: k,
                    make: m,
                    form: f,
                    entries,
                    roles,
                    make_share,
                    form_share: form.share,
                });
            }
        }
        if kind.standing != Standing::Unknown {
            say_bare(model, kind, &bare, faults);
        }
        if roleless && kind.standing != Standing::Unknown {
            let hint = "Add for example: roles = \"toy 85, working 15\"";
            faults.add(&kind.spot.of("roles"), "What this kind was made as is not said.", hint);
        }
    }
    drafts
}

/// Faults for questions on which a kind is silent although nothing is usual.
fn say_bare(model: &Model, kind: &Kind, bare: &[bool], faults: &Faults) {
    for (q, _) in model.questions.iter().zip(bare).filter(|(_, b)| **b) {
        match q.quantity {
            Some(quantity) => {
                let field = quantity.field();
                let hint = format!("Add for example: {field} = {{ from = 38, to = 100 }}");
                faults.add(&kind.spot.of(field), format!("The {field} is missing."), hint);
            }
            None => {
                let says = format!("Nothing says what the kind {} shows here.", kind.id);
                let hint = "Give the question a line usual = ..., or add the table to the kind.";
                faults.add(&q.spot.of("usual"), says, hint);
            }
        }
    }
}
