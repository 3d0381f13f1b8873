//! Words on keys and in names that a newcomer may not know, and that the glossary does not explain.
//!
//! A word counts as known when the glossary explains it, when it explains others by it, or when it is plain English
//! (`plain.txt`). Endings are cut, so that `latched` is known by `latch`.

use compile::{Compiled, Fault};
use consult::Guide;
use std::collections::{BTreeMap, BTreeSet};

/// Shorter words are plain.
const SHORTEST: usize = 4;

/// One note that names them all.
pub(super) fn missing(guide: &Guide, compiled: &Compiled) -> Option<Fault> {
    let core = &guide.core;
    let terms = &compiled.book.terms;
    let explained = terms.iter().flat_map(|t| [&t.word, &t.means]).flat_map(|t| words(t));
    let plain = include_str!("plain.txt").split_whitespace().map(String::from);
    let known: BTreeSet<String> = explained.chain(plain).map(|w| stem(&w)).collect();
    let names = core.parts.iter().chain(&core.roles).chain(&core.makes).map(|n| &n.name);
    let labels = core.questions.iter().flat_map(|q| &q.choices).map(|c| &c.label);
    let kinds = core.kinds.iter().map(|k| &k.short);
    let mut found: BTreeMap<String, String> = BTreeMap::new();
    for word in names.chain(labels).chain(kinds).flat_map(|t| words(t)) {
        if word.len() >= SHORTEST && !known.contains(&stem(&word)) {
            found.entry(stem(&word)).or_insert(word);
        }
    }
    let list: Vec<String> = found.into_values().collect();
    (!terms.is_empty() && !list.is_empty()).then(|| Fault {
        file: "glossary.toml".to_string(),
        line: 0,
        field: String::new(),
        says: format!("Words on keys and in names that are not explained: {}.", list.join(", ")),
        hint: "Explain those that a newcomer may not know.".to_string(),
    })
}

/// Runs of letters, in lower case.
fn words(text: &str) -> Vec<String> {
    let text = text.to_lowercase().replace("'s", "");
    text.split(|c: char| !c.is_alphabetic()).filter(|w| !w.is_empty()).map(String::from).collect()
}

/// A word without its endings, and without un-.
fn stem(word: &str) -> String {
    let mut stem = word.strip_prefix("un").filter(|w| w.len() > SHORTEST).unwrap_or(word);
    let endings = ["ing", "er", "ed", "es", "s", "y", "e"];
    while let Some(cut) =
        endings.iter().find_map(|end| stem.strip_suffix(end)).filter(|w| w.len() >= SHORTEST - 1)
    {
        stem = cut;
    }
    stem.to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_one_stem_are_one() {
        for (one, other) in
            [("latched", "latch"), ("goffering", "goffer"), ("unlatching", "latch"), ("posts", "post")]
        {
            assert_eq!(stem(one), stem(other), "{one}");
        }
        assert_ne!(stem("heel"), stem("hook"));
    }

    #[test]
    fn words_are_runs_of_letters() {
        assert_eq!(words("A firm's pot-metal toy"), ["a", "firm", "pot", "metal", "toy"]);
    }
}
