//! The browser that the tests drive.

use super::debian;
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::PathBuf;

const NAMES: [&str; 4] = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome"];

/// An installed Chromium.
pub(crate) struct Chromium {
    /// The program.
    pub(crate) program: PathBuf,
}

/// Chromium from PATH; on Debian, as root, it is installed when missing.
pub(crate) fn find(steps: &mut Steps) -> Result<Chromium> {
    if let Some(program) = NAMES.iter().find_map(|name| run::which(name)) {
        return Ok(Chromium { program });
    }
    if !debian::may_install() {
        bail!(
            "The browser tests need Chromium, and none of these is in PATH: {}. Install it with the package manager \
             of your system.",
            NAMES.join(", ")
        );
    }
    steps.step("set-up: chromium", || debian::install(&["chromium"]))?;
    let program = run::which("chromium").context("apt-get installed chromium, but it is not in PATH.")?;
    Ok(Chromium { program })
}
