//! `workshop new`: a small pack to begin with.

use crate::args::{Args, refuse};
use crate::{End, folder};
use serde_json::json;
use survey::starter;
use workshop::schema::{Names, schemas};

const HELP: &str = "\
workshop new <folder> [--id <id>] [--name <name>] [--sheets] [--json]

Writes a small pack of invented spoons into <folder>: every file a pack must have, with a remark on what each line
is for, two described pieces, and the schemas by which an editor completes them. It is sound as it stands; change it into yours line by line.

  --id      the id of the pack: lower-case letters and digits
  --name    its name
  --sheets  as sheets for a spreadsheet program instead of text files

It ends with 0, with 1 when id or name cannot stand, with 2 when something is there already or cannot be written.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &["--id", "--name"], &["--sheets", "--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let sheets = args.has("--sheets");
    let made = starter(args.value("--id"), args.value("--name"), sheets).and_then(|all| {
        let own = all.iter().filter(|(p, _)| !p.ends_with(".txt")).cloned().collect();
        let compiled = compile::compile(&compile::sheets::import(&compile::Files::new(own))?.files)?;
        Ok((all, Names::of(&compiled.core)))
    });
    let (mut all, names) = match made {
        Ok(made) => made,
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            return End::Faults;
        }
    };
    if !sheets {
        all.extend(schemas(&names).into_iter().map(|(n, v)| (format!("schema/{n}"), format!("{v:#}\n"))));
    }
    if let Err(says) = folder::write(&args.pack, &all) {
        return refuse(&says, HELP);
    }
    let written: Vec<&str> = all.iter().map(|(n, _)| n.as_str()).collect();
    if args.has("--json") {
        println!("{:#}", json!({ "written": written }));
    } else {
        written.iter().for_each(|n| println!("{n}"));
    }
    End::Well
}
