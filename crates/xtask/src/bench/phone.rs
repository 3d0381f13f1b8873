//! How the finished page does on a slow phone, on a bad line, beside a bare page of the same framework, in three makes of browser,
//! under long use and under whatever its readers are handed: one page of figures, `target/phone/index.html`.

use super::{fuzz, soak};
use crate::build;
use crate::house;
use crate::run;
use crate::setup;
use crate::steps::Steps;
use crate::test::browser;
use anyhow::{Context, Result};
use std::fs;
use std::path::Path;

/// Pages that stand beside the finished one: what each is made of, beside what is compiled.
const BESIDE: [&str; 2] = ["bare", "kinds"];
const PARTS: [&str; 2] = ["index.html", "start.js"];

/// Builds all, measures, writes the page.
pub(super) fn page(steps: &mut Steps) -> Result<()> {
    build::site(steps)?;
    let (node, chromium) = setup::browser(steps)?;
    let out = house::target().join("phone");
    // No figure of an earlier run may stand on the page.
    house::empty(&out).context("Cannot make the folder of the figures.")?;
    let tools = setup::page(steps)?;
    for name in BESIDE {
        steps.step(&format!("a page beside it: {name}"), || beside(name, &out.join(name), &tools, &node))?;
    }
    let lighthouse = setup::lighthouse(steps)?;
    let mut script = browser::script(&node, &chromium)?;
    script.arg("tests/phone/run.mjs").arg(&out).arg(&lighthouse);
    steps.step("measure", || run::shown(&mut script))?;
    let mut engines = browser::script_for("engines.test.mjs", steps)?;
    engines.arg("tests/phone/engines.mjs").arg(&out);
    steps.step("engines", || run::shown(&mut engines))?;
    let mut page = run::command(&node.program);
    page.arg("tests/phone/page.mjs").arg(&out);
    // What they find wrong stands on the page as well.
    let ends = [fuzz::run("100", steps), soak::run("30", steps), run::shown(&mut page)];
    println!("\n{}", out.join("index.html").display());
    ends.into_iter().collect()
}

/// Compiles a page beside the finished one, bound and shrunk as that one is.
fn beside(name: &str, into: &Path, tools: &setup::PageTools, node: &setup::Node) -> Result<()> {
    house::empty(into).with_context(|| format!("Cannot make the folder of the page {name}."))?;
    run::wasm_example(name)?;
    let wasm = house::target().join(format!("wasm32-unknown-unknown/release/examples/{name}.wasm"));
    let mut bind = run::command(&tools.bindgen);
    run::shown(bind.args(["--target", "web", "--no-typescript", "--out-dir"]).arg(into).arg(wasm))?;
    let (bound, small) = (into.join(format!("{name}_bg.wasm")), into.join("small.wasm"));
    build::shrink(node, &bound, &small)?;
    fs::rename(&small, &bound).context("Cannot put the smaller program in its place.")?;
    for part in PARTS {
        fs::copy(house::at("tests/phone").join(name).join(part), into.join(part))
            .with_context(|| format!("Cannot copy {part}."))?;
    }
    let names = [PARTS[0].to_string(), PARTS[1].to_string(), format!("{name}.js"), format!("{name}_bg.wasm")];
    build::squeeze(into, &names)
}
