//! Any text as lettering: no panic, a capped list of readings, years that are finite and not all zero.
#![no_main]

use compile::Files;
use dating::{MOST_READINGS, Measured, Tables};
use libfuzzer_sys::fuzz_target;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

static TABLES: LazyLock<Tables> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/reference");
    let mut all = Vec::new();
    for inside in ["", "marks", "numbers"] {
        for entry in fs::read_dir(root.join(inside)).expect("the tables") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            if path.is_file() && (name.ends_with(".toml") || name.ends_with(".csv")) {
                let text = fs::read_to_string(&path).expect("a text");
                all.push((if inside.is_empty() { name } else { format!("{inside}/{name}") }, text));
            }
        }
    }
    let compiled = compile::reference(&Files::new(all)).expect("sound tables");
    Tables::new(pack::marks::read_marks(&compiled.bytes).expect("bytes that can be read"), 2026)
});

fuzz_target!(|text: &str| {
    let read = TABLES.read(text, Measured::default());
    for mark in &read.marks {
        assert!(mark.readings.len() <= MOST_READINGS);
        assert!(mark.readings.iter().all(|r| r.chance.is_finite() && !r.title(&TABLES).is_empty()));
    }
    let together = TABLES.together(&read.marks);
    for years in [&together.period, &together.later, &together.usual] {
        assert!(years.iter().all(|l| l.is_finite() && *l > 0.0));
    }
    assert!((together.curve().p.iter().sum::<f64>() - 1.0).abs() < 1e-6);
});
