//! `cargo xtask release`: the folder that a club puts on its site, with what belongs beside it.

mod servers;

use crate::build;
use crate::headers;
use crate::house;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::fs;
use std::path::{Path, PathBuf};

/// What the folder is called that is copied: the addresses in the examples and in the readme are made with it.
pub(crate) const FOLDER: &str = "pressmark";
/// The edition of one file.
const ONE_FILE: &str = "pressmark-one-file.html";
/// What the person reads who puts it on a site.
const README: &str = include_str!("README.txt");

/// Builds what changed and makes the folder anew.
pub(crate) fn verb(words: &[String], steps: &mut Steps) -> Result<()> {
    if let [word, ..] = words {
        bail!("\"{word}\" cannot stand here: cargo xtask release");
    }
    build::site(steps)?;
    folder_of(steps)?;
    println!("\nThe release: {}. Begin with README.txt there.", folder().display());
    Ok(())
}

/// Makes the folder of what has been built.
pub(crate) fn folder_of(steps: &mut Steps) -> Result<()> {
    steps.step("release: folder", || made(&house::dist(), &build::one_file_made(), &folder()))
}

/// Where it comes to lie.
pub(crate) fn folder() -> PathBuf {
    house::target().join("release-folder")
}

/// Puts it together.
fn made(dist: &Path, one_file: &Path, to: &Path) -> Result<()> {
    house::empty(to).with_context(|| format!("Cannot empty {}.", to.display()))?;
    let inside = to.join(FOLDER);
    fs::create_dir(&inside)?;
    let mut names = Vec::new();
    for file in house::files(dist)? {
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        // For a site of its own; that for a folder stands with the examples.
        if name == "_headers" {
            continue;
        }
        copied(&file, &inside.join(&name))?;
        if !name.ends_with(".br") && !name.ends_with(".gz") {
            names.push(name);
        }
    }
    copied(one_file, &to.join(ONE_FILE))?;
    let examples = to.join("headers");
    fs::create_dir(&examples)?;
    for (name, text) in [
        ("nginx.conf", servers::nginx()),
        ("apache.htaccess", servers::apache()),
        ("Caddyfile", servers::caddy()),
        ("_headers", headers::file(&names, &format!("/{FOLDER}"))),
    ] {
        fs::write(examples.join(name), text).with_context(|| format!("Cannot write the example {name}."))?;
    }
    fs::write(to.join("README.txt"), README).context("Cannot write README.txt.")?;
    for licence in ["LICENSE-APACHE", "LICENSE-MIT"] {
        copied(&house::at(licence), &to.join(licence))?;
    }
    Ok(())
}

fn copied(from: &Path, to: &Path) -> Result<()> {
    fs::copy(from, to)
        .map(|_| ())
        .with_context(|| format!("Cannot copy {} to {}.", from.display(), to.display()))
}
