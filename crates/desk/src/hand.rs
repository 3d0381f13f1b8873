//! What a person hands over, a ZIP or files, to the files of a pack, and what was left aside.

use crate::unzip::unzip;
use compile::sheets::is_sheet;
use compile::{Fault, Files, plain};

/// Folders of a pack. Whatever lies in others is none of its business.
const FOLDERS: [&str; 5] = ["", "questions", "kinds", "lessons", "art"];
/// Files of spreadsheet programs themselves.
const BOOKS: [&str; 4] = [".xlsx", ".xls", ".ods", ".numbers"];
/// Names of texts for people and for programs that lie beside a pack without being of it.
const BESIDE: [&str; 5] = [".txt", ".json", ".md", ".pub", ".minisig"];

/// Files of a pack, and notes on what was left aside.
#[derive(Debug, Clone, Default)]
pub struct Handed {
    /// The pack's own.
    pub files: Files,
    /// What looks as if it should have been of it.
    pub aside: Vec<Fault>,
}

/// Takes files by name and bytes; a ZIP stands for what is in it.
///
/// # Errors
/// What cannot be read at all, as faults.
pub fn taken(given: &[(String, Vec<u8>)]) -> Result<Handed, Vec<Fault>> {
    let mut all: Vec<(String, Vec<u8>)> = Vec::new();
    for (name, bytes) in given {
        if bytes.starts_with(b"PK\x03\x04") && !BOOKS.iter().any(|end| ends(name, end)) {
            let wanted = |path: &str| !hidden(path);
            all.extend(unzip(bytes, wanted).map_err(|says| vec![fault(name, 0, &says, "")])?);
        } else {
            all.push((name.clone(), bytes.clone()));
        }
    }
    let root = root(&all);
    let (mut files, mut aside, mut faults) = (Vec::new(), Vec::new(), Vec::new());
    for (path, bytes) in all {
        let Some(path) = path.strip_prefix(&root) else {
            aside.push(fault(&path, 0, "It lies outside the folder of the pack and was left unread.", ""));
            continue;
        };
        if is_own(path) {
            match text(path, &bytes) {
                Ok(text) => files.push((path.to_string(), text)),
                Err(wrong) => faults.push(wrong),
            }
        } else if BOOKS.iter().any(|end| ends(path, end)) {
            let hint = "Save each of its sheets as CSV (comma-separated, UTF-8) under the name that the starter has for it.";
            faults.push(fault(path, 0, "A spreadsheet program's own file is not read.", hint));
        } else if !BESIDE.iter().any(|end| ends(path, end)) {
            let hint =
                "If it belongs to the pack, give it the name and the folder that the starter has for it.";
            aside.push(fault(path, 0, "A pack has no file of this name. It was left unread.", hint));
        }
    }
    if files.is_empty() && faults.is_empty() {
        let hint =
            "A pack has pack.csv with its sheets, or pack.toml. Download the starter to see how it looks.";
        faults.push(fault("pack.csv", 0, "No file of a pack was found in what you handed over.", hint));
    }
    aside.sort();
    faults.sort();
    if faults.is_empty() { Ok(Handed { files: Files::new(files), aside }) } else { Err(faults) }
}

fn fault(file: &str, line: u32, says: &str, hint: &str) -> Fault {
    Fault { file: plain(file), line, field: String::new(), says: says.to_string(), hint: hint.to_string() }
}

fn ends(name: &str, end: &str) -> bool {
    name.get(name.len().saturating_sub(end.len())..).is_some_and(|e| e.eq_ignore_ascii_case(end))
}

/// What systems put into a ZIP for themselves.
fn hidden(path: &str) -> bool {
    path.split('/').any(|part| part.starts_with('.') || part == "__MACOSX" || part == "Thumbs.db")
}

/// The folder that the pack lies in, with a stroke at its end: that of the outermost `pack.csv` or `pack.toml`.
fn root(all: &[(String, Vec<u8>)]) -> String {
    let folder = |path: &str| path.rfind('/').map_or(String::new(), |at| path[..=at].to_string());
    let named = |path: &str| ["pack.csv", "pack.toml"].contains(&&path[folder(path).len()..]);
    let folders = all.iter().map(|(path, _)| path.as_str()).filter(|p| named(p)).map(folder);
    folders.min_by_key(|f| (f.matches('/').count(), f.clone())).unwrap_or_default()
}

fn is_own(path: &str) -> bool {
    let (folder, _) = path.rsplit_once('/').unwrap_or(("", path));
    let sheet = path == "codes.csv" || is_sheet(path);
    FOLDERS.contains(&folder) && (path.ends_with(".toml") || sheet)
}

/// The text of a file, without the mark that some programs put before it.
fn text(path: &str, bytes: &[u8]) -> Result<String, Fault> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    core::str::from_utf8(bytes).map(String::from).map_err(|e| {
        let line = bytes[..e.valid_up_to()].iter().filter(|b| **b == b'\n').count() + 1;
        let hint = "Save it again and choose UTF-8; spreadsheet programs call it \u{201c}CSV UTF-8\u{201d}.";
        fault(path, u32::try_from(line).unwrap_or(u32::MAX), "A letter here is not written in UTF-8.", hint)
    })
}
