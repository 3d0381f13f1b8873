//! Consultations by ids and texts: what stands behind the border, without a word of JavaScript.

use crate::shown::{
    About, Asked, Clue, Drawn, DrawnPath, Finding, Fits, Lettering, Mark, Named, Next, Offered, Reading,
    Worth, Years,
};
use consult::marks::Mark as MarkMsg;
use consult::{Body, Guide, Msg, NextView, Screen, State, Table, fragment, from_text, update, view};
use pack::Form;
use sketch::{Art, Drawing, Look};
use std::rc::Rc;

/// The longest answer, in bytes. Basis: practice; six choices of forty letters.
const LONGEST: usize = 400;

/// What was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// Bytes of a pack.
    Pack,
    /// Bytes of tables.
    Tables,
    /// An answer, or a question that is not asked.
    Answer,
    /// A name that the pack does not have.
    Unknown,
}

impl Why {
    /// The word that a program is told.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Why::Pack => "pack",
            Why::Tables => "tables",
            Why::Answer => "answer",
            Why::Unknown => "unknown",
        }
    }
}

/// A refusal: why, and a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused(pub Why, pub String);

/// A pack that is open.
#[derive(Debug, Clone)]
pub struct Open {
    guide: Rc<Guide>,
    art: Rc<Art>,
}

/// A consultation about one piece.
#[derive(Debug, Clone)]
pub struct Session {
    pack: Open,
    /// Question and answer as written, in the order in which they were told.
    told: Vec<(String, String)>,
    place: usize,
    lettering: String,
}

impl Open {
    /// Opens both halves of a pack in a year.
    ///
    /// # Errors
    /// Why the bytes were refused.
    pub fn new(core: &[u8], book: &[u8], this_year: i32) -> Result<Open, Refused> {
        let year = i16::try_from(this_year.clamp(1600, 9999)).unwrap_or(2000);
        let guide = Guide::from_bytes(core, book, year).map_err(|says| Refused(Why::Pack, says))?;
        let figure = |f: &pack::Figure| (f.name.clone(), f.strokes.clone(), f.says.clone());
        let late = guide.book.iter().flat_map(|b| &b.art);
        let all: Vec<_> = guide.core.art.iter().chain(late).map(figure).collect();
        let mut art = Art::default();
        art.add(all.iter().map(|(n, s, t)| (n.as_str(), s.as_str(), t.as_str())));
        Ok(Open { guide: Rc::new(guide), art: Rc::new(art) })
    }

    /// Takes the tables of marks.
    ///
    /// # Errors
    /// Why the bytes were refused.
    pub fn learn_marks(&self, bytes: &[u8]) -> Result<(), Refused> {
        self.guide.learn(Table::Marks, bytes).map_err(|says| Refused(Why::Tables, says))
    }

    /// What the pack says of itself.
    #[must_use]
    pub fn about(&self) -> About {
        let core = &self.guide.core;
        let named = |n: &pack::Named| Named { id: n.id.clone(), name: n.name.clone() };
        About {
            id: core.head.id.clone(),
            name: core.head.name.clone(),
            edition: core.head.edition.clone(),
            licence: core.head.licence.clone(),
            language: core.head.language.clone(),
            notice: core.head.notice.clone(),
            kinds: core.kinds.iter().map(|k| Named { id: k.id.clone(), name: k.name.clone() }).collect(),
            places: core.places.iter().map(named).collect(),
            questions: (0..core.questions.len()).map(|q| self.asked(q)).collect(),
        }
    }

    fn asked(&self, question: usize) -> Asked {
        let q = &self.guide.core.questions[question];
        let offered =
            |c: &pack::Choice| Offered { id: c.id.clone(), label: c.label.clone(), draw: c.draw.clone() };
        Asked {
            id: q.id.clone(),
            ask: q.ask.clone(),
            look: q.look.clone(),
            answer: match q.form {
                Form::Choice => "choice",
                Form::Length => "length",
                Form::Heft => "heft",
            },
            choices: q.choices.iter().map(offered).collect(),
        }
    }

    /// A piece of which nothing is known yet.
    #[must_use]
    pub fn begin(&self) -> Session {
        Session { pack: self.clone(), told: Vec::new(), place: 0, lettering: String::new() }
    }

