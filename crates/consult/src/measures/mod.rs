//! The measuring room: what calipers and scales can tell of a piece. What was typed is kept as text; it is read when the
//! room is shown, so that the opening is not made of the reading.

mod metal;
mod read;
mod recast;
mod view;
mod words;

pub use metal::{LeftView, MetalView};
pub use recast::{PairView, RecastView, SaysView};
pub use view::{FieldView, KeyView, KeysView, MeasuresView};

pub(crate) use view::view;

use serde::Serialize;

/// The most lengths that are compared. Basis: practice; a small iron has hardly more.
pub const MOST_PAIRS: u8 = 12;
/// The longest text of a field, in characters.
pub const LONGEST: usize = 24;

/// What was entered in the room. It travels in no link.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Measures {
    /// Pairs of lengths beside the first.
    more: u8,
    /// What stands in the fields, in no order; an empty field is not among them.
    put: Vec<(Field, String)>,
}

/// A place in the room that holds a text, or the word of a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Field {
    /// What the piece was measured with.
    With,
    /// What it is made of.
    Metal,
    /// Of a pair of lengths, by its index.
    Pair(u8, Part),
    /// Which second weighing.
    Way,
    /// Weight in air.
    Air,
    /// Weight in water, or what the scales gain.
    Second,
    /// The step of the scales.
    Step,
    /// The temperature of the water.
    Warmth,
}

/// A part of a pair of lengths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Part {
    /// The length of the piece.
    Piece,
    /// The same length of the known piece.
    Known,
    /// How that is known.
    By,
    /// Whether it runs along the draw.
    Along,
    /// Whether it ends at a worked face.
    Worked,
}

/// What a user did in the room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Measure {
    /// This stands in a field now; nothing empties it.
    Put(Field, String),
    /// One more pair of lengths.
    More,
    /// A pair less, by its index; the only one is emptied.
    Less(u8),
}

impl Measures {
    /// How many pairs of lengths there are, at least one.
    #[must_use]
    pub fn pairs(&self) -> u8 {
        self.more + 1
    }

    /// What stands in a field.
    #[must_use]
    pub fn text(&self, at: Field) -> &str {
        self.put.iter().find(|(f, _)| *f == at).map_or("", |(_, text)| text)
    }

    pub(crate) fn update(&mut self, measure: Measure) {
        match measure {
            Measure::Put(at, text) => {
                self.put.retain(|(f, _)| *f != at);
                let there = !matches!(at, Field::Pair(pair, _) if pair > self.more);
                if there && !text.is_empty() {
                    let text = text.chars().filter(|c| !c.is_control()).take(LONGEST).collect();
                    self.put.push((at, text));
                }
            }
            Measure::More => self.more = (self.more + 1).min(MOST_PAIRS - 1),
            Measure::Less(gone) if gone <= self.more => {
                self.put.retain(|(f, _)| !matches!(f, Field::Pair(pair, _) if *pair == gone));
                for (field, _) in &mut self.put {
                    if let Field::Pair(pair, _) = field
                        && *pair > gone
                    {
                        *pair -= 1;
                    }
                }
                self.more = self.more.saturating_sub(1);
            }
            Measure::Less(_) => {}
        }
    }
}
