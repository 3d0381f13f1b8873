//! The posterior over candidates.

use crate::answer::{Answer, standing};
use crate::likelihood::{Clue, clue};
use crate::model::Model;
use units::order;

/// P(candidate | answers).
#[derive(Debug, Clone, PartialEq)]
pub struct Posterior {
    /// One probability a candidate, summing to 1.
    pub p: Vec<f64>,
}

/// Weighs answers against a model: prior of the `place`, times each answer's likelihood, tempered within groups.
///
/// Within a group the answers are ordered by information, the Kullback-Leibler divergence of the prior updated by
/// that answer alone from the prior, and raised to 1, (1-rho), (1-rho)^2... So the order of answering does not
/// matter, and of two candidates alone the one a clue speaks for never loses by it. Where the pack says that some
/// pieces are mixed, each group then speaks with that reserve (`doubted`).
/// A question answered twice counts once: the later answer replaces.
#[must_use]
pub fn weigh(model: &Model, place: usize, answers: &[Answer]) -> Posterior {
    let mut weighing = Weighing::new(model, place);
    for answer in standing(answers) {
        weighing.add(answer, answers);
    }
    weighing.posterior()
}

/// Answers on their way to a posterior. What a group says is kept, so that one answer more costs no more than its group.
pub(crate) struct Weighing<'a> {
    model: &'a Model,
    place: usize,
    /// In the order of summing, which is fixed by the pack, not by the user: group, those without one first, by question.
    groups: Vec<Group>,
}

struct Group {
    group: Option<usize>,
    /// Of a question without a group.
    question: usize,
    lines: Vec<Line>,
    /// What all lines together say; nothing after one has come in.
    spoken: Option<Vec<f64>>,
}

struct Line {
    question: usize,
    /// Reckoned when there is a second one in the group.
    information: Option<f64>,
    clue: Clue,
}

