//! The wasm of the page: Trunk compiles and binds, the optimiser shrinks.

use crate::house;
use crate::run;
use crate::setup::{Node, PageTools};
use crate::stamp::Stamp;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};

/// Rooms that the page is not made of. All others count as its sources.
const NOT_THE_PAGE: [&str; 4] = ["compile", "js", "workshop", "xtask"];

/// What came of it.
pub(super) struct Page {
    pub(super) wasm: PathBuf,
    pub(super) glue: PathBuf,
    pub(super) stamp: Stamp,
}

/// The wasm as the compiler made it, with the names of its functions: for the check of what was linked.
pub(crate) fn named_wasm() -> PathBuf {
    folder().join("app.named.wasm")
}

fn folder() -> PathBuf {
    house::site().join("page")
}

/// Builds the wasm and its glue if any source has changed.
pub(super) fn step(steps: &mut Steps, tools: &PageTools) -> Result<Page> {
    let (wasm, glue) = (folder().join("app.wasm"), folder().join("app.js"));
    let rooms = rooms()?;
    let mut paths: Vec<&str> = rooms.iter().map(String::as_str).collect();
    paths.extend([
        "Cargo.toml",
        "Cargo.lock",
        "Trunk.toml",
        "rust-toolchain.toml",
        ".cargo",
        "crates/xtask/src/build/page.rs",
    ]);
    let compiler = run::printed(run::command("rustc").arg("--version"))?;
    let optimiser = tools.node.as_ref().map(|node| node.packages.display().to_string()).unwrap_or_default();
    let words =
        [String::from_utf8_lossy(&compiler).into_owned(), optimiser, tools.bindgen.display().to_string()];
    let stamp = Stamp::of("page", &paths, &words)?;
    let page = Page { wasm: wasm.clone(), glue: glue.clone(), stamp };
    if page.stamp.fresh(&[wasm.clone(), glue.clone(), named_wasm()]) {
        steps.unchanged("page");
        return Ok(page);
    }
    page.stamp.clear()?;
    let trunk = house::site().join("trunk");
    steps.step("page: compile and bind (trunk)", || {
        house::empty(&folder())?;
        bind(tools, &trunk)
    })?;
    copy(&trunk.join("app.js"), &glue)?;
    copy(&house::target().join("wasm32-unknown-unknown/release/app.wasm"), &named_wasm())?;
    match &tools.node {
        Some(node) => {
            steps.step("page: shrink (wasm-opt)", || shrink(node, &trunk.join("app_bg.wasm"), &wasm))?;
        }
        None => copy(&trunk.join("app_bg.wasm"), &wasm)?,
    }
    page.stamp.keep()?;
    Ok(page)
}

fn bind(tools: &PageTools, dist: &Path) -> Result<()> {
    let bindgen = tools.bindgen.parent().map(Path::to_path_buf).unwrap_or_default();
    let mut trunk = run::command(&tools.trunk);
    trunk.args(["build", "--offline", "true", "--skip-version-check", "--dist"]).arg(dist);
    // Trunk looks for its tools in PATH before it looks for a network.
    trunk.env("PATH", run::path_with(&[bindgen])?);
    trunk.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS", short_paths()?);
    trunk.env_remove("NO_COLOR"); // Trunk takes its value for a switch and stumbles over `1`.
    run::shown(&mut trunk).context("The page could not be built.")?;
    if dist.join("snippets").exists() {
        bail!(
            "A crate of the page brings JavaScript of its own (snippets), which the release has no place for."
        );
    }
    Ok(())
}

/// Flags that take the paths of this machine out of panic messages: they are nobody's business, and bytes.
fn short_paths() -> Result<String> {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| std::env::home_dir().map(|h| h.join(".cargo"))).unwrap_or_default();
    let mut flags = vec![format!("--remap-path-prefix={}=", house::at("").display())];
    let registries = home.join("registry/src");
    for registry in std::fs::read_dir(registries).into_iter().flatten() {
        flags.push(format!("--remap-path-prefix={}/=", registry?.path().display()));
    }
    Ok(flags.join(" "))
}

fn shrink(node: &Node, from: &Path, to: &Path) -> Result<()> {
    let optimiser = node.packages.join("node_modules/binaryen/bin/wasm-opt");
    let mut command = run::command(&node.program);
    // The features that the compiler wrote into the file are read from there.
    // Memory that is not imported begins as zeros.
    command.arg(optimiser).args(["-Oz", "--converge", "--zero-filled-memory", "--output"]).arg(to).arg(from);
    run::shown(&mut command).context("The wasm could not be shrunk.")
}

fn rooms() -> Result<Vec<String>> {
    let mut rooms = Vec::new();
    for entry in std::fs::read_dir(house::at("crates"))? {
        let name = entry?.file_name().to_string_lossy().into_owned();
        if !NOT_THE_PAGE.contains(&name.as_str()) {
            rooms.push(format!("crates/{name}"));
        }
    }
    rooms.sort();
    Ok(rooms)
}

fn copy(from: &Path, to: &Path) -> Result<()> {
    std::fs::copy(from, to)
        .map(|_| ())
        .with_context(|| format!("Cannot copy {} to {}.", from.display(), to.display()))
}
