//! A line of words to a drawing, and a drawing to a sentence.

use crate::art::{Art, Figure, Find};
use crate::keys::{At, COUNT, KEYS, SIZES};
use crate::misread::{Misread, Slip};
use crate::pen::{Pen, number};
use crate::{Scene, piece, scene};
use core::cell::RefCell;

/// What is to be drawn: a value for every key that was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawing<'a> {
    said: [Option<&'a str>; COUNT],
    /// The place of the asked key, 0 where nothing is asked.
    ask: usize,
    /// The length of the sole, mm.
    size: Option<i32>,
}

impl<'a> Drawing<'a> {
    /// Reads a line such as `view=side grip=wire ask=grip`. The order is free; what is left out takes what is usual;
    /// without `view` the view is the one that shows the asked key. Whether a value can be drawn only the art knows:
    /// see [`Drawing::check`].
    ///
    /// # Errors
    /// All that is wrong with the line: a word without `=`, a key that is not known or is given twice, a `size` out
    /// of range, an asked key that is none or that the view does not draw.
    pub fn parse(line: &'a str) -> Result<Drawing<'a>, Misread<'a>> {
        let mut drawing = Drawing { said: [None; COUNT], ask: 0, size: None };
        let mut slips: Vec<Slip<'a>> =
            line.split_ascii_whitespace().filter_map(|word| drawing.take(word).err()).collect();
        let key = &KEYS[drawing.ask];
        if drawing.ask > 0 {
            match drawing.said[0] {
                Some(view) if !key.drawn_in(view) => slips.push(Slip::View(view, key)),
                Some(_) => {}
                None => drawing.said[0] = key.views.split(' ').next(),
            }
        }
        if slips.is_empty() { Ok(drawing) } else { Err(Misread(slips)) }
    }

    fn take(&mut self, word: &'a str) -> Result<(), Slip<'a>> {
        let (name, value) = word.split_once('=').ok_or(Slip::Bare(word))?;
        let at = KEYS.iter().position(|k| k.name == name).ok_or(Slip::Key(name))?;
        if at == At::Size as usize {
            let size = value.parse().ok();
            let size = size.filter(|v| (SIZES.0..=SIZES.1).contains(v));
            self.size = Some(size.ok_or(Slip::Size(value))?);
        } else if at == At::Ask as usize && value != KEYS[at].usual {
            let asked = KEYS.iter().position(|k| k.name == value && !k.views.is_empty());
            self.ask = asked.ok_or(Slip::Ask(value))?;
        }
        match self.said[at].replace(value) {
            Some(_) => Err(Slip::Twice(&KEYS[at])),
            None => Ok(()),
        }
    }

    /// The same piece from the side and from below, beside a bar of 50 mm: the sole is `mm` long.
    pub fn beside(self, mm: u32) -> Drawing<'a> {
        self.measured("both", mm)
    }