impl<'a> Weighing<'a> {
    /// Nothing answered yet.
    pub(crate) fn new(model: &'a Model, place: usize) -> Weighing<'a> {
        Weighing { model, place: place.min(model.parts.priors.len() - 1), groups: Vec::new() }
    }

    /// Takes an answer in; no other answer to its question may stand. `all` are all answers so far.
    pub(crate) fn add(&mut self, answer: &Answer, all: &[Answer]) {
        let Some(clue) = clue(self.model, answer, all) else { return };
        let question = answer.question;
        let group = self.model.questions[question].parts.group;
        let key = (group, if group.is_some() { 0 } else { question });
        let at = self.groups.partition_point(|g| (g.group, g.question) < key);
        if self.groups.get(at).is_none_or(|g| (g.group, g.question) != key) {
            let empty = Group { group, question: key.1, lines: Vec::new(), spoken: None };
            self.groups.insert(at, empty);
        }
        self.groups[at].lines.push(Line { question, information: None, clue });
        self.groups[at].spoken = None;
    }

    /// What they come to.
    pub(crate) fn posterior(&mut self) -> Posterior {
        let parts = &self.model.parts;
        let mut log_p = self.model.log_priors[self.place].clone();
        for group in &mut self.groups {
            let spoken = group.spoken.take().unwrap_or_else(|| {
                let overlap = group.group.map_or(0.0, |g| parts.overlaps[g]);
                speak(&parts.priors[self.place], &mut group.lines, overlap, parts.mixed)
            });
            log_p.iter_mut().zip(&spoken).for_each(|(p, l)| *p += l);
            group.spoken = Some(spoken);
        }
        Posterior { p: normalised(log_p) }
    }
}

/// What the lines of one group say together: the most telling first, then by question.
fn speak(prior: &[f64], lines: &mut [Line], overlap: f64, mixed: f64) -> Vec<f64> {
    if lines.len() > 1 {
        for line in lines.iter_mut() {
            line.information = line.information.or_else(|| Some(information(prior, &line.clue)));
        }
    }
    let told = |l: &Line| l.information.unwrap_or(0.0);
    let by_rank = order(lines.len(), &|a, b| {
        let (a, b) = (&lines[a], &lines[b]);
        told(b).total_cmp(&told(a)).then(a.question.cmp(&b.question))
    });
    doubted(prior, together(lines, &by_rank, overlap), mixed)
}

/// The log likelihoods of a group's clues, the most telling first: each weighs less by the group's overlap than the
/// one before.
fn together(lines: &[Line], by_rank: &[usize], overlap: f64) -> Vec<f64> {
    let mut sum = vec![0.0; lines[0].clue.log_l.len()];
    let mut weight = 1.0;
    for line in by_rank.iter().map(|at| &lines[*at]) {
        sum.iter_mut().zip(&line.clue.log_l).for_each(|(s, l)| *s += weight * l);
        weight *= 1.0 - overlap;
    }
    sum
}

/// Log likelihoods when, of so many groups of looks (`mixed`), the looks are not the piece's own but those of any
/// candidate, as common as they are: ln((1 - m) L + m sum p L). One group of looks then never speaks more than
/// about 1/m to one against what all others say. The order of candidates within the group stays.
fn doubted(prior: &[f64], log_l: Vec<f64>, mixed: f64) -> Vec<f64> {
    let top = log_l.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if mixed <= 0.0 || !top.is_finite() {
        return log_l;
    }
    let l: Vec<f64> = log_l.iter().map(|l| libm::exp(l - top)).collect();
    let anybody: f64 = prior.iter().zip(&l).map(|(p, l)| p * l).sum();
    l.into_iter().map(|l| libm::log((1.0 - mixed) * l + mixed * anybody)).collect()
}

/// Kullback-Leibler divergence, in nats, of the prior updated by one answer from the prior: sum a d - ln sum p e^d
/// with d = ln L - its top. Written with e^d - 1, so that a clue which is the same for all has exactly none: it
/// stands behind every other and tempers nothing.
fn information(prior: &[f64], clue: &Clue) -> f64 {
    let top = (prior.iter().zip(&clue.l)).filter(|(p, _)| **p > 0.0).fold(0.0_f64, |top, (_, l)| top.max(*l));
    if top <= 0.0 {
        return 0.0;
    }
    let log_top = libm::log(top);
    let (mut growth, mut spoken) = (0.0, 0.0);
    for (p, (l, log_l)) in prior.iter().zip(clue.l.iter().zip(&clue.log_l)) {
        if *p > 0.0 && *l > 0.0 {
            let less = (l - top) / top;
            // Near the top the difference of two logarithms would keep few digits.
            let d = if less > -0.1 { libm::log1p(less) } else { log_l - log_top };
            growth += p * less;
            spoken += p * (1.0 + less) * d;
        } else {
            growth -= p;
        }
    }
    spoken / (1.0 + growth) - libm::log1p(growth)
}

/// exp of logs, summing to 1. All minus infinity (a table of zeros): nothing is known, so uniform.
fn normalised(log_p: Vec<f64>) -> Vec<f64> {
    let top = log_p.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let n = log_p.len() as f64;
    let mut p: Vec<f64> =
        log_p.into_iter().map(|l| if top.is_finite() { libm::exp(l - top) } else { 1.0 / n }).collect();
    let sum: f64 = p.iter().sum();
    p.iter_mut().for_each(|x| *x /= sum);
    p
}

impl Posterior {
    /// P(kind), in pack order.
    #[must_use]
    pub fn kinds(&self, model: &Model) -> Vec<f64> {
        gather(&self.p, &model.parts.kind_of, model.parts.kinds)
    }

    /// P(make), in pack order.
    #[must_use]
    pub fn makes(&self, model: &Model) -> Vec<f64> {
        gather(&self.p, &model.parts.make_of, model.parts.makes)
    }

    /// P(role), in pack order.
    #[must_use]
    pub fn roles(&self, model: &Model) -> Vec<f64> {
        let mut shares = vec![0.0; model.parts.roles.first().map_or(0, Vec::len)];
        for (p, roles) in self.p.iter().zip(&model.parts.roles) {
            shares.iter_mut().zip(roles).for_each(|(s, r)| *s += p * r);
        }
        shares
    }
}

fn gather(p: &[f64], of: &[usize], n: usize) -> Vec<f64> {
    let mut shares = vec![0.0; n];
    p.iter().zip(of).for_each(|(p, t)| shares[*t] += p);
    shares
}
