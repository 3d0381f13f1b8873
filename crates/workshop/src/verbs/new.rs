//! `workshop new`: a small pack to begin with.

use crate::args::{Args, refuse};
use crate::{End, folder};
use serde_json::json;
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

/// The files, as they stand in the source.
const STARTER: [(&str, &str); 11] = [
    ("README.txt", include_str!("../../starter/README.txt")),
    ("answers.txt", include_str!("../../starter/answers.txt")),
    ("pack.toml", include_str!("../../starter/pack.toml")),
    ("makes.toml", include_str!("../../starter/makes.toml")),
    ("cautions.toml", include_str!("../../starter/cautions.toml")),
    ("sources.toml", include_str!("../../starter/sources.toml")),
    ("glossary.toml", include_str!("../../starter/glossary.toml")),
    ("questions/1-form.toml", include_str!("../../starter/questions/1-form.toml")),
    ("questions/2-make.toml", include_str!("../../starter/questions/2-make.toml")),
    ("kinds/1-spoons.toml", include_str!("../../starter/kinds/1-spoons.toml")),
    ("kinds/2-unknown.toml", include_str!("../../starter/kinds/2-unknown.toml")),
];

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &["--id", "--name"], &["--sheets", "--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let mut all: Vec<(String, String)> =
        STARTER.iter().map(|(p, t)| (p.to_string(), t.to_string())).collect();
    let quoted = |value: &str| value.replace('\\', "\\\\").replace('"', "\\\"");
    for (option, line) in [("--id", "id = \"mypack\""), ("--name", "name = \"My first pack\"")] {
        if let Some(value) = args.value(option) {
            let field = option.trim_start_matches('-');
            let own = format!("{field} = \"{}\"", quoted(value));
            all.iter_mut()
                .filter(|(p, _)| p == "pack.toml")
                .for_each(|(_, t)| *t = t.replacen(line, &own, 1));
        }
    }
    let files = |all: &[(String, String)]| {
        compile::Files::new(all.iter().filter(|(p, _)| !p.ends_with(".txt")).cloned().collect())
    };
    let codes = compile::missing_codes(&files(&all));
    all.push(("codes.csv".to_string(), codes.iter().map(|l| format!("{l}\n")).collect()));
    let names = match compile::compile(&files(&all)) {
        Ok(compiled) => Names::of(&compiled.core),
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            return End::Faults;
        }
    };
    if args.has("--sheets") {
        let texts: Vec<(String, String)> = all.iter().filter(|(p, _)| p.ends_with(".txt")).cloned().collect();
        match compile::sheets::export(&files(&all)) {
            Ok(sheets) => all = sheets.into_iter().chain(texts).collect(),
            Err(faults) => {
                faults.iter().for_each(|f| eprintln!("{f}"));
                return End::Faults;
            }
        }
    } else {
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
