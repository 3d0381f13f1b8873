//! Growing the tree of a printed key.

use super::bound;
use consult::Guide;
use reason::{Answer, Goal, Look, Plan, Posterior, Reach, Told, rank, weigh};

/// A branch that fewer pieces take ends in what fits so far. Basis: practice (paper has an end).
const RARE: f64 = 1.0 / 300.0;
/// A kind is named when it stands so high.
const ENOUGH: f64 = 0.85;
/// Below this expected information in bits no further question is printed.
const SPENT: f64 = 0.08;
const DEEPEST: usize = 9;
/// So many of the looks that tell most are followed to the end.
const FOLLOWED: usize = 4;
/// What a bit is worth, in questions that it costs by the best look now. Basis: of one, two, three, five and ten the one
/// that tells most for its length, on the tables drawn in the tests and on the bundled pack.
const WORTH: f64 = 2.0;

/// One numbered entry.
pub(super) struct Entry {
    pub(super) question: usize,
    /// By choice: where it leads; none where the choice cannot be true.
    pub(super) leads: Vec<Option<Lead>>,
}

/// Where an answer leads.
pub(super) enum Lead {
    /// To the entry of this index.
    Entry(usize),
    /// To these kinds, with their chances.
    Kinds(Vec<(usize, f64)>),
}

/// A tree of questions.
pub(crate) struct Key {
    /// Where it begins: at an entry, unless nothing needs to be asked.
    pub(super) begin: Lead,
    pub(super) entries: Vec<Entry>,
    /// Mean number of questions, over pieces as common as the pack says and without a misread answer.
    pub(super) steps: f64,
    /// The chance that the first kind named is right, without a misread answer.
    pub(super) right: f64,
    /// What it tells of the kind on the average, in bits.
    pub(super) told: f64,
    /// No key that tells as much takes fewer questions on the average.
    pub(super) fewest: f64,
}

/// What stays the same while it grows.
struct Soil<'a> {
    guide: &'a Guide,
    plan: Plan,
    reach: Reach,
}

/// What is known at one place of the tree.
struct Here {
    answers: Vec<Answer>,
    /// P(candidate, all answers so far), as the tables have it.
    joint: Vec<f64>,
}

impl Here {
    fn share(&self) -> f64 {
        self.joint.iter().sum()
    }
}

impl Key {
    /// Grows the key of a pack.
    pub(crate) fn of(guide: &Guide) -> Key {
        let model = &guide.model;
        let soil = Soil {
            guide,
            plan: Plan::new(model, Goal::kind(model)),
            reach: Reach {
                tools: (0..guide.core.tools.len()).collect(),
                picture: false,
                without: Vec::new(),
            },
        };
        let mut key = Key {
            begin: Lead::Kinds(Vec::new()),
            entries: Vec::new(),
            steps: 0.0,
            right: 0.0,
            told: 0.0,
            fewest: 0.0,
        };
        let prior = weigh(model, 0, &[]);
        key.told = bound::entropy(&prior.kinds(model));
        let questions = guide.core.questions.len();
        let first = bound::at_first(model, questions, &prior);
        key.begin = key.grow(&soil, Here { answers: Vec::new(), joint: prior.p });
        key.fewest = bound::fewest(model, questions, key.told, first);
        key
    }

    fn grow(&mut self, soil: &Soil<'_>, here: Here) -> Lead {
        let model = &soil.guide.model;
        let share = here.share();
        let posterior = weigh(model, 0, &here.answers);
        let kinds = posterior.kinds(model);
        let best = if ends(&kinds, &here) { None } else { soil.best(&here, &posterior) };
        let Some(question) = best else {
            let named = named(&kinds);
            let truly = truly(soil.guide, &here.joint);
            self.right += truly[named[0].0];
            self.told -= share * bound::entropy(&truly.iter().map(|t| t / share).collect::<Vec<_>>());
            return Lead::Kinds(named);
        };
        self.steps += share;
        let at = self.entries.len();
        self.entries.push(Entry { question, leads: Vec::new() });
        let choices = soil.guide.core.questions[question].choices.len();
        let leads = (0..choices)
            .map(|choice| {
                let after = soil.after(&here, question, choice);
                (after.share() > 0.0).then(|| self.grow(soil, after))
            })
            .collect();
        self.entries[at].leads = leads;
        Lead::Entry(at)
    }
}

