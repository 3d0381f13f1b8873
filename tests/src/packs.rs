//! The packs of the project, compiled from their plain files.

use crate::YEAR;
use consult::Guide;
use std::path::{Path, PathBuf};

/// A folder of the project, from its top.
#[must_use]
pub fn at(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(path)
}

/// The plain files of the bundled pack, with the art of the project.
#[must_use]
pub fn files() -> compile::Files {
    let mut texts = texts(&at("data/packs/irons"), "");
    texts.extend(self::texts(&at("data/art"), "art/"));
    compile::Files::new(texts)
}

/// A pack of these files.
///
/// # Panics
/// When the pack has faults: then no test can mean anything.
#[must_use]
#[allow(clippy::panic, reason = "a test harness: a pack with faults ends the run")]
pub fn compiled(files: &compile::Files) -> compile::Compiled {
    match compile::compile(files) {
        Ok(compiled) => compiled,
        Err(faults) => panic!("{}", faults.iter().map(|f| format!("{f}\n")).collect::<String>()),
    }
}

/// Bytes of the bundled pack: core and book.
///
/// # Panics
/// When the pack has faults.
#[must_use]
pub fn irons() -> (Vec<u8>, Vec<u8>) {
    let compiled = compiled(&files());
    (compiled.core_bytes, compiled.book_bytes)
}

/// The bundled pack made ready, book included.
///
/// # Panics
/// When the pack cannot be read.
#[must_use]
#[allow(clippy::expect_used, reason = "a test harness")]
pub fn guide() -> Guide {
    let (core, book) = irons();
    Guide::from_bytes(&core, &book, YEAR).expect("the bundled pack can be read")
}

/// The drawings and the cautions that faults and merits of a piece call for: name, words of the drawing, ids of cautions.
///
/// # Panics
/// When the tables of prices have faults.
#[must_use]
#[allow(clippy::expect_used, reason = "a test harness")]
pub fn conditions() -> Vec<(String, String, String)> {
    let files = compile::Files::new(texts(&at("data/reference/prices"), ""));
    let prices = compile::Reference::prices(&files).expect("the tables of prices have no fault").made;
    prices.conditions.into_iter().map(|c| (c.name, c.draw, c.care)).collect()
}

/// Relative path and text of every plain file of a pack.
fn texts(folder: &Path, inside: &str) -> Vec<(String, String)> {
    let mut texts = Vec::new();
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = format!("{inside}{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            texts.extend(self::texts(&entry.path(), &format!("{name}/")));
        } else if name.ends_with(".toml") || name.ends_with(".csv") {
            texts.push((name, std::fs::read_to_string(entry.path()).unwrap_or_default()));
        }
    }
    texts
}
