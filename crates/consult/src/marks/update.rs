//! What taps and keys do to the lettering.

use super::{Diamond, LONGEST, Told};
use crate::guide::Guide;
use crate::state::{State, What};
use dating::Measured;
use std::rc::Rc;

/// What a user did with the lettering.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Mark {
    /// The whole text as it stands now.
    Type(String),
    /// A key of the notation; an empty one rubs out.
    Key(String),
    /// Opened a reading, or closed it: index of the mark, index of the reading.
    Open(usize, usize),
    /// All readings of a mark, or the first few again.
    All(usize),
    /// Begins to enter a diamond, or leaves off.
    Diamond,
    /// A place of the diamond, by index.
    Corner(usize),
    /// A key for that place.
    Press(String),
    /// Empties that place.
    Rub,
    /// Takes the diamond into the text.
    UseDiamond,
}

/// Changes the lettering; true when the text is another one.
pub(crate) fn update(state: &mut State, mark: Mark) -> bool {
    let marks = &mut state.marks;
    match mark {
        Mark::Type(text) => return typed(state, &text),
        Mark::Key(_) => {}
        Mark::Open(mark, reading) => {
            let this = Some((mark, reading));
            marks.open = if marks.open == this { None } else { this };
        }
        Mark::All(mark) => marks.all = if marks.all == Some(mark) { None } else { Some(mark) },
        Mark::Diamond => {
            marks.diamond = if marks.diamond.is_some() { None } else { Some(Diamond::default()) }
        }
        Mark::Corner(at) => {
            if let Some(diamond) = marks.diamond.as_mut().filter(|d| at < d.holds.len()) {
                diamond.at = at;
            }
        }
        Mark::Press(key) => {
            if let Some(diamond) = &mut marks.diamond {
                diamond.press(&key);
            }
        }
        Mark::Rub => {
            if let Some(diamond) = &mut marks.diamond
                && let Some(holds) = diamond.holds.get_mut(diamond.at)
            {
                holds.clear();
            }
        }
        Mark::UseDiamond => {
            if let Some(diamond) = marks.diamond.take() {
                let before = marks.text.trim_end();
                let stop = if before.is_empty() { "" } else { "; " };
                let text = format!("{before}{stop}{}", diamond.notation());
                return typed(state, &text);
            }
        }
    }
    false
}

fn typed(state: &mut State, text: &str) -> bool {
    let text: String = text.chars().filter(|c| !c.is_control()).take(LONGEST).collect();
    let other = state.marks.text != text;
    state.marks.text = text;
    if other {
        (state.marks.open, state.marks.all) = (None, None);
    }
    other
}

/// Reads the text again when it, or what the piece measures, has changed and the tables are there.
pub(crate) fn settle(guide: &Guide, state: &mut State) {
    if !state.marks.is_told() {
        state.marks.told = None;
        return;
    }
    let measured = measured(state);
    let stands = |t: &Rc<Told>| t.text == state.marks.text && t.measured == measured;
    if state.marks.told.as_ref().is_some_and(stands) {
        return;
    }
    state.marks.told = guide.reader().map(|r| Rc::new(r.tell(guide, &state.marks.text, measured)));
}

fn measured(state: &State) -> Measured {
    let mut measured = Measured::default();
    for given in &state.given {
        match given.what {
            What::Length(length, _) => measured.length = Some(length),
            What::Mass(mass, _) => measured.mass = Some(mass),
            _ => {}
        }
    }
    measured
}
