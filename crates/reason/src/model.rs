//! The tables of all candidates, prepared for computing.

use crate::normal;

/// Of the chance of misreading, the share that goes to the choices a choice is easily taken for; the rest is
/// spread thinly. Basis: memory.
const TO_CONFUSED: f64 = 0.8;
/// A question behind a gate speaks of a candidate only where the gate is open at least this often: below it, the
/// candidate's table for the question is hearsay. Basis: memory.
const GATE_OPEN: f64 = 0.10;

/// What a model is made from. Shapes: `n` candidates, `p` places, `r` roles.
#[derive(Debug, Clone)]
pub struct Parts {
    /// Number of kinds.
    pub kinds: usize,
    /// Number of makes.
    pub makes: usize,
    /// Kind of each candidate, n.
    pub kind_of: Vec<usize>,
    /// Make of each candidate, n.
    pub make_of: Vec<usize>,
    /// P(role | candidate), n rows of r.
    pub roles: Vec<Vec<f64>>,
    /// Relative prior, p rows of n; every row needs a positive sum.
    pub priors: Vec<Vec<f64>>,
    /// Overlap rho of each group of questions, 0 (independent) to below 1.
    pub overlaps: Vec<f64>,
    /// Of the groups of looks of a piece, the share whose looks are not its own (a grip replaced, a surface worked
    /// over), 0 to below 1. A question without a group is a group of its own.
    pub mixed: f64,
    /// The questions.
    pub questions: Vec<QuestionParts>,
    /// Index of the kind that stands for everything unknown, if there is one.
    pub unknown: Option<usize>,
    /// Lowest ordinary fit by number of answers, in standard deviations; may be empty.
    pub fit_limits: Vec<f64>,
}

/// One question's part of a model.
#[derive(Debug, Clone)]
pub struct QuestionParts {
    /// Number of choices (or classes).
    pub choices: usize,
    /// What is measured, and the upper bounds of the classes (one fewer than choices).
    pub quantity: Quantity,
    /// Distributions.
    pub rows: Vec<RowParts>,
    /// Row of each candidate.
    pub row_of: Vec<usize>,
    /// P(misread) of a sure and of an unsure answer.
    pub misread: (f64, f64),
    /// For each choice, the choices it is easily taken for.
    pub confused: Vec<Vec<usize>>,
    /// Index of its group.
    pub group: Option<usize>,
    /// An earlier question and the choices of it after which this one may be asked.
    pub gate: Option<(usize, Vec<usize>)>,
    /// Seconds the look costs, above zero.
    pub seconds: f64,
    /// P(it can be told).
    pub tellable: f64,
    /// Index of the tool it needs.
    pub tool: Option<usize>,
    /// Whether a picture is enough.
    pub by_picture: bool,
}

/// What a question measures.
#[derive(Debug, Clone, PartialEq)]
pub enum Quantity {
    /// Nothing: choices only.
    None,
    /// A length in mm; class bounds in mm.
    Length(Vec<f64>),
    /// A mass in g, judged as ln(mass / length^3) with mass in g and length in cm; class bounds in the same.
    Heft(Vec<f64>),
}

/// A distribution.
#[derive(Debug, Clone, PartialEq)]
pub enum RowParts {
    /// P(choice), summing to 1.
    Shares(Vec<f64>),
    /// Normal in the quantity's unit.
    Spread {
        /// Mean.
        mean: f64,
        /// Standard deviation, above zero.
        sd: f64,
    },
}

/// The tables of all candidates.
#[derive(Debug)]
pub struct Model {
    /// What it was made from, less the questions.
    pub(crate) parts: Parts,
    /// ln of the priors, by place.
    pub(crate) log_priors: Vec<Vec<f64>>,
    pub(crate) questions: Vec<Question>,
}

