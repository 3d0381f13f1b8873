//! A browser of another make, and what drives it.

use super::{debian, npm};
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::PathBuf;

const NAMES: [&str; 2] = ["firefox-esr", "firefox"];
/// It speaks with Firefox by WebDriver BiDi, so nothing has to be built into that one.
const DRIVER: &str = "puppeteer-core@24.43.1";

/// An installed Firefox.
pub(crate) struct Firefox {
    /// The program.
    pub(crate) program: PathBuf,
    /// The folder that holds `node_modules` with what drives it.
    pub(crate) driver: PathBuf,
}

/// Firefox from PATH; on Debian, as root, it is installed when missing.
pub(crate) fn find(steps: &mut Steps) -> Result<Firefox> {
    let in_path = || NAMES.iter().find_map(|name| run::which(name));
    if in_path().is_none() {
        if !debian::may_install() {
            bail!(
                "The page is tried in Firefox as well, and none of these is in PATH: {}. Install it with the package manager \
                 of your system.",
                NAMES.join(", ")
            );
        }
        steps.step("set-up: firefox", || debian::install(&["firefox-esr"]))?;
    }
    let program = in_path().context("apt-get installed firefox-esr, but it is not in PATH.")?;
    let driver = npm::installed("puppeteer-core-24.43.1", &[DRIVER], "the driver of firefox", steps)?;
    Ok(Firefox { program, driver })
}
