//! The described pieces: each kind must be found by its own, although one look of each is unusual for it.

use super::spots::Spots;
use compile::{Compiled, Example, Fault};
use consult::{Guide, What, from_text};
use pack::{Form, Standing};
use practice::{mean_tables, twins};
use reason::{fit, weigh, with_fit};

/// A described piece answers so many questions.
const LOOKS: std::ops::RangeInclusive<usize> = 9..=16;
/// What at most so many of a hundred pieces of the kind show is unusual for it.
const UNUSUAL: f64 = 0.20;
/// So many pieces at least are described of each kind.
const EACH: usize = 2;

/// How the described pieces fared.
#[derive(Debug, Clone, Copy, Default)]
pub struct Fared {
    /// Pieces.
    pub all: usize,
    /// Found as they must be.
    pub found: usize,
    /// Of these first.
    pub first: usize,
}

/// Runs all of them. In a pack that describes no piece at all none is missed.
pub(super) fn check(
    guide: &Guide,
    compiled: &Compiled,
    spots: &Spots,
    tools: &[usize],
    faults: &mut Vec<Fault>,
) -> Fared {
    let tables = mean_tables(guide);
    let mut fared = Fared::default();
    for example in &compiled.examples {
        fared.all += 1;
        match place(guide, &tables, tools, example) {
            Ok(place) => {
                fared.found += usize::from(place.at <= example.within);
                fared.first += usize::from(place.at == 1);
                if place.at > example.within {
                    faults.push(at(example, place.says(guide, example), "Where it stands: describe the piece as it turns up, and see whether the tables of the two kinds are right."));
                }
                faults.extend(place.slips.into_iter().map(|says| at(example, says, "")));
            }
            Err(says) => faults.extend(says.into_iter().map(|says| at(example, says, ""))),
        }
    }
    if fared.all > 0 {
        for (k, kind) in guide.core.kinds.iter().enumerate().filter(|(_, k)| k.standing != Standing::Unknown)
        {
            let n = compiled.examples.iter().filter(|e| e.kind == k).count();
            if n < EACH {
                let says = format!("{n} described pieces; every kind has at least {EACH}.");
                faults.push(spots.fault("kinds/", &kind.id, says, "Add [[kind.example]]."));
            }
        }
    }
    fared
}

fn at(example: &Example, says: String, hint: &str) -> Fault {
    let (file, line) = example.at.clone();
    Fault { file, line, field: format!("example \"{}\"", example.name), says, hint: hint.to_string() }
}

/// Where a described piece came out.
struct Place {
    /// From 1.
    at: usize,
    /// Kinds that came before, with their shares.
    before: Vec<(usize, f64)>,
    /// The own share.
    share: f64,
    /// Other things that are wrong with it.
    slips: Vec<String>,
}

impl Place {
    fn says(&self, guide: &Guide, example: &Example) -> String {
        let id = |k: usize| guide.core.kinds[k].id.as_str();
        let before: Vec<String> =
            (self.before.iter().take(3)).map(|(k, p)| format!("{} {:.0}", id(*k), 100.0 * p)).collect();
        format!(
            "{} comes {} with {:.0} of 100, after {}; it must be among the first {}.",
            id(example.kind),
            self.at,
            100.0 * self.share,
            before.join(", "),
            example.within
        )
    }
}

fn place(
    guide: &Guide,
    tables: &[Vec<Vec<f64>>],
    tools: &[usize],
    example: &Example,
) -> Result<Place, Vec<String>> {
    let core = &guide.core;
    let state = from_text(guide, &example.answers)?;
    let mut slips = Vec::new();
    // A small pack cannot have so many; some of its questions are behind gates.
    let least = (*LOOKS.start()).min(core.questions.len().saturating_sub(1));
    if !(least..=*LOOKS.end()).contains(&state.given.len()) {
        let says = format!("{} looks; from {least} to {} are wanted.", state.given.len(), LOOKS.end());
        slips.push(says);
    }
    for given in &state.given {
        let tool = core.questions[given.question].tool.map(usize::from);
        if let Some(tool) = tool.filter(|t| !tools.contains(t)) {
            let (question, tool) = (&core.questions[given.question].id, &core.tools[tool].name);
            slips.push(format!("{question} needs more than the tools of a pocket: {tool}."));
        }
    }
    let table = &tables[example.kind][example.unusual];
    let told = state.answer_to(example.unusual).map(|g| &g.what);
    let share = told.and_then(|what| share_of(&core.questions[example.unusual], table, what));
    if let Some(share) = share.filter(|s| *s > UNUSUAL) {
        slips.push(format!(
            "{} is not unusual: {:.0} of 100 of this kind show it; at most {:.0} are wanted.",
            core.questions[example.unusual].id,
            100.0 * share,
            100.0 * UNUSUAL
        ));
    } else if share.is_none() {
        slips.push(format!("{} says nothing that could be unusual.", core.questions[example.unusual].id));
    }
    let answers = state.answers();
    let bare = weigh(&guide.model, 0, &answers);
    let fit = fit(&guide.model, &bare, &answers);
    let kinds = with_fit(&guide.model, bare, fit).kinds(&guide.model);
    let counts = |k: usize| core.kinds[k].standing != Standing::Unknown && !twins(guide, k, example.kind);
    let own = kinds[example.kind];
    let mut before: Vec<(usize, f64)> =
        kinds.iter().copied().enumerate().filter(|(k, p)| counts(*k) && *p > own).collect();
    before.sort_by(|a, b| b.1.total_cmp(&a.1));
    Ok(Place { at: before.len() + 1, before, share: own, slips })
}

/// How many of the pieces with this table show what is told.
fn share_of(q: &pack::Question, table: &[f64], what: &What) -> Option<f64> {
    match what {
        What::OneOf(set) => Some(set.iter().map(|c| table[*c]).sum()),
        What::Length(length, _) if q.form == Form::Length => {
            let class = q.choices.iter().filter(|c| c.upper.is_some_and(|u| u < length.0)).count();
            table.get(class).copied()
        }
        _ => None,
    }
}
