//! The bundled pack has no fault that `workshop check` finds: every described piece is found as its kind, and no two
//! kinds differ in words only.

use consult::Guide;
use survey::quality;
use tests::{YEAR, packs};

#[test]
fn the_bundled_pack_has_no_fault() {
    let files = packs::files();
    let compiled = packs::compiled(&files);
    let guide = Guide::from_bytes(&compiled.core_bytes, &compiled.book_bytes, YEAR).expect("a sound pack");
    let quality = quality::of(&guide, &files, &compiled);
    let fared = quality.fared;
    println!(
        "figure: described pieces of kinds: {} of {} found, {} first",
        fared.found, fared.all, fared.first
    );
    let hardest = &quality.pairs[0];
    println!("figure: hardest pair of kinds: told apart {:.3}", hardest.told_apart());
    assert!(fared.all >= 2 * (compiled.core.kinds.len() - 1), "two pieces of every kind are described");
    let faults: Vec<String> = quality.faults.iter().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
