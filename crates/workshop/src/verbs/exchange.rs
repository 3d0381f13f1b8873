//! `workshop export` and `workshop import`: a pack as sheets for spreadsheet programs, there and back.

use crate::args::{Args, refuse};
use crate::{End, folder};
use compile::Fault;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use std::fs;
use std::path::Path;

/// Names, sizes and digests of the sheets.
const DESCRIPTOR: &str = "datapackage.json";

const EXPORT: &str = "\
workshop export <pack> --out <folder> [--json]

Writes the pack as sheets that a spreadsheet program opens: kinds.csv, questions.csv, choices.csv and so on, each with a
row for one thing, and datapackage.json, which names them with their sizes and SHA-256 digests (Data Package, version
1). Nothing but remarks is lost: `workshop import` makes the same pack of them. All verbs also take such a folder
in the place of a pack.

  an empty cell       the field is not there; \"\" is an empty text
  several names       with a comma between them; several sentences each on a line of the cell
  of kind, of question   the id of what a row belongs to
  ' before a text     keeps a spreadsheet from reckoning it out

It ends with 0, with 1 when the files cannot be read as those of a pack, with 2 when something could not be read or written.
";

const IMPORT: &str = "\
workshop import <sheets> --out <folder> [--json]

Makes the plain files of a pack of a folder of sheets (see workshop export --help). Sheets may be saved with commas,
semicolons or tabs between the cells, and with a comma before decimals. Says which sheets were changed since they were
exported, when datapackage.json lies beside them. What stands in the cells is not judged: `workshop check` does that, for
the sheets as well.

It ends with 0, with 1 when the sheets cannot be read as a pack, with 2 when something could not be read or written.
";

/// Runs `export`.
pub(crate) fn run_export(words: &[String]) -> End {
    carry(words, EXPORT, |pack| {
        let pack = folder::read(pack).map_err(Refused::Unread)?;
        let sheets = compile::sheets::export(&pack.files).map_err(Refused::Faulty)?;
        let descriptor = descriptor(&sheets);
        Ok((sheets.into_iter().chain([(DESCRIPTOR.to_string(), descriptor)]).collect(), Vec::new()))
    })
}

/// Runs `import`.
pub(crate) fn run_import(words: &[String]) -> End {
    carry(words, IMPORT, |sheets| {
        let raw = folder::raw(sheets).map_err(Refused::Unread)?;
        let changed = changed(sheets);
        let made = compile::sheets::import(&raw).map_err(Refused::Faulty)?;
        let own = made.files.iter().filter(|(p, _)| !p.starts_with("art/"));
        Ok((own.map(|(p, t)| (p.to_string(), t.to_string())).collect(), changed))
    })
}

enum Refused {
    Unread(String),
    Faulty(Vec<Fault>),
}

/// Files to write, and the names of what was changed since.
type Made = (Vec<(String, String)>, Vec<String>);

fn carry(words: &[String], help: &str, make: impl Fn(&str) -> Result<Made, Refused>) -> End {
    let args = match Args::read(words, &["--out"], &["--json"], help) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let Some(out) = args.value("--out") else {
        return refuse("Where to write is missing: --out <folder>.", help);
    };
    match make(&args.pack) {
        Err(Refused::Unread(says)) => refuse(&says, help),
        Err(Refused::Faulty(faults)) => {
            if args.has("--json") {
                println!("{:#}", json!({ "faults": super::check::listed(&mut faults.iter()) }));
            } else {
                faults.iter().for_each(|f| eprintln!("{f}"));
            }
            End::Faults
        }
        Ok((files, changed)) => {
            if let Err(says) = folder::write(out, &files) {
                return refuse(&says, help);
            }
            let written: Vec<&str> = files.iter().map(|(n, _)| n.as_str()).collect();
            if args.has("--json") {
                println!("{:#}", json!({ "faults": [], "written": written, "changed": changed }));
            } else {
                written.iter().for_each(|n| println!("{n}"));
                changed.iter().for_each(|n| println!("Changed since it was exported: {n}"));
            }
            End::Well
        }
    }
}

fn sha256(bytes: &[u8]) -> String {
    let digest: [u8; 32] = Sha256::digest(bytes).into();
    digest.iter().map(|b| format!("{b:02x}")).collect()
}

/// The descriptor of Data Package: what the pack says of itself, and each sheet.
fn descriptor(sheets: &[(String, String)]) -> String {
    let fields: Vec<Vec<String>> = sheets
        .iter()
        .find(|(n, _)| n == "pack.csv")
        .and_then(|(_, text)| compile::sheets::csv::read(text).ok())
        .unwrap_or_default();
    let of = |name: &str| {
        let row = fields.iter().find(|r| r.first().is_some_and(|c| c == name));
        row.and_then(|r| r.get(1)).cloned().unwrap_or_default()
    };
    let resource = |(name, text): &(String, String)| {
        let heads = compile::sheets::csv::read(text)
            .ok()
            .and_then(|rows| rows.into_iter().next())
            .unwrap_or_default();
        // A code is a number; all else is a text as far as a stranger's program is concerned.
        let kind = |head: &str| if head == "code" { "integer" } else { "string" };
        let fields: Vec<Value> = heads.iter().map(|h| json!({ "name": h, "type": kind(h) })).collect();
        json!({
            "name": name.trim_end_matches(".csv"), "path": name, "profile": "tabular-data-resource",
            "format": "csv", "mediatype": "text/csv", "encoding": "utf-8", "bytes": text.len(),
            "hash": format!("sha256:{}", sha256(text.as_bytes())), "schema": { "fields": fields },
        })
    };
    let resources: Vec<Value> = sheets.iter().map(resource).collect();
    let described = json!({
        "profile": "tabular-data-package", "name": of("id"), "title": of("name"), "version": of("edition"),
        "description": of("notice"), "licenses": [{ "name": of("licence"), "title": of("licence") }],
        "resources": resources,
    });
    format!("{described:#}\n")
}

/// Sheets whose digest is no longer the one in the descriptor.
fn changed(folder: &str) -> Vec<String> {
    let root = Path::new(folder);
    let Ok(text) = fs::read_to_string(root.join(DESCRIPTOR)) else { return Vec::new() };
    let Ok(descriptor) = serde_json::from_str::<Value>(&text) else {
        return vec![format!("{DESCRIPTOR}, which can no longer be read")];
    };
    let empty = Vec::new();
    let resources = descriptor["resources"].as_array().unwrap_or(&empty);
    let differs = |r: &&Value| {
        let path = r["path"].as_str().filter(|p| p.ends_with(".csv") && !p.contains(['/', '\\']));
        path.is_some_and(|p| {
            let now = fs::read(root.join(p)).map(|b| format!("sha256:{}", sha256(&b)));
            now.map_or(true, |now| r["hash"].as_str() != Some(&now))
        })
    };
    resources.iter().filter(differs).filter_map(|r| r["path"].as_str()).map(String::from).collect()
}
