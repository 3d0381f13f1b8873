//! One piece examined: the guided opening first, then whatever tells most for its time, until the looks are spent. The
//! same rules as the page's own: a test walks both (`tests/tests/simulated.rs`).

use consult::{Guide, SETTLED, SPENT, TELLS};
use pack::Standing;
use practice::Piece;
use reason::{Answer, Fit, Goal, Plan, Posterior, Reach, fit, rank, weigh, with_fit};

/// What is asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// The kind.
    Kind,
    /// What it was made as.
    Role,
    /// Period piece, later, recast.
    Make,
}

impl About {
    const ALL: [About; 3] = [About::Kind, About::Role, About::Make];
}

/// What a finding shows.
#[derive(Debug, Clone)]
pub struct Shown {
    /// Kinds of the guide with their shares, given that the piece is in it, best first; three at most.
    pub kinds: Vec<(usize, f64)>,
    /// The first role and its share.
    pub role: (usize, f64),
    /// The chance that it is a period piece.
    pub period: f64,
}

/// How an examination went.
#[derive(Debug, Clone)]
pub struct Examined {
    /// Index of what it is.
    pub candidate: usize,
    /// What it was made as.
    pub role: usize,
    /// Answers given until all that was asked about was settled, or no look told of it any more; "can't tell" is none.
    pub until: usize,
    /// Whether it was settled.
    pub settled: bool,
    /// Looks taken in all, those included where it could not be told.
    pub looks: usize,
    /// What stood then.
    pub shown: Shown,
    /// The questions, in the order in which they were asked.
    pub asked: Vec<usize>,
}

/// What stays the same from piece to piece.
#[derive(Debug)]
pub struct Examiner<'a> {
    guide: &'a Guide,
    /// In the order of [`About::ALL`].
    plans: [Plan; 3],
    reach: Reach,
    /// The same, with nothing but the opening to ask.
    reach_opening: Reach,
    about: Vec<About>,
    to_the_end: bool,
    most: usize,
    unknown: usize,
}

impl<'a> Examiner<'a> {
    /// Asks about these matters, one after the other as each is settled, with these tools; ends when all are settled, or
    /// goes on to the end of the looks; ends in any case with the `most` answers that say something.
    #[must_use]
    pub fn new(
        guide: &'a Guide,
        tools: Vec<usize>,
        about: &[About],
        to_the_end: bool,
        most: usize,
    ) -> Examiner<'a> {
        let model = &guide.model;
        let unknown = guide.core.kinds.iter().position(|k| k.standing == Standing::Unknown);
        let goals = [Goal::kind(model), Goal::role(model), Goal::make(model)];
        let opening = |q: &usize| guide.core.opening.iter().any(|o| usize::from(*o) == *q);
        let later = (0..guide.core.questions.len()).filter(|q| !opening(q)).collect();
        Examiner {
            reach_opening: Reach { tools: tools.clone(), picture: false, without: later },
            guide,
            plans: goals.map(|goal| Plan::new(model, goal)),
            reach: Reach { tools, picture: false, without: Vec::new() },
            about: about.to_vec(),
            to_the_end,
            most,
            unknown: unknown.unwrap_or(usize::MAX),
        }
    }

    /// Examines a piece.
    #[must_use]
    pub fn examine(&self, piece: &Piece) -> Examined {
        let mut answers: Vec<Answer> = Vec::new();
        let (mut until, mut settled) = (None, false);
        loop {
            let (posterior, fit) = self.weighed(&answers);
            let clues = answers.iter().filter(|a| a.told.speaks()).count();
            let mut next = self.opening(&posterior, &answers);
            if until.is_none() {
                let open = || self.about.iter().copied().filter(|a| !self.settled(*a, &posterior, fit));
                settled = open().next().is_none();
                if !settled && next.is_none() {
                    next = open().find_map(|a| self.telling(a, &posterior, &answers));
                }
                if settled || next.is_none() {
                    until = Some(clues);
                }
            }
            if until.is_some() && next.is_none() && self.to_the_end {
                next = self.any(&posterior, &answers);
            }
            match next.filter(|_| clues < self.most && (until.is_none() || self.to_the_end)) {
                Some(question) => {
                    answers.push(Answer { question, told: piece.told[question].clone(), sure: true });
                }
                None => {
                    return Examined {
                        candidate: piece.candidate,
                        role: piece.role,
                        settled,
                        until: until.unwrap_or(clues),
                        looks: answers.len(),
                        shown: self.shown(&posterior),
                        asked: answers.iter().map(|a| a.question).collect(),
                    };
                }
            }
        }
    }

    fn weighed(&self, answers: &[Answer]) -> (Posterior, Fit) {
        let model = &self.guide.model;
        let bare = weigh(model, 0, answers);
        let fit = fit(model, &bare, answers);
        (with_fit(model, bare, fit), fit)
    }

    fn plan(&self, about: About) -> &Plan {
        &self.plans[About::ALL.iter().position(|a| *a == about).unwrap_or(0)]
    }

    fn settled(&self, about: About, posterior: &Posterior, fit: Fit) -> bool {
        let (first, share) = top(&self.plan(about).goal().shares(posterior));
        share >= SETTLED && !fit.strange && !(about == About::Kind && first == self.unknown)
    }

    /// What is left of the opening.
    fn opening(&self, posterior: &Posterior, answers: &[Answer]) -> Option<usize> {
        let looks = rank(&self.guide.model, self.plan(About::Kind), posterior, answers, &self.reach_opening);
        let open = |q: &u16| looks.iter().any(|l| l.question == usize::from(*q));
        self.guide.core.opening.iter().copied().find(open).map(usize::from)
    }

    /// The look that tells most about a matter for its time, when it tells enough.
    fn telling(&self, about: About, posterior: &Posterior, answers: &[Answer]) -> Option<usize> {
        let looks = rank(&self.guide.model, self.plan(about), posterior, answers, &self.reach);
        looks.first().filter(|l| l.gain >= SPENT).map(|l| l.question)
    }

    /// The best look for its time that still tells something about the last matter asked about; where none does, about
    /// the next.
    fn any(&self, posterior: &Posterior, answers: &[Answer]) -> Option<usize> {
        let about = self.about.last().copied().unwrap_or(About::Kind);
        let others = About::ALL.into_iter().filter(|a| *a != about);
        std::iter::once(about).chain(others).find_map(|a| {
            let looks = rank(&self.guide.model, self.plan(a), posterior, answers, &self.reach);
            looks.iter().find(|l| l.gain >= TELLS).map(|l| l.question)
        })
    }

    fn shown(&self, posterior: &Posterior) -> Shown {
        let model = &self.guide.model;
        let shares = posterior.kinds(model);
        let here = 1.0 - shares.get(self.unknown).copied().unwrap_or(0.0);
        let known = shares.iter().enumerate().filter(|(k, _)| *k != self.unknown);
        let mut kinds: Vec<(usize, f64)> = known.map(|(k, p)| (k, p / here.max(1e-9))).collect();
        kinds.sort_by(|a, b| b.1.total_cmp(&a.1));
        kinds.truncate(3);
        Shown { kinds, role: top(&posterior.roles(model)), period: posterior.makes(model)[0] }
    }
}

/// The first of the greatest, with its value.
fn top(shares: &[f64]) -> (usize, f64) {
    shares.iter().copied().enumerate().fold((0, 0.0), |best, (i, s)| if s > best.1 { (i, s) } else { best })
}
