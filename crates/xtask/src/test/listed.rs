//! A file of tests that nothing names is never run, and nobody is told: so every one of them must be named, in the `main.rs`
//! beside it or in its `Cargo.toml`.

use crate::house;
use anyhow::{Context, Result, bail};
use std::fs;
use std::path::{Path, PathBuf};

/// Fails with the files of tests that are not run.
pub(super) fn check() -> Result<()> {
    let mut lost = Vec::new();
    for folder in ["crates", "tests"] {
        let files = house::files(&house::at(folder)).with_context(|| format!("Cannot list {folder}."))?;
        for main in files.iter().filter(|file| file.ends_with("tests/main.rs")) {
            lost.extend(forgotten(main)?);
        }
    }
    if lost.is_empty() {
        return Ok(());
    }
    let lost: Vec<String> = lost.iter().map(|file| file.display().to_string()).collect();
    bail!("These tests are never run: {}. Name each in the main.rs beside it.", lost.join(", "))
}

/// The files beside a `main.rs` that nothing names.
fn forgotten(main: &Path) -> Result<Vec<PathBuf>> {
    let named = fs::read_to_string(main)?;
    let apart = fs::read_to_string(main.with_file_name("../Cargo.toml"))?;
    let mut files = house::files(main.parent().unwrap_or(main))?;
    files.retain(|file| {
        let name = file.file_stem().unwrap_or_default().to_string_lossy();
        let known = file == main
            || named.lines().any(|line| line == format!("mod {name};"))
            || apart.lines().any(|line| line == format!("name = \"{name}\""));
        file.parent() == main.parent() && file.extension().is_some_and(|ending| ending == "rs") && !known
    });
    Ok(files)
}
