//! `workshop build`: the files of a pack, or of the reference tables, as the page reads them, named by what they hold.

use crate::args::{Args, refuse};
use crate::{End, folder};
use compile::Fault;
use std::fs;
use std::path::Path;

const HELP: &str = "\
workshop build <pack> --out <folder> [--json]
workshop build <tables> --out <folder>

Checks the folder <pack>, or the reference tables in <tables>, and writes into <folder>, which is made if it is not
there:
  core-<digest>.pack    of a pack: what is needed before the first question
  book-<digest>.pack    of a pack: the long texts
  whole-<digest>.pack   of a pack: both in one file, as it is handed on and signed
  marks-<digest>.pack   of the reference tables: the marks; with them
  metals-<digest>.pack  the metals and what tells them apart
  coins-<digest>.pack   coins to measure by in a photograph
  prices-<digest>.pack  the price index, conditions, steps of bids
  demo-<digest>.pack    the invented sales that lie in packs/demo beside the tables, when they are there
  pack.txt              the names of these files
The same files always make the same pack. With a fault nothing is written.

It ends with 0 when the files are written and with 1 when there are faults.
";

/// How much of the digest stands in the name of a file.
const IN_NAME: usize = 16;

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &["--out"], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let Some(out) = args.value("--out") else {
        return refuse("Where to write is missing: --out <folder>.", HELP);
    };
    let made = if folder::is_reference(&args.pack) { tables(&args.pack) } else { pack(&args.pack) };
    match made {
        Err(Refused::Unread(says)) => {
            eprintln!("{says}");
            End::Usage
        }
        Err(Refused::Faulty(faults)) => {
            if args.has("--json") {
                println!("{:#}", serde_json::json!({ "faults": super::check::listed(&mut faults.iter()) }));
            } else {
                faults.iter().for_each(|fault| eprintln!("{fault}"));
            }
            End::Faults
        }
        Ok(parts) => match write(&parts, Path::new(out)) {
            Ok(list) if args.has("--json") => {
                let named = list.lines().filter_map(|l| l.split_once(' '));
                let files: serde_json::Map<String, serde_json::Value> =
                    named.map(|(what, name)| (what.to_string(), name.into())).collect();
                println!("{:#}", serde_json::json!({ "faults": [], "files": files }));
                End::Well
            }
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

/// A part of what is built: what it is, its bytes, and their digest.
type Part = (&'static str, Vec<u8>, String);

enum Refused {
    Unread(String),
    Faulty(Vec<Fault>),
}

fn pack(folder: &str) -> Result<Vec<Part>, Refused> {
    let pack = folder::read(folder).map_err(Refused::Unread)?;
    let c = folder::made(&pack).map_err(Refused::Faulty)?;
    Ok(vec![
        ("core", c.core_bytes, c.core_digest),
        ("book", c.book_bytes, c.book_digest),
        ("whole", c.whole_bytes, c.whole_digest),
    ])
}

fn tables(folder: &str) -> Result<Vec<Part>, Refused> {
    let files = folder::reference(folder).map_err(Refused::Unread)?;
    let r = compile::reference(&files).map_err(Refused::Faulty)?;
    let metals = compile::Reference::metals(&files).map_err(Refused::Faulty)?;
    let prices = folder::prices(folder).map_err(Refused::Unread)?;
    let prices = compile::Reference::prices(&prices).map_err(Refused::Faulty)?;
    let coins = compile::Reference::coins(&files).map_err(Refused::Faulty)?;
    let mut parts = vec![
        ("marks", r.bytes, r.digest),
        ("metals", metals.bytes, metals.digest),
        ("coins", coins.bytes, coins.digest),
    ];
    let packs = Path::new(folder).join("../packs");
    let inside = |pack: &str| packs.join(pack).to_string_lossy().into_owned();
    if packs.join("demo/ledger.toml").is_file() {
        let files = folder::ledger(&inside("demo")).map_err(Refused::Unread)?;
        let irons = folder::read(&inside("irons")).map_err(Refused::Unread)?;
        let ledger =
            compile::Reference::ledger(&files, &irons.files, &prices.made).map_err(Refused::Faulty)?;
        parts.push(("demo", ledger.bytes, ledger.digest));
    }
    parts.push(("prices", prices.bytes, prices.digest));
    Ok(parts)
}

/// Writes the parts and hands back what `pack.txt` says.
fn write(parts: &[Part], out: &Path) -> Result<String, String> {
    let named = parts.iter().map(|(what, bytes, digest)| {
        (*what, format!("{what}-{}.pack", &digest[..IN_NAME]), bytes.as_slice())
    });
    let named: Vec<(&str, String, &[u8])> = named.collect();
    let list: String = named.iter().map(|(what, name, _)| format!("{what} {name}\n")).collect();
    fs::create_dir_all(out).map_err(|e| format!("{} could not be made: {e}.", out.display()))?;
    // The list comes last: who finds it finds all files.
    let files = named.iter().map(|(_, name, bytes)| (name.as_str(), *bytes));
    for (name, bytes) in files.chain([("pack.txt", list.as_bytes())]) {
        let path = out.join(name);
        fs::write(&path, bytes).map_err(|e| format!("{} could not be written: {e}.", path.display()))?;
    }
    Ok(list)
}
