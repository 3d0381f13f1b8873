//! Running other programs, with failures as sentences.

use crate::house;
use anyhow::{Context, Result, bail};
use std::ffi::OsStr;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

const WASM: &str = "wasm32-unknown-unknown";

/// A command that starts in the repository.
pub(crate) fn command(program: impl AsRef<OsStr>) -> Command {
    let mut command = Command::new(program);
    command.current_dir(house::root());
    command
}

/// Cargo as it was called, without the variables of the run that started xtask: they would make the inner cargo
/// believe in other fingerprints and compile everything again.
pub(crate) fn cargo() -> Command {
    let mut cargo = command(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    for (name, _) in std::env::vars_os() {
        let text = name.to_string_lossy();
        if text.starts_with("CARGO_PKG_") || text.starts_with("CARGO_MANIFEST_") || text == "CARGO_CRATE_NAME"
        {
            cargo.env_remove(&name);
        }
    }
    cargo
}

/// A program of this repository, built first. With the features of all rooms together, as the tests have them: else what
/// is taken from elsewhere would be compiled once more for each program.
pub(crate) fn own(program: &str) -> Result<Command> {
    let mut build = cargo();
    build.args(["build", "--quiet", "--workspace", "--features", "app/ssr", "--bin", program]);
    shown(&mut build)?;
    Ok(command(house::target().join("debug").join(format!("{program}{}", std::env::consts::EXE_SUFFIX))))
}

/// Cargo for a library as wasm beside that of the page, for the same reason.
pub(crate) fn wasm_library(package: &str) -> Result<()> {
    wasm(&["--package", package, "--lib"])
}

/// Cargo for an example of the page as wasm.
pub(crate) fn wasm_example(name: &str) -> Result<()> {
    wasm(&["--example", name])
}

fn wasm(what: &[&str]) -> Result<()> {
    shown(&mut wasm_build(what)?)
}

fn wasm_build(what: &[&str]) -> Result<Command> {
    let mut build = cargo();
    build.args(["build", "--release", "--target", WASM, "--package", "app"]).args(what);
    build.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS", short_paths()?);
    Ok(build)
}

/// Compiles all programs of the page while something else is done: the last step of each, which looks at all of its code at once,
/// has use for one processor only. Trunk finds them ready then. What is said of them comes at the end.
pub(crate) fn beside_wasm<T>(work: impl FnOnce() -> Result<T>) -> Result<T> {
    let mut build = wasm_build(&["--bins"])?;
    let name = text(&build);
    let programs = build
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .with_context(|| format!("Cannot start `{name}`."))?;
    let done = work();
    let output = programs.wait_with_output().with_context(|| format!("`{name}` got lost."))?;
    if !output.status.success() {
        print!("{}", String::from_utf8_lossy(&output.stderr));
        bail!("`{name}` failed: its own words stand above.");
    }
    done
}

/// Flags that take the paths of this machine out of panic messages: they are nobody's business, and bytes.
pub(crate) fn short_paths() -> Result<String> {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| std::env::home_dir().map(|h| h.join(".cargo"))).unwrap_or_default();
    let mut flags = vec![format!("--remap-path-prefix={}=", house::at("").display())];
    let registries = home.join("registry/src");
    for registry in std::fs::read_dir(registries).into_iter().flatten() {
        flags.push(format!("--remap-path-prefix={}/=", registry?.path().display()));
    }
    Ok(flags.join(" "))
}

/// Runs to the end with its output shown.
pub(crate) fn shown(command: &mut Command) -> Result<()> {
    let name = text(command);
    let status = command.status().with_context(|| format!("Cannot start `{name}`."))?;
    if !status.success() {
        bail!("`{name}` failed: its own words stand above.");
    }
    Ok(())
}

/// Runs to the end and returns what it printed; its complaints are shown as they come.
pub(crate) fn printed(command: &mut Command) -> Result<Vec<u8>> {
    let name = text(command);
    let output =
        command.stderr(Stdio::inherit()).output().with_context(|| format!("Cannot start `{name}`."))?;
    if !output.status.success() {
        print!("{}", String::from_utf8_lossy(&output.stdout));
        bail!("`{name}` failed: its own words stand above.");
    }
    Ok(output.stdout)
}

/// Runs to the end, shows what it prints as it comes, and returns that with whether it ended well.
pub(crate) fn heard(command: &mut Command) -> Result<(String, bool)> {
    let name = text(command);
    let mut child =
        command.stdout(Stdio::piped()).spawn().with_context(|| format!("Cannot start `{name}`."))?;
    let mut heard = String::new();
    if let Some(output) = child.stdout.take() {
        let mut reader = BufReader::new(output);
        let mut line = Vec::new();
        while reader.read_until(b'\n', &mut line)? > 0 {
            let text = String::from_utf8_lossy(&line);
            print!("{text}");
            heard.push_str(&text);
            line.clear();
        }
    }
    let status = child.wait().with_context(|| format!("`{name}` got lost."))?;
    Ok((heard, status.success()))
}

/// The first line that `program --version` prints, or none if it cannot be run.
pub(crate) fn version(program: &Path) -> Option<String> {
    let output = Command::new(program).arg("--version").stderr(Stdio::null()).output().ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    output.status.success().then(|| text.lines().next().unwrap_or_default().trim().to_owned())
}

/// The first file of this name in the search path.
pub(crate) fn which(name: &str) -> Option<PathBuf> {
    let paths = std::env::var_os("PATH")?;
    std::env::split_paths(&paths).map(|folder| folder.join(name)).find(|file| file.is_file())
}

/// The search path with `first` put before it.
pub(crate) fn path_with(first: &[PathBuf]) -> Result<std::ffi::OsString> {
    let rest = std::env::var_os("PATH").unwrap_or_default();
    let all = first.iter().cloned().chain(std::env::split_paths(&rest));
    std::env::join_paths(all).context("A folder in PATH has a name that cannot stand there.")
}

fn text(command: &Command) -> String {
    let mut text = command.get_program().to_string_lossy().into_owned();
    for argument in command.get_args() {
        text.push(' ');
        text.push_str(&argument.to_string_lossy());
    }
    text
}
