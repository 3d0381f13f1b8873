//! Writing everything: the explanation, the list, the records, then the photographs, which the caller brings one by one.

use super::name::{INDEX, README, photo_name, practice_name, record_name};
use super::readme::readme;
use super::write::Writer;
use crate::record::{Limits, Moment, Version};
use crate::text;

/// An export being written. Every piece that comes out is to be sent on in order.
#[derive(Debug)]
pub struct Export {
    writer: Writer,
}

impl Export {
    /// Begins: gives the explanation and the list, `index` being the table of the pieces as CSV. `photos` is how many will
    /// follow.
    ///
    /// # Errors
    /// A sentence when it does not fit.
    pub fn begin(
        now: Moment,
        records: usize,
        photos: usize,
        index: &str,
    ) -> Result<(Export, Vec<u8>), String> {
        let mut export = Export { writer: Writer::new(now) };
        let mut out = export.whole(README, readme(now, records, photos).as_bytes())?;
        out.extend(export.whole(INDEX, index.as_bytes())?);
        Ok((export, out))
    }

    fn whole(&mut self, name: &str, data: &[u8]) -> Result<Vec<u8>, String> {
        let mut out = self.writer.entry(name, data)?;
        out.extend(data);
        Ok(out)
    }

    /// One state of a record, whole.
    ///
    /// # Errors
    /// A sentence when it does not fit, or the record is longer than one that can be read again.
    pub fn record(&mut self, version: &Version) -> Result<Vec<u8>, String> {
        let text = text::write(version);
        let name = record_name(version);
        if text.len() > Limits::TEXT {
            return Err(format!("{name} is longer than a record can be. Shorten its texts."));
        }
        // Two states may wear one version's id when a file was changed by hand: both are kept.
        let again = name.replace(".txt", "-again.txt");
        self.whole(&name, text.as_bytes())
            .or_else(|says| self.whole(&again, text.as_bytes()).map_err(|_| says))
    }

    /// Where a learner stands, by the id of the pack.
    ///
    /// # Errors
    /// A sentence when it does not fit or was written before.
    pub fn practice(&mut self, pack: &str, text: &str) -> Result<Vec<u8>, String> {
        self.whole(&practice_name(pack), text.as_bytes())
    }

    /// What stands before a photograph. After it the caller sends the photograph itself.
    ///
    /// # Errors
    /// A sentence when it does not fit or was written before.
    pub fn photo(&mut self, digest: &str, jpeg: &[u8]) -> Result<Vec<u8>, String> {
        self.writer.entry(&photo_name(digest), jpeg)
    }

    /// The end of the file.
    #[must_use]
    pub fn finish(self) -> Vec<u8> {
        self.writer.finish()
    }
}
