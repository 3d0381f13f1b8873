//! Every reader of foreign bytes: sound inputs to begin from, and what must hold of any other. Said once, for the mutated
//! inputs of the usual tests and for the search by coverage of `cargo xtask bench fuzz`. Never in here: anything that is
//! shipped, a generator of inputs.

mod archives;
mod compiled;
mod kept;
mod letterings;
mod links;
mod packs;
mod pictures;
mod project;
mod tables;

/// One reader.
#[derive(Debug, Clone, Copy)]
pub struct Reader {
    /// In a word.
    pub name: &'static str,
    /// Inputs as they come when nothing is wrong: each is let in.
    pub seeds: fn() -> Vec<Vec<u8>>,
    /// Pieces that mean something to it, put in anywhere.
    pub words: &'static [&'static str],
    /// Reads bytes, uses what was let in, and says whether it was; the error is what does not hold, for whoever mends it.
    pub answered: fn(&[u8]) -> Result<bool, String>,
}

/// All of them.
pub const READERS: [Reader; 15] = [
    packs::HALVES,
    packs::WHOLE,
    packs::SIGNATURE,
    archives::HANDED,
    compiled::FILES,
    links::LINK,
    links::HANDOVER,
    links::ANSWERS,
    kept::PRACTICE,
    kept::CABINET,
    kept::SHEET,
    letterings::MARKS,
    tables::TABLES,
    pictures::PHOTOGRAPH,
    pictures::ASKED,
];

/// The reader of this name.
#[must_use]
pub fn reader(name: &str) -> Option<&'static Reader> {
    READERS.iter().find(|reader| reader.name == name)
}

/// A refusal is a sentence that can be shown, or two.
fn sentence(says: &str) -> Result<(), String> {
    let plain = says.chars().all(|c| !c.is_control()) && says.chars().count() < 400;
    if says.ends_with(['.', '?']) && plain { Ok(()) } else { Err(format!("no sentence: {says:?}")) }
}

/// That something holds, or that it does not.
fn must(holds: bool, what: &str) -> Result<(), String> {
    if holds { Ok(()) } else { Err(what.to_string()) }
}
