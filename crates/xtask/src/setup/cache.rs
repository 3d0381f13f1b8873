//! The per-user folder of tools. Each tool stands in a folder named by its version, is installed beside it and moved
//! into place in one step: two runs at once cannot leave a half-made tool, and an older checkout keeps its own.

use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};

/// `$XDG_CACHE_HOME/pressmark`, or `~/.cache/pressmark`.
pub(crate) fn folder() -> Result<PathBuf> {
    let absolute = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|path| path.is_absolute());
    let base = match (absolute("XDG_CACHE_HOME"), absolute("HOME")) {
        (Some(cache), _) => cache,
        (None, Some(home)) => home.join(".cache"),
        (None, None) => bail!("Neither XDG_CACHE_HOME nor HOME is set: there is nowhere to keep the tools."),
    };
    Ok(base.join("pressmark"))
}

/// The folder `name` of the cache. If `proof` (a path inside it) is not there, `install` is called with an empty
/// folder to fill, which then becomes `name`.
pub(crate) fn installed(
    name: &str,
    proof: &str,
    install: impl FnOnce(&Path) -> Result<()>,
) -> Result<PathBuf> {
    let cache = folder()?;
    let place = cache.join(name);
    if place.join(proof).exists() {
        return Ok(place);
    }
    let fresh = cache.join(format!(".new-{name}-{}", std::process::id()));
    crate::house::empty(&fresh).with_context(|| format!("Cannot make {}.", fresh.display()))?;
    let outcome = install(&fresh).and_then(|()| {
        if fresh.join(proof).exists() {
            Ok(())
        } else {
            bail!("The installation of {name} ended well but left no {proof}.")
        }
    });
    if let Err(error) = outcome {
        let _ = std::fs::remove_dir_all(&fresh);
        return Err(error);
    }
    settle(&fresh, &place, proof)?;
    Ok(place)
}

/// Moves `fresh` to `place`, unless another run was quicker.
fn settle(fresh: &Path, place: &Path, proof: &str) -> Result<()> {
    if place.exists() && !place.join(proof).exists() {
        std::fs::remove_dir_all(place)
            .with_context(|| format!("Cannot remove the broken {}.", place.display()))?;
    }
    let moved = std::fs::rename(fresh, place);
    if place.join(proof).exists() {
        let _ = std::fs::remove_dir_all(fresh);
        return Ok(());
    }
    moved.with_context(|| format!("Cannot move {} to {}.", fresh.display(), place.display()))
}
