//! `workshop schema`: JSON Schemas for an editor.

use crate::args::{Args, refuse};
use crate::{End, folder};
use serde_json::json;
use workshop::schema::{Names, schemas};

const HELP: &str = "\
workshop schema <pack> [--out <folder>] [--json]

Writes a JSON Schema for every sort of file of a pack, with the names of this pack in it: an editor then offers fields,
questions, places and makes, and marks what is not known. Schemas that are there already are replaced. Without --out they are printed, as one object by file. In an
editor that knows TOML, begin a file with a line such as

  #:schema ../schema/kinds.schema.json

A pack that has faults is served too, without its names.

It ends with 0, or with 2 when something could not be read or written.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &["--out"], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let pack = match folder::read(&args.pack) {
        Ok(pack) => pack,
        Err(says) => return refuse(&says, HELP),
    };
    let names = folder::made(&pack).map_or_else(|_| Names::default(), |c| Names::of(&c.core));
    let all = schemas(&names);
    let Some(out) = args.value("--out") else {
        println!("{:#}", serde_json::Value::Object(all.into_iter().collect()));
        return End::Well;
    };
    let texts: Vec<(String, String)> = all.into_iter().map(|(n, v)| (n, format!("{v:#}\n"))).collect();
    if let Err(says) = folder::put(out, &texts) {
        return refuse(&says, HELP);
    }
    let written: Vec<&str> = texts.iter().map(|(n, _)| n.as_str()).collect();
    if args.has("--json") {
        println!("{:#}", json!({ "written": written }));
    } else {
        println!("{}", written.join("\n"));
    }
    End::Well
}
