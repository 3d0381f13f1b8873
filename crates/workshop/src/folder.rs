//! Reading the folder of a pack, or of art. Only here does a pack meet the disk.

use compile::sheets::Imported;
use compile::{Compiled, Fault, Figure, Files, LARGEST_PACK, LONGEST_FILE, MOST_FILES};
use consult::Guide;
use std::fs;
use std::path::Path;

/// Files of a pack: those that end in `.toml` and `codes.csv`. Other files, and folders whose name begins with a
/// full stop, are none of its business. The art of the project comes along, as `art/...`, when it lies where the
/// project keeps it: in `art` beside the folder that holds the packs.
///
/// # Errors
/// A sentence that names the file that could not be read.
pub(crate) fn read(pack: &str) -> Result<Imported, String> {
    compile::sheets::import(&raw(pack)?).map_err(|faults| lines(&faults).join("\n"))
}

/// Each fault as a line.
pub(crate) fn lines(faults: &[Fault]) -> Vec<String> {
    faults.iter().map(ToString::to_string).collect()
}

/// The same before sheets become files.
///
/// # Errors
/// A sentence that names the file that could not be read.
pub(crate) fn raw(pack: &str) -> Result<Files, String> {
    let found = files(pack, "pack.toml or its sheets", &["", "questions", "kinds", "lessons"], &[".csv"])?;
    // Other tables that lie about are none of its business.
    let own = |path: &str| !path.ends_with(".csv") || path == "codes.csv" || compile::sheets::is_sheet(path);
    let mut all: Vec<(String, String)> = found.into_iter().filter(|(p, _)| own(p)).collect();
    let art = Path::new(pack).join("../../art");
    if art.join("grip.toml").is_file() {
        let figures = files(&art.to_string_lossy(), "grip.toml", &[""], &[])?;
        all.extend(figures.into_iter().map(|(p, t)| (format!("art/{p}"), t)));
    }
    Ok(Files::new(all))
}

/// Writes files into a folder that is made when it is not there.
///
/// # Errors
/// A sentence that names what could not be written, or stands in the way.
pub(crate) fn write(out: &str, files: &[(String, String)]) -> Result<(), String> {
    for (name, _) in files {
        let path = Path::new(out).join(name);
        if path.exists() {
            return Err(format!("{} is there already. Name a folder that is new.", path.display()));
        }
    }
    put(out, files)
}

/// The same, in the place of what is there.
///
/// # Errors
/// A sentence that names what could not be written.
pub(crate) fn put(out: &str, files: &[(String, String)]) -> Result<(), String> {
    for (name, text) in files {
        let path = Path::new(out).join(name);
        let unwritten = |e: std::io::Error| format!("{} could not be written: {e}.", path.display());
        path.parent().map_or(Ok(()), fs::create_dir_all).map_err(unwritten)?;
        fs::write(&path, text).map_err(unwritten)?;
    }
    Ok(())
}

/// Whether a folder holds reference tables rather than a pack.
pub(crate) fn is_reference(folder: &str) -> bool {
    Path::new(folder).join("reference.toml").is_file()
}

/// The files of the reference tables: all that end in `.toml` or `.csv`.
///
/// # Errors
/// A sentence that names the file that could not be read.
pub(crate) fn reference(folder: &str) -> Result<Files, String> {
    Ok(Files::new(files(folder, "reference.toml", &["", "marks", "numbers"], &[".csv"])?))
}

/// The files of the tables of prices, which lie in a folder of their own.
///
/// # Errors
/// A sentence that names the file that could not be read.
pub(crate) fn prices(folder: &str) -> Result<Files, String> {
    let inside = Path::new(folder).join("prices");
    Ok(Files::new(files(&inside.to_string_lossy(), "prices.toml", &[""], &[".csv"])?))
}

/// The files of a ledger of sales.
///
/// # Errors
/// A sentence that names the file that could not be read.
pub(crate) fn ledger(folder: &str) -> Result<Files, String> {
    Ok(Files::new(files(folder, "ledger.toml", &[""], &[".csv"])?))
}

/// A pack made ready, book included, for what does not depend on the year.
///
/// # Errors
/// Why it cannot be read.
pub(crate) fn guide(compiled: &Compiled) -> Result<Guide, Vec<String>> {
    Guide::from_bytes(&compiled.core_bytes, &compiled.book_bytes, 2000).map_err(|says| vec![says])
}

/// A pack compiled.
///
/// # Errors
/// All faults, each where the writer finds it: in the cell of a sheet, where there are sheets.
pub(crate) fn made(pack: &Imported) -> Result<Compiled, Vec<Fault>> {
    compile::compile(&pack.files).map_err(|faults| faults.iter().map(|f| pack.trace(f)).collect())
}

/// The same with each fault as a line.
///
/// # Errors
/// All faults.
pub(crate) fn compiled(pack: &Imported) -> Result<Compiled, Vec<String>> {
    made(pack).map_err(|faults| lines(&faults))
}

/// The figures of a folder of art.
///
/// # Errors
/// Sentences that name what could not be read.
pub(crate) fn art(folder: &str) -> Result<Vec<Figure>, String> {
    compile::art(&Files::new(files(folder, "grip.toml", &[""], &[])?)).map_err(|f| lines(&f).join("\n"))
}

/// Files that end in `.toml` or in one of `others`.
fn files(
    root: &str,
    holds: &str,
    folders: &[&str],
    others: &[&str],
) -> Result<Vec<(String, String)>, String> {
    let path = Path::new(root);
    if !path.is_dir() {
        return Err(format!("{root} is not a folder. Name the folder that holds {holds}."));
    }
    let root = path;
    let mut files = Vec::new();
    let mut read = 0;
    for folder in folders {
        let path = root.join(folder);
        if !path.is_dir() {
            continue;
        }
        let list =
            fs::read_dir(&path).map_err(|e| format!("{} could not be listed: {e}.", path.display()))?;
        for entry in list {
            let entry = entry.map_err(|e| format!("{} could not be listed: {e}.", path.display()))?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let wanted = (name.ends_with(".toml") || others.iter().any(|end| name.ends_with(end)))
                && !name.starts_with('.')
                && entry.path().is_file();
            if !wanted {
                continue;
            }
            let inside = if folder.is_empty() { name } else { format!("{folder}/{name}") };
            let text = text(&entry.path(), &inside)?;
            read += text.len();
            files.push((inside, text));
            if files.len() > MOST_FILES || read > LARGEST_PACK {
                return Err(format!(
                    "The folder holds more than {MOST_FILES} files or {} MB. Is it the right one?",
                    LARGEST_PACK >> 20
                ));
            }
        }
    }
    Ok(files)
}

fn text(path: &Path, inside: &str) -> Result<String, String> {
    let unreadable = |e: std::io::Error| format!("{inside} could not be read: {e}.");
    let length = fs::metadata(path).map_err(unreadable)?.len();
    if length > LONGEST_FILE as u64 {
        return Err(format!(
            "{inside} is longer than {} kB. Part it into several files.",
            LONGEST_FILE / 1024
        ));
    }
    let bytes = fs::read(path).map_err(unreadable)?;
    String::from_utf8(bytes).map_err(|e| {
        let before = &e.as_bytes()[..e.utf8_error().valid_up_to()];
        let line = before.iter().filter(|b| **b == b'\n').count() + 1;
        format!("{inside}:{line}: The text is not UTF-8. Save the file as UTF-8.")
    })
}

/// A table that a member shares.
///
/// # Errors
/// Why it cannot be read.
pub(crate) fn table(path: &Path) -> Result<String, String> {
    text(path, &path.to_string_lossy())
}
