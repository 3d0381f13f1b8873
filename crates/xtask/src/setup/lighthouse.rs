//! Lighthouse, which judges the finished page from outside: for `bench phone` alone, in a folder named by its version.

use super::npm;
use crate::steps::Steps;
use anyhow::Result;
use std::path::PathBuf;

/// The last edition that runs on Node 20.
const LIGHTHOUSE: &str = "lighthouse@12.8.2";

/// The folder that holds `node_modules/lighthouse`.
pub(crate) fn find(steps: &mut Steps) -> Result<PathBuf> {
    npm::installed("lighthouse-12.8.2", &[LIGHTHOUSE], "lighthouse", steps)
}
