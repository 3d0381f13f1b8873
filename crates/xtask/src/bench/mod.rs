//! `cargo xtask bench`: how fast the mathematics is, natively and optimised; `bench engine`: how right and how good; `bench
//! fuzz`: what upsets the readers; `bench phone`: how it does on a slow phone; `bench soak`: whether it stands long use; `bench linked-art`: whether what the cabinet writes is what the standard says.

mod engine;
mod fuzz;
mod linked_art;
mod mutants;
mod phone;
mod soak;

use crate::run;
use crate::steps::Steps;
use anyhow::{Result, bail};

/// Runs the benches of the rooms that have any, or holds the engine against others.
pub(crate) fn verb(arguments: &[String], steps: &mut Steps) -> Result<()> {
    match arguments {
        [] => steps.step("bench reason", || run::shown(run::cargo().args(["bench", "--package", "reason"]))),
        [only] if only == "engine" => engine::page(steps),
        [only] if only == "phone" => phone::page(steps),
        [only] if only == "soak" => soak::run("30", steps),
        [one, minutes] if one == "soak" => soak::run(minutes, steps),
        [only] if only == "fuzz" => fuzz::run("100", steps),
        [one, per_cent] if one == "fuzz" => fuzz::run(per_cent, steps),
        [one, folder] if one == "linked-art" => linked_art::run(folder, steps),
        _ => bail!(
            "bench takes `engine`, `phone`, `soak` with minutes, `fuzz` with per cents of its runs, `linked-art` with the folder of its schema, or nothing."
        ),
    }
}
