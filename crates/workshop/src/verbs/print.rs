//! `workshop print`: the printed key, or the contact sheet of all drawings, as a page without any program.

use super::sheet;
use crate::args::{Args, refuse};
use crate::key::Key;
use crate::{End, folder};
use consult::Guide;
use std::fs;
use std::path::Path;

const HELP: &str = "\
workshop print key <pack>
workshop print <pack> --sheet <file>

Prints the key of a pack as a page of HTML: numbered questions, each answer with the number to go on to, so that it
works on paper and in a browser without any program. Send it into a file:

  workshop print key data/packs/irons > key.html

A printed key cannot weigh a misread answer. It says how many steps it takes and how often it can be right at best.

With --sheet all drawings are written into a file, again as a page of HTML: every choice under its question, every kind
from three sides, and every word of drawings; light and dark on the screen, light alone on paper.

  workshop print data/packs/irons --sheet sheet.html
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let (key, rest) = match words.split_first() {
        Some((what, rest)) if what == "key" => (true, rest),
        _ => (false, words),
    };
    let args = match Args::read(rest, &["--sheet"], &[], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let to = args.value("--sheet");
    if key == to.is_some() {
        return refuse("Say what to print: the key, or --sheet with a file.", HELP);
    }
    let files = match folder::read(&args.pack) {
        Ok(files) => files,
        Err(says) => return refuse(&says, HELP),
    };
    let done = match to {
        None => page(&files).map(|html| print!("{html}")),
        Some(to) => match drawings(&args.pack, &files) {
            Ok(html) => match fs::write(to, html) {
                Ok(()) => Ok(()),
                Err(e) => return refuse(&format!("{to} could not be written: {e}."), HELP),
            },
            Err(faults) => Err(faults),
        },
    };
    match done {
        Ok(()) => End::Well,
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            End::Faults
        }
    }
}

fn drawings(pack: &str, files: &compile::Files) -> Result<String, Vec<String>> {
    let art = Path::new(pack).join("../../art");
    let figures = folder::art(&art.to_string_lossy()).map_err(|says| vec![says])?;
    sheet::page(&compiled(files)?, &figures).map_err(|says| vec![says])
}

fn compiled(files: &compile::Files) -> Result<compile::Compiled, Vec<String>> {
    compile::compile(files).map_err(|faults| faults.iter().map(ToString::to_string).collect())
}

fn page(files: &compile::Files) -> Result<String, Vec<String>> {
    // The year bears on findings only.
    let guide = Guide::new(compiled(files)?.core, 2000).map_err(|says| vec![says])?;
    Ok(Key::of(&guide).html(&guide))
}
