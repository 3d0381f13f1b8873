//! Where kinds and questions stand in the files, for faults that only show once a pack is compiled.

use compile::{Fault, Files};

/// File and line of everything that has an id under `[[kind]]` or `[[question]]`.
#[derive(Debug)]
pub(super) struct Spots(Vec<(String, String, u32)>);

impl Spots {
    pub(super) fn of(files: &Files) -> Spots {
        let mut spots = Vec::new();
        for (path, text) in files.iter() {
            let mut heading = 0;
            for (line, words) in (1..).zip(text.lines().map(str::trim)) {
                if words.starts_with('[') {
                    heading = if words == "[[kind]]" || words == "[[question]]" { line } else { 0 };
                } else if heading > 0 {
                    let id = words.strip_prefix("id").map(str::trim_start).and_then(|w| w.strip_prefix('='));
                    if let Some(id) = id.map(|w| w.trim().trim_matches('"')) {
                        spots.push((id.to_string(), path.to_string(), heading));
                        heading = 0;
                    }
                }
            }
        }
        Spots(spots)
    }

    /// A fault at the kind or question with this id, which stands in a folder of that name.
    pub(super) fn fault(&self, folder: &str, id: &str, says: String, hint: &str) -> Fault {
        let spot = self.0.iter().find(|(own, path, _)| own == id && path.starts_with(folder));
        let (file, line) = spot.map_or(("pack.toml", 0), |(_, path, line)| (path.as_str(), *line));
        Fault { file: file.to_string(), line, field: id.to_string(), says, hint: hint.to_string() }
    }
}
