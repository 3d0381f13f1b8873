//! The engine beside independent libraries on open data: one page, `target/engine/index.html`.

use super::mutants;
use crate::house;
use crate::run;
use crate::setup::{self, Python};
use crate::steps::Steps;
use anyhow::{Context, Result};
use std::path::Path;
use std::process::Command;

/// Fetches the data, asks the peers, measures, writes the page.
pub(super) fn page(steps: &mut Steps) -> Result<()> {
    let out = house::at("target/engine");
    let [data, rows, peers] = ["data", "rows", "peers"].map(|part| out.join(part));
    for folder in [&data, &rows, &peers, &out.join("same"), &out.join("speed")] {
        house::empty(folder).with_context(|| format!("Cannot make {}.", folder.display()))?;
    }
    let python = setup::python(steps)?;
    match &python {
        None => println!("  The peers and all open data are left out: {}", setup::NO_PYTHON),
        Some(python) => steps.step("open data", || {
            let carried = setup::open_data(python)?;
            let mut script = script(python, "data.py");
            run::shown(script.arg(&data).arg(carried.wheels).arg(carried.debs).arg(carried.crates))
        })?,
    }
    steps.step("compile the engine for this processor", || run::shown(proof("build").args(["--bins"])))?;
    steps.step("what is told", || run::shown(&mut tool("engine", &["rows"], &[&data, &rows])))?;
    steps.step("speed", || run::shown(&mut tool("speed", &[], &[&out.join("speed")])))?;
    steps.step("posteriors", || run::shown(&mut tool("same", &[], &[&data, &out.join("same")])))?;
    if let Some(python) = &python {
        steps.step("peers: speed", || {
            run::shown(as_it_is(&mut script(python, "speed.py")).arg(out.join("speed")))
        })?;
        steps.step("peers: posteriors", || {
            run::shown(script(python, "same.py").arg(&data).arg(out.join("same")))
        })?;
        steps.step("peers: trees and naive Bayes", || {
            run::shown(script(python, "peers.py").arg(&data).arg(&rows).arg(&peers))
        })?;
    }
    steps.step("mutants", || mutants::check(&out.join("mutations.csv")))?;
    steps.step("measure", || run::shown(&mut tool("engine", &["page"], &[&data, &peers, &out])))?;
    println!("\n{}", out.join("index.html").display());
    Ok(())
}

/// Cargo for the crate `proof`: as fast as this processor can. The bits stay the same: the compiler fuses nothing.
fn proof(verb: &str) -> Command {
    let mut cargo = run::cargo();
    cargo.args([verb, "--package", "proof", "--profile", "fast", "--target-dir"]).arg(house::at(BUILT));
    cargo.env("RUSTFLAGS", "-Ctarget-cpu=native");
    cargo
}

/// A folder of its own, since the flags above would compile everything else again.
const BUILT: &str = "target/engine-build";

/// One of the programs of `proof`.
fn tool(name: &str, words: &[&str], paths: &[&Path]) -> Command {
    let mut tool = run::command(house::at(BUILT).join("fast").join(name));
    tool.args(words).args(paths);
    tool
}

fn script(python: &Python, name: &str) -> Command {
    let mut script = run::command(&python.program);
    script.arg(house::at("crates/proof/peers").join(name));
    script
}

/// Without what a machine may set to hold its matrix library back: the peer is to be as fast as it can.
fn as_it_is(command: &mut Command) -> &mut Command {
    command.env_remove("OPENBLAS_CORETYPE").env_remove("OPENBLAS_L2_SIZE")
}
