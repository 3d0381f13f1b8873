//! The whole art, read once.

use sketch::Art;
use std::sync::OnceLock;

/// All figures in the order of the files.
pub(crate) fn figures() -> &'static [compile::Figure] {
    static FIGURES: OnceLock<Vec<compile::Figure>> = OnceLock::new();
    FIGURES.get_or_init(|| {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../data/art");
        let mut files = Vec::new();
        for entry in std::fs::read_dir(folder).expect("data/art is there") {
            let path = entry.expect("data/art can be listed").path();
            if path.extension().is_some_and(|e| e == "toml") {
                let name = path.file_name().expect("a file").to_string_lossy().into_owned();
                let text = std::fs::read_to_string(&path).expect("a file of text");
                files.push((name, text));
            }
        }
        compile::art(&compile::Files::new(files)).expect("data/art has no faults")
    })
}

/// The same, ready to draw with.
pub(crate) fn art() -> &'static Art {
    static ART: OnceLock<Art> = OnceLock::new();
    ART.get_or_init(|| Art::new(figures().iter().map(|f| (&*f.name, &*f.strokes, &*f.says))))
}

/// The values of a key, in the order of its file.
pub(crate) fn values(key: &str) -> impl Iterator<Item = &'static str> {
    figures().iter().filter_map(move |f| f.name.strip_prefix(key)?.strip_prefix('.'))
}
