//! The lanes in their order, and how one that is no test runner counts.

use super::Depth;
use super::browser;
use super::deep;
use super::listed;
use super::same_bits;
use super::tally::Tally;
use crate::build;
use crate::package;
use crate::run;
use crate::setup;
use crate::size;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::process::Command;

/// The page's renderer is behind a feature; without it the linter would pass it by.
const FEATURES: [&str; 2] = ["--features", "app/ssr"];

/// Runs lane after lane until one fails.
pub(super) fn all(depth: Depth, steps: &mut Steps, tally: &mut Tally) -> Result<()> {
    lane(steps, tally, "format", "The formatting differs from rustfmt's: run `cargo fmt --all`.", |_| {
        run::shown(run::cargo().args(["fmt", "--all", "--check"]))
    })?;
    lane(steps, tally, "every test is named", "A file of tests would never be run.", |_| listed::check())?;
    lane(
        steps,
        tally,
        "lint",
        "The native code does not compile, or the linter found something in it.",
        |_| {
            let mut lint = run::cargo();
            run::shown(
                lint.args(["clippy", "--workspace", "--all-targets"])
                    .args(FEATURES)
                    .args(["--", "-D", "warnings"]),
            )
        },
    )?;
    lane(
        steps,
        tally,
        "lint for wasm",
        "The page does not compile for wasm, or the linter found something in it.",
        |steps| {
            setup::page(steps)?;
            let mut lint = run::cargo();
            lint.args([
                "clippy",
                "--package",
                "app",
                "--target",
                "wasm32-unknown-unknown",
                "--",
                "-D",
                "warnings",
            ]);
            run::shown(&mut lint)
        },
    )?;
    lane(steps, tally, "compile", "The tests or the page do not compile.", |_| {
        run::beside_wasm(|| run::shown(rooms().arg("--no-run")))
    })?;
    runner(steps, tally, "tests of the rooms", || {
        let mut tests = rooms();
        if depth == Depth::Deep {
            tests.env("PRESSMARK_DEEP", "1").args(["--", "--nocapture"]);
        }
        let (output, ended_well) = run::heard(&mut tests)?;
        if depth == Depth::Deep {
            deep::write(&output)?;
        }
        Ok((Tally::of_cargo(&output), ended_well))
    })?;
    lane(steps, tally, "build", "The release could not be built.", build::site)?;
    lane(steps, tally, "size", "The release is too large.", |_| size::check())?;
    lane(steps, tally, "the same bits in wasm", "Native code and wasm disagree.", |steps| {
        same_bits::check(steps, depth)
    })?;
    lane(steps, tally, "package", "The package for JavaScript does not hold.", package::check)?;
    for mut tests in browser::commands(steps, &[], depth)? {
        if depth == Depth::Deep {
            tests.env("PRESSMARK_DEEP", "1");
        }
        runner(steps, tally, "browser", || {
            let (output, ended_well) = run::heard(&mut tests)?;
            Ok((Tally::of_node(&output), ended_well))
        })?;
    }
    Ok(())
}

/// The tests of all rooms.
fn rooms() -> Command {
    let mut tests = run::cargo();
    tests.args(["test", "--workspace", "--no-fail-fast"]).args(FEATURES);
    tests
}

/// A lane that passes or fails as a whole: one check.
fn lane(
    steps: &mut Steps,
    tally: &mut Tally,
    name: &str,
    sentence: &'static str,
    work: impl FnOnce(&mut Steps) -> Result<()>,
) -> Result<()> {
    let outcome = steps.lane(name, work);
    tally.add(if outcome.is_ok() {
        Tally { passed: 1, ..Tally::default() }
    } else {
        Tally { failed: 1, ..Tally::default() }
    });
    outcome.context(sentence)
}

/// A lane that counts its own tests.
fn runner(
    steps: &mut Steps,
    tally: &mut Tally,
    name: &str,
    work: impl FnOnce() -> Result<(Tally, bool)>,
) -> Result<()> {
    let (mut counted, ended_well) = steps.step(name, work)?;
    // A runner that ends badly without naming a failed test (it did not compile, it crashed) has failed once.
    counted.failed = counted.failed.max(u64::from(!ended_well));
    tally.add(counted);
    if counted.failed > 0 {
        bail!("The lane \"{name}\" failed; its own words stand above.");
    }
    if counted.skipped > 0 {
        bail!("{} tests of the lane \"{name}\" were skipped. A test runs or goes.", counted.skipped);
    }
    if counted.passed == 0 {
        bail!("The lane \"{name}\" ran no test.");
    }
    Ok(())
}
