//! Rules of the trade as cases: the basis of each stands in its `expect.txt`.

use tests::cases::{check, folders};
use tests::packs::{at, guide};

/// How many cases a folder holds, and what is broken in them.
fn broken(folder: &str) -> (usize, Vec<String>) {
    let guide = guide();
    let cases = folders(&at(folder));
    let fails =
        |case: &std::path::PathBuf| check(&guide, case).err().map(|e| format!("{}: {e}", case.display()));
    (cases.len(), cases.iter().filter_map(fails).collect())
}

#[test]
fn rules_of_the_trade() {
    let (cases, broken) = broken("tests/cases/trade");
    assert!(cases >= 5, "the cases are missing");
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}

/// Twenty described pieces, answered by someone who had not seen the tables, before the engine was run on them.
#[test]
fn described_pieces_find_their_role() {
    let (cases, broken) = broken("tests/cases/rows");
    assert_eq!(cases, 20, "the twenty are not all there");
    println!("figure: described pieces: role in the first two for {} of 20", 20 - broken.len());
    assert!(broken.len() <= 3, "{}", broken.join("\n"));
}
