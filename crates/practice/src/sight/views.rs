//! The views of a piece: all round, then the closer looks, each with what it says to those who cannot see it.

use super::{Sight, WHOLE, Words, drawn_in, unasked};
use crate::pieces::Handed;
use crate::words::{capital, shares_words};
use consult::Guide;
use pack::Form;
use sketch::Drawing;

/// One drawing of a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct View {
    /// On the key that turns to it: "Seen from below".
    pub name: String,
    /// What to draw, in the words of the sketches; nothing stands out.
    pub draw: String,
    /// What can be seen, in words.
    pub says: String,
    /// The questions that it answers.
    pub looks: Vec<usize>,
    /// A closer look at one feature; else the whole piece.
    pub close: bool,
}

/// The views of one piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Views {
    /// All round, then closer.
    pub all: Vec<View>,
}

impl Sight {
    /// All that can be seen of a piece, and its weight.
    #[must_use]
    pub fn views(&self, guide: &Guide, piece: &Handed) -> Views {
        let words = self.words(piece.kind, &piece.truth);
        let mut all = Vec::new();
        let mut placed = vec![false; piece.truth.len()];
        for view in WHOLE {
            let draw = words.line(view);
            let Some(drawing) = self.drawing(&draw) else { continue };
            let mut looks = Vec::new();
            for question in piece.looks() {
                let by = piece.truth[question].and_then(|c| self.by_form(piece.kind, question, c));
                let seen = by.map_or_else(
                    || {
                        self.seen_in(&words, &self.main[question], view)
                            && self.is_shown(&words, piece, question)
                    },
                    |by| by == view,
                );
                if seen && !placed[question] {
                    placed[question] = true;
                    looks.push(question);
                }
            }
            // Where nothing is said of what this view draws, its words would tell of what is usual with other bodies.
            let said = words.pairs().any(|(key, _)| drawn_in(key, view));
            let name = self.view_name(view);
            all.push(View {
                says: if said { drawing.alt(&self.art) } else { format!("{name}.") },
                name,
                draw,
                looks,
                close: false,
            });
        }
        for question in piece.looks().into_iter().filter(|q| !placed[*q]) {
            all.extend(self.closer(guide, &words, piece, question));
        }
        Views { all }
    }

    /// Whether the whole piece shows the true answer to a question.
    pub(crate) fn is_shown(&self, words: &Words, piece: &Handed, question: usize) -> bool {
        let value = words.get(&self.main[question]);
        let refined = self.refined(question, &piece.truth);
        value.is_some() && refined.is_some_and(|(k, v)| k == self.main[question] && Some(v) == value)
            || piece.truth[question].is_some_and(|c| self.shows(piece.kind, question, c, value))
    }

    /// A closer look at one question: the drawing of the true choice, or its weight in words.
    fn closer(&self, guide: &Guide, words: &Words, piece: &Handed, question: usize) -> Option<View> {
        let q = &guide.core.questions[question];
        let choice = &q.choices[piece.truth[question]?];
        let (key, value) = self.refined(question, &piece.truth)?;
        // An instance of what is meant (brass for whatever is bright) is no picture of a piece that is something else.
        let instance = key != self.main[question];
        if instance && self.told_elsewhere(piece, key).is_some_and(|told| told != value) {
            return None;
        }
        let plain = unasked(&choice.draw);
        let view = plain.split(' ').find_map(|w| w.strip_prefix("view=")).unwrap_or_default();
        let mut draw = String::new();
        if let Some(whole) = WHOLE.into_iter().find(|w| *w == view) {
            // Seen from further off it must be this piece, not another iron that has the same.
            // Nor may it take back what goes with another of its words: two points, and so no square heel.
            if !self.seen_in(words, key, whole) || words.get(key).is_some_and(|own| own != value) {
                return None;
            }
            let mut own = words.clone();
            own.put(key, value);
            draw = own.line(view);
        }
        for (k, v) in plain.split(' ').filter_map(|w| w.split_once('=')).filter(|_| !WHOLE.contains(&view)) {
            let own = if k == key { Some(value) } else { words.get(k) };
            let said = match (own, piece.mm.filter(|_| k == "size" && q.form == Form::Length)) {
                (_, Some(mm)) => {
                    mm.clamp(sketch::SIZES.0.unsigned_abs(), sketch::SIZES.1.unsigned_abs()).to_string()
                }
                (Some(own), None) => own.to_string(),
                (None, None) if k != "view" && self.belied(&piece.truth, k, v) => continue,
                (None, None) => v.to_string(),
            };
            draw.push_str(&format!("{}{k}={said}", if draw.is_empty() { "" } else { " " }));
        }
        let says = self.drawing(&draw)?.alt(&self.art);
        let name = format!("{}: {}", guide.core.parts[usize::from(q.part)].name, self.phrase(view));
        Some(View { name, draw, says, looks: vec![question], close: true })
    }

