//! A piece as it is handed to a learner: every look has a true answer, and every answer can be drawn on it.

use super::{Drawer, Form};
use crate::sight::Sight;
use consult::{Guide, Instrument};
use reason::{Answer, Random, Told};

/// Which pieces are wanted.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Of {
    /// Indices of kinds, each as often as any other; none for all kinds, as common as the pack says.
    pub kinds: Vec<usize>,
    /// A period piece, or one that is not; none for either, as common as it is. Where the kind has no such make, either.
    pub period: Option<bool>,
}

/// A piece in the hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Handed {
    /// What it was drawn from.
    pub seed: u64,
    /// Index of its kind.
    pub kind: usize,
    /// Index of its make; 0 is period.
    pub make: usize,
    /// Index of the candidate.
    pub candidate: usize,
    /// By question the choice that is true; none where the question does not come up.
    pub truth: Vec<Option<usize>>,
    /// How long the sole is, whole mm, when the pack asks for it.
    pub mm: Option<u32>,
}

/// Makes pieces.
#[derive(Debug)]
pub struct Maker<'a> {
    guide: &'a Guide,
    drawer: Drawer<'a>,
    sight: &'a Sight,
}

impl<'a> Maker<'a> {
    /// Prepares a guide. `sight` must be of the same guide.
    #[must_use]
    pub fn new(guide: &'a Guide, sight: &'a Sight) -> Maker<'a> {
        Maker { guide, drawer: Drawer::new(guide), sight }
    }

    /// The kinds that can be handed out.
    #[must_use]
    pub fn kinds(&self) -> Vec<usize> {
        self.drawer.kinds()
    }

    /// The piece of a seed: the same seed and the same wish, the same piece, for ever more pieces.
    #[must_use]
    pub fn hand(&self, of: &Of, seed: u64) -> Handed {
        let core = &self.guide.core;
        let mut random = Random::seeded(Random::seeded(seed).bits());
        let candidate = self.candidate(of, &mut random);
        let own = &core.candidates[candidate];
        let (kind, make) = (usize::from(own.kind), usize::from(own.make));
        let piece = self.drawer.draw_as(Form::Bare, candidate, &mut random);
        let mut handed = Handed { seed, kind, make, candidate, truth: Vec::new(), mm: None };
        for (at, told) in piece.told.iter().enumerate() {
            let truth = self
                .opens(&handed, at)
                .then(|| self.settled(&mut handed.mm, at, told, candidate, &mut random));
            handed.truth.push(truth);
        }
        handed
    }

    /// An answer as drawn; when no drawing of the kind can show it, another of the same table that one can.
    fn settled(
        &self,
        mm: &mut Option<u32>,
        at: usize,
        told: &Told,
        candidate: usize,
        random: &mut Random,
    ) -> usize {
        let q = &self.guide.core.questions[at];
        let kind = usize::from(self.guide.core.candidates[candidate].kind);
        match told {
            Told::Measured { value, .. } => {
                let tenths = (*value * 10.0) as u32;
                mm.get_or_insert(tenths / 10);
                q.choices.iter().filter(|c| c.upper.is_some_and(|u| u < tenths)).count()
            }
            Told::OneOf(set) if set.first().is_some_and(|c| self.sight.can_show(kind, at, *c)) => set[0],
            Told::OneOf(_) | Told::Cannot => {
                let table = self.guide.model.truth(at, candidate).iter().enumerate();
                let fit = |(c, p): (usize, &f64)| if self.sight.can_show(kind, at, c) { *p } else { 0.0 };
                let weights: Vec<f64> = table.map(fit).collect();
                if weights.iter().sum::<f64>() > 0.0 {
                    random.pick(&weights)
                } else {
                    self.sight.mostly(kind, at)
                }
            }
        }
    }

    fn candidate(&self, of: &Of, random: &mut Random) -> usize {
        let all = match of.kinds.get(random.below(of.kinds.len())) {
            Some(kind) => self.drawer.weights_of(*kind, None),
            None => self.drawer.weights().to_vec(),
        };
        let wanted = |c: usize| of.period.is_none_or(|p| p == (self.guide.core.candidates[c].make == 0));
        let some: Vec<f64> = all.iter().enumerate().map(|(c, w)| if wanted(c) { *w } else { 0.0 }).collect();
        random.pick(if some.iter().sum::<f64>() > 0.0 { &some } else { &all })
    }

    /// Whether a question comes up on a piece whose earlier questions are settled.
    fn opens(&self, handed: &Handed, at: usize) -> bool {
        let gate = &self.guide.core.questions[at].gate;
        gate.as_ref().is_none_or(|g| {
            let told = handed.truth.get(usize::from(g.question)).copied().flatten();
            told.is_some_and(|t| g.choices.iter().any(|c| usize::from(*c) == t))
        })
    }
}

impl Handed {
    /// What would be told of it by someone who reads everything right, these questions only.
    #[must_use]
    pub fn answers(&self, guide: &Guide, looks: &[usize], sure: bool) -> Vec<Answer> {
        let one = |q: &usize| {
            let choice = self.truth.get(*q).copied().flatten()?;
            let told = match self.mm.filter(|_| guide.core.questions[*q].form == pack::Form::Length) {
                Some(mm) => Told::Measured {
                    value: f64::from(mm),
                    uncertainty: Instrument::Ruler.uncertainty(f64::from(mm)),
                },
                None => Told::OneOf(vec![choice]),
            };
            Some(Answer { question: *q, told, sure })
        };
        looks.iter().filter_map(one).collect()
    }

    /// All questions that come up on it.
    #[must_use]
    pub fn looks(&self) -> Vec<usize> {
        (0..self.truth.len()).filter(|q| self.truth[*q].is_some()).collect()
    }
}
