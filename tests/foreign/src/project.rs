//! Files of the project, and packs made of them.

use compile::{Compiled, Files, compile};
use consult::Guide;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// The year in which the tests take place.
pub(crate) const YEAR: i16 = 2026;

/// A path of the project, from its top.
pub(crate) fn at(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(path)
}

/// Path and text of every TOML and CSV in a folder of the project and in those within it.
pub(crate) fn texts(folder: &str) -> Vec<(String, String)> {
    let top = at(folder);
    let mut texts = Vec::new();
    let mut open = vec![top.clone()];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            let ends = |end: &str| path.extension().is_some_and(|e| e == end);
            if path.is_dir() {
                open.push(path);
            } else if ends("toml") || ends("csv") {
                let name = path.strip_prefix(&top).unwrap_or(&path).to_string_lossy().into_owned();
                texts.push((name, fs::read_to_string(&path).unwrap_or_default()));
            }
        }
    }
    texts.sort();
    texts
}

/// Bytes of the files in a folder of the project, by their ending.
pub(crate) fn files(folder: &str, ending: &str) -> Vec<Vec<u8>> {
    let mut paths: Vec<PathBuf> =
        fs::read_dir(at(folder)).into_iter().flatten().flatten().map(|entry| entry.path()).collect();
    paths.retain(|path| path.extension().is_some_and(|e| e == ending));
    paths.sort();
    paths.iter().map(|path| fs::read(path).unwrap_or_default()).collect()
}

#[allow(clippy::expect_used, reason = "a test harness: without its packs no test can mean anything")]
fn compiled(folder: &str) -> Compiled {
    let mut files = texts(folder);
    files.extend(texts("data/art").into_iter().map(|(name, text)| (format!("art/{name}"), text)));
    compile(&Files::new(files)).expect("a sound pack of the project")
}

#[allow(clippy::expect_used, reason = "a test harness: without its packs no test can mean anything")]
fn guide(compiled: &Compiled) -> Guide {
    Guide::from_bytes(&compiled.core_bytes, &compiled.book_bytes, YEAR).expect("a sound pack of the project")
}

/// The folder of the small sound pack of the compiler's tests. All its figures are invented.
pub(crate) const SMALL: &str = "crates/compile/tests/cases/good";

/// The small pack as bytes.
pub(crate) static TINY: LazyLock<Compiled> = LazyLock::new(|| compiled(SMALL));
/// The small pack made ready.
pub(crate) static TINY_GUIDE: LazyLock<Guide> = LazyLock::new(|| guide(&TINY));
/// The bundled pack as bytes.
pub(crate) static IRONS: LazyLock<Compiled> = LazyLock::new(|| compiled("data/packs/irons"));
/// The bundled pack made ready.
pub(crate) static IRONS_GUIDE: LazyLock<Guide> = LazyLock::new(|| guide(&IRONS));
