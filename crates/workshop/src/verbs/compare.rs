//! `workshop compare`: two editions of a pack.

use crate::args::{Args, refuse};
use crate::{End, folder};
use serde_json::json;
use workshop::compare::{compare, lacks};

const HELP: &str = "\
workshop compare <old> <new> [--pieces N] [--seed N] [--json]

Says what the new edition of a pack has and the old one lacks, and the other way round. Then pieces are drawn from the
tables of the old edition (2000 when N is left out), with some looks from other kinds, and both editions judge the same
answers: how often the first kind is another, how often it is right, and what is taken for what instead.

The pieces are made up by the old edition's own tables: a new edition that knows better may well be right less often
over them. What matters is whether it changed where it was meant to.

It ends with 0, with 1 when a pack has faults, with 2 when something could not be read.
";

/// So many kinds of change are printed.
const SHOWN: usize = 20;

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    // The old edition comes first of all words, so that everything behind it reads as for any other verb.
    let (old, rest) = match words.split_first() {
        Some((first, rest)) if !first.starts_with('-') => (first, rest),
        Some(_) => (&String::new(), words),
        None => return refuse("Name the old edition and the new one.", HELP),
    };
    let args = match Args::read(rest, &["--pieces", "--seed"], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let number = |option: &str, usual: u64| args.value(option).map_or(Some(usual), |v| v.parse::<u64>().ok());
    let (Some(pieces), Some(seed)) =
        (number("--pieces", 2000).filter(|n| (1..=1_000_000).contains(n)), number("--seed", 1))
    else {
        return refuse("--pieces needs a number from 1 to 1000000 behind it, --seed a whole number.", HELP);
    };
    let mut guides = Vec::new();
    for pack in [old, &args.pack] {
        let read = match folder::read(pack) {
            Ok(read) => read,
            Err(says) => return refuse(&says, HELP),
        };
        match folder::compiled(&read).and_then(|c| folder::guide(&c)) {
            Ok(guide) => guides.push(guide),
            Err(faults) => {
                faults.iter().for_each(|f| eprintln!("{pack}: {f}"));
                return End::Faults;
            }
        }
    }
    let [old, new] = guides.as_slice() else { return End::Usage };
    let found = compare(old, new, seed, usize::try_from(pieces).unwrap_or(1));
    let (gone, added) = (lacks(old, new), lacks(new, old));
    if args.has("--json") {
        let otherwise: Vec<_> = found
            .otherwise
            .iter()
            .map(|([of, before, after], n)| json!({ "kind": of, "before": before, "after": after, "pieces": n }))
            .collect();
        println!(
            "{:#}",
            json!({
                "editions": [old.core.head.edition, new.core.head.edition], "gone": gone, "added": added,
                "pieces": found.pieces, "of_kinds_gone": found.gone, "changed": found.changed,
                "right": [found.right.0, found.right.1], "share": [found.share.0, found.share.1],
                "otherwise": otherwise,
            })
        );
        return End::Well;
    }
    println!("Edition {} against edition {}", old.core.head.edition, new.core.head.edition);
    for (what, list) in [("Gone", gone), ("New", added)] {
        if !list.is_empty() {
            println!("{what}: {}", list.join(", "));
        }
    }
    println!("\n{:>9}  made-up pieces of the old edition", found.pieces);
    if found.gone > 0 {
        println!("{:>9}  of kinds that the new edition lacks", found.gone);
    }
    println!("{:>9}  with another kind first", found.changed);
    println!("{:>9}  right before, {} after", found.right.0, found.right.1);
    println!(
        "{:>9.1}  per cent for the right kind before, {:.1} after",
        100.0 * found.share.0,
        100.0 * found.share.1
    );
    if !found.otherwise.is_empty() {
        println!("\nPieces of a kind, what was found before, what is found now:");
    }
    for ([of, before, after], n) in found.otherwise.iter().take(SHOWN) {
        println!("{n:>9}  {of}: {before} -> {after}");
    }
    End::Well
}