    /// A drawing in the words of the pack.
    ///
    /// # Errors
    /// What cannot be drawn.
    pub fn drawing(&self, words: &str) -> Result<Drawn, Refused> {
        let refused = |says: String| Refused(Why::Unknown, says);
        if words.len() > LONGEST {
            return Err(refused("These are too many words for a drawing.".to_string()));
        }
        let drawing = Drawing::parse(words).map_err(|m| refused(m.to_string()))?;
        let scene = drawing.shapes(&self.art);
        let scene = scene.ok_or_else(|| refused("The pack has no figures for this drawing.".to_string()))?;
        let path = |s: &sketch::Shape| DrawnPath { d: s.path.clone(), look: word(s.look) };
        Ok(Drawn {
            width: scene.view_box.0,
            height: scene.view_box.1,
            alt: drawing.alt(&self.art),
            paths: scene.shapes.iter().map(path).collect(),
        })
    }
}

impl Session {
    /// The question to ask next; none when the looks are spent or it is settled.
    #[must_use]
    pub fn next(&self) -> Option<Asked> {
        let state = self.state(Screen::Look);
        match view(&self.pack.guide, &state).body {
            Body::Look(look) => Some(self.pack.asked(look.question)),
            _ => None,
        }
    }

    /// Tells an answer, in the place of an earlier one: `wire`, `through | blind`, `64 mm calipers`, `120 g`, `can't tell`;
    /// with ` ?` behind it when it is not sure. Answers to questions that are no longer asked after it are dropped.
    ///
    /// # Errors
    /// What cannot be read, or that the question is not asked after the other answers.
    pub fn answer(&mut self, question: &str, answer: &str) -> Result<(), Refused> {
        let guide = &self.pack.guide;
        let at = guide.core.questions.iter().position(|q| q.id == question);
        let at =
            at.ok_or_else(|| Refused(Why::Unknown, "The pack has no question of this id.".to_string()))?;
        if answer.len() > LONGEST || answer.contains(['\n', '\r', '#']) {
            return Err(Refused(Why::Answer, "An answer is one short line.".to_string()));
        }
        let mut told: Vec<(String, String)> =
            self.told.iter().filter(|(q, _)| q != question).cloned().collect();
        told.push((question.to_string(), answer.to_string()));
        if from_text(guide, &written(&told)).is_err() {
            // Whatever stands behind this question's gate may no longer be asked.
            told.retain(|(q, _)| q == question || !self.behind(q, at));
        }
        match from_text(guide, &written(&told)) {
            Ok(_) => {
                self.told = told;
                Ok(())
            }
            Err(says) => {
                let says = says.join(" ");
                let plain = says
                    .strip_prefix("line ")
                    .and_then(|s| s.split_once(": "))
                    .map_or(says.as_str(), |(_, s)| s);
                Err(Refused(Why::Answer, plain.to_string()))
            }
        }
    }

    /// Whether a question is asked only after some answer to another, by whatever way.
    fn behind(&self, question: &str, other: usize) -> bool {
        let questions = &self.pack.guide.core.questions;
        let mut at = questions.iter().position(|q| q.id == question);
        // A gate is always an earlier question, so this ends.
        while let Some(gate) = at.and_then(|at| questions[at].gate.as_ref()) {
            if usize::from(gate.question) == other {
                return true;
            }
            at = Some(usize::from(gate.question));
        }
        false
    }

    /// Takes an answer back, and those that were only asked because of it.
    pub fn take_back(&mut self, question: &str) {
        let at = self.pack.guide.core.questions.iter().position(|q| q.id == question);
        let told: Vec<(String, String)> = self
            .told
            .iter()
            .filter(|(q, _)| q != question && !at.is_some_and(|at| self.behind(q, at)))
            .cloned()
            .collect();
        self.told = told;
    }

    /// The answers, in the order in which they were told.
    #[must_use]
    pub fn answers(&self) -> &[(String, String)] {
        &self.told
    }

    /// Says where the piece is offered.
    ///
    /// # Errors
    /// That the pack has no such place.
    pub fn place(&mut self, id: &str) -> Result<(), Refused> {
        let at = self.pack.guide.core.places.iter().position(|p| p.id == id);
        self.place =
            at.ok_or_else(|| Refused(Why::Unknown, "The pack has no place of this id.".to_string()))?;
        Ok(())
    }