    /// What another question says of a key on this piece.
    fn told_elsewhere(&self, piece: &Handed, key: &str) -> Option<&str> {
        let of = |q: usize| self.refined(q, &piece.truth).filter(|(k, _)| *k == key && self.main[q] == key);
        (0..piece.truth.len()).find_map(of).map(|(_, v)| v)
    }

    /// A drawing that the art can draw.
    pub(crate) fn drawing<'d>(&self, line: &'d str) -> Option<Drawing<'d>> {
        Drawing::parse(line).ok().filter(|d| d.shapes(&self.art).is_some())
    }

    fn phrase(&self, view: &str) -> &str {
        self.art.find(&format!("view.{view}")).map_or("", |f| f.says.as_str())
    }

    fn view_name(&self, view: &str) -> String {
        capital(self.phrase(view))
    }

    /// The line that marks the deciding feature of a question on the piece, where a view can; else the choice's drawing.
    #[must_use]
    pub fn marked(&self, guide: &Guide, piece: &Handed, question: usize) -> String {
        let words = self.words(piece.kind, &piece.truth);
        let key = &self.main[question];
        let asked = |k: &&sketch::Key| k.name == key;
        if let Some(view) = piece.truth[question].and_then(|c| self.by_form(piece.kind, question, c)) {
            return format!("{} ask={}", words.line(view), if view == "side" { "body" } else { key });
        }
        for view in WHOLE {
            let drawn =
                sketch::KEYS.iter().find(asked).is_some_and(|k| k.views.split(' ').any(|v| v == view));
            if drawn && self.seen_in(&words, key, view) && self.is_shown(&words, piece, question) {
                return format!("{} ask={key}", words.line(view));
            }
        }
        let choice = piece.truth[question].and_then(|c| guide.core.questions[question].choices.get(c));
        choice.map_or_else(String::new, |c| c.draw.clone())
    }
}

impl Views {
    /// The view that answers a question.
    #[must_use]
    pub fn of(&self, question: usize) -> Option<&View> {
        self.all.iter().find(|v| v.looks.contains(&question))
    }
}

impl View {
    /// The same view for a task whose right answer reads so: what it says leaves out the phrases that would say it.
    #[must_use]
    pub fn guarded(&self, right: &[&str]) -> View {
        let (head, phrases) = self.phrases();
        let kept: Vec<&str> =
            phrases.into_iter().filter(|p| !right.iter().any(|r| shares_words(p, r))).collect();
        let says = if kept.is_empty() { format!("{head}.") } else { format!("{head}: {}.", kept.join(", ")) };
        View { says, ..self.clone() }
    }

    /// Whether it says what can be seen at all.
    #[must_use]
    pub fn tells(&self) -> bool {
        !self.phrases().1.is_empty()
    }

    /// Whether it says an answer in the answer's own words.
    #[must_use]
    pub fn repeats(&self, answer: &str) -> bool {
        let answer = answer.to_lowercase();
        self.phrases()
            .1
            .iter()
            .any(|p| answer.contains(&p.to_lowercase()) || p.to_lowercase().contains(&answer))
    }

    /// From where it is seen, and the phrases behind it.
    fn phrases(&self) -> (&str, Vec<&str>) {
        let (head, rest) = self.says.split_once(": ").unwrap_or((&self.says, ""));
        let phrases = rest.trim_end_matches('.').split(", ").filter(|p| !p.is_empty());
        (head.trim_end_matches('.'), phrases.collect())
    }
}
