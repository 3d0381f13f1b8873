//! Python with pinned packages, and the packages that carry open data: for `bench engine` only.

use super::cache;
use crate::digest;
use crate::house;
use crate::run;
use anyhow::{Context, Result};
use std::path::{Path, PathBuf};

/// Said when there is no Python.
pub(crate) const NO_PYTHON: &str =
    "there is no python3 of version 3.11 or newer in PATH that can make environments.";

const WHEEL: &str = "orange3==3.40.0";
const DEB: &str = "r-cran-mlbench";
const CRATE: (&str, &str) = ("xgboost-sys", "0.1.2");

/// Python in an environment of its own.
pub(crate) struct Python {
    /// The program.
    pub(crate) program: PathBuf,
}

/// Folders of packages that carry data; an empty one where a package could not be had.
pub(crate) struct OpenData {
    pub(crate) wheels: PathBuf,
    pub(crate) debs: PathBuf,
    pub(crate) crates: PathBuf,
}

/// The environment, made once for a list of packages.
pub(crate) fn find() -> Result<Option<Python>> {
    let Some(python) = run::which("python3") else {
        return Ok(None);
    };
    let recent = run::version(&python).is_some_and(|said| minor(&said).is_some_and(|minor| minor >= 11));
    let can =
        run::command(&python).args(["-c", "import venv, ensurepip"]).status().is_ok_and(|s| s.success());
    if !recent || !can {
        return Ok(None);
    }
    let list = house::at("crates/proof/peers/requirements.txt");
    let text = std::fs::read(&list).with_context(|| format!("Cannot read {}.", list.display()))?;
    let place = cache::installed(&format!("python-{}", digest::short(&text)), "complete", |fresh| {
        run::shown(run::command(&python).args(["-m", "venv"]).arg(fresh))?;
        let mut install = run::command(fresh.join("bin/python"));
        install.args(["-m", "pip", "install", "--quiet", "--requirement"]).arg(&list);
        run::shown(&mut install).context("pip could not install the packages. Is there a network?")?;
        Ok(std::fs::write(fresh.join("complete"), &text)?)
    })?;
    Ok(Some(Python { program: place.join("bin/python") }))
}

/// What carries the data, fetched once. What cannot be had is said and left out.
pub(crate) fn open_data(python: &Python) -> Result<OpenData> {
    let or_empty = |name: &str, fetch: &dyn Fn(&Path) -> Result<()>| -> Result<PathBuf> {
        let fetched = cache::installed(name, "complete", |fresh| {
            fetch(fresh)?;
            Ok(std::fs::write(fresh.join("complete"), name)?)
        });
        fetched.or_else(|error| {
            println!("  {name} is left out: {error:#}");
            let nothing = house::at("target/engine/nothing");
            house::empty(&nothing)?;
            Ok(nothing)
        })
    };
    let wheel = |fresh: &Path| {
        let mut pip = run::command(&python.program);
        pip.args([
            "-m",
            "pip",
            "download",
            "--quiet",
            "--no-deps",
            "--only-binary",
            ":all:",
            WHEEL,
            "--dest",
        ]);
        run::shown(pip.arg(fresh))
    };
    let vendored = |fresh: &Path| {
        let (name, version) = CRATE;
        let manifest = format!(
            "[package]\nname = \"open-data\"\nversion = \"0.0.0\"\nedition = \"2021\"\n[lib]\npath = \"lib.rs\"\n\
             [dependencies]\n{name} = \"={version}\"\n[workspace]\n"
        );
        std::fs::write(fresh.join("Cargo.toml"), manifest)?;
        std::fs::write(fresh.join("lib.rs"), "")?;
        run::shown(
            run::cargo()
                .args(["vendor", "--quiet", "vendor"])
                .current_dir(fresh)
                .stdout(std::process::Stdio::null()),
        )
    };
    Ok(OpenData {
        wheels: or_empty("data-orange3-3.40.0", &wheel)?,
        debs: or_empty("data-r-cran-mlbench", &debian)?,
        crates: or_empty("data-xgboost-sys-0.1.2", &vendored)?,
    })
}

/// The Debian package, laid open. Its list of packages may be missing on a fresh machine.
fn debian(fresh: &Path) -> Result<()> {
    let download = || {
        let mut apt = run::command("apt-get");
        // Root would otherwise hand over to a user who cannot write here, and say so.
        apt.args(["-o", "APT::Sandbox::User=root", "download", "-qq", DEB]).current_dir(fresh);
        run::shown(&mut apt)
    };
    if let Err(error) = download() {
        run::shown(run::command("apt-get").args(["update", "-qq"])).map_err(|_| error)?;
        download()?;
    }
    for file in house::files(fresh)? {
        run::shown(run::command("dpkg-deb").arg("--extract").arg(file).arg(fresh.join("laid-open")))?;
    }
    Ok(())
}

/// The 11 of `Python 3.11.7`; none before version 3.
fn minor(version: &str) -> Option<u32> {
    version.strip_prefix("Python 3.")?.split('.').next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_minor_version_of_python_is_read() {
        assert_eq!(super::minor("Python 3.11.7"), Some(11));
        assert_eq!(super::minor("Python 2.7.18"), None);
    }
}
