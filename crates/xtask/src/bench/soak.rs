//! `cargo xtask bench soak [minutes]`: random but legal use of the finished pages, with memory, store and findings watched.

use crate::build;
use crate::house;
use crate::run;
use crate::setup;
use crate::steps::Steps;
use crate::test::browser;
use anyhow::{Context, Result};

/// The first draw; another number is another half hour.
const SEED: &str = "20261124";

/// Runs it for so long.
pub(super) fn run(minutes: &str, steps: &mut Steps) -> Result<()> {
    let _whole: u32 = minutes.parse().context("bench soak takes a whole number of minutes.")?;
    build::site(steps)?;
    let (node, chromium) = setup::browser(steps)?;
    let out = house::target().join("phone");
    std::fs::create_dir_all(&out)?;
    let mut script = browser::script(&node, &chromium)?;
    script.args(["tests/phone/soak.mjs", minutes, SEED]).arg(out);
    steps.step("soak", || run::shown(&mut script))
}
