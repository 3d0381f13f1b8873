//! `workshop gather`: what members found, merged.

use crate::args::{Args, refuse};
use crate::{End, folder};
use serde_json::json;
use std::fs;
use std::path::Path;
use workshop::compare::compare;
use workshop::gather::{Change, gather, pieces_csv, sales_csv, sharpen};

const HELP: &str = "\
workshop gather <pack> --from <folder> [--out <folder>] [--weight N] [--json]

<folder> holds a folder for each member, and in it pieces.csv, sales.csv, or both. The first row names the columns.

  pieces.csv  piece, consent, kind, make and the ids of questions: pieces whose kind is beyond doubt
  sales.csv   piece, consent, date, kind, make, price, currency, premium, sort, condition, likeness

  piece       a sign such as k3-17, no name: two members who mean the same piece use the same sign
  consent     yes, or the row is left out unread

Any other column is refused, so that no name, address or remark slips in. What two members say differently of one piece
is shown and left out. Each table of the pack then counts as N pieces (20 when left out; common practice), and the
confirmed pieces are added to it. The report says which tables move, by how much, and how many findings over 2000 made-up
pieces become others.

With --out it writes pieces.csv and sales.csv, merged and numbered anew, and the sharpened pack in the folder pack/.
What the figures rest on stays as it was: look the changes over before you publish them.

It ends with 0, with 1 when tables or pack have faults, with 2 when something could not be read or written.
";

/// So many changed tables are printed.
const SHOWN: usize = 25;
/// So many made-up pieces show what the changes do.
const TRIED: usize = 2000;

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &["--from", "--out", "--weight"], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let Some(from) = args.value("--from") else {
        return refuse("Name the folder of the members' tables with --from.", HELP);
    };
    let weight = args.value("--weight").map_or(Some(20), |v| v.parse::<u32>().ok());
    let Some(weight) = weight.filter(|w| (1..=10_000).contains(w)).map(f64::from) else {
        return refuse("--weight needs a whole number from 1 to 10000 behind it.", HELP);
    };
    let read = match folder::read(&args.pack) {
        Ok(read) => read,
        Err(says) => return refuse(&says, HELP),
    };
    let tables = match members(from) {
        Ok(tables) => tables,
        Err(says) => return refuse(&says, HELP),
    };
    let guide = match folder::compiled(&read).and_then(|c| folder::guide(&c)) {
        Ok(guide) => guide,
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            return End::Faults;
        }
    };
    let all = gather(&guide, &tables);
    let sharp = sharpen(&guide, &all.pieces, weight);
    let pack = match sharp.apply(&guide, &read.files) {
        Ok(pack) => pack,
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            return End::Faults;
        }
    };
    let with_art =
        read.files.iter().filter(|(p, _)| p.starts_with("art/")).map(|(p, t)| (p.to_string(), t.to_string()));
    let sharper = compile::compile(&compile::Files::new(pack.iter().cloned().chain(with_art).collect()))
        .map_err(|faults| folder::lines(&faults))
        .and_then(|c| folder::guide(&c));
    let moved = match &sharper {
        Ok(new) => compare(&guide, new, 1, TRIED),
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            return End::Faults;
        }
    };
    if let Some(out) = args.value("--out").filter(|_| all.faults.is_empty()) {
        let merged = [
            ("pieces.csv".to_string(), pieces_csv(&guide, &all.pieces)),
            ("sales.csv".to_string(), sales_csv(&all.sales)),
        ];
        let inside = pack.iter().map(|(p, t)| (format!("pack/{p}"), t.clone()));
        let all: Vec<(String, String)> = merged.into_iter().chain(inside).collect();
        if let Err(says) = folder::write(out, &all) {
            return refuse(&says, HELP);
        }
    }
    let bits: f64 = sharp.changes.iter().map(|c| c.bits).sum();
    if args.has("--json") {
        let one = |c: &Change| {
            json!({
                "kind": c.kind, "make": c.make, "question": c.question, "pieces": c.pieces,
                "before": c.before, "after": c.after, "bits": c.bits,
            })
        };
        println!(
            "{:#}",
            json!({
                "faults": super::check::listed(&mut all.faults.iter()), "pieces": all.pieces.len(),
                "sales": all.sales.len(), "withheld": all.withheld, "conflicts": all.conflicts,
                "changes": sharp.changes.iter().map(one).collect::<Vec<_>>(), "bits": bits,
                "not_counted": sharp.left.iter().map(|(w, n)| json!({ "why": w, "answers": n })).collect::<Vec<_>>(),
                "tried": moved.pieces, "changed": moved.changed,
            })
        );
    } else {
        all.faults.iter().for_each(|f| println!("{f}"));
        println!("{:>9}  confirmed pieces, {} sales", all.pieces.len(), all.sales.len());
        println!("{:>9}  rows without consent, left out", all.withheld);
        println!("{:>9}  conflicts, left out", all.conflicts.len());
        all.conflicts.iter().for_each(|c| println!("           {c}"));
        sharp.left.iter().for_each(|(why, n)| println!("{n:>9}  answers not counted: {why}"));
        println!("{:>9}  tables sharper, by {bits:.2} bits in all", sharp.changes.len());
        println!("{:>9}  of {} made-up pieces with another kind first", moved.changed, moved.pieces);
        for c in sharp.changes.iter().take(SHOWN) {
            let shares = |list: &[u16]| {
                list.iter().map(|s| format!("{}.{}", s / 10, s % 10)).collect::<Vec<_>>().join(" ")
            };
            println!(
                "{:>9.3}  {} {} {}: {} -> {} ({} pieces)",
                c.bits,
                c.kind,
                c.make,
                c.question,
                shares(&c.before),
                shares(&c.after),
                c.pieces
            );
        }
    }
    if all.faults.is_empty() { End::Well } else { End::Faults }
}

/// The tables of all members: path within the folder, and text.
fn members(from: &str) -> Result<Vec<(String, String)>, String> {
    let root = Path::new(from);
    let list = fs::read_dir(root).map_err(|e| format!("{from} could not be listed: {e}."))?;
    let mut tables = Vec::new();
    for entry in list {
        let entry = entry.map_err(|e| format!("{from} could not be listed: {e}."))?;
        for name in ["pieces.csv", "sales.csv"] {
            let path = entry.path().join(name);
            if path.is_file() {
                let inside = format!("{}/{name}", entry.file_name().to_string_lossy());
                tables.push((inside, folder::table(&path)?));
            }
        }
    }
    if tables.is_empty() {
        return Err(format!("{from} holds no folder with pieces.csv or sales.csv in it."));
    }
    Ok(tables)
}