/// A question with what is computed once.
#[derive(Debug)]
pub(crate) struct Question {
    pub(crate) parts: QuestionParts,
    /// P(truth) by row and choice.
    pub(crate) truth: Vec<f64>,
    /// P(sure report) by choice and row: a choice's chances stand together, so that they are summed in one sweep.
    pub(crate) report: Vec<f64>,
    /// Sum of p ln p over the reports of a row.
    pub(crate) spoken: Vec<f64>,
    /// Width of all that a measurement may reasonably read, for the floor under gross errors.
    pub(crate) range: f64,
    /// Candidates to which the question does not apply, ascending.
    pub(crate) closed: Vec<usize>,
}

impl Model {
    /// Prepares the tables.
    ///
    /// # Errors
    /// A sentence when the shapes do not fit together.
    pub fn new(mut parts: Parts) -> Result<Model, String> {
        let n = parts.kind_of.len();
        let shaped = parts.make_of.len() == n
            && parts.roles.len() == n
            && !parts.priors.is_empty()
            && parts.priors.iter().all(|p| p.len() == n && p.iter().sum::<f64>() > 0.0)
            && parts
                .questions
                .iter()
                .all(|q| q.row_of.len() == n && q.row_of.iter().all(|r| *r < q.rows.len()));
        if n == 0 || !shaped {
            return Err("The tables of this pack do not fit together.".to_string());
        }
        for prior in &mut parts.priors {
            let sum: f64 = prior.iter().sum();
            prior.iter_mut().for_each(|p| *p /= sum);
        }
        let mut questions: Vec<Question> =
            core::mem::take(&mut parts.questions).into_iter().map(Question::new).collect();
        for i in 0..questions.len() {
            close_gate(i, &mut questions, &parts.priors[0]);
        }
        questions.iter_mut().for_each(Question::foresee);
        let logs = |prior: &Vec<f64>| prior.iter().map(|p| libm::log(*p)).collect();
        Ok(Model { log_priors: parts.priors.iter().map(logs).collect(), parts, questions })
    }

    /// Number of candidates.
    #[must_use]
    pub fn candidates(&self) -> usize {
        self.parts.kind_of.len()
    }

    /// Kind of each candidate.
    #[must_use]
    pub fn kind_of(&self) -> &[usize] {
        &self.parts.kind_of
    }

    /// P(truth = choice | candidate), a class for measured questions. Behind a closed gate: the mean over the
    /// candidates for which the gate is open.
    #[must_use]
    pub fn truth(&self, question: usize, candidate: usize) -> &[f64] {
        let q = &self.questions[question];
        let (k, row) = (q.parts.choices, q.parts.row_of[candidate]);
        &q.truth[row * k..(row + 1) * k]
    }
}

impl Question {
    fn new(parts: QuestionParts) -> Question {
        let mut q = Question {
            truth: Vec::new(),
            report: Vec::new(),
            spoken: Vec::new(),
            range: q_range(&parts),
            closed: Vec::new(),
            parts,
        };
        let rows: Vec<Vec<f64>> = q.parts.rows.iter().map(|r| q.classes(r)).collect();
        q.truth = rows.concat();
        q
    }

    /// The chances of each report, once all rows are there.
    fn foresee(&mut self) {
        let rows = self.parts.rows.len();
        self.spoken = vec![0.0; rows];
        for r in 0..self.parts.choices {
            let reads = self.reads_any(&[r], self.parts.misread.0);
            for row in 0..rows {
                let told = self.chance(row, &reads);
                self.report.push(told);
                self.spoken[row] += if told > 0.0 { told * libm::log(told) } else { 0.0 };
            }
        }
    }

    /// P(sure report | row).
    pub(crate) fn reported(&self, row: usize, choice: usize) -> f64 {
        self.report[choice * self.parts.rows.len() + row]
    }

    /// P(some report of a set | truth), by truth, when a share `e` of answers misreads.
    pub(crate) fn reads_any(&self, set: &[usize], e: f64) -> Vec<f64> {
        (0..self.parts.choices).map(|t| set.iter().map(|r| self.reads(*r, t, e)).sum()).collect()
    }

