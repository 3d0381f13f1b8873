//! Packages of Debian: installed where that is allowed, or only unpacked into the cache.

use super::cache;
use crate::run;
use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};

/// Whether packages can be installed here by `apt-get`.
pub(super) fn may_install() -> bool {
    Path::new("/etc/debian_version").exists() && is_root()
}

/// Installs packages.
pub(super) fn install(packages: &[&str]) -> Result<()> {
    let apt = |arguments: &[&str]| {
        run::shown(run::command("apt-get").args(arguments).env("DEBIAN_FRONTEND", "noninteractive"))
    };
    apt(&["update", "--quiet"])?;
    apt(&[&["install", "--quiet", "--yes", "--no-install-recommends"], packages].concat())
        .with_context(|| format!("{} could not be installed. Is there a network?", packages.join(", ")))
}

/// Fetches a package and unpacks it into the cache: no service is started, and no right is needed. `proof` is a path inside it.
pub(super) fn unpacked(package: &str, proof: &str) -> Result<PathBuf> {
    cache::installed(&format!("{package}-debian"), proof, |fresh| {
        let fetch = || {
            let mut apt = run::command("apt-get");
            run::shown(apt.args(["download", "--quiet", package]).current_dir(fresh))
        };
        if let Err(first) = fetch() {
            // The lists of a fresh machine are empty, or older than what is offered now.
            if !is_root() {
                return Err(first);
            }
            run::shown(run::command("apt-get").args(["update", "--quiet"]))?;
            fetch()?;
        }
        let files = crate::house::files(fresh)?;
        let Some(file) = files.iter().find(|file| file.extension().is_some_and(|ending| ending == "deb"))
        else {
            bail!("apt-get fetched no package {package}.");
        };
        run::shown(run::command("dpkg").arg("-x").arg(file).arg(fresh))
    })
}

fn is_root() -> bool {
    run::printed(run::command("id").arg("-u")).is_ok_and(|said| said.trim_ascii() == b"0")
}
