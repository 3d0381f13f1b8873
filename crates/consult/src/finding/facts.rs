//! What a state comes to, computed once for a screen.

use crate::guide::{Aim, Guide};
use crate::look::{SETTLED, SPENT, TELLS};
use crate::marks::Marks;
use crate::state::State;
use reason::{Answer, Fit, Look, Posterior, Reach, fit, rank, weigh, with_fit};
use units::descending;

/// The chance of a piece outside the guide from which it is said first. Basis: practice.
const SAID_FIRST: f64 = 0.10;
/// Kinds still fit that together hold this share. Basis: practice.
const STILL_FIT: f64 = 0.95;

/// What a state comes to.
pub(crate) struct Facts {
    pub(crate) answers: Vec<Answer>,
    /// With the fit taken in: the one story about "not in this guide".
    pub(crate) posterior: Posterior,
    pub(crate) kinds: Vec<f64>,
    pub(crate) makes: Vec<f64>,
    pub(crate) roles: Vec<f64>,
    pub(crate) fit: Fit,
    /// Open questions, best first: for the aim, or, once no look tells about that any more, for the next matter.
    pub(crate) ranked: Vec<Look>,
    /// What they are ranked for.
    pub(crate) ranked_for: Aim,
    /// The opening is done, and the look that tells most about the aim for its time tells little.
    pub(crate) spent: bool,
    /// First and second kind of the guide.
    pub(crate) first: usize,
    pub(crate) second: Option<usize>,
    aim: Aim,
    aim_shares: Vec<f64>,
    prior_shares: Vec<f64>,
    picture: bool,
    lettered: bool,
    unknown: usize,
}

impl Facts {
    pub(crate) fn new(guide: &Guide, state: &State) -> Facts {
        let model = &guide.model;
        let answers = state.answers();
        let (posterior, fit) = found(guide, state, &answers);
        let plan = guide.plan(state.aim);
        let ranked = |aim| rank(model, guide.plan(aim), &posterior, &answers, &state.reach());
        let own = ranked(state.aim);
        let opens = |l: &Look| guide.core.opening.iter().any(|q| usize::from(*q) == l.question);
        let spent = guide.is_whole() && own.first().is_none_or(|l| l.gain < SPENT) && !own.iter().any(opens);
        let (ranked_for, ranked) = with_more(state.aim, own, ranked);
        let kinds = posterior.kinds(model);
        let unknown = guide.unknown();
        let order: Vec<usize> = descending(&kinds).into_iter().filter(|k| *k != unknown).collect();
        Facts {
            makes: posterior.makes(model),
            roles: posterior.roles(model),
            fit,
            ranked,
            ranked_for,
            spent,
            first: order[0],
            second: order.get(1).copied(),
            aim: state.aim,
            aim_shares: plan.goal().shares(&posterior),
            prior_shares: plan.goal().shares(&weigh(model, state.place, &[])),
            picture: state.picture,
            lettered: state.marks.told.is_some(),
            unknown,
            answers,
            kinds,
            posterior,
        }
    }

    /// The same without the lettering.
    pub(crate) fn without_marks(&self, guide: &Guide, state: &State) -> Posterior {
        let marks = Marks::default();
        found(guide, &State { marks, ..state.clone() }, &self.answers).0
    }

    /// Whether anything was told: "can't tell" alone says nothing.
    pub(crate) fn told(&self) -> bool {
        self.answers.iter().any(|a| a.told.speaks()) || self.lettered
    }

    /// The aim's top share is high enough, the piece fits, and it is not the unknown that leads.
    pub(crate) fn settled(&self) -> bool {
        let (top, share) = top(&self.aim_shares);
        share >= SETTLED && !self.fit.strange && !(self.aim == Aim::Kind && top == self.unknown)
    }

    /// Share of the aim's entropy that is gone, per mille.
    pub(crate) fn known(&self) -> u16 {
        let (before, now) = (entropy(&self.prior_shares), entropy(&self.aim_shares));
        if before <= 0.0 { 1000 } else { ((1.0 - now / before).clamp(0.0, 1.0) * 1000.0) as u16 }
    }

    /// How many kinds still fit: the fewest that together hold 95 in 100.
    pub(crate) fn fitting(&self) -> usize {
        let mut held = 0.0;
        let inside = |kind: &usize| {
            let short = held < STILL_FIT;
            held += self.kinds[*kind];
            short
        };
        descending(&self.kinds).into_iter().take_while(inside).count()
    }

