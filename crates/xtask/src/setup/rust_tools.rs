//! The wasm target, Trunk, wasm-bindgen and cargo-fuzz.

use super::cache;
use crate::house;
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};

const TARGET: &str = "wasm32-unknown-unknown";
/// The last Trunk that builds with the Rust version that the workspace asks for.
const TRUNK: &str = "0.21.14";

/// What fuzzes by coverage.
const CARGO_FUZZ: &str = "0.13.2";

/// Makes sure that the compiler can make wasm.
pub(crate) fn wasm_target(steps: &mut Steps) -> Result<()> {
    let sysroot = run::printed(run::command("rustc").args(["--print", "sysroot"]))?;
    let sysroot = PathBuf::from(String::from_utf8_lossy(&sysroot).trim());
    if sysroot.join("lib/rustlib").join(TARGET).join("lib").exists() {
        return Ok(());
    }
    if run::which("rustup").is_none() {
        bail!(
            "The compiler cannot make wasm: the target {TARGET} is missing, and there is no rustup to add it. \
             Install Rust with rustup, or the package of your system that holds the standard library for {TARGET}."
        );
    }
    steps.step("set-up: the wasm target", || {
        run::shown(run::command("rustup").args(["target", "add", TARGET]))
            .context("rustup could not add the wasm target. Is there a network?")
    })
}

/// Trunk, from PATH if it is the right one there.
pub(crate) fn trunk(steps: &mut Steps) -> Result<PathBuf> {
    find(steps, "trunk", TRUNK, true)
}

/// wasm-bindgen, of the version that the page is linked with: any other one refuses to work.
pub(crate) fn wasm_bindgen(steps: &mut Steps) -> Result<PathBuf> {
    let lock = std::fs::read_to_string(house::at("Cargo.lock")).context("Cannot read Cargo.lock.")?;
    let version = locked(&lock, "wasm-bindgen")
        .context("Cargo.lock names no wasm-bindgen: the crate `app` should depend on it through yew.")?;
    // Its own lock file asks for versions that not every mirror has: so not `--locked`.
    find(steps, "wasm-bindgen", &version, false)
}

/// cargo-fuzz.
pub(crate) fn cargo_fuzz(steps: &mut Steps) -> Result<PathBuf> {
    find(steps, "cargo-fuzz", CARGO_FUZZ, true)
}

fn find(steps: &mut Steps, name: &str, version: &str, locked: bool) -> Result<PathBuf> {
    let right =
        |program: &Path| run::version(program).is_some_and(|said| said == format!("{name} {version}"));
    if let Some(program) = run::which(name).filter(|program| right(program)) {
        return Ok(program);
    }
    let package = if name == "wasm-bindgen" { "wasm-bindgen-cli" } else { name };
    let folder = format!("{name}-{version}");
    let proof = format!("bin/{name}");
    let place = cache::installed(&folder, &proof, |fresh| {
        println!("  {name} {version} is compiled once and kept for all checkouts; this takes some minutes.");
        steps.step(&format!("set-up: {name} {version}"), || {
            let mut install = run::cargo();
            install.args(["install", package, "--version", version, "--debug", "--root"]).arg(fresh);
            // Its own folder: the project's may be locked by the build that is waiting for this very tool.
            install.arg("--target-dir").arg(fresh.join("target"));
            if locked {
                install.arg("--locked");
            }
            run::shown(&mut install).with_context(|| {
                format!(
                    "{name} {version} could not be installed. It needs the network and a C compiler once."
                )
            })?;
            std::fs::remove_dir_all(fresh.join("target"))
                .context("Cannot remove what the compiler left over.")
        })
    })?;
    Ok(place.join(proof))
}

/// The version of `package` in the text of a Cargo.lock.
fn locked(lock: &str, package: &str) -> Option<String> {
    let heading = format!("name = \"{package}\"");
    let mut lines = lock.lines().skip_while(|line| *line != heading);
    lines.next()?;
    let version = lines.next()?.strip_prefix("version = \"")?.strip_suffix('"')?;
    Some(version.to_owned())
}

#[cfg(test)]
mod tests {
    use super::locked;

    #[test]
    fn the_version_is_read_from_the_lock_file() {
        // Invented lock file: the name that begins alike stands first, as cargo sorts them.
        let lock = "[[package]]\nname = \"wasm-bindgen-shared\"\nversion = \"9.9.9\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.130\"\n";
        assert_eq!(locked(lock, "wasm-bindgen").as_deref(), Some("0.2.130"));
        assert_eq!(locked(lock, "yew"), None);
    }
}
