//! Any bytes as tables of marks, metals, prices or sales: refused with a sentence, or read and then usable.
#![no_main]

use dating::{Measured, Tables};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    if let Ok(marks) = pack::marks::read_marks(bytes) {
        let tables = Tables::new(marks, 2026);
        let read = tables.read("PAT. MAY ?3 18?1; No 1134?8; MADE IN J?PAN", Measured::default());
        assert!(tables.together(&read.marks).period.iter().all(|l| l.is_finite()));
    }
    let _metals = pack::metals::read_metals(bytes);
    let _prices = pack::prices::read_prices(bytes);
    let _sales = pack::prices::read_ledger(bytes);
});
