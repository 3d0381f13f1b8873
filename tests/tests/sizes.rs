//! What lies beside a piece in a photograph is as large as those say who make it.

use compile::Files;
use std::fs;
use std::path::Path;

/// Published: 31 U.S.C. 5112(a) states the diameters of these coins in inches, another unit than the table's.
const UNITED_STATES: [(&str, f64); 3] = [("us-25", 0.955), ("us-5", 0.835), ("us-1", 0.750)];
/// Published: Council Regulation (EU) No 729/2014, Annex I, mm.
const EURO: [(&str, f64); 3] = [("eur-2", 25.75), ("eur-1", 23.25), ("eur-050", 24.25)];
/// Published: ISO/IEC 7810 took over its card of 3.370 by 2.125 inches.
const CARD: [f64; 2] = [3.370, 2.125];
const INCH: f64 = 25.4;

#[test]
fn coins_and_cards_are_as_published() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../data/reference");
    let text = fs::read_to_string(root.join("coins.toml")).expect("the table of coins");
    let table =
        compile::Reference::coins(&Files::new(vec![("coins.toml".to_string(), text)])).expect("a table");
    let diameter = |id: &str| {
        let coin = table.made.coins.iter().find(|c| c.id == id).expect(id);
        f64::from(coin.diameter) / 100.0
    };
    for (id, inches) in UNITED_STATES {
        // The table has hundredths of a millimetre: half of one is rounding.
        assert!((diameter(id) - inches * INCH).abs() <= 0.005 + 1e-9, "{id}: {}", diameter(id));
    }
    for (id, mm) in EURO {
        assert!((diameter(id) - mm).abs() < 1e-9, "{id}: {}", diameter(id));
    }
    for (side, inches) in picture::photo::CARD.iter().zip(CARD) {
        assert!((side - inches * INCH).abs() <= 0.005 + 1e-9, "{side}");
    }
}
