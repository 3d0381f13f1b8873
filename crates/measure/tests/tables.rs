//! The table of metals compiles, is small, and every slip in it is told with its place; its bytes are trusted by nobody.

use crate::common::{compiled, metal, table, text};
use compile::{Files, Reference};
use pack::metals::{read_metals, write_metals};
use units::Basis;

#[test]
fn the_table_compiles_and_stays_small() {
    let found =
        Reference::metals(&Files::new(vec![("metals.toml".to_string(), text())])).expect("a sound table");
    assert_eq!(read_metals(&found.bytes).as_ref(), Ok(&found.made));
    println!("figure: metals: {} bytes, sha {}", found.bytes.len(), &found.digest[..12]);
    for (basis, n) in found.counts {
        println!("figure: metals: {n} figures {}", basis.phrase());
    }
    // Basis of the bound: practice, what a table of ten metals may cost a page.
    assert!(found.bytes.len() <= 6_000, "{} bytes", found.bytes.len());
    assert_eq!(found.counts[3], (Basis::Invented, 0));
}

/// Published, by sources that the table does not use: a page on common metals (steel 7.85, brass 8.4, copper 8.9, aluminium
/// 2.7, tin 7.3, zinc 7.14, lead 11.4), a guide for die casters (zinc 7.0), a data sheet of bronze with a tenth of tin (8.7).
#[test]
fn densities_of_other_sources() {
    let table = table();
    for (id, value) in [
        ("steel", 7_850),
        ("brass", 8_400),
        ("copper", 8_900),
        ("aluminium", 2_700),
        ("pewter", 7_300),
        ("zinc", 7_140),
        ("zinc", 7_000),
        ("lead", 11_400),
        ("bronze", 8_700),
    ] {
        let (from, to) = metal(&table, id).densities();
        assert!(from <= value && value <= to, "{id}: {value} is not in {from} to {to}");
    }
    // The rules that a founder sells (1 in 96 for iron, 1 in 75 for aluminium alloys), and a course for engineers (mm to the
    // metre: iron 10, aluminium 13, brass 15, steel 20, zinc 24, lead 26, white metal 5; the table uses its copper only).
    for (id, value) in [
        ("cast-iron", 1_042),
        ("aluminium", 1_333),
        ("aluminium", 1_303),
        ("brass", 1_500),
        ("steel", 2_000),
        ("zinc", 2_400),
        ("cast-iron", 1_000),
        ("lead", 2_600),
        ("pewter", 500),
    ] {
        let (from, to) = metal(&table, id).shrinks().expect("a shrinkage");
        assert!(from <= value && value <= to, "{id}: {value} is not in {from} to {to}");
    }
}

/// One slip: what stands there, what is put in its place, and the fault that must be told, without its line.
const SLIPS: &[(&str, &str, &str)] = &[
    ("edition = \"2026-01-31\"", "edition = \"spring\"", "edition: This is not a date."),
    ("[recast]", "[recasts]", "recast: The table [recast] is missing."),
    ("together = 3.5", "together = 350", "recast.together: The number must lie between 0.01 and 50."),
    ("cap = 15 ", "cap = 0 ", "recast.cap: The number must lie between 1 and 1000."),
    (
        "[500, 350, 150]",
        "[500, 350, 160]",
        "recast.generations: These must be shares that make 1000 together.",
    ),
    ("to = 12.5\nbasis = \"practice\"", "to = 12.5", "fill.basis: The field is missing."),
    ("from = 5.6", "from = 15.6", "fill.from: The least is above the greatest."),
    (
        "held = [960, 35, 5]",
        "held = [960, 40]",
        "magnet.held: These must be 3 shares that make 1000 together.",
    ),
    ("doubt]\ndensity = 50", "doubt]\ndensity = 0", "doubt.density: The number must lie between 1 and 900."),
    (
        "id = \"silver\"\nname = \"Silver\"",
        "id = \"lead\"\nname = \"Silver\"",
        "id: \"lead\" is described twice.",
    ),
    ("common = 700", "common = 600", "metal: The shares `common` of all metals make 900, not 1000."),
    (
        "pale = 80, silver = 20",
        "pale = 80, silver = 30",
        "colours: The shares of the colours must make 1000.",
    ),
    ("pale = 80, silver = 20", "pale = 80, sliver = 20", "colours.sliver: There is no colour \"sliver\"."),
    ("{ is = 7.21, basis", "{ is = 72.1, basis", "is: The number must lie between 0.5 and 25."),
    ("{ is = 7.21, basis", "{ is = 7.21, base", "There is no field \"base\" here."),
    (
        "source = \"zinc-3\"",
        "source = \"zinc-4\"",
        "source: There is no source \"zinc-4\". Did you mean \"zinc-3\"?",
    ),
    (
        "basis = \"published\", source = \"zinc-3\"",
        "basis = \"published\"",
        "source: What is published has a source.",
    ),
    (
        "basis = \"published\", source = \"zinc-3\"",
        "basis = \"memory\", source = \"zinc-3\"",
        "source: Only what is published has a source.",
    ),
    ("rusts = true", "rusts = \"yes\"", "rusts: This must be true or false"),
    ("[[colour]]\nid = \"red\"", "[[colour]\nid = \"red\"", "The line cannot be read"),
];

