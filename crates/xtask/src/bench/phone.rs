//! The finished page on a slow phone and a bad line, beside a bare page of the same framework: one page of figures,
//! `target/phone/index.html`.

use crate::build;
use crate::house;
use crate::run;
use crate::setup;
use crate::steps::Steps;
use crate::test::browser;
use anyhow::{Context, Result};
use std::fs;
use std::path::Path;

/// What the bare page is made of, beside what is compiled.
const PARTS: [&str; 2] = ["index.html", "start.js"];

/// Builds both, measures, writes the page.
pub(super) fn page(steps: &mut Steps) -> Result<()> {
    build::site(steps)?;
    let (node, chromium) = setup::browser(steps)?;
    let out = house::target().join("phone");
    let bare = out.join("bare");
    house::empty(&bare).context("Cannot make the folder of the bare page.")?;
    let tools = setup::page(steps)?;
    steps.step("a bare page", || {
        run::wasm_example("bare")?;
        let wasm = house::target().join("wasm32-unknown-unknown/release/examples/bare.wasm");
        let mut bind = run::command(&tools.bindgen);
        run::shown(bind.args(["--target", "web", "--no-typescript", "--out-dir"]).arg(&bare).arg(wasm))?;
        let small = out.join("bare.wasm");
        build::shrink(&node, &bare.join("bare_bg.wasm"), &small)?;
        fs::rename(&small, bare.join("bare_bg.wasm"))
            .context("Cannot put the smaller program in its place.")?;
        for part in PARTS {
            fs::copy(house::at("tests/phone/bare").join(part), bare.join(part))
                .with_context(|| format!("Cannot copy {part}."))?;
        }
        let names = [&PARTS[..], &["bare.js", "bare_bg.wasm"]].concat();
        build::squeeze(&bare, &names.into_iter().map(String::from).collect::<Vec<_>>())
    })?;
    let lighthouse = setup::lighthouse(steps)?;
    let mut script = browser::script(&node, &chromium)?;
    script.arg("tests/phone/run.mjs").arg(&bare).arg(&out).arg(&lighthouse);
    steps.step("measure", || run::shown(&mut script))?;
    println!("\n{}", shown(&out));
    Ok(())
}

fn shown(out: &Path) -> String {
    out.join("index.html").display().to_string()
}