    /// The same piece from the side, from behind and from below, with bars in millimetres and inches.
    pub fn around(self, mm: u32) -> Drawing<'a> {
        self.measured("three", mm)
    }

    fn measured(mut self, view: &'static str, mm: u32) -> Drawing<'a> {
        let mm = i32::try_from(mm).unwrap_or(SIZES.1);
        self.said[At::View as usize] = Some(view);
        self.said[At::Size as usize] = Some("");
        self.size = Some(mm.clamp(SIZES.0, SIZES.1));
        self.ask = 0;
        self
    }

    /// The value of a key, the usual one where nothing was said.
    pub(crate) fn get(&self, at: At) -> &'a str {
        self.value(at as usize)
    }

    pub(crate) fn said(&self, at: At) -> Option<&'a str> {
        self.said[at as usize]
    }

    pub(crate) fn size(&self) -> Option<i32> {
        self.size
    }

    pub(crate) fn asks(&self, at: At) -> bool {
        self.ask == at as usize
    }

    /// Whether nothing is asked.
    pub(crate) fn plain(&self) -> bool {
        self.ask == 0
    }

    /// The place of the key that a view shows which has room for one: the asked one, else the first that was said, else
    /// `usual`, or where that is the view the first that this view draws.
    pub(crate) fn shown(&self, usual: At) -> usize {
        let view = self.get(At::View);
        let drawn = |at: &usize| KEYS[*at].drawn_in(view);
        if self.ask > 0 {
            return self.ask;
        }
        let said = (1..COUNT).filter(drawn).find(|at| self.said[*at].is_some());
        let usual = Some(usual as usize).filter(|at| *at > 0);
        said.or(usual).or((1..COUNT).find(drawn)).unwrap_or(0)
    }

    /// Whether the key at this place is asked.
    pub(crate) fn asks_place(&self, at: usize) -> bool {
        at > 0 && self.ask == at
    }

    /// The value of the key at this place.
    pub(crate) fn value(&self, at: usize) -> &'a str {
        self.said[at].unwrap_or(KEYS[at].usual)
    }

    /// The drawing as paths; none when the art lacks a figure that it needs. The same drawing and the same art give
    /// the same paths on every machine.
    pub fn shapes(&self, art: &Art) -> Option<Scene> {
        self.scene(&|name| art.find(name))
    }

    fn scene<'f>(&self, find: &'f Find<'f>) -> Option<Scene> {
        let mut pen = Pen::new(find);
        let view_box = scene::draw(&mut pen, self);
        (!pen.missing).then_some(Scene { view_box, shapes: pen.shapes })
    }

    /// What can be seen, in words, for those who cannot see it. Names traits, never a kind. What the art has no
    /// phrase for is left unsaid.
    pub fn alt(&self, art: &Art) -> String {
        self.phrase(&|name| art.find(name))
    }

    fn phrase<'f>(&self, find: &'f Find<'f>) -> String {
        let view = self.get(At::View);
        let drawn = |at: &usize| KEYS[*at].drawn_in(view);
        let seen = |at: &usize| KEYS[*at].seen_in(view);
        // What is asked is said first; where nothing is said at all, the first key that the view draws.
        let mut keys: Vec<usize> = Vec::new();
        for at in (1..COUNT).filter(seen) {
            if at == self.ask {
                keys.insert(0, at);
            } else if self.said[at].is_some() {
                keys.push(at);
            }
        }
        if keys.is_empty() {
            keys.extend((1..COUNT).find(drawn));
        }
        let says = |key: &str, value: &str| find(&name(key, value)).map_or("", |f| f.says.as_str());
        let mut alt = String::from(says("view", view));
        if let Some(first) = alt.get_mut(..1) {
            first.make_ascii_uppercase();
        }
        let mut gap = ": ";
        for at in keys {
            let key = &KEYS[at];
            if at == At::Size as usize {
                if let Some(mm) = self.size {
                    alt.push_str(gap);
                    number(&mut alt, mm, false);
                    alt.push_str(" mm long");
                    gap = ", ";
                }
                continue;
            }
            let phrase = says(key.name, self.said[at].unwrap_or(key.usual));
            if !phrase.is_empty() {
                alt.push_str(gap);
                alt.push_str(phrase);
                gap = ", ";
            }
        }
        alt.push('.');
        alt
    }

    /// The names of all figures that picture and words need, sorted, whether the art has them or not. Figures that
    /// are only named by others are found only when those are there.
    pub fn figures(&self, art: &Art) -> Vec<String> {
        let names: RefCell<Vec<String>> = RefCell::default();
        let find = |name: &str| -> Option<&Figure> {
            let mut names = names.borrow_mut();
            if let Err(at) = names.binary_search_by(|n| n.as_str().cmp(name)) {
                names.insert(at, name.to_string());
            }
            art.find(name)
        };
        self.scene(&find);
        self.phrase(&find);
        names.into_inner()
    }

    /// Whether the art can draw all that the line says. For those who have the whole art.
    ///
    /// # Errors
    /// All that it cannot, in sentences: values without a figure (with those that there are), a heel that the body
    /// does not take, further figures that are missing.
    pub fn check(&self, art: &Art) -> Result<(), String> {
        let mut faults = Vec::new();
        for (key, value) in KEYS.iter().zip(self.said) {
            let Some(value) = value.filter(|_| key.name != "size" && key.name != "ask") else {
                continue;
            };
            if art.find(&name(key.name, value)).is_none() {
                let start = name(key.name, "");
                let known = art.figures().iter().filter_map(|f| f.name.strip_prefix(start.as_str()));
                let known: Vec<&str> = known.collect();
                faults.push(format!(
                    "`{0}={value}`: the values of {0} are: {1}.",
                    key.name,
                    known.join(", ")
                ));
            }
        }
        let body = self.get(At::Body);
        let fixed = |f: &Figure| !piece::takes_heel(&f.strokes);
        if self.said(At::Heel).is_some() && art.find(&name("body", body)).is_some_and(fixed) {
            faults.push(format!("body={body} has a heel of its own: leave `heel` out."));
        }
        if faults.is_empty() {
            let lacking = self.figures(art);
            // What has no skin is drawn without one.
            let lacking = lacking.iter().filter(|n| !n.starts_with("skin-") && art.find(n).is_none());
            faults.extend(lacking.map(|n| format!("The art has no figure {n}.")));
        }
        if faults.is_empty() { Ok(()) } else { Err(faults.join(" ")) }
    }
}

/// The name of the figure of a value.
pub(crate) fn name(key: &str, value: &str) -> String {
    [key, ".", value].concat()
}
