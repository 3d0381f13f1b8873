//! `same DATA OUT`: writes the engine's posteriors for the comparison with naive Bayes.

use std::path::Path;

fn main() -> anyhow::Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    anyhow::ensure!(arguments.len() == 2, "same DATA OUT.");
    proof::same::write(Path::new(&arguments[0]), Path::new(&arguments[1]))
}
