//! What figures rest on, in words.

use super::Pages;
use super::sheet::{Block, Sheet, Tone};
use super::tables::Sort;
use super::write::{begun, card, line, lines, pair, text};
use crate::words::{inside, sentence};
use units::Basis;

/// Stands beside every price.
pub(super) const NO_APPRAISAL: &str =
    "Price evidence, not an appraisal: insurance and tax need a qualified one.";

impl Pages {
    /// `from a published source: A museum, a catalogue page`.
    pub(super) fn rests(&self, basis: Basis, source: Option<u16>) -> String {
        let source = source.and_then(|s| self.book.sources.get(usize::from(s)));
        match source {
            Some(source) => format!("{}: {}", basis.phrase(), source.text.trim_end_matches('.')),
            None => basis.phrase().to_string(),
        }
    }

    /// What the figures of a kind rest on: years by make, tables of looks by their number, sources.
    pub(super) fn rests_of(&self, kind: usize, sort: &Sort<'_>) -> Vec<Block> {
        let makes = &self.core.kinds[kind].makes;
        let mut blocks = lines(makes.len(), &mut |m| {
            let facts = makes[m].as_ref()?;
            let name = format!("Years, {}: ", inside(&self.core.makes[m].name));
            let rests = self.rests(facts.period_basis, facts.period_source);
            Some(line(String::new(), &name, &sentence(&rests)))
        });
        let mut counts = [0_usize; 4];
        let mut named = vec![false; self.book.sources.len()];
        let mut all = 0;
        for (q, row) in self.core.questions.iter().zip(sort.rows()) {
            let Some(row) = q.rows.get(usize::from(*row)) else { continue };
            all += 1;
            counts[row.basis as usize] += 1;
            if let Some(named) = row.source.and_then(|s| named.get_mut(usize::from(s))) {
                *named = true;
            }
        }
        let mut says = format!("of {all} tables");
        let mut gap = " ";
        for (basis, n) in Basis::ALL.iter().zip(counts).filter(|(_, n)| *n > 0) {
            says.push_str(&format!("{gap}{n} {}", basis.phrase()));
            gap = "; ";
        }
        blocks.push(begun(Tone::Plain, "Looks: ", &sentence(&says)));
        for (source, _) in self.book.sources.iter().zip(named).filter(|(_, named)| *named) {
            blocks.push(text(Tone::Small, &source.text));
        }
        let same_as = &self.book.kinds[kind].same_as;
        if !same_as.is_empty() {
            blocks.push(text(Tone::Small, &format!("In open vocabularies: {}.", same_as.join(", "))));
        }
        blocks
    }
}

/// Every source once.
pub(super) fn sources(pages: &Pages) -> Sheet {
    let mut counts = [0_usize; 4];
    for row in pages.core.questions.iter().flat_map(|q| &q.rows) {
        counts[row.basis as usize] += 1;
    }
    let counted = Basis::ALL.iter().zip(counts).filter(|(_, n)| *n > 0);
    let counted = counted.map(|(basis, n)| pair(basis.phrase(), &n.to_string())).collect();
    let sources = &pages.book.sources;
    let how = "Every figure says what it rests on: a published source, common practice, or memory that nobody has \
               checked. A figure without a source is not wrong, only weaker.";
    let mut body = Vec::new();
    card(&mut body, "What the tables of this edition rest on", vec![Block::Shares(counted)]);
    let named = lines(sources.len(), &mut |s| Some(line(String::new(), "", &sources[s].text)));
    card(&mut body, "Named in it", named);
    card(&mut body, "The edition", vec![text(Tone::Plain, &pages.edition())]);
    pages.sheet("Sources", vec![text(Tone::Hint, how)], body)
}
