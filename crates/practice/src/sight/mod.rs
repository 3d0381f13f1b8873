//! What can be seen of a piece: its answers become the words of drawings, so that picture and piece are one story.
//!
//! The typical drawing of the kind gives the form. A choice that the kind mostly shows leaves it as it is; any other puts its
//! own word in the place of the typical one. What the side, the end and the sole cannot show has a closer look of its own:
//! the drawing of its choice. A choice that would need another body is shown by no kind but those drawn so.

mod views;
mod words;

pub use views::{View, Views};

use consult::Guide;
use sketch::{Art, Drawing, KEYS};
use std::cell::RefCell;
use words::asked;
pub(crate) use words::{Words, unasked};

/// The views that show the whole piece.
pub(crate) const WHOLE: [&str; 3] = ["side", "end", "sole"];

/// Fewer further drawings that agree are no rule.
const RULE: usize = 3;

/// What the drawings of a pack say, laid out once.
#[derive(Debug)]
pub struct Sight {
    pub(crate) art: Art,
    /// By kind the words of its typical drawing.
    typical: Vec<Words>,
    /// By question and choice the word that its drawing asks about.
    asks: Vec<Vec<Option<(String, String)>>>,
    /// By question the key that most of its choices ask about.
    main: Vec<String>,
    /// By kind and question the choice that it shows most.
    mostly: Vec<Vec<usize>>,
    /// By question the one behind whose gate it stands.
    gate: Vec<Option<usize>>,
    /// Body, key and view, and whether the key can be seen there.
    seen: RefCell<Vec<(String, String, &'static str, bool)>>,
}

impl Sight {
    /// Prepares a guide whose book has come; without it there is nothing to see.
    #[must_use]
    pub fn new(guide: &Guide) -> Sight {
        let figures = guide.book.iter().flat_map(|b| &b.art);
        let art = Art::new(figures.map(|f| (f.name.as_str(), f.strokes.as_str(), f.says.as_str())));
        let texts = guide.book.iter().flat_map(|b| &b.kinds);
        let mut typical: Vec<Words> = texts.map(|k| Words::read(&k.draw)).collect();
        typical.resize(guide.core.kinds.len(), Words::default());
        let asks: Vec<Vec<Option<(String, String)>>> =
            guide.core.questions.iter().map(|q| q.choices.iter().map(|c| asked(&c.draw)).collect()).collect();
        let tables = crate::pieces::mean_tables(guide);
        let mostly = tables.iter().map(|t| t.iter().map(|p| top(p)).collect()).collect();
        Sight {
            main: asks.iter().map(|a| main_key(a)).collect(),
            gate: guide
                .core
                .questions
                .iter()
                .map(|q| q.gate.as_ref().map(|g| usize::from(g.question)))
                .collect(),
            art,
            typical,
            asks,
            mostly,
            seen: RefCell::default(),
        }
    }

    /// The choice that a kind shows most at a question.
    #[must_use]
    pub fn mostly(&self, kind: usize, question: usize) -> usize {
        self.mostly[kind][question]
    }

    /// Whether a drawing of this kind can show a choice.
    #[must_use]
    pub fn can_show(&self, kind: usize, question: usize, choice: usize) -> bool {
        let mostly = self.mostly[kind][question] == choice;
        let Some((key, _)) = &self.asks[question][choice] else { return true };
        let whole = self.on_whole(&self.main[question]);
        if *key == self.main[question] {
            let free = !self.fixed(kind, question) && self.visible(&self.typical[kind], key).is_some();
            return mostly || !whole || free;
        }
        // It is drawn as another body, or by another part: on the whole piece that is what the kind is.
        mostly || !whole && key != "body" && !self.on_side(key)
    }

    /// The words of the whole piece, without a view.
    pub(crate) fn words(&self, kind: usize, truth: &[Option<usize>]) -> Words {
        let mut words = self.typical[kind].clone();
        words.drop_where(|key, value| self.belied(truth, key, value));
        for (question, choice) in truth.iter().enumerate().filter_map(|(q, c)| Some((q, (*c)?))) {
            let Some((key, value)) = &self.asks[question][choice] else { continue };
            if *key != self.main[question] || self.by_form(kind, question, choice).is_some() {
                continue;
            }
            if self.visible(&self.typical[kind], key).is_none() {
                self.by_way_of_gate(&mut words, question, key, value, truth);
                continue;
            }
            if !self.shows(kind, question, choice, words.get(key)) {
                words.put(key, value);
                self.along(&mut words, key, value);
            }
        }
        words.drop_where(|key, _| !drawn_whole(key));
        words
    }

