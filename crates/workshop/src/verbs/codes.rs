//! `workshop codes`: what `codes.csv` still lacks.

use crate::args::Args;
use crate::{End, folder};

const HELP: &str = "\
workshop codes <pack> [--json]

Prints the lines that codes.csv lacks, each with the next free number, so that they can be put at its end:
  workshop codes data/packs/irons >> data/packs/irons/codes.csv
Look at the ids first: a number once given is never changed and never used again.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &[], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    match folder::read(&args.pack) {
        Ok(pack) => {
            let lines = compile::missing_codes(&pack.files);
            if args.has("--json") {
                println!("{:#}", serde_json::json!({ "lines": lines }));
            } else {
                lines.iter().for_each(|line| println!("{line}"));
            }
            End::Well
        }
        Err(says) => {
            eprintln!("{says}");
            End::Usage
        }
    }
}
