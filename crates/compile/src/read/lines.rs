//! A line of a table where it stands in a file, alone or with what it rests on.

use super::Context;
use crate::cursor::Value;
use crate::even;
use crate::model::{Entry, Manifest, Rests};
use crate::shares::{self, Of};
use crate::text::Limit;

impl Context<'_> {
    /// A line of a table, or `{ says = ..., basis = ..., source = ... }`. A line that cannot be read is a fault
    /// already; equal shares stand in for it, so that nothing follows from it.
    pub(super) fn table_line(
        &self,
        value: &Value<'_>,
        choices: &[&str],
        manifest: &Manifest,
        above: Rests,
    ) -> Entry {
        let (text, rests) = if value.is_table() {
            let table = value.table();
            let rests = table.as_ref().map_or(above, |t| self.rests(t, above));
            let says = table.as_ref().and_then(|t| t.need("says", "says = \"bar usually\""));
            if let Some(t) = table {
                t.done();
            }
            (says, rests)
        } else {
            (Some(value.clone()), above)
        };
        let line = text.and_then(|v| self.line(&v, choices, manifest));
        if line.is_some() {
            self.count(rests);
        }
        let shares = match line {
            Some(line) => line.shares(rests.basis),
            None => even::per_mille(&vec![1.0; choices.len()]),
        };
        Entry { says: pack::Says::Shares(shares), rests }
    }

    fn line(&self, value: &Value<'_>, choices: &[&str], manifest: &Manifest) -> Option<shares::Line> {
        let text = value.text(Limit::TABLE)?;
        shares::read(&text, Of::Choices, choices, &manifest.words).map_err(|refused| refused.tell(value)).ok()
    }
}
