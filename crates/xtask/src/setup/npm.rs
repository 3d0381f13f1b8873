//! Packages of npm, each set in a folder of the cache that is named by what is in it.

use super::cache;
use super::node::MISSING;
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result};
use std::path::PathBuf;

/// The folder that holds `node_modules` with these packages; `what` is how a person calls them.
pub(super) fn installed(folder: &str, packages: &[&str], what: &str, steps: &mut Steps) -> Result<PathBuf> {
    let npm = run::which("npm").context(MISSING)?;
    cache::installed(folder, "complete", |fresh| {
        steps.step(&format!("set-up: {what}"), || {
            std::fs::write(fresh.join("package.json"), "{\"private\":true}\n")?;
            let mut install = run::command(&npm);
            install.args(["install", "--no-audit", "--no-fund", "--ignore-scripts", "--save-exact"]);
            install.args(packages).current_dir(fresh);
            run::shown(&mut install)
                .with_context(|| format!("npm could not install {what}. Is there a network?"))?;
            std::fs::write(fresh.join("complete"), packages.join("\n"))?;
            Ok(())
        })
    })
}
