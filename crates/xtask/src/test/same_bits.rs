//! Random consultations natively and in wasm: one hash over all posteriors, questions and findings must be the same.

use super::Depth;
use super::deep;
use crate::build;
use crate::house;
use crate::run;
use crate::setup;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::process::Command;

/// Consultations at each depth.
const SHALLOW: &str = "1000";
const DEEP: &str = "10000";
const SEED: &str = "20261124";

/// Compares the two.
pub(super) fn check(steps: &mut Steps, depth: Depth) -> Result<()> {
    let tools = setup::page(steps)?;
    let node = tools.node.context("Node is missing, in which the wasm is run.")?;
    let halves = build::halves(steps)?;
    let n = if depth == Depth::Deep { DEEP } else { SHALLOW };
    let bound = house::at("target/wasm-hash");
    run::wasm_library("tests")?;
    let wasm = house::target().join("wasm32-unknown-unknown/release/tests.wasm");
    let mut bind = run::command(&tools.bindgen);
    run::shown(bind.args(["--target", "nodejs", "--no-typescript", "--out-dir"]).arg(&bound).arg(wasm))?;
    let words = |command: &mut Command| -> Result<String> {
        let printed = run::printed(command.args(&halves).args([n, SEED]))?;
        Ok(String::from_utf8_lossy(&printed).trim().to_string())
    };
    let native = words(&mut run::own("walk")?)?;
    let mut script = run::command(&node.program);
    script.arg(house::at("tests/wasm-hash/run.mjs")).arg(bound.join("tests.js"));
    let wasm = words(&mut script)?;
    println!("consultations, answers, hash: native {native}; wasm {wasm}");
    if depth == Depth::Deep {
        deep::add(&format!("the same bits in wasm: native {native}; wasm {wasm}"))?;
    }
    if native != wasm {
        bail!("The hashes differ.");
    }
    Ok(())
}