    /// Says what lettering can be read; what it may say is handed back.
    ///
    /// # Errors
    /// That the tables of marks are not there, or that the text is too long.
    pub fn marks(&mut self, text: &str) -> Result<Lettering, Refused> {
        if !self.pack.guide.knows(Table::Marks) {
            return Err(Refused(Why::Tables, "The tables of marks have not been opened.".to_string()));
        }
        if text.chars().count() > consult::marks::LONGEST {
            return Err(Refused(Why::Answer, "The lettering is too long.".to_string()));
        }
        self.lettering = text.to_string();
        let Body::Marks(v) = view(&self.pack.guide, &self.state(Screen::Marks)).body else {
            return Err(Refused(Why::Answer, "The lettering could not be read.".to_string()));
        };
        Ok(Lettering {
            marks: v
                .marks
                .into_iter()
                .map(|m| {
                    let readings = m.readings.into_iter();
                    let one = readings.map(|r| Reading { title: r.title, likely: r.likely, years: r.years });
                    Mark { text: m.text, readings: one.collect() }
                })
                .collect(),
            unread: v.unread,
            clashes: v.clashes,
            years: v.years,
        })
    }

    /// The finding, whatever has been told so far.
    ///
    /// # Errors
    /// None that a sound pack is known to give; a border has no room for a panic.
    pub fn finding(&self) -> Result<Finding, Refused> {
        let core = &self.pack.guide.core;
        let view = view(&self.pack.guide, &self.state(Screen::Finding));
        let Body::Finding(f) = view.body else {
            return Err(Refused(Why::Answer, "There is no finding for these answers.".to_string()));
        };
        let id = |q: usize| core.questions.get(q).map(|q| q.id.clone()).unwrap_or_default();
        let next = |n: NextView| Next { question: id(n.question), ask: n.ask, why: n.why };
        let (worth, worth_missing) = match f.worth {
            Ok(w) => {
                (Some(Worth { half: w.half, eight: w.eight, currency: w.currency, basis: w.basis }), None)
            }
            Err(says) => (None, Some(says)),
        };
        let clue = |c: consult::ClueView| Clue {
            question: c.question.map(id),
            text: c.text,
            strength: c.strength,
            words: c.words,
            basis: c.basis,
            unsure: c.unsure,
            again: c.again,
        };
        Ok(Finding {
            title: f.title,
            likely: f.likely,
            share: f.share,
            purpose: f.purpose,
            made_as: f.made_as,
            make: f.make,
            outside: f.outside,
            notice: view.pack_notice,
            grave: f.grave,
            cautions: f.cautions,
            years: Years { half: f.years.half, nine: f.years.nine, edtf: f.years.edtf },
            worth,
            worth_missing,
            next: f.next.map(next),
            standing: f.standing,
            clues: f.clues.into_iter().map(clue).collect(),
            change: f.change,
            kinds: f.kinds.into_iter().map(|(name, chance, _)| Fits { name, chance }).collect(),
            roles: f.roles.into_iter().map(|(name, chance)| Fits { name, chance }).collect(),
            notes: f.notes,
            sources: f.sources,
            draw: f.draw,
        })
    }

    /// What stands behind `#` in a link to this piece on the page.
    #[must_use]
    pub fn link(&self) -> String {
        fragment(&self.pack.guide, &self.state(Screen::Look))
    }

    /// The state that the answers make.
    fn state(&self, screen: Screen) -> State {
        let guide = &self.pack.guide;
        let mut state = from_text(guide, &written(&self.told)).unwrap_or_default();
        state.place = self.place;
        if !self.lettering.is_empty() {
            state = update(guide, state, Msg::Mark(MarkMsg::Type(self.lettering.clone()))).0;
        }
        (state.place_asked, state.money, state.screen) = (true, true, screen);
        state
    }
}

/// Answers as a file of them has them.
fn written(told: &[(String, String)]) -> String {
    told.iter().map(|(q, a)| format!("{q} = {a}\n")).collect()
}

fn word(look: Look) -> &'static str {
    match look {
        Look::Body => "body",
        Look::Line => "line",
        Look::Thin => "thin",
        Look::Asked => "asked",
        Look::AskedThin => "asked-thin",
        Look::AskedBody => "asked-body",
        Look::Hole => "hole",
        Look::Day => "day",
        Look::Yellow => "yellow",
        Look::Brown => "brown",
    }
}
