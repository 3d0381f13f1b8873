//! What figures rest on, in words.

use super::Pages;
use super::sheet::{Block, Run, Tone, say, toned};
use super::tables::Sort;
use crate::words::sentence;
use units::Basis;

/// Stands beside every price.
pub(super) const NO_APPRAISAL: &str =
    "Price evidence, not an appraisal: insurance and tax need a qualified one.";

impl Pages {
    /// `from a published source: A museum, a catalogue page`.
    pub(super) fn rests(&self, basis: Basis, source: Option<u16>) -> String {
        match self.source(source) {
            Some(source) => format!("{}: {}", basis.phrase(), source.text.trim_end_matches('.')),
            None => basis.phrase().to_string(),
        }
    }

    /// What the figures of a kind rest on: years by make, tables of looks by their number, sources.
    pub(super) fn rests_of(&self, kind: usize, sort: &Sort<'_>) -> Vec<Block> {
        let mut lines: Vec<Vec<Run>> = Vec::new();
        for (name, facts) in self.makes(kind) {
            let rests = self.rests(facts.period_basis, facts.period_source);
            lines.push(vec![
                Run::Strong(format!("Years, {}: ", crate::words::inside(name))),
                say(sentence(&rests)),
            ]);
        }
        let mut counts = [0_usize; Basis::ALL.len()];
        let mut sources: Vec<u16> = Vec::new();
        let mut all = 0;
        let Some(first) = sort.candidates().next() else { return Vec::new() };
        for (q, row) in self.core.questions.iter().zip(&first.rows) {
            let Some(row) = q.rows.get(usize::from(*row)) else { continue };
            all += 1;
            counts[row.basis as usize] += 1;
            sources.extend(row.source.filter(|s| !sources.contains(s)));
        }
        let counted = Basis::ALL.iter().zip(counts).filter(|(_, n)| *n > 0);
        let counted: Vec<String> = counted.map(|(basis, n)| format!("{n} {}", basis.phrase())).collect();
        lines.push(vec![
            Run::Strong("Looks: ".to_string()),
            say(format!("of {all} tables {}.", counted.join("; "))),
        ]);
        let mut blocks = vec![Block::List(lines)];
        sources.sort_unstable();
        for source in sources.iter().filter_map(|s| self.source(Some(*s))) {
            blocks.push(toned(Tone::Small, &source.text));
        }
        let same_as = &self.book.kinds[kind].same_as;
        if !same_as.is_empty() {
            blocks.push(toned(Tone::Small, format!("In open vocabularies: {}.", same_as.join(", "))));
        }
        blocks
    }

    /// The makes of a kind: name and facts.
    pub(super) fn makes(&self, kind: usize) -> impl Iterator<Item = (&str, &pack::MakeFacts)> {
        let names = self.core.makes.iter().map(|m| m.name.as_str());
        names.zip(&self.core.kinds[kind].makes).filter_map(|(name, facts)| Some((name, facts.as_ref()?)))
    }
}

/// Every source once.
pub(super) fn sources(pages: &Pages) -> super::Sheet {
    let lines = pages.book.sources.iter().map(|s| vec![say(&s.text)]).collect();
    let how = "Every figure says what it rests on: a published source, common practice, or memory that nobody has \
               checked. A figure without a source is not wrong, only weaker.";
    let mut counts = [0_usize; Basis::ALL.len()];
    for row in pages.core.questions.iter().flat_map(|q| &q.rows) {
        counts[row.basis as usize] += 1;
    }
    let counted: Vec<(String, String)> = Basis::ALL
        .iter()
        .zip(counts)
        .filter(|(_, n)| *n > 0)
        .map(|(basis, n)| (basis.phrase().to_string(), n.to_string()))
        .collect();
    super::Sheet {
        title: "Sources".to_string(),
        lead: vec![toned(Tone::Hint, how)],
        body: vec![
            Block::Section(
                "What the tables of this edition rest on".to_string(),
                vec![Block::Shares(counted)],
            ),
            Block::Section("Named in it".to_string(), vec![Block::List(lines)]),
            Block::Section("The edition".to_string(), vec![toned(Tone::Plain, pages.edition())]),
        ],
        keys: pages.usual_keys(),
    }
}
