//! Lighthouse, which judges the finished page from outside: for `bench phone` alone, in a folder named by its version.

use super::cache;
use super::node::MISSING;
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result};
use std::path::PathBuf;

/// The last edition that runs on Node 20.
const LIGHTHOUSE: &str = "lighthouse@12.8.2";

/// The folder that holds `node_modules/lighthouse`.
pub(crate) fn find(steps: &mut Steps) -> Result<PathBuf> {
    let npm = run::which("npm").context(MISSING)?;
    cache::installed("lighthouse-12.8.2", "complete", |fresh| {
        steps.step("set-up: lighthouse", || {
            std::fs::write(fresh.join("package.json"), "{\"private\":true}\n")?;
            let mut install = run::command(&npm);
            install.args([
                "install",
                "--no-audit",
                "--no-fund",
                "--ignore-scripts",
                "--save-exact",
                LIGHTHOUSE,
            ]);
            run::shown(install.current_dir(fresh))
                .context("npm could not install Lighthouse. Is there a network?")?;
            std::fs::write(fresh.join("complete"), LIGHTHOUSE)?;
            Ok(())
        })
    })
}
