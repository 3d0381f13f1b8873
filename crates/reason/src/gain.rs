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
        Goal::One { of: model.parts.kind_of.clone(), targets: model.parts.kinds }
    }

    /// The make.
    #[must_use]
    pub fn make(model: &Model) -> Goal {
        Goal::One { of: model.parts.make_of.clone(), targets: model.parts.makes }
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
/// share one row r, sum T ln T - t ln t = t sum r ln r, known before the question is looked at: so a question costs
/// one multiplication a row and choice, and no logarithm.
#[derive(Debug)]
pub struct Plan {
    goal: Goal,
    questions: Vec<Rows>,
}

#[derive(Debug)]
struct Rows {
    /// Questions with the same number share the next field.
    alike: usize,
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
                of.iter().enumerate().for_each(|(c, t)| members[*t].push(c as u32));
                let mut questions: Vec<Rows> = Vec::new();
                for (i, q) in model.questions.iter().enumerate() {
                    let mut rows = Rows::new(&members, &q.parts.row_of);
                    let before = questions.last().filter(|b| b.pure == rows.pure);
                    rows.alike = before.map_or(i, |b| b.alike);
                    questions.push(rows);
                }
                questions
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
        let mut weight = Weight::default();
        questions
            .iter()
            .map(|q| {
                let nats = match &self.goal {
                    Goal::One { .. } => self.gain_one(model, posterior, *q, &shares, &mut weight),
                    Goal::Mix(rows) => gain_mix(model, posterior, *q, rows, &shares),
                };
                (nats / core::f64::consts::LN_2).max(0.0)
            })
            .collect()
    }

    /// `weight` is kept from question to question.
    fn gain_one(
        &self,
        model: &Model,
        posterior: &Posterior,
        at: usize,
        shares: &[f64],
        weight: &mut Weight,
    ) -> f64 {
        let q = &model.questions[at];
        let rows = q.parts.rows.len();
        weight.fill(&self.questions[at], rows, shares);
        let mut nats = dot(&q.spoken, &weight.of);
        // Every piece reports something: what the other choices leave is the last one's.
        let others = q.report.chunks(rows).take(q.parts.choices.saturating_sub(1));
        let mut told: Vec<f64> = others.map(|chances| dot(chances, &weight.of)).collect();
        told.push(weight.all - told.iter().sum::<f64>());
        for members in &self.questions[at].mixed {
            let mut share = 0.0;
            for (a, told) in told.iter_mut().enumerate() {
                let t: f64 = members
                    .iter()
                    .map(|c| posterior.p[*c as usize] * q.reported(q.parts.row_of[*c as usize], a))
                    .sum();
                *told += t;
                share += t;
                nats += x_ln_x(t);
            }
            nats -= x_ln_x(share);
        }
        nats - told.into_iter().map(x_ln_x).sum::<f64>()
    }
}

/// What the rows of a question weigh.
#[derive(Default)]
struct Weight {
    /// By row.
    of: Vec<f64>,
    /// Their sum.
    all: f64,
    /// What it was filled for.
    alike: Option<(usize, usize)>,
}

impl Weight {
    fn fill(&mut self, question: &Rows, rows: usize, shares: &[f64]) {
        if self.alike == Some((question.alike, rows)) {
            return;
        }
        self.alike = Some((question.alike, rows));
        self.of.clear();
        self.of.resize(rows, 0.0);
        for (target, row) in &question.pure {
            self.of[*row as usize] += shares[*target as usize];
        }
        self.all = self.of.iter().sum();
    }
}

/// Sum of products, in eight sums that run side by side: the order is fixed, and no addition waits for the one before.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    let (mut lanes, whole) = ([0.0; 8], a.len() / 8 * 8);
    for (a, b) in a[..whole].chunks_exact(8).zip(b[..whole].chunks_exact(8)) {
        for (lane, (x, y)) in lanes.iter_mut().zip(a.iter().zip(b)) {
            *lane += x * y;
        }
    }
    let rest: f64 = a[whole..].iter().zip(&b[whole..]).map(|(x, y)| x * y).sum();
    lanes.iter().sum::<f64>() + rest
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
        Rows { alike: 0, pure, mixed }
    }
}

/// The same for mixtures: few targets, so T is summed row by row and its logarithm taken.
fn gain_mix(model: &Model, posterior: &Posterior, at: usize, of: &[Vec<f64>], shares: &[f64]) -> f64 {
    let q = &model.questions[at];
    let (rows, targets) = (q.parts.rows.len(), shares.len());
    let mut weight = vec![0.0; rows * targets];
    for ((p, row), of) in posterior.p.iter().zip(&q.parts.row_of).zip(of) {
        for (t, s) in of.iter().enumerate() {
            weight[row * targets + t] += p * s;
        }
    }
    let mut nats = -shares.iter().map(|s| x_ln_x(*s)).sum::<f64>();
    let mut joint = vec![0.0; targets];
    for chances in q.report.chunks(rows) {
        joint.fill(0.0);
        for (told, weight) in chances.iter().zip(weight.chunks(targets)) {
            joint.iter_mut().zip(weight).for_each(|(j, w)| *j += told * w);
        }
        nats += joint.iter().map(|x| x_ln_x(*x)).sum::<f64>() - x_ln_x(joint.iter().sum());
    }
    nats
}
