//! The lettering of the piece: what was typed, what it says, and what it does to kinds and years. What the opening
//! needs of it stands here; that which reads is behind a trait, so that the opening is not made of it.

mod joint;
mod keys;
mod update;
mod view;

pub use keys::{Corner, Diamond};
pub use update::Mark;
pub use view::{MarkView, MarksView, ReadingView, WithMarks};

pub(crate) use joint::{Reader, Told, years_with};
pub(crate) use update::{settle, update};
pub(crate) use view::view;

use crate::guide::Guide;
use dating::Measured;
use std::rc::Rc;

/// The longest lettering that is kept, in characters. Basis: practice; the fullest casting has about a hundred.
pub const LONGEST: usize = 200;

/// The lettering of a piece.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Marks {
    /// As typed.
    pub text: String,
    /// The reading that is open: index of the mark, index of the reading.
    pub open: Option<(usize, usize)>,
    /// The mark of which all readings are shown.
    pub all: Option<usize>,
    /// A diamond mark while it is being entered.
    pub diamond: Option<Diamond>,
    /// What the text says, once the tables are there.
    pub(crate) told: Option<Rc<Told>>,
}

/// Reads lettering for a guide.
pub(crate) trait Reads: Send + Sync {
    /// What a text says on a piece that measures this.
    fn tell(&self, guide: &Guide, text: &str, measured: Measured) -> Told;
    fn tables(&self) -> &dating::Tables;
}

/// In words: deriving it would link the printer of floats into the page.
impl std::fmt::Debug for dyn Reads {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a reader of marks")
    }
}

impl Marks {
    /// Whether anything was typed.
    #[must_use]
    pub fn is_told(&self) -> bool {
        !self.text.trim().is_empty()
    }
}
