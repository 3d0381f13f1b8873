//! How much an answer to a question is expected to tell about what the user wants to know.

use crate::model::Model;
use crate::posterior::Posterior;

/// What the user wants to know: a share of each target for every candidate.
#[derive(Debug, Clone)]
pub enum Goal {
    /// Every candidate belongs to one target.
    One {
        /// Target of each candidate.
        of: Vec<usize>,
        /// Number of targets.
        targets: usize,
    },
    /// Every candidate is a mixture of targets: rows of P(target | candidate).
    Mix(Vec<Vec<f64>>),
}

impl Goal {
    /// The kind.
    #[must_use]
    pub fn kind(model: &Model) -> Goal {
        Goal::One {
            of: model.parts.kind_of.clone(),
            targets: model.parts.kinds,
        }
    }

    /// The make.
    #[must_use]
    pub fn make(model: &Model) -> Goal {
        Goal::One {
            of: model.parts.make_of.clone(),
            targets: model.parts.makes,
        }
    }

    /// The role.
    #[must_use]
    pub fn role(model: &Model) -> Goal {
        Goal::Mix(model.parts.roles.clone())
    }

    /// P(target) under a posterior.
    #[must_use]
    pub fn shares(&self, posterior: &Posterior) -> Vec<f64> {
        match self {
            Goal::One { of, targets } => {
                let mut shares = vec![0.0; *targets];
                posterior.p.iter().zip(of).for_each(|(p, t)| shares[*t] += p);
                shares
            }
            Goal::Mix(rows) => {
                let mut shares = vec![0.0; rows.first().map_or(0, Vec::len)];
                for (p, row) in posterior.p.iter().zip(rows) {
                    shares.iter_mut().zip(row).for_each(|(s, r)| *s += p * r);
                }
                shares
            }
        }
    }
}

/// Entropy in bits.
pub(crate) fn entropy(shares: &[f64]) -> f64 {
    -shares.iter().map(|s| x_ln_x(*s)).sum::<f64>() / core::f64::consts::LN_2
}

fn x_ln_x(x: f64) -> f64 {
    if x > 0.0 { x * libm::log(x) } else { 0.0 }
}

/// A goal prepared for a model: which targets have one table for a question, and which have several.
///
/// The gain is I = sum T ln T - sum P ln P - sum t ln t with T = P(target, report). For a target whose candidates
/// share one row, T ln T = rho (t ln t) + t (rho ln rho): both parts are known before the question is looked at,
/// so a question costs a few multiplications a row and no logarithm.
#[derive(Debug)]
pub struct Plan {
    goal: Goal,
    questions: Vec<Rows>,
}

#[derive(Debug)]
struct Rows {
    /// Target and row, for targets with one row.
    pure: Vec<(u32, u32)>,
    /// Candidates of the targets with several rows, target by target.
    mixed: Vec<Vec<u32>>,
}

impl Plan {
    /// Prepares a goal.
    #[must_use]
    pub fn new(model: &Model, goal: Goal) -> Plan {
        let questions = match &goal {
            Goal::Mix(_) => Vec::new(),
            Goal::One { of, targets } => {
                let mut members: Vec<Vec<u32>> = vec![Vec::new(); *targets];
                of.iter()
                    .enumerate()
                    .for_each(|(c, t)| members[*t].push(c as u32));
                model
                    .questions
                    .iter()
                    .map(|q| Rows::new(&members, &q.parts.row_of))
                    .collect()
            }
        };
        Plan { goal, questions }
    }

    /// The goal.
    #[must_use]
    pub fn goal(&self) -> &Goal {
        &self.goal
    }

    /// Expected information of each question named, in bits, never below zero. Sure answers are assumed.
    #[must_use]
    pub fn gains(&self, model: &Model, posterior: &Posterior, questions: &[usize]) -> Vec<f64> {
        let shares = self.goal.shares(posterior);
        let lns: Vec<f64> = shares.iter().map(|s| x_ln_x(*s)).collect();
        let before: f64 = lns.iter().sum();
        questions
            .iter()
            .map(|q| {
                let nats = match &self.goal {
                    Goal::One { .. } => self.gain_one(model, posterior, *q, &shares, &lns),
                    Goal::Mix(rows) => gain_mix(model, posterior, *q, rows, shares.len()),
                } - before;
                (nats / core::f64::consts::LN_2).max(0.0)
            })
            .collect()
    }

    fn gain_one(&self, model: &Model, posterior: &Posterior, at: usize, shares: &[f64], lns: &[f64]) -> f64 {
        let q = &model.questions[at];
        let k = q.parts.choices;
        let mut weight = vec![0.0; q.parts.rows.len()];
        let mut weight_ln = vec![0.0; q.parts.rows.len()];
        for (target, row) in &self.questions[at].pure {
            weight[*row as usize] += shares[*target as usize];
            weight_ln[*row as usize] += lns[*target as usize];
        }
        let mut p = vec![0.0; k];
        let mut t_ln_t = vec![0.0; k];
        for (row, (w, w_ln)) in weight.iter().zip(&weight_ln).enumerate() {
            if *w > 0.0 {
                let (told, told_ln) = (
                    &q.report[row * k..(row + 1) * k],
                    &q.report_ln[row * k..(row + 1) * k],
                );
                for a in 0..k {
                    p[a] += told[a] * w;
                    t_ln_t[a] += told[a] * w_ln + told_ln[a] * w;
                }
            }
        }
        for members in &self.questions[at].mixed {
            for a in 0..k {
                let t: f64 = members
                    .iter()
                    .map(|c| posterior.p[*c as usize] * q.report[q.parts.row_of[*c as usize] * k + a])
                    .sum();
                p[a] += t;
                t_ln_t[a] += x_ln_x(t);
            }
        }
        p.iter().zip(&t_ln_t).map(|(p, t)| t - x_ln_x(*p)).sum()
    }
}

impl Rows {
    fn new(members: &[Vec<u32>], row_of: &[usize]) -> Rows {
        let (mut pure, mut mixed) = (Vec::new(), Vec::new());
        for (target, candidates) in members.iter().enumerate() {
            let mut rows = candidates.iter().map(|c| row_of[*c as usize]);
            match rows.next() {
                None => {}
                Some(first) if rows.all(|r| r == first) => pure.push((target as u32, first as u32)),
                Some(_) => mixed.push(candidates.clone()),
            }
        }
        Rows { pure, mixed }
    }
}

/// The same for mixtures: few targets, so T is summed row by row and its logarithm taken.
fn gain_mix(model: &Model, posterior: &Posterior, at: usize, of: &[Vec<f64>], targets: usize) -> f64 {
    let q = &model.questions[at];
    let k = q.parts.choices;
    let mut weight = vec![0.0; q.parts.rows.len() * targets];
    for ((p, row), shares) in posterior.p.iter().zip(&q.parts.row_of).zip(of) {
        for (t, s) in shares.iter().enumerate() {
            weight[row * targets + t] += p * s;
        }
    }
    let mut joint = vec![0.0; k * targets];
    for row in 0..q.parts.rows.len() {
        for a in 0..k {
            let told = q.report[row * k + a];
            for t in 0..targets {
                joint[a * targets + t] += told * weight[row * targets + t];
            }
        }
    }
    joint
        .chunks(targets)
        .map(|t| t.iter().map(|x| x_ln_x(*x)).sum::<f64>() - x_ln_x(t.iter().sum()))
        .sum()
}
