//! First steps: the pack's worked pieces, with help that fades: shown, then asked, then alone.

use crate::pieces::Handed;
use crate::sight::View;
use crate::talk::Turn;
use crate::task::{Offer, Trainer};
use crate::words::inside;
use pack::{Help, Lesson};

/// What a learner does in a lesson.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Walk {
    /// Looks that were taken: index of the question, and the choice that was answered; none where it was shown.
    pub taken: Vec<(usize, Option<usize>)>,
    /// Index of the kind that was named, in a lesson without help.
    pub named: Option<usize>,
}

/// A step as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stand {
    /// The heading.
    pub title: String,
    /// Help, in words: "Shown", "Asked", "Alone".
    pub help: &'static str,
    /// What is said first.
    pub intro: String,
    /// What can be seen all round.
    pub views: Vec<View>,
    /// The looks so far, explained.
    pub done: Vec<Done>,
    /// What can be done now.
    pub now: Now,
}

/// A look that was taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Done {
    /// What was asked, what was seen, what remains.
    pub turn: Turn,
    /// Whether the learner saw it; none where it was shown.
    pub right: Option<bool>,
    /// What the lesson says about it; empty where it says nothing.
    pub says: String,
}

/// What can be done now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Now {
    /// Go on: the next look is shown.
    Show,
    /// Answer this look: index of the question, what is asked, the choices.
    Ask(usize, String, Vec<Offer>),
    /// Choose a look, or name the kind: looks by question, kinds by index.
    Choose(Vec<Offer>, Vec<Offer>),
    /// The end: what it is, and what the lesson says.
    End(String, String),
}

impl Trainer<'_> {
    /// The worked pieces of the pack, in the order in which they are taught.
    #[must_use]
    pub fn lessons(&self) -> &[Lesson] {
        self.guide.book.as_ref().map_or(&[], |b| &b.lessons.steps)
    }

    /// The piece of a lesson.
    #[must_use]
    pub fn piece_of(&self, lesson: &Lesson) -> Handed {
        let core = &self.guide.core;
        let fits = |c: &pack::Candidate| c.kind == lesson.kind && c.make == lesson.make;
        let candidate = core.candidates.iter().position(fits);
        let candidate = candidate.or_else(|| core.candidates.iter().position(|c| c.kind == lesson.kind));
        let mut truth = vec![None; core.questions.len()];
        for (q, c) in &lesson.answers {
            truth[usize::from(*q)] = Some(usize::from(*c));
        }
        Handed {
            seed: u64::from(lesson.code),
            kind: usize::from(lesson.kind),
            make: usize::from(lesson.make),
            candidate: candidate.unwrap_or(0),
            truth,
            mm: None,
        }
    }

    /// How a lesson stands.
    #[must_use]
    pub fn stand(&self, lesson: &Lesson, walk: &Walk) -> Stand {
        let piece = self.piece_of(lesson);
        let looks: Vec<usize> = walk.taken.iter().map(|t| t.0).collect();
        let told =
            |q: usize| lesson.steps.iter().find(|s| usize::from(s.question) == q).map(|s| s.says.clone());
        let turns = self.talk_of(&piece, &looks).into_iter();
        let done = turns.zip(&walk.taken).map(|(turn, (q, answered))| Done {
            right: answered.map(|c| piece.truth[*q] == Some(c)),
            says: told(*q).unwrap_or_default(),
            turn,
        });
        let views = self.sight.views(self.guide, &piece).all.into_iter();
        Stand {
            title: lesson.title.clone(),
            help: match lesson.help {
                Help::Shown => "Shown",
                Help::Asked => "Asked",
                Help::Alone => "Alone",
            },
            intro: lesson.intro.clone(),
            views: views.filter(|v| !v.close).collect(),
            done: done.collect(),
            now: self.now(lesson, &piece, walk),
        }
    }

    fn now(&self, lesson: &Lesson, piece: &Handed, walk: &Walk) -> Now {
        let core = &self.guide.core;
        let step = lesson.steps.get(walk.taken.len()).map(|s| usize::from(s.question));
        let ask = |q: usize| {
            let choices = core.questions[q].choices.iter().enumerate();
            let offers = choices.map(|(i, c)| Offer { label: c.label.clone(), stands: i });
            Now::Ask(q, core.questions[q].ask.clone(), offers.collect())
        };
        match (lesson.help, step) {
            (Help::Shown, Some(_)) => Now::Show,
            (Help::Asked, Some(q)) => ask(q),
            (Help::Shown | Help::Asked, None) => self.end(lesson, piece, None),
            (Help::Alone, _) => match walk.named {
                Some(kind) => self.end(lesson, piece, Some(kind)),
                None => {
                    let untold =
                        |q: &usize| !walk.taken.iter().any(|t| t.0 == *q) && self.reached(piece, walk, *q);
                    let look = |q: usize| Offer { label: core.questions[q].ask.clone(), stands: q };
                    let looks = piece.looks().into_iter().filter(untold).map(look).collect();
                    let mut kinds = vec![piece.kind];
                    kinds.extend(self.alike[piece.kind].iter().take(3));
                    // In the order of the pack, so that the place tells nothing.
                    let order = units::order(kinds.len(), &|a, b| kinds[a].cmp(&kinds[b]));
                    let kind = |k: usize| Offer { label: core.kinds[k].name.clone(), stands: k };
                    Now::Choose(looks, order.into_iter().map(|i| kind(kinds[i])).collect())
                }
            },
        }
    }

    /// Whether a look comes up: its gate was looked at.
    fn reached(&self, piece: &Handed, walk: &Walk, question: usize) -> bool {
        let gate = &self.guide.core.questions[question].gate;
        let looked = |q: usize| walk.taken.iter().any(|t| t.0 == q);
        gate.as_ref().is_none_or(|g| looked(usize::from(g.question)) && piece.truth[question].is_some())
    }

    fn end(&self, lesson: &Lesson, piece: &Handed, named: Option<usize>) -> Now {
        let name = |k: usize| inside(&self.guide.core.kinds[k].name);
        let make = inside(&self.guide.core.makes[piece.make].name);
        let is = format!("{}; {make}.", crate::words::capital(&name(piece.kind)));
        let is = match named {
            Some(kind) if kind == piece.kind => format!("Yes. {is}"),
            Some(kind) => {
                let check = self.check(piece.kind, kind).unwrap_or_default();
                format!("No, not {}. {is} {check}", name(kind)).trim_end().to_string()
            }
            None => is,
        };
        Now::End(is, lesson.ends.clone())
    }

    /// Takes the next look of a lesson: the one that is shown, or an answer, or one that was chosen.
    #[must_use]
    pub fn walked(&self, lesson: &Lesson, walk: &Walk, chosen: Option<usize>) -> Walk {
        let mut walk = walk.clone();
        let piece = self.piece_of(lesson);
        match (self.now(lesson, &piece, &walk), chosen) {
            (Now::Show, _) => {
                let step = lesson.steps.get(walk.taken.len());
                walk.taken.extend(step.map(|s| (usize::from(s.question), None)));
            }
            (Now::Ask(q, _, offers), Some(c)) if c < offers.len() => walk.taken.push((q, Some(c))),
            (Now::Choose(looks, kinds), Some(at)) => {
                match (looks.get(at), kinds.get(at.wrapping_sub(looks.len()))) {
                    (Some(look), _) => walk.taken.push((look.stands, None)),
                    (None, Some(kind)) => walk.named = Some(kind.stands),
                    (None, None) => {}
                }
            }
            _ => {}
        }
        walk
    }
}
