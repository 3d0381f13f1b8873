//! The guide as pages to read: a fragment names a page, and a page is plain data: a title and blocks of words, drawings
//! and tables. Nothing here computes a finding; all figures are the pack's own, mixed over a kind's forms.
//!
//! [`Pages`] is a pack laid open for reading, [`Reading`] everything a reader did, [`turn`] the only way it changes,
//! [`sheet`] what is shown.

mod care;
mod compare;
mod fold;
mod home;
mod kind;
mod kinds;
mod look;
mod page;
mod parts;
mod reading;
mod rests;
mod search;
mod sheet;
mod tables;
mod terms;

pub use page::{Grouping, Page};
pub use reading::{Errand, Reading, Turn, preferences_with, sheet, theme_in, turn};
pub use sheet::*;

use pack::{Book, Core, Standing};

/// A pack laid open for reading: no model is made of it.
#[derive(Debug)]
pub struct Pages {
    core: Core,
    book: Book,
}

impl Pages {
    /// Reads both halves of a pack.
    ///
    /// # Errors
    /// A sentence that says why the bytes were refused.
    pub fn from_bytes(core: &[u8], book: &[u8]) -> Result<Pages, String> {
        let (core, book) = crate::guide::whole(core, book)?;
        Ok(Pages { core, book })
    }

    /// The figures that drawings are put together from.
    #[must_use]
    pub fn art(&self) -> &[pack::Figure] {
        &self.book.art
    }

    /// What the pack is.
    #[must_use]
    pub fn head(&self) -> &pack::Head {
        &self.core.head
    }

    /// The kinds that have a page: all but the one for whatever the guide does not know.
    fn kinds(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.core.kinds.len()).filter(|k| self.core.kinds[*k].standing != Standing::Unknown)
    }

    fn source(&self, at: Option<u16>) -> Option<&pack::Source> {
        self.book.sources.get(usize::from(at?))
    }
}
