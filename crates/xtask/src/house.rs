//! Where things are: the repository and the folders that the build writes.

use std::path::{Path, PathBuf};

/// The repository. Known at compile time, since xtask is always run from its own checkout.
pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here).to_path_buf()
}

/// A path inside the repository.
pub(crate) fn at(path: &str) -> PathBuf {
    root().join(path)
}

/// Cargo's own output.
pub(crate) fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| at("target"), PathBuf::from)
}

/// Everything that the build writes, apart from cargo's own output.
pub(crate) fn site() -> PathBuf {
    at("target/site")
}

/// What is served and released.
pub(crate) fn dist() -> PathBuf {
    site().join("dist")
}

/// The compiled packs.
pub(crate) fn packs() -> PathBuf {
    site().join("pack")
}

/// Makes `folder` exist and empty.
pub(crate) fn empty(folder: &Path) -> std::io::Result<()> {
    if folder.exists() {
        std::fs::remove_dir_all(folder)?;
    }
    std::fs::create_dir_all(folder)
}

/// Every file under `folder` (or `folder` itself, when it is a file), sorted, so that a digest over them is stable.
pub(crate) fn files(folder: &Path) -> std::io::Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(path) = open.pop() {
        if path.is_dir() {
            for entry in std::fs::read_dir(&path)? {
                open.push(entry?.path());
            }
        } else if path.is_file() {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}
