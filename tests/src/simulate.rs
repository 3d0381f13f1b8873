//! Consultations with pieces drawn from a pack's own tables, led as the page leads them.

use consult::{Aim, Body, Guide, Manner, Msg, Screen, State, update, view};
use reason::{Model, Plan, Posterior, Random, weigh};

/// How one simulated consultation went.
#[derive(Debug, Clone, Copy)]
pub struct Outcome {
    /// Answers given until the aims were settled or the looks were spent.
    pub answers: usize,
    /// Whether every aim was settled, rather than the looks spent.
    pub settled: bool,
    /// Whether the kind that led in the end was the piece's own.
    pub kind_right: bool,
    /// Whether the role that led in the end has a fair share in the piece's own role table (at least a quarter).
    pub role_right: bool,
    /// Whether period or not was right in the end.
    pub make_right: bool,
}

/// Leads one piece drawn from the tables to its end: the guided opening first, then whatever tells most about the first
/// aim, once that is settled about the second, and so on.
#[must_use]
pub fn lead(guide: &Guide, aims: &[Aim], tools: &[usize], random: &mut Random) -> Outcome {
    let model = &guide.model;
    let unknown = guide.core.kinds.len() - 1;
    let prior = weigh(model, 0, &[]).p;
    let known: Vec<f64> =
        prior.iter().zip(model.kind_of()).map(|(p, k)| if *k == unknown { 0.0 } else { *p }).collect();
    let piece = random.pick(&known);
    let mut state = State::default();
    state.place_asked = true;
    state.manner = Manner::Guided;
    state.tools = tools.to_vec();
    let mut answers = 0;
    let settled = loop {
        let posterior = weigh(model, 0, &state.answers());
        let open = aims.iter().find(|a| !is_settled(&posterior, model, **a));
        let Some(aim) = open else { break true };
        state.aim = *aim;
        state.screen = Screen::Look;
        let Body::Look(look) = view(guide, &state, false).body else {
            break false;
        };
        let choice = draw(guide, look.question, piece, random);
        state = update(guide, state, Msg::Choose { question: look.question, choice }).0;
        answers += 1;
    };
    let posterior = weigh(model, 0, &state.answers());
    let first = |shares: &[f64]| (0..shares.len()).fold(0, |a, b| if shares[b] > shares[a] { b } else { a });
    let c = &guide.core.candidates[piece];
    let own_roles = &guide.core.role_rows[usize::from(c.roles)].shares;
    Outcome {
        answers,
        settled,
        kind_right: first(&posterior.kinds(model)) == usize::from(c.kind),
        role_right: own_roles[first(&posterior.roles(model))] >= 250,
        make_right: (posterior.makes(model)[0] >= 0.5) == (c.make == 0),
    }
}

/// Whether the first share of an aim stands at nine in ten.
fn is_settled(posterior: &Posterior, model: &Model, aim: Aim) -> bool {
    let top = |shares: Vec<f64>| shares.into_iter().fold(0.0, f64::max);
    let share = match aim {
        Aim::Kind => top(posterior.kinds(model)),
        Aim::Role => top(posterior.roles(model)),
        Aim::Make | Aim::Worth => {
            let period = posterior.makes(model)[0];
            period.max(1.0 - period)
        }
    };
    share >= 0.9
}

/// A report about a piece: its truth drawn from its table, misread as the pack says.
fn draw(guide: &Guide, question: usize, piece: usize, random: &mut Random) -> usize {
    let q = &guide.core.questions[question];
    let truth = random.pick(guide.model.truth(question, piece));
    if random.unit() * 1000.0 >= f64::from(q.misread_sure) {
        return truth;
    }
    let confused = &q.choices[truth].confused;
    if !confused.is_empty() && random.unit() < 0.8 {
        return usize::from(confused[random.below(confused.len())]);
    }
    (truth + 1 + random.below(q.choices.len() - 1)) % q.choices.len()
}

/// The entropy of a plan's goal before any answer, in bits: no plan needs fewer bits.
#[must_use]
pub fn entropy(guide: &Guide, plan: &Plan) -> f64 {
    let shares = plan.goal().shares(&weigh(&guide.model, 0, &[]));
    -shares.iter().filter(|s| **s > 0.0).map(|s| s * libm::log2(*s)).sum::<f64>()
}
