//! Packs for the tests of the format: the bundled one and the small invented one of the compiler's tests.
#![allow(dead_code, reason = "each test file uses its part of this")]

use compile::{Compiled, Files, compile};
use std::fs;
use std::path::Path;

/// The seed of everything drawn here.
pub(crate) const SEED: u64 = 20_261_124;

fn texts(folder: &Path, inside: &str) -> Vec<(String, String)> {
    let mut texts = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder of the project") {
        let entry = entry.expect("an entry of a folder of the project");
        let name = format!("{inside}{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            texts.extend(self::texts(&entry.path(), &format!("{name}/")));
        } else if name.ends_with(".toml") || name.ends_with(".csv") {
            texts.push((name, fs::read_to_string(entry.path()).expect("a text file of the project")));
        }
    }
    texts
}

fn compiled(folder: &str) -> Compiled {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut files = texts(&root.join(folder), "");
    files.extend(texts(&root.join("data/art"), "art/"));
    compile(&Files::new(files)).expect("a sound pack")
}

/// The bundled pack.
pub(crate) fn irons() -> Compiled {
    compiled("data/packs/irons")
}

/// The small sound pack of the compiler's tests. All its figures are invented.
pub(crate) fn tiny() -> Compiled {
    compiled("crates/compile/tests/cases/good")
}

/// A refusal must be one sentence, or two, that a person can read.
pub(crate) fn sentence(says: &str) -> Result<(), String> {
    let begins = says.starts_with("This pack ") || says.starts_with("This file ");
    let plain = says.chars().all(|c| !c.is_control()) && says.chars().count() < 200;
    if begins && says.ends_with('.') && plain { Ok(()) } else { Err(format!("no sentence: {says:?}")) }
}
