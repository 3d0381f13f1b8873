//! Plain files of a pack to its bytes, or every fault with file, line, field and hint. Never in here: file access,
//! a clock, a browser, trade knowledge.

mod art;
mod assemble;
mod broad;
mod checks;
mod codes;
mod cursor;
mod even;
mod fault;
mod files;
mod halves;
mod model;
mod prior;
mod read;
mod reference;
mod resolve;
pub mod shape;
mod shares;
pub mod sheets;
mod spread;
mod text;

pub use art::{Figure, art};
pub use fault::{Fault, MOST_FAULTS};
pub use files::{Files, LARGEST_PACK, LONGEST_FILE, MOST_FILES, plain};
pub use reference::{Reference, reference};

use codes::Codes;
use fault::{Faults, Spot};
use model::Model;
use sha2::{Digest, Sha256};
use units::Basis;

/// A pack made of plain files.
#[derive(Debug, Clone, PartialEq)]
pub struct Compiled {
    /// The question path, whole: with what travels in the book.
    pub core: pack::Core,
    /// The long texts, and the words and tables of the questions outside the opening.
    pub book: pack::Book,
    /// Bytes of the core, without what travels in the book.
    pub core_bytes: Vec<u8>,
    /// Bytes of the book.
    pub book_bytes: Vec<u8>,
    /// Both halves and the key in one file, as it is handed on.
    pub whole_bytes: Vec<u8>,
    /// SHA-256 of the core's bytes, 64 lower-case hexadecimal digits.
    pub core_digest: String,
    /// SHA-256 of the book's bytes.
    pub book_digest: String,
    /// SHA-256 of the one file.
    pub whole_digest: String,
    /// What is worth a look but does not spoil the pack, in order of file and line.
    pub notes: Vec<Fault>,
    /// How many figures in the files rest on what.
    pub counts: [(Basis, usize); 4],
    /// Described pieces of all kinds.
    pub examples: Vec<Example>,
}

/// A described piece that its kind must be found by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Example {
    /// File and line, as a fault would name them.
    pub at: (String, u32),
    /// What it is called in the files.
    pub name: String,
    /// Index of its kind.
    pub kind: usize,
    /// Index of its make.
    pub make: usize,
    /// The answers, one a line: `grip = bar`.
    pub answers: String,
    /// Index of the question whose answer is unusual for the kind.
    pub unusual: usize,
    /// The kind must come among the first so many.
    pub within: usize,
}

/// Compiles the files of a pack. When files of art are among them, as `art/grip.toml`, the words of all drawings are
/// looked up there, and the figures that they use travel with the pack.
///
/// # Errors
/// Every fault of every file, in order of file and line; never an empty list.
pub fn compile(files: &Files) -> Result<Compiled, Vec<Fault>> {
    let faults = Faults::default();
    if !files.within_limits(&faults) {
        return Err(faults.into_sorted(&[]).0);
    }
    let (model, unparsed) = read::read(files, &faults);
    let mut codes = Codes::read(files.get("codes.csv").unwrap_or_default(), &faults);
    let compiled = finish(&model, &mut codes, &faults, unparsed.is_empty());
    let (list, notes) = faults.into_sorted(&unparsed);
    match compiled {
        Some(compiled) if list.is_empty() => Ok(Compiled { notes, ..compiled }),
        _ => Err(list),
    }
}

/// The lines that `codes.csv` lacks, each with the next free number, whatever else is wrong with the pack.
#[must_use]
pub fn missing_codes(files: &Files) -> Vec<String> {
    let faults = Faults::default();
    if !files.within_limits(&faults) {
        return Vec::new();
    }
    let (model, _) = read::read(files, &faults);
    let mut codes = Codes::read(files.get("codes.csv").unwrap_or_default(), &faults);
    codes.all(&model, &faults);
    codes.missing
}

/// Resolves and assembles; none when something is wrong, which is in the collector.
fn finish(model: &Model, codes: &mut Codes, faults: &Faults, parsed: bool) -> Option<Compiled> {
    if !parsed {
        return None;
    }
    checks::names(model, faults);
    checks::counts(model, faults);
    checks::invented(model, faults);
    codes.all(model, faults);
    let mut drafts = resolve::drafts(model, faults);
    if drafts.len() > checks::MOST_CANDIDATES {
        let says = format!("Kinds, makes and forms make more than {} candidates.", checks::MOST_CANDIDATES);
        faults.add(&Spot::file("pack.toml"), says, "Leave out forms or kinds.");
    }
    if !faults.is_clean() {
        return None;
    }
    broad::fill(model, &mut drafts);
    let mut core = assemble::core(model, &drafts, codes, faults);
    checks::priors(model, &core, faults);
    if !faults.is_clean() {
        return None;
    }
    core.fit_limits = reason::fit_limits(&core);
    let halves = halves::of(model, &core);
    core.art = halves.early;
    checks::telling(model, &core, faults);
    let unsound = |e: pack::Fault| faults.add(&Spot::file("pack.toml"), e.0, "");
    let mut early = core.clone();
    let late = pack::part(&mut early);
    let core_bytes = pack::write_core(&early).map_err(unsound).ok()?;
    let core_digest: [u8; 32] = Sha256::digest(&core_bytes).into();
    let book = assemble::book(model, &core_digest, (halves.late, late), codes, faults);
    let book_bytes = pack::write_book(&book);
    // Whoever opens the pack trusts nothing; what would be refused there is a fault here.
    let mut whole = pack::read_core(&core_bytes).map_err(unsound).ok()?;
    let read = pack::read_book(&book_bytes).map_err(unsound).ok()?;
    pack::join(&mut whole, read.late).map_err(unsound).ok()?;
    pack::check_lessons(&whole, &read.lessons).map_err(unsound).ok()?;
    let book_digest: [u8; 32] = Sha256::digest(&book_bytes).into();
    let whole_bytes =
        pack::write_whole(&pack::Whole { key: &model.manifest.key, core: &core_bytes, book: &book_bytes });
    let whole_digest: [u8; 32] = Sha256::digest(&whole_bytes).into();
    let mut counts = Basis::ALL.map(|b| (b, 0));
    for (count, n) in counts.iter_mut().zip(model.counts) {
        count.1 = n;
    }
    Some(Compiled {
        core,
        book,
        core_bytes,
        book_bytes,
        whole_bytes,
        core_digest: hex(&core_digest),
        book_digest: hex(&book_digest),
        whole_digest: hex(&whole_digest),
        notes: Vec::new(),
        counts,
        examples: examples(model),
    })
}

fn examples(model: &Model) -> Vec<Example> {
    let of = |(kind, k): (usize, &model::Kind)| -> Vec<Example> {
        let one = |e: &model::Example| Example {
            at: (e.spot.file.to_string(), e.spot.line),
            name: e.name.clone(),
            kind,
            make: usize::from(e.make),
            answers: e.looks.iter().map(|(q, a)| format!("{q} = {a}\n")).collect(),
            unusual: model.questions.iter().position(|q| q.id == e.unusual.id).unwrap_or(0),
            within: e.within,
        };
        k.examples.iter().map(one).collect()
    };
    model.kinds.iter().enumerate().flat_map(of).collect()
}

pub(crate) fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|b| format!("{b:02x}")).collect()
}
