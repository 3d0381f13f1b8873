//! The reference tables of the project compile, stay small, and every slip in them is told with its place.

use compile::{Files, Reference, reference};
use std::fs;
use std::io::Write;
use std::path::Path;

fn folder() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/reference");
    let mut all = Vec::new();
    for inside in ["", "marks", "numbers"] {
        for entry in fs::read_dir(root.join(inside)).expect("the folder of the tables") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            if path.is_file() && (name.ends_with(".toml") || name.ends_with(".csv")) {
                let text = fs::read_to_string(&path).expect("a text");
                all.push((if inside.is_empty() { name } else { format!("{inside}/{name}") }, text));
            }
        }
    }
    all
}

fn good() -> Reference {
    reference(&Files::new(folder())).unwrap_or_else(|faults| {
        let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
        panic!("{}", lines.join("\n"))
    })
}

fn brotli(bytes: &[u8]) -> usize {
    let mut packed = Vec::new();
    let mut writer = brotli::CompressorWriter::new(&mut packed, 1 << 16, 11, 22);
    writer.write_all(bytes).expect("a writer to memory");
    drop(writer);
    packed.len()
}

#[test]
fn the_tables_compile_and_stay_small() {
    let found = good();
    assert_eq!(pack::marks::read_marks(&found.bytes).as_ref(), Ok(&found.marks));
    let packed = brotli(&found.bytes);
    println!(
        "figure: reference tables: {} bytes, {packed} with brotli at quality 11; {} series, {} marks, sha {}",
        found.bytes.len(),
        found.marks.series.len(),
        found.marks.marks.len(),
        &found.digest[..12],
    );
    for (basis, n) in found.counts {
        println!("figure: reference tables: {n} figures {}", basis.phrase());
    }
    // Basis of the bound: practice, what the tables may cost a page that has to load them.
    assert!(packed <= 30_000, "{packed} bytes");
}

/// One slip: the file, what stands there, what is put in its place, and the fault that must be told.
const SLIPS: &[(&str, &str, &str, &str)] = &[];

#[test]
fn every_slip_is_told_with_its_place() {
    for (file, from, to, told) in SLIPS {
        let mut files = folder();
        let text = &mut files.iter_mut().find(|(p, _)| p == file).expect("the file").1;
        assert!(text.contains(from), "{file} has no {from}");
        *text = text.replacen(from, to, 1);
        let faults = reference(&Files::new(files)).expect_err(told);
        let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
        assert!(lines.iter().any(|l| l == told), "{told}\nis not among\n{}", lines.join("\n"));
    }
}
