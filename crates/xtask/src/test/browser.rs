//! The tests in a real browser: `tests/browser/*.test.mjs`, run by node's own test runner.

use crate::house;
use crate::run;
use crate::setup::{Chromium, Node};
use anyhow::{Context, Result, bail};
use std::process::Command;

/// The command that runs them all against what has been built.
pub(super) fn command(node: &Node, chromium: &Chromium) -> Result<Command> {
    let folder = house::at("tests/browser");
    let mut tests = house::files(&folder).context("Cannot list tests/browser.")?;
    tests.retain(|file| file.to_string_lossy().ends_with(".test.mjs"));
    if tests.is_empty() {
        bail!("There is no test in {}.", folder.display());
    }
    let mut command = run::command(&node.program);
    // One file at a time: each starts a browser, and timings are compared.
    command.args(["--test", "--test-reporter=spec", "--test-concurrency=1"]).args(tests);
    command.env("PRESSMARK_NODE", &node.packages);
    command.env("PRESSMARK_CHROMIUM", &chromium.program);
    let own = std::env::current_exe().context("xtask cannot find itself.")?;
    // The build before this has made it, with the same settings and so in the same folder.
    command
        .env("PRESSMARK_WORKSHOP", own.with_file_name(format!("workshop{}", std::env::consts::EXE_SUFFIX)));
    command.env("PRESSMARK_XTASK", own);
    command.env("PRESSMARK_DIST", house::dist());
    Ok(command)
}
