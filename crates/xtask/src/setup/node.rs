//! Node and the packages that run in it: the optimisers of wasm and script, and what drives the browser in tests.

use super::npm;
use crate::run;
use crate::steps::Steps;
use anyhow::Result;
use std::path::{Path, PathBuf};

/// Said when there is no Node and one is needed.
pub(crate) const MISSING: &str = "The browser tests need Node 20 or newer with npm, and neither is in PATH. \
                                  Install it with the package manager of your system.";

/// Raise the number whenever the list below changes: older checkouts keep the folder they know.
const FOLDER: &str = "node-2";
const PACKAGES: [&str; 5] = [
    "binaryen@132.0.0",
    "esbuild@0.28.2",
    "playwright-core@1.65.1",
    "@axe-core/playwright@4.13.0",
    "axe-core@4.14.1",
];

/// Node with the pinned packages.
pub(crate) struct Node {
    /// The program.
    pub(crate) program: PathBuf,
    /// The folder that holds `node_modules`.
    pub(crate) packages: PathBuf,
}

/// Node, if there is a recent one, with its packages installed.
pub(crate) fn find(steps: &mut Steps) -> Result<Option<Node>> {
    let Some(program) = run::which("node") else {
        return Ok(None);
    };
    if !recent_npm(&program) {
        return Ok(None);
    }
    let packages = npm::installed(FOLDER, &PACKAGES, "node packages", steps)?;
    Ok(Some(Node { program, packages }))
}

/// Whether this node is recent, and npm there.
fn recent_npm(program: &Path) -> bool {
    let recent = run::version(program).is_some_and(|said| major(&said).is_some_and(|major| major >= 20));
    recent && run::which("npm").is_some()
}

/// The 20 of `v20.20.2`.
fn major(version: &str) -> Option<u32> {
    version.strip_prefix('v')?.split('.').next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_major_version_of_node_is_read() {
        assert_eq!(super::major("v20.20.2"), Some(20));
        assert_eq!(super::major("20"), None);
    }
}
