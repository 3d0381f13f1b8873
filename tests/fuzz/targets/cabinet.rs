//! Any bytes as an export, a record or a table: refused with a sentence, or read and then usable.
#![no_main]

use cabinet::archive::Import;
use cabinet::csv::{Table, guess, take};
use cabinet::record::{Date, Uuid};
use cabinet::text;
use libfuzzer_sys::fuzz_target;

const TODAY: Date = Date { year: 2026, month: 11, day: 29 };

fuzz_target!(|bytes: &[u8]| {
    let mut import = Import::new(bytes.len() as u64);
    while let Some(want) = import.wants() {
        import.give(&bytes[want.from as usize..want.to as usize]);
    }
    assert!(import.finish().map_or_else(|says| !says.is_empty(), |found| !found.versions.is_empty()));
    if let Ok(version) = text::read(bytes) {
        assert_eq!(text::read(text::write(&version).as_bytes()), Ok(version));
    }
    if let Ok(table) = Table::read(bytes) {
        let mut next = 0_u128;
        let mut fresh = || {
            next += 1;
            Uuid(next.to_be_bytes())
        };
        let _taken = take(&table, &guess(&table.heads), &|_| None, &mut fresh, TODAY);
    }
});
