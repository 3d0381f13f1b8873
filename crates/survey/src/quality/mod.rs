//! What can be said of a pack beyond its faults of form: whether its kinds are found by the pieces that are described,
//! how far they stand apart, and what is thin.

mod examples;
mod pairs;
mod spots;
mod terms;
mod thin;

pub use examples::Fared;
pub use pairs::{Pair, Telling};

use compile::{Compiled, Fault, Files};
use consult::Guide;
use spots::Spots;

/// Two kinds that all looks together tell apart less often than this cannot be parted: they differ in words only.
const PARTED: f64 = 0.70;
/// Two kinds that are told apart so often need not be declared alike.
const WELL_PARTED: f64 = 0.90;
/// At most so many pairs are declared alike.
const DECLARED: usize = 8;
/// So many of the hardest pairs are shown.
pub const HARDEST: usize = 20;

/// What was found.
#[derive(Debug)]
pub struct Quality {
    /// What has to be mended.
    pub faults: Vec<Fault>,
    /// What is worth a look.
    pub notes: Vec<Fault>,
    /// How the described pieces fared.
    pub fared: Fared,
    /// All pairs of kinds, the hardest first.
    pub pairs: Vec<Pair>,
}

/// Looks a pack over that compiled without a fault, as it is met with the tools of a pocket.
#[must_use]
pub fn of(guide: &Guide, files: &Files, compiled: &Compiled) -> Quality {
    let spots = Spots::of(files);
    let tools = crate::simulate::Setting::pocket(0).indices(guide);
    let mut faults = Vec::new();
    let fared = examples::check(guide, compiled, &spots, &tools, &mut faults);
    let mut notes = thin::notes(guide, compiled, &spots);
    notes.extend(terms::missing(guide, compiled));
    let pairs = pairs::pairs(guide, &tools);
    judge(guide, &pairs, &spots, &mut faults, &mut notes);
    for list in [&mut faults, &mut notes] {
        list.sort();
        list.dedup();
    }
    Quality { faults, notes, fared, pairs }
}

/// All pairs of known kinds as they are met with the tools of a pocket, the hardest first.
#[must_use]
pub fn pairs(guide: &Guide) -> Vec<Pair> {
    pairs::pairs(guide, &crate::simulate::Setting::pocket(0).indices(guide))
}

/// The deciding check that one of two kinds states for the other.
#[must_use]
pub fn stated_check(guide: &Guide, a: usize, b: usize) -> Option<&str> {
    let book = guide.book.as_ref()?;
    let of = |one: usize, other: usize| {
        let found = book.kinds.get(one)?.confusions.iter().find(|c| usize::from(c.kind) == other)?;
        Some(found.check.as_str())
    };
    of(a, b).or_else(|| of(b, a))
}

fn judge(guide: &Guide, pairs: &[Pair], spots: &Spots, faults: &mut Vec<Fault>, notes: &mut Vec<Fault>) {
    let id = |k: usize| guide.core.kinds[k].id.as_str();
    let says = |pair: &Pair| {
        format!(
            "All looks with the tools of a pocket tell it from {} about {:.0} times in 100.",
            id(pair.kinds.1),
            100.0 * pair.told_apart()
        )
    };
    for pair in pairs {
        if !pair.declared && pair.told_apart() < PARTED {
            let hint = "State how they differ, make them one kind, or declare either = [...].";
            faults.push(spots.fault("kinds/", id(pair.kinds.0), says(pair), hint));
        }
        if pair.declared && pair.told_apart() > WELL_PARTED {
            notes.push(spots.fault("kinds/", id(pair.kinds.0), says(pair), "Is `either` still needed?"));
        }
    }
    for pair in pairs.iter().take(HARDEST).filter(|p| !p.declared) {
        if stated_check(guide, pair.kinds.0, pair.kinds.1).is_none() {
            let says =
                format!("It is hard to tell from {}, but no deciding check is stated.", id(pair.kinds.1));
            notes.push(spots.fault(
                "kinds/",
                id(pair.kinds.0),
                says,
                "Add [[kind.taken_for]] to one of them.",
            ));
        }
    }
    let declared = pairs.iter().filter(|p| p.declared).count();
    if declared > DECLARED {
        faults.push(Fault {
            file: "pack.toml".to_string(),
            line: 0,
            field: String::new(),
            says: format!(
                "{declared} pairs of kinds are declared not to be told apart; at most {DECLARED} may be."
            ),
            hint: "Find the looks that part them.".to_string(),
        });
    }
}
