//! The tests in a real browser: `tests/browser/*.test.mjs`, run by node's own test runner.

use super::Depth;
use super::needs;
use crate::build;
use crate::house;
use crate::package;
use crate::run;
use crate::setup::{self, Chromium, Node};
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::PathBuf;
use std::process::Command;

/// `cargo xtask browser`: builds, then runs the tests whose file names contain one of these parts.
pub(crate) fn verb(parts: &[String], steps: &mut Steps) -> Result<()> {
    build::site(steps)?;
    if parts.is_empty() || parts.iter().any(|part| "package.test.mjs".contains(&**part)) {
        package::check(steps)?;
    }
    for mut tests in commands(steps, parts, Depth::Usual)? {
        steps.step("browser", || run::shown(&mut tests))?;
    }
    Ok(())
}

/// `cargo xtask shots`: builds, then takes the pictures whose names contain one of these parts.
pub(crate) fn shots(parts: &[String], steps: &mut Steps) -> Result<()> {
    build::site(steps)?;
    let (node, chromium) = setup::browser(steps)?;
    let mut shots = script(&node, &chromium)?;
    shots.arg("tests/browser/shots.mjs").args(parts);
    steps.step("shots", || run::shown(&mut shots))?;
    println!("The pictures lie in target/shots.");
    Ok(())
}

/// The tests that compare times: nothing else runs beside them.
const TIMED: [&str; 4] =
    ["speed.test.mjs", "cabinet-many.test.mjs", "photo-speed.test.mjs", "practice-speed.test.mjs"];

/// The commands that run tests against what has been built: all, or those whose file names contain one of the parts. Three files
/// at a time, since each waits for its browser about half the time; those that compare times by themselves.
pub(super) fn commands(steps: &mut Steps, parts: &[String], depth: Depth) -> Result<Vec<Command>> {
    let folder = house::at("tests/browser");
    let mut tests = house::files(&folder).context("Cannot list tests/browser.")?;
    tests.retain(|file| {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let wanted = if parts.is_empty() {
            needs::runs(&name, depth)
        } else {
            parts.iter().any(|part| name.contains(&**part))
        };
        name.ends_with(".test.mjs") && wanted
    });
    if tests.is_empty() {
        bail!("There is no such test in {}.", folder.display());
    }
    let (node, chromium) = setup::browser(steps)?;
    let told = needs::met(&tests, steps)?;
    let (timed, others): (Vec<_>, Vec<_>) =
        tests.into_iter().partition(|file| TIMED.iter().any(|timed| file.ends_with(timed)));
    let of = |(tests, at_a_time): (Vec<PathBuf>, u8)| {
        let mut command = script(&node, &chromium)?;
        command.envs(told.iter().cloned());
        let at_a_time = format!("--test-concurrency={at_a_time}");
        command.args(["--test", "--test-reporter=spec", &at_a_time]).args(tests);
        Ok(command)
    };
    [(others, 3), (timed, 1)].into_iter().filter(|(tests, _)| !tests.is_empty()).map(of).collect()
}

/// Node with all that the tests of this file are told.
pub(crate) fn script_for(file: &str, steps: &mut Steps) -> Result<Command> {
    let (node, chromium) = setup::browser(steps)?;
    let mut command = script(&node, &chromium)?;
    command.envs(needs::met(&[PathBuf::from(file)], steps)?);
    Ok(command)
}

/// Node with all that the scripts are told.
pub(crate) fn script(node: &Node, chromium: &Chromium) -> Result<Command> {
    let mut command = run::command(&node.program);
    command.env("PRESSMARK_NODE", &node.packages);
    command.env("PRESSMARK_CHROMIUM", &chromium.program);
    let own = std::env::current_exe().context("xtask cannot find itself.")?;
    // The build before this has made it, with the same settings and so in the same folder.
    command
        .env("PRESSMARK_WORKSHOP", own.with_file_name(format!("workshop{}", std::env::consts::EXE_SUFFIX)));
    command.env("PRESSMARK_XTASK", own);
    command.env("PRESSMARK_DIST", house::dist());
    command.env("PRESSMARK_NPM", package::folder());
    Ok(command)
}
