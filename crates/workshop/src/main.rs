//! The command line for writers of packs. Never in here: mathematics, the format of the files, trade knowledge.
//! Each verb is a file in `verbs/`; this file only finds the verb.

mod args;
mod card;
mod folder;
mod key;
mod markup;
mod verbs;

use std::process::ExitCode;

/// How a run ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum End {
    /// All is well.
    Well,
    /// The pack has faults.
    Faults,
    /// The command was not understood, or a file could not be read or written.
    Usage,
}

const HELP: &str = "\
workshop: the tool for people who write packs

  workshop new <folder>                  write a small pack to begin with
  workshop check <pack>                  look for faults in a folder of plain files
  workshop build <pack> --out <folder>   make the pack that the page reads
  workshop try <pack> --answers <file>   the finding for a file of answers
  workshop explain <pack> --answers <f>  why: each answer under two kinds, and where its figures stand
  workshop compare <old> <new>           what a new edition finds otherwise, over the same made-up pieces
  workshop simulate <pack>               how often the guide is right about pieces of its own tables
  workshop print key <pack>              the printed key, as a page
  workshop print <pack> --card <file>    the field card: one side of paper
  workshop print <pack> --sheet <file>   every drawing of the pack on one page
  workshop print <pack> --pieces <file>  pieces drawn from the tables, from three sides
  workshop gather <pack> --from <folder> what members found, merged: tables made sharper by counting
  workshop export <pack> --out <folder>  sheets for a spreadsheet program
  workshop import <sheets> --out <folder> files made of such sheets
  workshop schema <pack> --out <folder>  JSON Schemas with the pack's own names, for an editor
  workshop codes <pack>                  the lines that codes.csv still lacks
  workshop marks <text>                  what worn lettering may say, and what it proves
  workshop words                         the words in which drawings are described

<pack> is a folder of files or of sheets, for example data/packs/irons. What its files hold is written in data/README.md.
workshop <verb> --help explains one verb.
";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let end = match words.split_first() {
        None => {
            print!("{HELP}");
            End::Usage
        }
        Some((verb, _)) if ["--help", "-h", "help"].contains(&verb.as_str()) => {
            print!("{HELP}");
            End::Well
        }
        Some((verb, rest)) => match verb.as_str() {
            "check" => verbs::check::run(rest),
            "build" => verbs::build::run(rest),
            "codes" => verbs::codes::run(rest),
            "compare" => verbs::compare::run(rest),
            "explain" => verbs::explain::run(rest),
            "export" => verbs::exchange::run_export(rest),
            "gather" => verbs::gather::run(rest),
            "import" => verbs::exchange::run_import(rest),
            "new" => verbs::new::run(rest),
            "schema" => verbs::schema::run(rest),
            "marks" => verbs::marks::run(rest),
            "print" => verbs::print::run(rest),
            "simulate" => verbs::simulate::run_verb(rest),
            "try" => verbs::try_out::run(rest),
            "words" => verbs::words::run(rest),
            other => args::refuse(&format!("There is no verb \"{other}\"."), HELP),
        },
    };
    ExitCode::from(match end {
        End::Well => 0,
        End::Faults => 1,
        End::Usage => 2,
    })
}
