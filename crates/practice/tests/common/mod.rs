//! The bundled pack, compiled from its plain files.

use consult::Guide;
use std::path::Path;
use std::sync::OnceLock;

/// Whether full counts are asked for (`cargo xtask test --deep`).
pub(crate) fn deep() -> bool {
    std::env::var_os("PRESSMARK_DEEP").is_some()
}

/// Relative path and text of every plain file of a folder.
pub(crate) fn texts(folder: &str, inside: &str) -> Vec<(String, String)> {
    let mut files = Vec::new();
    let mut todo =
        vec![(Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(folder), inside.to_string())];
    while let Some((at, before)) = todo.pop() {
        for entry in std::fs::read_dir(&at).expect("a folder of the project").flatten() {
            let name = format!("{before}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                todo.push((entry.path(), format!("{name}/")));
            } else if name.ends_with(".toml") || name.ends_with(".csv") {
                files.push((name, std::fs::read_to_string(entry.path()).expect("a text")));
            }
        }
    }
    files
}

/// The files of the bundled pack with the art.
pub(crate) fn files() -> Vec<(String, String)> {
    let mut files = texts("data/packs/irons", "");
    files.extend(texts("data/art", "art/"));
    files
}

/// A pack of these files.
pub(crate) fn compiled_of(files: Vec<(String, String)>) -> compile::Compiled {
    compile::compile(&compile::Files::new(files)).expect("a pack without faults")
}

/// A pack made ready.
pub(crate) fn guide_of(made: &compile::Compiled) -> Guide {
    Guide::from_bytes(&made.core_bytes, &made.book_bytes, 2026).expect("the pack can be read")
}

/// The bundled pack, compiled.
pub(crate) fn compiled() -> &'static compile::Compiled {
    static MADE: OnceLock<compile::Compiled> = OnceLock::new();
    MADE.get_or_init(|| compiled_of(files()))
}

/// The bundled pack.
pub(crate) fn guide() -> &'static Guide {
    static GUIDE: OnceLock<Guide> = OnceLock::new();
    GUIDE.get_or_init(|| guide_of(compiled()))
}
