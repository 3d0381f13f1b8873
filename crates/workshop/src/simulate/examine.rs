//! One piece examined: the guided opening first, then whatever tells most for its time, until the looks are spent.

use super::piece::Piece;
use consult::Guide;
use pack::Standing;
use reason::{Answer, Fit, Goal, Plan, Posterior, Reach, fit, rank, weigh, with_fit};

/// Below this, in bits, a look is not worth its time: the page's own limit.
const SPENT: f64 = 0.05;
/// Where the page calls a finding settled.
const SETTLED: f64 = 0.90;

/// What a finding shows.
#[derive(Debug, Clone)]
pub struct Shown {
    /// Kinds of the guide with their shares, given that the piece is in it, best first; three at most.
    pub kinds: Vec<(usize, f64)>,
    /// The first role and its share.
    pub role: (usize, f64),
}

/// How an examination went.
#[derive(Debug, Clone)]
pub struct Examined {
    /// Index of what it is.
    pub candidate: usize,
    /// What it was made as.
    pub role: usize,
    /// Looks taken until settled or spent.
    pub until: usize,
    /// Whether it was settled.
    pub settled: bool,
    /// Looks taken in all.
    pub looks: usize,
    /// What stood then.
    pub shown: Shown,
    /// The questions, in the order in which they were asked.
    pub asked: Vec<usize>,
}

/// What stays the same from piece to piece.
pub(super) struct Examiner<'a> {
    guide: &'a Guide,
    plan: Plan,
    reach: Reach,
    unknown: usize,
}

/// Examines one piece with these tools.
#[must_use]
pub fn examine(guide: &Guide, tools: &[usize], piece: &Piece) -> Examined {
    Examiner::new(guide, tools).examine(piece)
}

impl<'a> Examiner<'a> {
    pub(super) fn new(guide: &'a Guide, tools: &[usize]) -> Examiner<'a> {
        let unknown = guide.core.kinds.iter().position(|k| k.standing == Standing::Unknown);
        Examiner {
            guide,
            plan: Plan::new(&guide.model, Goal::kind(&guide.model)),
            reach: Reach { tools: tools.to_vec(), picture: false, without: Vec::new() },
            unknown: unknown.unwrap_or(usize::MAX),
        }
    }

    pub(super) fn examine(&self, piece: &Piece) -> Examined {
        let mut answers: Vec<Answer> = Vec::new();
        let mut until = None;
        loop {
            let (posterior, fit) = self.weighed(&answers);
            let settled = self.settled(&posterior, fit);
            if settled && until.is_none() {
                until = Some(answers.len());
            }
            let Some(question) = self.next(&posterior, &answers) else {
                return Examined {
                    candidate: piece.candidate,
                    role: piece.role,
                    settled: until.is_some(),
                    until: until.unwrap_or(answers.len()),
                    looks: answers.len(),
                    shown: self.shown(&posterior),
                    asked: answers.iter().map(|a| a.question).collect(),
                };
            };
            answers.push(Answer { question, told: piece.told[question].clone(), sure: true });
        }
    }

    fn weighed(&self, answers: &[Answer]) -> (Posterior, Fit) {
        let model = &self.guide.model;
        let bare = weigh(model, 0, answers);
        let fit = fit(model, &bare, answers);
        (with_fit(model, bare, fit), fit)
    }

    fn settled(&self, posterior: &Posterior, fit: Fit) -> bool {
        let kinds = posterior.kinds(&self.guide.model);
        let (first, share) = top(&kinds);
        share >= SETTLED && !fit.strange && first != self.unknown
    }

    fn next(&self, posterior: &Posterior, answers: &[Answer]) -> Option<usize> {
        let looks = rank(&self.guide.model, &self.plan, posterior, answers, &self.reach);
        let open = |q: &u16| looks.iter().any(|l| l.question == usize::from(*q));
        let opening = self.guide.core.opening.iter().copied().find(open).map(usize::from);
        opening.or_else(|| looks.iter().find(|l| l.gain >= SPENT).map(|l| l.question))
    }

    fn shown(&self, posterior: &Posterior) -> Shown {
        let shares = posterior.kinds(&self.guide.model);
        let here = 1.0 - shares.get(self.unknown).copied().unwrap_or(0.0);
        let known = shares.iter().enumerate().filter(|(k, _)| *k != self.unknown);
        let mut kinds: Vec<(usize, f64)> = known.map(|(k, p)| (k, p / here.max(1e-9))).collect();
        kinds.sort_by(|a, b| b.1.total_cmp(&a.1));
        kinds.truncate(3);
        Shown { kinds, role: top(&posterior.roles(&self.guide.model)) }
    }
}

/// The first of the greatest, with its value.
fn top(shares: &[f64]) -> (usize, f64) {
    shares.iter().copied().enumerate().fold((0, 0.0), |best, (i, s)| if s > best.1 { (i, s) } else { best })
}
