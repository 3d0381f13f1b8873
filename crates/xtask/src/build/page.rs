//! The wasm of each page: Trunk compiles and binds, the optimiser shrinks.

use crate::house;
use crate::run;
use crate::setup::{Node, PageTools};
use crate::stamp::Stamp;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};

/// Rooms that no page is made of. All others count as sources of the pages.
const NOT_THE_PAGE: [&str; 4] = ["js", "proof", "workshop", "xtask"];
/// Rooms that of all programs only the pack desk is made of.
const DESK: [&str; 3] = ["crates/compile", "crates/desk", "crates/survey"];

/// The programs: the binary, and the template in `www` that names it. `app.html`, `darkroom.html` and `desk.html` are no
/// pages of the site: the pages load those programs themselves, once their own can be used, when a photograph is there, when
/// a pack is made or opened.
pub(crate) const PROGRAMS: [(&str, &str); 7] = [
    ("app", "app.html"),
    ("darkroom", "darkroom.html"),
    ("desk", "desk.html"),
    ("opening", "index.html"),
    ("guide", "book.html"),
    ("cabinet", "cabinet.html"),
    ("practice", "practice.html"),
];

/// What the program for photographs is made of; the others are made of all rooms of the page.
const DARKROOM: [&str; 3] = ["crates/darkroom", "crates/picture", "crates/units"];

/// What came of one.
pub(super) struct Page {
    /// Of the binary.
    pub(super) name: &'static str,
    /// The template.
    pub(super) html: &'static str,
    pub(super) wasm: PathBuf,
    pub(super) glue: PathBuf,
    pub(super) stamp: Stamp,
}

/// The wasm of a page as the compiler made it, with the names of its functions: for the check of what was linked.
pub(crate) fn named_wasm(name: &str) -> PathBuf {
    folder(name).join("named.wasm")
}

fn folder(name: &str) -> PathBuf {
    house::site().join("page").join(name)
}

/// Builds the wasm of every page and its glue if any source has changed.
pub(super) fn all(steps: &mut Steps, tools: &PageTools) -> Result<Vec<Page>> {
    PROGRAMS.into_iter().map(|(name, html)| one(steps, tools, name, html)).collect()
}

fn one(steps: &mut Steps, tools: &PageTools, name: &'static str, html: &'static str) -> Result<Page> {
    let (wasm, glue) = (folder(name).join("page.wasm"), folder(name).join("page.js"));
    let rooms = rooms()?;
    let mut paths: Vec<&str> = rooms.iter().map(String::as_str).collect();
    paths.retain(|path| {
        let own = if name == "darkroom" { DARKROOM.contains(path) } else { *path != DARKROOM[0] };
        own && (name == "desk" || !DESK.contains(path))
    });
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
    let stamp = Stamp::of(&format!("page-{name}"), &paths, &words)?;
    let page = Page { name, html, wasm: wasm.clone(), glue: glue.clone(), stamp };
    if page.stamp.fresh(&[wasm.clone(), glue.clone(), named_wasm(name)]) {
        steps.unchanged(&format!("page {name}"));
        return Ok(page);
    }
    page.stamp.clear()?;
    let trunk = house::site().join("trunk").join(name);
    steps.step(&format!("page {name}: compile and bind (trunk)"), || {
        house::empty(&folder(name))?;
        bind(tools, html, &trunk)
    })?;
    copy(&trunk.join(format!("{name}.js")), &glue)?;
    let release = house::target().join("wasm32-unknown-unknown/release");
    copy(&release.join(format!("{name}.wasm")), &named_wasm(name))?;
    let bound = trunk.join(format!("{name}_bg.wasm"));
    match &tools.node {
        Some(node) => {
            steps.step(&format!("page {name}: shrink (wasm-opt)"), || shrink(node, &bound, &wasm))?;
        }
        None => copy(&bound, &wasm)?,
    }
    page.stamp.keep()?;
    Ok(page)
}

fn bind(tools: &PageTools, html: &str, dist: &Path) -> Result<()> {
    let bindgen = tools.bindgen.parent().map(Path::to_path_buf).unwrap_or_default();
    let mut trunk = run::command(&tools.trunk);
    trunk.args(["build", "--offline", "true", "--skip-version-check"]).arg(house::at("www").join(html));
    trunk.arg("--dist").arg(dist);
    // Trunk looks for its tools in PATH before it looks for a network.
    trunk.env("PATH", run::path_with(&[bindgen])?);
    trunk.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS", run::short_paths()?);
    trunk.env_remove("NO_COLOR"); // Trunk takes its value for a switch and stumbles over `1`.
    run::shown(&mut trunk).with_context(|| format!("The page {html} could not be built."))?;
    if dist.join("snippets").exists() {
        bail!(
            "A crate of the page brings JavaScript of its own (snippets), which the release has no place for."
        );
    }
    Ok(())
}

/// Makes a wasm file smaller, by wasm-opt.
pub(crate) fn shrink(node: &Node, from: &Path, to: &Path) -> Result<()> {
    let optimiser = node.packages.join("node_modules/binaryen/bin/wasm-opt");
    let mut command = run::command(&node.program);
    // The features that the compiler wrote into the file are read from there.
    // Memory that is not imported begins as zeros.
    // The lowest kilobyte is the far end of a stack of a megabyte (rustc links it first): nothing lies there.
    command
        .arg(optimiser)
        .args(["-Oz", "--zero-filled-memory", "--low-memory-unused", "--output"])
        .arg(to)
        .arg(from);
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
