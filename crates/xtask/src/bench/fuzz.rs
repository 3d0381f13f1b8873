//! `cargo xtask bench fuzz [seconds]`: coverage-guided fuzzing of the readers, where cargo-fuzz is there. It needs unstable
//! flags of the compiler: a nightly toolchain, or the stable one told to take them.

use crate::house;
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result};

/// One for each file in `tests/fuzz/targets`.
const TARGETS: [&str; 3] = ["marks", "tables", "cabinet"];

/// Runs every target for so long; says so when they are left out.
pub(super) fn run(seconds: &str, steps: &mut Steps) -> Result<()> {
    let seconds: u32 = seconds.parse().context("bench fuzz takes a whole number of seconds.")?;
    let there = run::command("cargo").args(["fuzz", "--version"]).output().is_ok_and(|o| o.status.success());
    if !there {
        println!("Left out: cargo-fuzz is not there. `cargo install cargo-fuzz` brings it.");
        return Ok(());
    }
    for target in TARGETS {
        let mut fuzz = run::command("cargo");
        fuzz.current_dir(house::at("")).env("RUSTC_BOOTSTRAP", "1");
        fuzz.args(["fuzz", "run", "--fuzz-dir", "tests/fuzz", "--sanitizer", "none", target]);
        // What it finds and learns lies among what is built.
        let corpus = house::target().join("fuzz").join(target);
        std::fs::create_dir_all(&corpus)?;
        fuzz.arg(&corpus).arg("--");
        fuzz.arg(format!("-max_total_time={seconds}")).args([
            "-max_len=4096",
            "-timeout=5",
            "-print_final_stats=1",
        ]);
        let artifacts = house::target().join("fuzz").join(format!("{target}-found-"));
        fuzz.arg(format!("-artifact_prefix={}", artifacts.display()));
        fuzz.env("CARGO_TARGET_DIR", house::target().join("fuzz-build"));
        steps.step(&format!("fuzz {target}"), || run::shown(&mut fuzz))?;
    }
    Ok(())
}