    /// Whether a value of the question's key stands for this choice on a piece of the kind: it is the choice's own, or
    /// one that no choice names where the kind mostly shows this one.
    pub(crate) fn shows(&self, kind: usize, question: usize, choice: usize, value: Option<&str>) -> bool {
        let key = &self.main[question];
        let Some(value) = value else { return false };
        let names = |c: usize| self.asks[question][c].as_ref().is_some_and(|(k, v)| k == key && v == value);
        let others = (0..self.asks[question].len()).any(names);
        names(choice) || !others && self.mostly[kind][question] == choice
    }

    /// The word that stands for the true answer: that of the choice, or of a question behind its gate that tells the same
    /// key more closely (a device; a heart).
    pub(crate) fn refined(&self, question: usize, truth: &[Option<usize>]) -> Option<(&str, &str)> {
        let (key, value) = self.asks[question][truth.get(question).copied().flatten()?].as_ref()?;
        let closer = (question + 1..truth.len()).filter(|q| self.gate[*q] == Some(question)).find_map(|q| {
            let (k, v) = self.asks[q][truth[q]?].as_ref()?;
            (k == key).then_some(v)
        });
        Some((key, closer.unwrap_or(value)))
    }

    /// The whole view that shows the true answer by the form in which the kind is drawn: as its body, or by a body of its
    /// own that leaves nothing to say.
    pub(crate) fn by_form(&self, kind: usize, question: usize, choice: usize) -> Option<&'static str> {
        let (key, _) = self.asks[question][choice].as_ref()?;
        if self.mostly[kind][question] != choice {
            return None;
        }
        if key == "body" || *key != self.main[question] && self.on_side(key) {
            return Some("side");
        }
        let fixed = *key == self.main[question] && self.fixed(kind, question);
        WHOLE.into_iter().find(|view| fixed && drawn_in(key, view))
    }

    /// Whether the form of the kind settles a question: its body is one of its own, and its drawing says nothing of the
    /// part that is asked about.
    fn fixed(&self, kind: usize, question: usize) -> bool {
        let (key, typical) = (&self.main[question], &self.typical[kind]);
        let own = typical.get("body").is_some_and(|body| usual("body") != Some(body));
        let part = |k: &sketch::Key| k.name == key && k.views.split(' ').any(|v| WHOLE.contains(&v));
        own && self.gate[question].is_none() && typical.get(key).is_none() && KEYS.iter().any(part)
    }

    /// Words that go with one in all typical drawings that have it, and that no question asks about: a sole with two points
    /// has no square heel.
    fn along(&self, words: &mut Words, key: &str, value: &str) {
        let mut donors = self.typical.iter().filter(|w| w.get(key) == Some(value));
        let Some(first) = donors.next() else { return };
        let others: Vec<&Words> = donors.collect();
        if others.len() < RULE {
            return;
        }
        for (k, v) in first.pairs().filter(|(k, _)| *k != key && *k != "body") {
            let agreed = others.iter().all(|w| w.get(k) == Some(v));
            let asked = self.asks.iter().flatten().flatten().any(|(ak, av)| ak == k && av == v);
            if agreed && !asked && drawn_whole(k) && self.visible(words, k).is_some() {
                words.put(k, v);
            }
        }
    }

    /// Whether a word of the typical drawing is not true of the piece: questions name it, none with what is true; or the
    /// same is said of another part, and is not true there: hollow below, and the piece is solid.
    pub(crate) fn belied(&self, truth: &[Option<usize>], key: &str, value: &str) -> bool {
        let untrue = |key: &str| self.holds(truth, key, value) == Some(false);
        let elsewhere = || self.asks.iter().flatten().flatten().any(|(k, v)| v == value && untrue(k));
        match self.holds(truth, key, value) {
            Some(true) => false,
            Some(false) => true,
            None => elsewhere(),
        }
    }

    /// Whether a word is true of the piece; nothing where no question names it.
    fn holds(&self, truth: &[Option<usize>], key: &str, value: &str) -> Option<bool> {
        let mut named = None;
        for (choices, truth) in self.asks.iter().zip(truth) {
            for (choice, ask) in choices.iter().enumerate() {
                if ask.as_ref().is_some_and(|(k, v)| k == key && v == value) {
                    if *truth == Some(choice) {
                        return Some(true);
                    }
                    named = Some(false);
                }
            }
        }
        named
    }