#[test]
fn every_slip_is_told_with_its_place() {
    for (from, to, told) in SLIPS {
        let text = text();
        assert!(text.contains(from), "the table has no {from}");
        let line = text[..text.find(from).unwrap_or(0)].matches('\n').count() + 1;
        let faults = compiled(text.replacen(from, to, 1)).expect_err(told);
        let fault = faults.iter().find(|f| f.to_lowercase().contains(&told.to_lowercase()));
        assert!(fault.is_some(), "{told}\nis not among\n{}", faults.join("\n"));
        let fault = fault.map_or("", String::as_str);
        // A fault of the whole file has no line; the others stand at the slip or at the head of its table.
        assert!(fault.starts_with("metals.toml:"), "{fault}");
        if let Some(at) = fault.split(':').nth(1).and_then(|n| n.parse::<usize>().ok()) {
            assert!(at.abs_diff(line) <= 5, "{fault}, where the slip is in line {line}");
        }
    }
    let missing = Reference::metals(&Files::new(Vec::new())).expect_err("a missing file");
    assert!(missing[0].to_string().starts_with("metals.toml: The file is missing."), "{}", missing[0]);
}

/// Two slips are both told.
#[test]
fn all_faults_are_collected() {
    let two = text().replacen("cap = 15 ", "cap = 0 ", 1).replacen("rusts = true", "rusts = 1", 1);
    assert_eq!(compiled(two).expect_err("two faults").len(), 2);
}

/// The bytes, changed bit by bit and cut: refused with a sentence, or a table that holds together.
#[test]
fn hostile_bytes_are_answered() {
    let whole = compiled(text()).expect("a sound table");
    let (mut read, mut refused) = (0, 0);
    let mut answered = |bytes: &[u8]| match read_metals(bytes) {
        Ok(found) => {
            assert!(write_metals(&found).is_ok(), "what was let in cannot be written");
            // Whatever was let in can be reckoned with.
            let pairs = crate::common::pairs("7430/7500 4900/5000a");
            let ratio = found.metals.first().map(|m| measure::recast(&found, m, &pairs).ratio);
            assert!(ratio.is_some_and(|r| r.is_finite() && r > 0.0), "{ratio:?}");
            let told =
                measure::Told { magnet: Some(measure::Magnet::Weak), colour: Some(1), ..Default::default() };
            let sum: f64 = measure::possible(&found, &told).iter().map(|p| p.share).sum();
            assert!((sum - 1.0).abs() < 1e-9, "{sum}");
            read += 1;
        }
        Err(fault) => {
            assert!(fault.0.ends_with('.') && fault.0.len() > 20, "{}", fault.0);
            refused += 1;
        }
    };
    for at in 0..whole.len() {
        let mut bytes = whole.clone();
        bytes[at] ^= 1 << (at % 8);
        answered(&bytes);
        bytes[at] = 0xff;
        answered(&bytes);
        answered(&whole[..at]);
    }
    println!("figure: hostile tables of metals: {refused} refused, {read} read");
    assert!(read > 0 && refused > whole.len() / 4, "{read} {refused}");
}
