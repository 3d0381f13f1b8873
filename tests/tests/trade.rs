//! Rules of the trade as cases: the basis of each stands in its `expect.txt`.

use tests::cases::{check, folders};
use tests::packs::{at, guide};

#[test]
fn rules_of_the_trade() {
    let guide = guide();
    let cases = folders(&at("tests/cases/trade"));
    assert!(cases.len() >= 5, "the cases are missing");
    let broken: Vec<String> = cases
        .iter()
        .filter_map(|case| {
            check(&guide, case)
                .err()
                .map(|e| format!("{}: {e}", case.display()))
        })
        .collect();
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}

/// Twenty described pieces, answered by someone who had not seen the tables, before the engine was run on them.
#[test]
fn described_pieces_find_their_role() {
    let guide = guide();
    let cases = folders(&at("tests/cases/rows"));
    assert_eq!(cases.len(), 20, "the twenty are not all there");
    let broken: Vec<String> = cases
        .iter()
        .filter_map(|case| {
            check(&guide, case)
                .err()
                .map(|e| format!("{}: {e}", case.display()))
        })
        .collect();
    println!(
        "described pieces: role in the first two for {} of 20",
        20 - broken.len()
    );
    assert!(broken.len() <= 3, "{}", broken.join("\n"));
}