    /// The chance that the piece is not in this guide.
    pub(crate) fn not_here(&self) -> f64 {
        self.kinds.get(self.unknown).copied().unwrap_or(0.0)
    }

    /// Whether that chance is said first.
    pub(crate) fn strange(&self) -> bool {
        self.not_here() >= SAID_FIRST
    }

    /// The first kind's share, given that the piece is in this guide.
    pub(crate) fn first_share(&self) -> f64 {
        self.kinds[self.first] / (1.0 - self.not_here()).max(1e-9)
    }

    /// P(period), leaving out what is not in this guide.
    pub(crate) fn period(&self) -> f64 {
        self.makes[0]
    }

    /// The open question that separates two kinds best, cost taken in.
    pub(crate) fn separating(&self, guide: &Guide, state: &State, one: usize, other: usize) -> Option<Look> {
        let mut p = self.posterior.p.clone();
        for (p, kind) in p.iter_mut().zip(guide.model.kind_of()) {
            if *kind != one && *kind != other {
                *p = 0.0;
            }
        }
        let sum: f64 = p.iter().sum();
        if sum <= 0.0 {
            return None;
        }
        p.iter_mut().for_each(|x| *x /= sum);
        let pair = Posterior { p };
        rank(&guide.model, guide.plan(Aim::Kind), &pair, &self.answers, &state.reach()).into_iter().next()
    }

    /// The looks that need the hand and tell most, as questions for a seller who has the piece.
    pub(crate) fn seller_questions(&self, guide: &Guide) -> Vec<String> {
        let Some(book) = guide.book.as_ref().filter(|_| self.picture) else {
            return Vec::new();
        };
        let text = |q: usize| book.questions[q].seller.clone();
        let reach =
            Reach { tools: (0..guide.core.tools.len()).collect(), picture: false, without: Vec::new() };
        let mut asked: Vec<usize> = Vec::new();
        // What it is comes first; a copy is told from an old one by the same means, once the kind is clear.
        for aim in [Aim::Kind, Aim::Make] {
            let ranked = rank(&guide.model, guide.plan(aim), &self.posterior, &self.answers, &reach);
            let telling =
                |l: &&Look| !guide.core.questions[l.question].by_picture && l.gain >= crate::look::TELLS;
            for look in ranked.iter().filter(telling) {
                if !asked.contains(&look.question) {
                    asked.push(look.question);
                }
            }
        }
        asked.into_iter().take(4).map(text).collect()
    }
}

/// P(candidate | everything told), in the order of the pack: for programs, which need numbers rather than words.
#[must_use]
pub fn shares(guide: &Guide, state: &State) -> Vec<f64> {
    found(guide, state, &state.answers()).0.p
}

/// The posterior of these answers with the fit and the lettering taken in. The fit is about the answers: what lettering
/// says of years is no sign of a piece outside the guide.
pub(crate) fn found(guide: &Guide, state: &State, answers: &[Answer]) -> (Posterior, Fit) {
    let bare = weigh(&guide.model, state.place, answers);
    let fit = fit(&guide.model, &bare, answers);
    let mut posterior = with_fit(&guide.model, bare, fit);
    if let Some(told) = &state.marks.told {
        let by = |(p, f): (&f64, &f64)| p * f;
        let p: Vec<f64> = posterior.p.iter().zip(&told.factors).map(by).collect();
        let sum: f64 = p.iter().sum();
        if sum > 0.0 {
            posterior.p = p.into_iter().map(|x| x / sum).collect();
        }
    }
    (posterior, fit)
}

/// The ranking for the aim; where no look tells anything about it any more, that for the first other matter of which one
/// does: what it is, what it was made as, old or later.
fn with_more(aim: Aim, own: Vec<Look>, ranked: impl Fn(Aim) -> Vec<Look>) -> (Aim, Vec<Look>) {
    let telling = |looks: &[Look]| looks.iter().any(|l| l.gain >= TELLS);
    if telling(&own) {
        return (aim, own);
    }
    let others = [Aim::Kind, Aim::Role, Aim::Make].into_iter().filter(|other| *other != aim);
    others.map(|other| (other, ranked(other))).find(|(_, looks)| telling(looks)).unwrap_or((aim, own))
}

/// Index and value of the largest share.
pub(crate) fn top(shares: &[f64]) -> (usize, f64) {
    shares.iter().copied().enumerate().fold((0, 0.0), |best, (i, s)| if s > best.1 { (i, s) } else { best })
}

fn entropy(shares: &[f64]) -> f64 {
    -shares.iter().filter(|s| **s > 0.0).map(|s| s * libm::log(*s)).sum::<f64>()
}
