//! The npm-ready folder of the engine: `target/npm`. It is no part of the page's build.

use crate::build::shrink;
use crate::house;
use crate::run;
use crate::setup::{self, Node};
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::fs;
use std::path::{Path, PathBuf};

/// What goes along as it stands.
const ALONG: [&str; 5] = ["README.md", "example.html", "example.css", "example.js", "node.mjs"];
/// The invented pack of the example.
const DEMO: &str = "tests/fixtures/buttons";
const LICENCES: [&str; 2] = ["LICENSE-APACHE", "LICENSE-MIT"];
/// The most that the program may take, in bytes as they are. Basis: practice; it has 623 000.
const LARGEST: u64 = 700_000;

/// Builds the folder and says where it is.
pub(crate) fn verb(words: &[String], steps: &mut Steps) -> Result<()> {
    if let [word, ..] = words {
        bail!("\"{word}\" cannot stand here: cargo xtask package");
    }
    check(steps)?;
    println!("\nThe package: {}", folder().display());
    Ok(())
}

/// Where it lies.
pub(crate) fn folder() -> PathBuf {
    house::target().join("npm")
}

/// Builds the folder, runs its example in Node, and has its types checked against real values.
pub(crate) fn check(steps: &mut Steps) -> Result<()> {
    let tools = setup::page(steps)?;
    let node = tools.node.context("Node is missing, in which the package is tried.")?;
    let typescript = setup::typescript(steps)?;
    let npm = folder();
    steps.step("package: build", || build(&tools.bindgen, &node, &npm))?;
    steps.step("package: the example in Node", || {
        let said = run::printed(run::command(&node.program).arg(npm.join("node.mjs")))?;
        let said = String::from_utf8_lossy(&said).into_owned();
        if said.contains("Everything in this pack is invented.") {
            return Ok(());
        }
        bail!("The example printed no finding:\n{said}")
    })?;
    steps.step("package: values against types", || {
        let tried = house::target().join("npm-check");
        house::empty(&tried)?;
        let mut script = run::command(&node.program);
        run::shown(script.arg(house::at("tests/package/check.mjs")).args([&npm, &tried]))?;
        fs::write(tried.join("tsconfig.json"), tsconfig(&npm, &typescript))?;
        let mut tsc = run::command(&node.program);
        run::shown(tsc.arg(typescript.join("node_modules/typescript/bin/tsc")).arg("-p").arg(&tried))
            .context("The published types do not fit.")
    })
}

fn build(bindgen: &Path, node: &Node, npm: &Path) -> Result<()> {
    run::wasm_library("js")?;
    house::empty(npm)?;
    let wasm = house::target().join("wasm32-unknown-unknown/release/js.wasm");
    let mut bind = run::command(bindgen);
    run::shown(bind.args(["--target", "web", "--out-name", "pressmark", "--out-dir"]).arg(npm).arg(wasm))?;
    let bound = npm.join("pressmark_bg.wasm");
    let small = house::target().join("npm.wasm");
    shrink(node, &bound, &small)?;
    fs::rename(&small, &bound).context("Cannot put the smaller program in its place.")?;
    let size = fs::metadata(&bound)?.len();
    println!("  the program has {size} bytes");
    if size > LARGEST {
        bail!("The program has {size} bytes; at most {LARGEST} may be.");
    }
    for name in ALONG {
        fs::copy(house::at("crates/js/package").join(name), npm.join(name))
            .with_context(|| format!("Cannot copy {name}."))?;
    }
    for name in LICENCES {
        fs::copy(house::at(name), npm.join(name)).with_context(|| format!("Cannot copy {name}."))?;
    }
    demo(npm)?;
    let mut files: Vec<&str> = ALONG.into_iter().chain(LICENCES).collect();
    files.extend([
        "pressmark.js",
        "pressmark.d.ts",
        "pressmark_bg.wasm",
        "pressmark_bg.wasm.d.ts",
        "demo-core.pack",
        "demo-book.pack",
    ]);
    let described = serde_json::json!({
        "name": "pressmark",
        "version": env!("CARGO_PKG_VERSION"),
        "description": "Asks about an unknown piece, weighs the answers and says what it probably is: the engine, with types.",
        "license": env!("CARGO_PKG_LICENSE"),
        "type": "module",
        "main": "pressmark.js",
        "types": "pressmark.d.ts",
        "exports": { ".": { "types": "./pressmark.d.ts", "default": "./pressmark.js" }, "./pressmark_bg.wasm": "./pressmark_bg.wasm" },
        "sideEffects": false,
        "files": files,
    });
    fs::write(npm.join("package.json"), format!("{described:#}\n")).context("Cannot write package.json.")?;
    // wasm-bindgen leaves a file that keeps everything out of version control.
    let _ = fs::remove_file(npm.join(".gitignore"));
    Ok(())
}

/// The two halves of the invented pack, under names that stay.
fn demo(npm: &Path) -> Result<()> {
    let made = house::target().join("npm-demo");
    house::empty(&made)?;
    let mut workshop = run::own("workshop")?;
    workshop.args(["build", DEMO, "--out"]).arg(&made);
    run::shown(&mut workshop).context("The invented pack could not be compiled.")?;
    let list = fs::read_to_string(made.join("pack.txt")).context("Cannot read the list of the pack.")?;
    for (what, name) in list.lines().filter_map(|line| line.split_once(' ')) {
        fs::copy(made.join(name), npm.join(format!("demo-{what}.pack")))
            .context("Cannot copy a half of the pack.")?;
    }
    Ok(())
}

fn tsconfig(npm: &Path, typescript: &Path) -> String {
    let config = serde_json::json!({
        "compilerOptions": {
            "strict": true, "noEmit": true, "target": "ES2022", "module": "NodeNext", "moduleResolution": "NodeNext",
            "lib": ["ES2022", "DOM", "DOM.Iterable"], "allowJs": true, "checkJs": true, "skipDefaultLibCheck": true,
            "types": ["node"], "typeRoots": [typescript.join("node_modules/@types")],
            "noUncheckedIndexedAccess": false, "exactOptionalPropertyTypes": true,
        },
        "files": ["values.ts", npm.join("example.js"), npm.join("node.mjs"), npm.join("pressmark.d.ts")],
    });
    format!("{config:#}\n")
}
