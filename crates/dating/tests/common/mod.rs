//! What the tests share: the project's own tables, compiled.
#![allow(dead_code, unreachable_pub, reason = "not every test uses everything")]

pub mod lettering;
pub mod make;
pub mod mutate;
pub mod sound;

use compile::{Files, reference};
use dating::Tables;
use std::fs;
use std::path::{Path, PathBuf};

/// The year in which the tests take place.
pub const YEAR: i16 = 2026;

/// Whether the full counts were asked for.
pub fn deep() -> bool {
    std::env::var_os("PRESSMARK_DEEP").is_some()
}

/// The root of the project.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The tables of `data/reference`, by way of their bytes.
pub fn tables() -> Tables {
    let mut all = Vec::new();
    for inside in ["", "marks", "numbers"] {
        for entry in fs::read_dir(root().join("data/reference").join(inside)).expect("the tables") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            if path.is_file() && (name.ends_with(".toml") || name.ends_with(".csv")) {
                let text = fs::read_to_string(&path).expect("a text");
                all.push((if inside.is_empty() { name } else { format!("{inside}/{name}") }, text));
            }
        }
    }
    let compiled = reference(&Files::new(all)).expect("sound tables");
    Tables::new(pack::marks::read_marks(&compiled.bytes).expect("bytes that can be read"), YEAR)
}
