//! The web server with which the example of the release is tried.

use super::debian;
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result};
use std::path::PathBuf;

/// nginx from PATH; else that of Debian, unpacked into the cache: nothing is installed and nothing started.
pub(crate) fn find(steps: &mut Steps) -> Result<PathBuf> {
    let usual = PathBuf::from("/usr/sbin/nginx");
    if let Some(program) = run::which("nginx").or_else(|| usual.is_file().then_some(usual)) {
        return Ok(program);
    }
    let inside = "usr/sbin/nginx";
    let unpacked = steps.step("set-up: nginx", || debian::unpacked("nginx", inside)).context(
        "The release is tried with nginx, which is not in PATH and could not be fetched from Debian. Install it with the package \
         manager of your system.",
    )?;
    Ok(unpacked.join(inside))
}
