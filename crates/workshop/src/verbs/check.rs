//! `workshop check`: every fault, then a report of what the pack holds.

use crate::args::Args;
use crate::{End, folder};
use compile::{Fault, MOST_FAULTS};
use consult::Guide;
use serde_json::{Value, json};
use survey::quality::{HARDEST, Pair, stated_check};
use survey::{Checked, Fares, MADE_UP, sizes, told_by};

const HELP: &str = "\
workshop check <pack> [--json]

Reads all files of the folder <pack> and lists every fault: file, line, field, what is wrong, what to do.
Nothing is changed. When the files hold together it looks the pack over:

  the described pieces of every kind: is each found as the kind it is of
  the pairs of kinds that are hardest to tell apart, what parts them, and whether anything does
  pieces made up of its own tables: how often they are found, with how many answers, and whether the chances are honest
  what is thin: kinds without the texts that help, questions that tell nothing, words that nobody explains

and says what the pack holds.

  --json   the same for a program: an object with faults, notes and report

It ends with 0 when all is well and with 1 when there are faults.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &[], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let files = match folder::raw(&args.pack) {
        Ok(files) => files,
        Err(says) => {
            eprintln!("{says}");
            return End::Usage;
        }
    };
    let checked = Checked::of(&files);
    if args.has("--json") {
        println!("{:#}", as_json(&checked));
    } else {
        print!("{}", as_text(&args.pack, &checked));
    }
    if checked.faults().is_empty() { End::Well } else { End::Faults }
}

fn as_text(pack: &str, checked: &Checked) -> String {
    let lines = |list: &mut dyn Iterator<Item = &Fault>| list.map(|f| format!("{f}\n")).collect::<String>();
    let faults = checked.faults();
    let mut text = String::new();
    if let Checked::Whole(all) = checked {
        let notes = lines(&mut all.0.notes.iter().chain(&all.2.notes));
        if !notes.is_empty() {
            text = format!("Worth a look:\n{notes}\n");
        }
    }
    if !faults.is_empty() {
        let more = if faults.len() >= MOST_FAULTS { ", and perhaps more that are not shown" } else { "" };
        text.push_str(&lines(&mut faults.iter()));
        text.push_str(&format!("\n{} in {pack}{more}.\n", counted(faults.len(), "fault")));
    }
    let Checked::Whole(all) = checked else {
        return text;
    };
    let (c, guide, quality) = &**all;
    let none = if faults.is_empty() { ": no faults." } else { "." };
    text.push_str(&format!("{}, edition {}{none}\n\n", c.core.head.name, c.core.head.edition));
    for (what, n) in sizes(c) {
        text.push_str(&format!("{n:>9}  {what}\n"));
    }
    text.push_str("\nFigures in the files, by what they rest on:\n");
    for (basis, n) in c.counts {
        text.push_str(&format!("{n:>9}  {}: {}\n", basis.word(), basis.phrase()));
    }
    let fared = quality.fared;
    text.push_str(&format!(
        "\nDescribed pieces:\n{:>9}  in all\n{:>9}  found as they must be, {} of them first\n",
        fared.all, fared.found, fared.first
    ));
    let (fares, of_100) = (Fares::of(guide), |share: f64| 100.0 * share);
    let (sure, right) = fares.figures.sure_kind;
    text.push_str(&format!(
        "\nMade-up pieces of its own tables, {MADE_UP} of them:\n{:>9.0}  of 100 found first\n{:>9.1}  answers until the kind stands or no look tells more; the kind is worth {:.1} bits\n{:>9.0}  of 100 shown at 90 or more; of these {:.0} of 100 are right\n",
        of_100(fares.figures.first), fares.figures.until, fares.entropy, of_100(sure), of_100(right)
    ));
    text.push_str(
        "\nHardest to tell apart with the tools of a pocket: times in 100 that all looks do it, and what parts them most:\n",
    );
    quality.pairs.iter().take(HARDEST).for_each(|p| text.push_str(&pair_text(guide, p)));
    text
}

fn pair_text(guide: &Guide, pair: &Pair) -> String {
    let id = |k: usize| guide.core.kinds[k].id.as_str();
    let by: Vec<String> = told_by(guide, pair).iter().map(|(q, share)| format!("{q} {share:.0}")).collect();
    let declared = if pair.declared { ", declared alike" } else { "" };
    let check = stated_check(guide, pair.kinds.0, pair.kinds.1).unwrap_or("no check is stated");
    format!(
        "{:>9.0}  {} and {}{declared}: {}\n           {check}\n",
        100.0 * pair.told_apart(),
        id(pair.kinds.0),
        id(pair.kinds.1),
        by.join(", ")
    )
}

/// Faults for a program.
pub(crate) fn listed(faults: &mut dyn Iterator<Item = &Fault>) -> Value {
    let one = |f: &Fault| json!({ "file": f.file, "line": f.line, "field": f.field, "says": f.says, "hint": f.hint });
    faults.map(one).collect()
}

fn as_json(checked: &Checked) -> Value {
    let list = listed;
    let faults = list(&mut checked.faults().iter());
    let Checked::Whole(all) = checked else {
        return json!({ "faults": faults, "notes": [], "report": null });
    };
    let (c, guide, quality) = &**all;
    let sizes: serde_json::Map<String, Value> =
        sizes(c).into_iter().map(|(what, n)| (what.to_string(), json!(n))).collect();
    let basis: serde_json::Map<String, Value> =
        c.counts.iter().map(|(b, n)| (b.word().to_string(), json!(n))).collect();
    let id = |k: usize| guide.core.kinds[k].id.as_str();
    let pair = |p: &Pair| {
        let by: Vec<Value> =
            told_by(guide, p).into_iter().map(|(q, s)| json!({ "question": q, "of_100": s })).collect();
        json!({
            "kinds": [id(p.kinds.0), id(p.kinds.1)], "told_apart_of_100": 100.0 * p.told_apart(),
            "declared": p.declared, "by": by, "check": stated_check(guide, p.kinds.0, p.kinds.1),
        })
    };
    let fared = quality.fared;
    let fares = Fares::of(guide);
    json!({
        "faults": faults,
        "notes": list(&mut c.notes.iter().chain(&quality.notes)),
        "report": {
            "id": c.core.head.id, "edition": c.core.head.edition, "sizes": sizes, "figures": basis,
            "core": c.core_digest, "book": c.book_digest,
            "described": { "pieces": fared.all, "found": fared.found, "first": fared.first },
            "made_up": {
                "pieces": MADE_UP, "first": fares.figures.first, "answers": fares.figures.until, "bits": fares.entropy,
                "shown_sure": fares.figures.sure_kind.0, "sure_right": fares.figures.sure_kind.1,
            },
            "hardest": quality.pairs.iter().take(HARDEST).map(pair).collect::<Vec<_>>(),
        },
    })
}

/// `1 fault`, `2 faults`.
fn counted(n: usize, what: &str) -> String {
    format!("{n} {what}{}", if n == 1 { "" } else { "s" })
}
