//! The compiler of TypeScript, which checks the published types of the package. It stands apart from what the page is built
//! with, in a folder named by its version.

use super::cache;
use super::node::MISSING;
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result};
use std::path::PathBuf;

const TYPESCRIPT: &str = "typescript@5.9.3";
/// What `node:` modules are, for the example that runs in Node.
const NODE_TYPES: &str = "@types/node@20.19.25";

/// The folder that holds `node_modules/typescript`.
pub(crate) fn find(steps: &mut Steps) -> Result<PathBuf> {
    let npm = run::which("npm").context(MISSING)?;
    cache::installed("typescript-5.9.3", "complete", |fresh| {
        steps.step("set-up: typescript", || {
            std::fs::write(fresh.join("package.json"), "{\"private\":true}\n")?;
            let mut install = run::command(&npm);
            install.args(["install", "--no-audit", "--no-fund", "--ignore-scripts", "--save-exact"]);
            install.args([TYPESCRIPT, NODE_TYPES]).current_dir(fresh);
            run::shown(&mut install).context("npm could not install TypeScript. Is there a network?")?;
            std::fs::write(fresh.join("complete"), TYPESCRIPT)?;
            Ok(())
        })
    })
}