    /// P(report | row), the chances of the report by truth given.
    pub(crate) fn chance(&self, row: usize, reads: &[f64]) -> f64 {
        let k = self.parts.choices;
        let truth = &self.truth[row * k..(row + 1) * k];
        truth.iter().zip(reads).map(|(p, r)| p * r).sum()
    }

    /// P(choice) of a row; for a spread the mass of each class.
    fn classes(&self, row: &RowParts) -> Vec<f64> {
        match (row, &self.parts.quantity) {
            (RowParts::Shares(s), _) => s.clone(),
            (RowParts::Spread { mean, sd }, Quantity::Length(bounds) | Quantity::Heft(bounds)) => {
                let mut lower = 0.0;
                let mut shares: Vec<f64> = Vec::with_capacity(bounds.len() + 1);
                for b in bounds {
                    let upper = normal::below(*b, *mean, *sd);
                    shares.push(upper - lower);
                    lower = upper;
                }
                shares.push(1.0 - lower);
                shares
            }
            (RowParts::Spread { .. }, Quantity::None) => {
                vec![1.0 / self.parts.choices as f64; self.parts.choices]
            }
        }
    }

    /// P(reports r | truly t) when a share `e` of answers misreads.
    pub(crate) fn reads(&self, r: usize, t: usize, e: f64) -> f64 {
        let others = self.parts.choices - 1;
        if others == 0 {
            return 1.0;
        }
        if r == t {
            return 1.0 - e;
        }
        let confused = &self.parts.confused[t];
        let (near, far) = (confused.len(), others - confused.len());
        match (near, far) {
            (0, _) | (_, 0) => e / others as f64,
            _ if confused.contains(&r) => e * TO_CONFUSED / near as f64,
            _ => e * (1.0 - TO_CONFUSED) / far as f64,
        }
    }
}

/// Three standard deviations beyond the outermost rows.
fn q_range(parts: &QuestionParts) -> f64 {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for row in &parts.rows {
        if let RowParts::Spread { mean, sd } = row {
            low = low.min(mean - 3.0 * sd);
            high = high.max(mean + 3.0 * sd);
        }
    }
    if low < high { high - low } else { 1.0 }
}

/// Gives the candidates for which a question's gate is closed the mean table of those for which it is open: a
/// likelihood is linear in its table, so this is the mean likelihood, neither reward nor punishment. (That of a
/// typed number is levelled where it is computed.) Where the asked question does not apply, neither does this one.
fn close_gate(i: usize, questions: &mut [Question], prior: &[f64]) {
    let Some((asked, open)) = questions[i].parts.gate.clone() else {
        return;
    };
    let choices = questions[asked].parts.choices;
    let opens = |c: usize| -> f64 {
        let row = questions[asked].parts.row_of[c] * choices;
        open.iter().map(|o| questions[asked].truth[row + o]).sum()
    };
    let closed: Vec<usize> = (0..prior.len())
        .filter(|c| questions[asked].closed.binary_search(c).is_ok() || opens(*c) < GATE_OPEN)
        .collect();
    let q = &questions[i];
    let k = q.parts.choices;
    let (mut mean, mut weight) = (vec![0.0; k], 0.0);
    for c in (0..prior.len()).filter(|c| closed.binary_search(c).is_err()) {
        let row = q.parts.row_of[c] * k;
        (0..k).for_each(|x| mean[x] += prior[c] * q.truth[row + x]);
        weight += prior[c];
    }
    if weight > 0.0 {
        mean.iter_mut().for_each(|m| *m /= weight);
    } else {
        mean.iter_mut().for_each(|m| *m = 1.0 / k as f64);
    }
    let q = &mut questions[i];
    q.parts.rows.push(RowParts::Shares(mean.clone()));
    q.truth.extend(&mean);
    let last = q.parts.rows.len() - 1;
    closed.iter().for_each(|c| q.parts.row_of[*c] = last);
    q.closed = closed;
}
