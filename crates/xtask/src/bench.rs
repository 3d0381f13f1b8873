//! `cargo xtask bench`: how fast the mathematics is, natively and optimised.

use crate::run;
use crate::steps::Steps;
use anyhow::Result;

/// Runs the benches of the rooms that have any.
pub(crate) fn verb(steps: &mut Steps) -> Result<()> {
    steps.step("bench reason", || run::shown(run::cargo().args(["bench", "--package", "reason"])))
}