impl Soil<'_> {
    /// Of the looks that tell most the one that does best together with the best looks after it, to the end; none when
    /// nothing tells enough.
    fn best(&self, here: &Here, posterior: &Posterior) -> Option<usize> {
        let mut looks = self.looks(posterior, &here.answers);
        looks.truncate(FOLLOWED);
        looks.retain(|l| l.gain >= SPENT);
        let most = looks.first()?.gain;
        if looks.len() == 1 {
            return Some(looks[0].question);
        }
        let mut best: Option<(f64, usize)> = None;
        for look in looks {
            let (told, steps) = self.follow(here, look);
            let value = WORTH * told / most - steps;
            if best.is_none_or(|(before, _)| value > before + 1e-12) {
                best = Some((value, look.question));
            }
        }
        best.map(|(_, question)| question)
    }

    /// Bits and questions that come, counted over all pieces, when this look is followed by whatever tells most.
    fn follow(&self, here: &Here, look: Look) -> (f64, f64) {
        let share = here.share();
        let (mut told, mut steps) = (share * look.gain, share);
        for choice in 0..self.guide.core.questions[look.question].choices.len() {
            let after = self.after(here, look.question, choice);
            if after.share() <= 0.0 {
                continue;
            }
            let posterior = weigh(&self.guide.model, 0, &after.answers);
            if !ends(&posterior.kinds(&self.guide.model), &after)
                && let Some(next) = self.looks(&posterior, &after.answers).first().filter(|l| l.gain >= SPENT)
            {
                let (more, further) = self.follow(&after, *next);
                (told, steps) = (told + more, steps + further);
            }
        }
        (told, steps)
    }

    /// The looks that are open, the one that tells most first: on paper it is questions that count, not seconds.
    fn looks(&self, posterior: &Posterior, answers: &[Answer]) -> Vec<Look> {
        let mut looks = rank(&self.guide.model, &self.plan, posterior, answers, &self.reach);
        looks.sort_by(|a, b| b.gain.total_cmp(&a.gain));
        looks
    }

    fn after(&self, here: &Here, question: usize, choice: usize) -> Here {
        let mut answers = here.answers.clone();
        answers.push(Answer { question, told: Told::OneOf(vec![choice]), sure: true });
        let shown = |(c, p): (usize, &f64)| p * self.guide.model.truth(question, c)[choice];
        Here { answers, joint: here.joint.iter().enumerate().map(shown).collect() }
    }
}

/// Whether nothing more is asked here.
fn ends(kinds: &[f64], here: &Here) -> bool {
    let top = kinds.iter().copied().fold(0.0, f64::max);
    top >= ENOUGH || here.share() < RARE || here.answers.len() >= DEEPEST
}

/// By kind.
fn truly(guide: &Guide, joint: &[f64]) -> Vec<f64> {
    let mut kinds = vec![0.0; guide.core.kinds.len()];
    joint.iter().zip(guide.model.kind_of()).for_each(|(p, k)| kinds[*k] += p);
    kinds
}

/// The kinds that stand at one in six or more, three at most; always the first.
fn named(kinds: &[f64]) -> Vec<(usize, f64)> {
    let mut list: Vec<(usize, f64)> = kinds.iter().copied().enumerate().collect();
    list.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mut list: Vec<(usize, f64)> = list.into_iter().take(3).collect();
    let first = list[0];
    list.retain(|k| k.1 >= 1.0 / 6.0 || k.0 == first.0);
    list
}
