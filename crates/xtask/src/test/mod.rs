//! `cargo xtask test`: everything that a commit must pass, cheapest first, stopping at the first lane that fails.

pub(crate) mod browser;
mod deep;
mod lanes;
mod listed;
mod needs;
mod same_bits;
mod tally;

use crate::steps::Steps;
use anyhow::{Result, bail};
use tally::Tally;

/// Whether the tests of the rooms run in full, and what they found is written down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Depth {
    /// Counts that fit between two commits.
    Usual,
    /// Full counts: some minutes more.
    Deep,
}

/// Runs the lanes. The last line says how many checks passed: each test is one, and so is each other lane.
pub(crate) fn verb(arguments: &[String], steps: &mut Steps) -> Result<()> {
    let depth = match arguments {
        [] => Depth::Usual,
        [only] if only == "--deep" => Depth::Deep,
        _ => bail!("test takes --deep or nothing."),
    };
    let mut tally = Tally::default();
    let outcome = lanes::all(depth, steps, &mut tally);
    steps.slowest();
    steps.forget();
    if let Err(error) = &outcome {
        println!("\n{error:#}");
    }
    println!("\n{tally}");
    match outcome {
        Ok(()) => Ok(()),
        // What failed has been said; the counts must be the last line.
        Err(_) => std::process::exit(1),
    }
}
