//! `cargo xtask bench`: how fast the mathematics is, natively and optimised; `bench engine`: how right and how good.

mod engine;
mod mutants;

use crate::run;
use crate::steps::Steps;
use anyhow::{Result, bail};

/// Runs the benches of the rooms that have any, or holds the engine against others.
pub(crate) fn verb(arguments: &[String], steps: &mut Steps) -> Result<()> {
    match arguments {
        [] => steps.step("bench reason", || run::shown(run::cargo().args(["bench", "--package", "reason"]))),
        [only] if only == "engine" => engine::page(steps),
        _ => bail!("bench takes `engine` or nothing."),
    }
}
