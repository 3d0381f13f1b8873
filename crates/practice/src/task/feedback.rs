//! What is said after an answer: the deciding feature, marked on the drawing, and how strong a clue it is.

use super::{Sort, Task, Trainer};
use crate::words::{capital, inside};
use consult::strength;

/// Two kinds set side by side, as typical ones.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// Its name.
    pub name: String,
    /// What to draw.
    pub draw: String,
    /// What the deciding look mostly shows on it.
    pub shows: String,
}

/// What is said after an answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Feedback {
    /// Whether it was right.
    pub right: bool,
    /// The first sentence: right or not, and what is the case.
    pub says: String,
    /// Further sentences: why, how strong, what newcomers get wrong.
    pub why: Vec<String>,
    /// What to draw, with the deciding feature in the accent; may be empty.
    pub mark: String,
    /// What that drawing shows, in words.
    pub shows: String,
    /// Look-alikes side by side: what it is, and what it was or could be taken for.
    pub beside: Vec<Beside>,
    /// Codes of what it is and of what it was taken for, where kinds were told apart.
    pub took: Option<(u16, u16)>,
}

impl Trainer<'_> {
    /// Grades an answer: the index of an offer.
    #[must_use]
    pub fn grade(&self, task: &Task, picked: usize) -> Feedback {
        let right = picked == task.right;
        let label = task.offers.get(task.right).map_or("", |o| o.label.as_str());
        let mut feedback = Feedback {
            right,
            says: format!("{} {}", if right { "Yes." } else { "No." }, said(label)),
            why: Vec::new(),
            mark: String::new(),
            shows: String::new(),
            beside: Vec::new(),
            took: None,
        };
        match task.sort {
            Sort::Look => self.after_look(task, &mut feedback),
            Sort::Name | Sort::Pair => self.after_kind(task, picked, &mut feedback),
            Sort::Old => self.after_old(task, &mut feedback),
            Sort::Next => self.after_next(task, &mut feedback),
            Sort::Proof => self.after_proof(task, &mut feedback),
        }
        if let Some(drawing) = self.sight.drawing(&feedback.mark) {
            feedback.shows = drawing.alt(&self.sight.art);
        }
        feedback
    }

    fn after_look(&self, task: &Task, feedback: &mut Feedback) {
        let Some(piece) = &task.piece else { return };
        feedback.mark = self.sight.marked(self.guide, piece, task.about);
        let answers = piece.answers(self.guide, &[task.about], true);
        let strongest = self.alike[piece.kind].iter().map(|k| (*k, self.strength(&answers, piece.kind, *k)));
        let strongest = strongest.reduce(|a, b| if b.1.abs() > a.1.abs() { b } else { a });
        if let Some((other, by)) = strongest {
            feedback.why.push(self.weight(by, piece.kind, other));
        }
        let newcomers =
            self.guide.book.as_ref().and_then(|b| b.questions.get(task.about)).map(|q| q.newcomers.clone());
        feedback.why.extend(newcomers.filter(|n| !feedback.right && !n.is_empty()));
    }

    fn after_kind(&self, task: &Task, picked: usize, feedback: &mut Feedback) {
        let Some(piece) = &task.piece else { return };
        let others = task.offers.iter().map(|o| o.stands).filter(|k| *k != piece.kind);
        let taken = task.offers.get(picked).map(|o| o.stands).filter(|k| *k != piece.kind);
        // Right: what it could most easily have been taken for, by all that was shown.
        let looks: Vec<usize> = task.views.iter().flat_map(|v| v.looks.iter().copied()).collect();
        let answers = piece.answers(self.guide, &looks, true);
        let near = others
            .map(|k| (k, self.strength(&answers, piece.kind, k)))
            .reduce(|a, b| if b.1 < a.1 { b } else { a });
        let Some(other) = taken.or(near.map(|n| n.0)) else { return };
        if let Some((question, by)) = self.decides(task, other) {
            feedback.why.push(self.clue(piece, question));
            feedback.why.push(self.weight(by, piece.kind, other));
            feedback.mark = self.sight.marked(self.guide, piece, question);
            feedback.beside = [piece.kind, other].map(|k| self.beside(k, question)).to_vec();
        }
        feedback.why.extend(self.check(piece.kind, other));
        let code = |k: usize| self.guide.core.kinds[k].code;
        feedback.took = taken.map(|k| (code(piece.kind), code(k)));
    }

    fn after_old(&self, task: &Task, feedback: &mut Feedback) {
        let Some((piece, (question, by))) = task.piece.as_ref().zip(self.decides_old(task)) else { return };
        feedback.mark = self.sight.marked(self.guide, piece, question);
        feedback.why.push(self.clue(piece, question));
        let side = if piece.make == 0 { "old" } else { "later" };
        feedback.why.push(format!("As a clue for {side}: {}.", strength(by)));
        feedback
            .why
            .push("No look alone proves old or later: they lean, and together they lean more.".to_string());
    }

    fn after_next(&self, task: &Task, feedback: &mut Feedback) {
        let crate::Item::Pair(a, b) = task.item else { return };
        let kind = |code: u16| self.guide.core.kinds.iter().position(|k| k.code == code);
        let Some((a, b)) = kind(a).zip(kind(b)) else { return };
        feedback.beside = [a, b].map(|k| self.beside(k, task.about)).to_vec();
        feedback.mark =
            self.guide.core.questions[task.about].choices[self.sight.mostly(a, task.about)].draw.clone();
        let bits = self.parts(a, b, task.about);
        let share = (bits * 10.0 + 0.5) as u32;
        feedback.why.push(format!(
            "On average this look tells about {} in 10 of all there is to know about which of the two it is.",
            share.max(1)
        ));
        feedback.why.extend(self.check(a, b).or_else(|| self.check(b, a)));
    }

    /// What a look shows on a piece, as a clue.
    pub(crate) fn clue(&self, piece: &crate::Handed, question: usize) -> String {
        let q = &self.guide.core.questions[question];
        let clue = piece.truth[question].map_or("", |c| q.choices[c].clue.as_str());
        format!("What decides: {}.", inside(clue))
    }

    /// How strong a clue is between two kinds, in a sentence.
    fn weight(&self, by: f64, kind: usize, other: usize) -> String {
        let name = |k: usize| inside(&self.guide.core.kinds[k].name);
        match by.abs() {
            small if small < 0.1 => format!("It does not part {} from {}.", name(kind), name(other)),
            _ if by > 0.0 => {
                format!("As a clue for {} against {}: {}.", name(kind), name(other), strength(by))
            }
            _ => format!(
                "As a clue it speaks for {} against {}, {}: a piece need not be typical.",
                name(other),
                name(kind),
                strength(by)
            ),
        }
    }

    /// The writer's own check between two kinds.
    pub(crate) fn check(&self, kind: usize, other: usize) -> Option<String> {
        let texts = &self.guide.book.as_ref()?.kinds;
        let of = |a: usize, b: usize| texts.get(a)?.confusions.iter().find(|c| usize::from(c.kind) == b);
        of(kind, other).or_else(|| of(other, kind)).map(|c| c.check.clone())
    }

    /// A kind beside another: what it mostly shows.
    pub(crate) fn beside(&self, kind: usize, question: usize) -> Beside {
        let q = &self.guide.core.questions[question];
        let draw = self
            .guide
            .book
            .as_ref()
            .and_then(|b| b.kinds.get(kind))
            .map_or_else(String::new, |k| k.draw.clone());
        let mostly = self.sight.mostly(kind, question);
        Beside {
            name: self.guide.core.kinds[kind].name.clone(),
            draw,
            shows: format!("Mostly: {}", inside(&q.choices[mostly].clue)),
        }
    }
}

/// A label as a sentence.
pub(crate) fn said(label: &str) -> String {
    let label = capital(label);
    if label.ends_with(['.', '?', '!']) { label } else { format!("{label}.") }
}
