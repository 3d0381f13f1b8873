//! `workshop print key`: the printed key as a page without any program.

use crate::args::{Args, refuse};
use crate::key::Key;
use crate::{End, folder};
use consult::Guide;

const HELP: &str = "\
workshop print key <pack>

Prints the key of a pack as a page of HTML: numbered questions, each answer with the number to go on to, so that it
works on paper and in a browser without any program. Send it into a file:

  workshop print key data/packs/irons > key.html

A printed key cannot weigh a misread answer. It says how many steps it takes and how often it can be right at best.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let rest = match words.split_first() {
        Some((what, rest)) if what == "key" => rest,
        Some((what, _)) if what == "--help" || what == "-h" => words,
        _ => return refuse("Say what to print: key.", HELP),
    };
    let args = match Args::read(rest, &[], &[], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let files = match folder::read(&args.pack) {
        Ok(files) => files,
        Err(says) => return refuse(&says, HELP),
    };
    match page(&files) {
        Ok(html) => {
            print!("{html}");
            End::Well
        }
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            End::Faults
        }
    }
}

fn page(files: &compile::Files) -> Result<String, Vec<String>> {
    let compiled = compile::compile(files)
        .map_err(|faults| faults.iter().map(ToString::to_string).collect::<Vec<_>>())?;
    // The year bears on findings only.
    let guide = Guide::new(compiled.core, 2000).map_err(|says| vec![says])?;
    Ok(Key::of(&guide).html(&guide))
}
