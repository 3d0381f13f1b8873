//! The guide as pages to read: a fragment names a page, and a page is plain data: a title and blocks of words, drawings
//! and tables. Nothing here computes a finding; all figures are the pack's own, mixed over a kind's forms.
//!
//! [`Pages`] is a pack laid open for reading, [`Reading`] everything a reader did, [`turn`] the only way it changes,
//! [`sheet`] what is shown.

mod care;
mod compare;
mod desk;
mod figures;
mod fold;
mod home;
mod kind;
mod kinds;
mod look;
mod makes;
mod page;
mod parts;
mod reading;
mod rests;
mod search;
mod sheet;
mod tables;
mod terms;
mod told;
mod write;

pub use desk::Heard;
pub use page::{Grouping, Page};
pub use reading::{Errand, Reading, Turn, preferences_with, sheet, theme_in, turn};
pub use sheet::*;
pub use told::{read as read_told, written};

pub use pack::Head;

use pack::{Book, Core};

/// A pack laid open for reading: no model is made of it.
#[derive(Debug)]
pub struct Pages {
    core: Core,
    book: Book,
    /// Keys of the sketches that the drawing of a whole piece shows.
    outside: Vec<&'static str>,
}

impl Pages {
    /// Reads both halves of a pack. `outside` are the keys of the sketches that the drawing of a whole piece shows: which
    /// they are only the sketches know.
    ///
    /// # Errors
    /// A sentence that says why the bytes were refused.
    pub fn from_bytes(core: &[u8], book: &[u8], outside: Vec<&'static str>) -> Result<Pages, String> {
        let (core, book) = crate::guide::whole(core, book)?;
        Ok(Pages { core, book, outside })
    }

    /// The figures that drawings are put together from.
    #[must_use]
    pub fn art(&self) -> &[pack::Figure] {
        &self.book.art
    }

    /// What the pack is.
    #[must_use]
    pub fn head(&self) -> &Head {
        &self.core.head
    }
}
