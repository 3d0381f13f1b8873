//! `workshop build`: the files of a pack as the page reads them, named by what they hold.

use crate::args::{Args, refuse};
use crate::{End, folder};
use compile::Compiled;
use std::fs;
use std::path::Path;

const HELP: &str = "\
workshop build <pack> --out <folder>

Checks the folder <pack> and writes three files into <folder>, which is made if it is not there:
  core-<digest>.pack   what is needed before the first question
  book-<digest>.pack   the long texts
  pack.txt             the names of these two
The same files always make the same pack. With a fault nothing is written.

It ends with 0 when the pack is written and with 1 when there are faults.
";

/// How much of the digest stands in the name of a file.
const IN_NAME: usize = 16;

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &["--out"], &[], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let Some(out) = args.value("--out") else {
        return refuse("Where to write is missing: --out <folder>.", HELP);
    };
    let files = match folder::read(&args.pack) {
        Ok(files) => files,
        Err(says) => {
            eprintln!("{says}");
            return End::Usage;
        }
    };
    match compile::compile(&files) {
        Err(faults) => {
            for fault in faults {
                eprintln!("{fault}");
            }
            End::Faults
        }
        Ok(compiled) => match write(&compiled, Path::new(out)) {
            Ok(list) => {
                print!("{list}");
                End::Well
            }
            Err(says) => {
                eprintln!("{says}");
                End::Usage
            }
        },
    }
}

/// Writes the pack and hands back what `pack.txt` says.
fn write(c: &Compiled, out: &Path) -> Result<String, String> {
    let core = format!("core-{}.pack", &c.core_digest[..IN_NAME]);
    let book = format!("book-{}.pack", &c.book_digest[..IN_NAME]);
    let list = format!("core {core}\nbook {book}\n");
    fs::create_dir_all(out).map_err(|e| format!("{} could not be made: {e}.", out.display()))?;
    // The list comes last: who finds it finds both files.
    for (name, bytes) in [
        (core.as_str(), c.core_bytes.as_slice()),
        (book.as_str(), &c.book_bytes),
        ("pack.txt", list.as_bytes()),
    ] {
        let path = out.join(name);
        fs::write(&path, bytes).map_err(|e| format!("{} could not be written: {e}.", path.display()))?;
    }
    Ok(list)
}
