//! `workshop check`: every fault, then a report of what the pack holds.

use crate::args::Args;
use crate::{End, folder};
use compile::{Compiled, Fault, MOST_FAULTS};
use serde_json::{Value, json};

const HELP: &str = "\
workshop check <pack> [--json]

Reads all files of the folder <pack> and lists every fault: file, line, field, what is wrong, what to do.
Nothing is changed. When there is no fault it says what the pack holds.

  --json   the same for a program: an object with faults, notes and report

It ends with 0 when all is well and with 1 when there are faults.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &[], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let files = match folder::read(&args.pack) {
        Ok(files) => files,
        Err(says) => {
            eprintln!("{says}");
            return End::Usage;
        }
    };
    let result = compile::compile(&files);
    if args.has("--json") {
        println!("{:#}", as_json(&result));
    } else {
        print!("{}", as_text(&args.pack, &result));
    }
    if result.is_ok() { End::Well } else { End::Faults }
}

fn as_text(pack: &str, result: &Result<Compiled, Vec<Fault>>) -> String {
    let lines = |list: &[Fault]| list.iter().map(|f| format!("{f}\n")).collect::<String>();
    match result {
        Err(faults) if faults.len() >= MOST_FAULTS => format!(
            "{}\n{} in {pack}, and perhaps more that are not shown.\n",
            lines(faults),
            counted(faults.len(), "fault")
        ),
        Err(faults) => format!("{}\n{} in {pack}.\n", lines(faults), counted(faults.len(), "fault")),
        Ok(c) => {
            let mut text = String::new();
            if !c.notes.is_empty() {
                text = format!("Worth a look:\n{}\n", lines(&c.notes));
            }
            text.push_str(&format!("{}, edition {}: no faults.\n\n", c.core.head.name, c.core.head.edition));
            for (what, n) in sizes(c) {
                text.push_str(&format!("{n:>9}  {what}\n"));
            }
            text.push_str("\nFigures in the files, by what they rest on:\n");
            for (basis, n) in c.counts {
                text.push_str(&format!("{n:>9}  {}: {}\n", basis.word(), basis.phrase()));
            }
            text
        }
    }
}

fn as_json(result: &Result<Compiled, Vec<Fault>>) -> Value {
    let list = |faults: &[Fault]| -> Value {
        let one = |f: &Fault| json!({ "file": f.file, "line": f.line, "field": f.field, "says": f.says, "hint": f.hint });
        faults.iter().map(one).collect()
    };
    match result {
        Err(faults) => json!({ "faults": list(faults), "notes": [], "report": null }),
        Ok(c) => {
            let sizes: serde_json::Map<String, Value> =
                sizes(c).into_iter().map(|(what, n)| (what.to_string(), json!(n))).collect();
            let basis: serde_json::Map<String, Value> =
                c.counts.iter().map(|(b, n)| (b.word().to_string(), json!(n))).collect();
            json!({
                "faults": [],
                "notes": list(&c.notes),
                "report": {
                    "id": c.core.head.id, "edition": c.core.head.edition, "sizes": sizes, "figures": basis,
                    "core": c.core_digest, "book": c.book_digest,
                },
            })
        }
    }
}

fn sizes(c: &Compiled) -> [(&'static str, usize); 8] {
    [
        ("kinds", c.core.kinds.len()),
        ("questions", c.core.questions.len()),
        ("choices", c.core.questions.iter().map(|q| q.choices.len()).sum()),
        ("candidates", c.core.candidates.len()),
        ("tables", c.core.questions.iter().map(|q| q.rows.len()).sum()),
        ("sources", c.book.sources.len()),
        ("bytes of the core", c.core_bytes.len()),
        ("bytes of the book", c.book_bytes.len()),
    ]
}

/// `1 fault`, `2 faults`.
fn counted(n: usize, what: &str) -> String {
    format!("{n} {what}{}", if n == 1 { "" } else { "s" })
}