    /// A choice whose key the whole piece does not show, behind a gate whose key it does: the drawing of a kind that has
    /// both tells how they look together.
    fn by_way_of_gate(
        &self,
        words: &mut Words,
        question: usize,
        key: &str,
        value: &str,
        truth: &[Option<usize>],
    ) {
        let Some(gate) = self.gate[question] else { return };
        let outer = &self.main[gate];
        let Some(outer_truth) = truth[gate] else { return };
        if words.get(key) == Some(value) || self.visible(words, outer).is_none() {
            return;
        }
        let fits = |v: &&str| {
            let named =
                self.asks[gate].iter().position(|a| a.as_ref().is_some_and(|(k, w)| k == outer && w == v));
            named.is_none_or(|c| c == outer_truth)
        };
        let donor =
            self.typical.iter().filter(|w| w.get(key) == Some(value)).find_map(|w| w.get(outer).filter(fits));
        if let Some(donor) = donor.map(str::to_string) {
            words.put(outer, &donor);
            words.put(key, value);
        }
    }

    /// A whole view in which a key can be seen on this body: its picture changes with it.
    pub(crate) fn visible(&self, words: &Words, key: &str) -> Option<&'static str> {
        WHOLE.into_iter().find(|view| self.seen_in(words, key, view))
    }

    pub(crate) fn seen_in(&self, words: &Words, key: &str, view: &'static str) -> bool {
        let body = words.get("body").unwrap_or_default().to_string();
        let known = |s: &&(String, String, &str, bool)| s.0 == body && s.1 == key && s.2 == view;
        if let Some(seen) = self.seen.borrow().iter().find(known) {
            return seen.3;
        }
        let seen = self.changes(words, key, view);
        self.seen.borrow_mut().push((body, key.to_string(), view, seen));
        seen
    }

    fn changes(&self, words: &Words, key: &str, view: &str) -> bool {
        if key == "body" || !drawn_in(key, view) {
            return false;
        }
        let mut first = None;
        for (k, value) in self.asks.iter().flatten().flatten().filter(|(k, _)| k == key) {
            let mut said = words.clone();
            said.put(k, value);
            // A pack's art holds what its drawings use: what this view does not draw may have no figure.
            said.drop_where(|k, _| k != "body" && !drawn_in(k, view));
            let line = said.line(view);
            let Ok(drawing) = Drawing::parse(&line) else { continue };
            let (Ok(()), Some(scene)) = (drawing.check(&self.art), drawing.shapes(&self.art)) else {
                continue;
            };
            match &first {
                None => first = Some(scene),
                Some(before) if *before != scene => return true,
                Some(_) => {}
            }
        }
        false
    }

    /// Whether a plain flat iron shows the key.
    fn on_whole(&self, key: &str) -> bool {
        self.visible(&Words::read("body=flat grip=bar outline=one-point"), key).is_some()
    }

    fn on_side(&self, key: &str) -> bool {
        KEYS.iter().any(|k| k.name == key && k.views.split(' ').any(|v| v == "side"))
    }
}

/// Whether some view of the whole piece draws the key.
fn drawn_whole(key: &str) -> bool {
    WHOLE.iter().any(|view| drawn_in(key, view))
}

/// Whether a view draws the key, or shows it when it is said.
pub(crate) fn drawn_in(key: &str, view: &str) -> bool {
    let views = |k: &sketch::Key| format!("{} {}", k.views, k.also);
    KEYS.iter().any(|k| k.name == key && views(k).split(' ').any(|v| v == view))
}

/// What is drawn of a key when nothing is said.
fn usual(key: &str) -> Option<&'static str> {
    KEYS.iter().find(|k| k.name == key).map(|k| k.usual)
}

/// The key that most choices ask about; of several the first.
fn main_key(asks: &[Option<(String, String)>]) -> String {
    let keys: Vec<&String> = asks.iter().flatten().map(|(k, _)| k).collect();
    let times = |key: &String| keys.iter().filter(|k| **k == key).count();
    keys.iter().fold(String::new(), |best, key| if times(key) > times(&best) { (*key).clone() } else { best })
}

/// Index of the largest; of equal ones the first.
pub(crate) fn top(values: &[f64]) -> usize {
    (0..values.len()).fold(0, |best, i| if values[i] > values[best] { i } else { best })
}
