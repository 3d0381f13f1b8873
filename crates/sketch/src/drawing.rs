//! A line of words to a drawing, and a drawing to a sentence.

use crate::pen::number;
use crate::scene;
use crate::words::{At, KEYS, SIZES, words};
use crate::{Scene, Shape};

/// What is to be drawn: one value for every key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawing {
    /// The place of the value in the table of its key; the length in mm for `size`; `None` where nothing was said.
    said: [Option<u16>; KEYS],
}

impl Drawing {
    /// Reads a line such as `view=side grip=wire ask=grip`. The order is free; what is left out takes its default;
    /// without `view` the view is the one that shows the asked key.
    ///
    /// # Errors
    /// All faults of the line, in sentences: a word without `=`, an unknown key or value (with those that are
    /// known), a key given twice, a `size` out of range, an asked key that the view does not draw.
    pub fn parse(line: &str) -> Result<Drawing, String> {
        let mut drawing = Drawing { said: [None; KEYS] };
        let mut faults = String::new();
        for word in line.split_whitespace() {
            if let Err(fault) = drawing.take(word) {
                join(&mut faults, " ", &fault);
            }
        }
        let ask = drawing.get(At::Ask);
        if ask > 0 {
            let key = &words()[usize::from(ask)];
            let views = words()[0].values;
            let home = key.views.split(' ').next().unwrap_or_default();
            if let Some(view) = drawing.said[0] {
                let view = views[usize::from(view)].name;
                if !key.views.split(' ').any(|v| v == view) {
                    let fault = [
                        "view=",
                        view,
                        " does not draw ",
                        key.name,
                        "; it is drawn in: ",
                        key.views,
                        ".",
                    ];
                    join(&mut faults, " ", &fault.concat());
                }
            } else {
                drawing.said[0] = views.iter().position(|v| v.name == home).map(|i| i as u16);
            }
        }
        if faults.is_empty() {
            Ok(drawing)
        } else {
            Err(faults)
        }
    }

    fn take(&mut self, word: &str) -> Result<(), String> {
        let Some((name, value)) = word.split_once('=') else {
            return Err(["`", word, "` has no `=`: write key=value, such as grip=wire."].concat());
        };
        let Some(at) = words().iter().position(|k| k.name == name) else {
            let known = words().iter().map(|k| k.name);
            return Err(["There is no key `", name, "`; known are: ", &list(known), "."].concat());
        };
        let key = &words()[at];
        let place = if key.values.is_empty() {
            let size = value
                .parse::<i32>()
                .ok()
                .filter(|v| (SIZES.0..=SIZES.1).contains(v));
            size.ok_or_else(|| ["`", word, "`: ", key.name, " is the ", key.says, "."].concat())? as u16
        } else {
            match key.values.iter().position(|v| v.name == value) {
                Some(i) => i as u16,
                None => {
                    let known = key.values.iter().map(|v| v.name);
                    return Err(["`", word, "`: the values of ", name, " are: ", &list(known), "."].concat());
                }
            }
        };
        if self.said[at].replace(place).is_some() {
            return Err([name, " is given twice."].concat());
        }
        Ok(())
    }

    /// The value of a key, the default where nothing was said.
    pub(crate) fn get(&self, at: At) -> u16 {
        self.said[at as usize].unwrap_or(0)
    }

    pub(crate) fn said(&self, at: At) -> Option<u16> {
        self.said[at as usize]
    }

    pub(crate) fn asks(&self, at: At) -> bool {
        self.get(At::Ask) == at as u16
    }

    /// Whether `this` is to be shown where only one of two keys can be: the asked one, else the one that was said.
    pub(crate) fn shows(&self, this: At, other: At) -> bool {
        self.asks(this) || !self.asks(other) && self.said(this).is_some()
    }

    /// The drawing as paths. The same drawing gives the same paths on every machine.
    pub fn shapes(&self) -> Scene {
        let (view_box, shapes): (_, Vec<Shape>) = scene::scene(self);
        Scene { view_box, shapes }
    }

    /// What can be seen, in words, for those who cannot see it. Names traits, never a kind.
    pub fn alt(&self) -> String {
        let view = &words()[0].values[usize::from(self.get(At::View))];
        let drawn = |at: &usize| words()[*at].views.split(' ').any(|v| v == view.name);
        let ask = usize::from(self.get(At::Ask));
        let told = |at: &usize| *at != ask && self.said[*at].is_some();
        // What is asked is said first; where nothing is said at all, the first key that the view draws.
        let asked = (ask..KEYS).take(1).filter(|at| *at > 0 && drawn(at));
        let mut keys: Vec<usize> = asked.chain((1..KEYS).filter(drawn).filter(told)).collect();
        if keys.is_empty() {
            keys.extend((1..KEYS).find(drawn));
        }
        let mut alt = String::from(view.says);
        if let Some(first) = alt.get_mut(..1) {
            first.make_ascii_uppercase();
        }
        let mut gap = ": ";
        for k in keys {
            let values = words()[k].values;
            if let Some(value) = values.get(usize::from(self.said[k].unwrap_or(0))) {
                join(&mut alt, gap, value.says);
            } else if let Some(mm) = self.said[k] {
                alt.push_str(gap);
                number(&mut alt, i32::from(mm), false);
                alt.push_str(" mm long");
            } else {
                continue;
            }
            gap = ", ";
        }
        alt.push('.');
        alt
    }
}

fn join(text: &mut String, gap: &str, more: &str) {
    if !text.is_empty() {
        text.push_str(gap);
    }
    text.push_str(more);
}

fn list(names: impl Iterator<Item = &'static str>) -> String {
    let mut text = String::new();
    names.for_each(|name| join(&mut text, ", ", name));
    text
}
