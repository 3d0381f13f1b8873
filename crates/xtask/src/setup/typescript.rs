//! The compiler of TypeScript, which checks the published types of the package. It stands apart from what the page is built
//! with, in a folder named by its version.

use super::npm;
use crate::steps::Steps;
use anyhow::Result;
use std::path::PathBuf;

const TYPESCRIPT: &str = "typescript@5.9.3";
/// What `node:` modules are, for the example that runs in Node.
const NODE_TYPES: &str = "@types/node@20.19.25";

/// The folder that holds `node_modules/typescript`.
pub(crate) fn find(steps: &mut Steps) -> Result<PathBuf> {
    npm::installed("typescript-5.9.3", &[TYPESCRIPT, NODE_TYPES], "typescript", steps)
}
