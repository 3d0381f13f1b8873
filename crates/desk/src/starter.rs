//! The starter as a ZIP, written as the cabinet writes its exports.

use cabinet::archive::Writer;
use cabinet::record::Moment;

/// The starter, as sheets or as texts.
///
/// # Errors
/// A sentence, should the starter not stand.
pub fn starter(sheets: bool) -> Result<Vec<u8>, String> {
    let lines = |faults: Vec<compile::Fault>| faults.iter().map(ToString::to_string).collect::<String>();
    let files = survey::starter(None, None, sheets).map_err(lines)?;
    // Its day is that of the format's beginning: the same starter is the same file.
    let mut writer = Writer::new(Moment(0));
    let mut out = Vec::new();
    for (name, text) in &files {
        // Spreadsheet programs take a sheet for the letters of the country unless it begins with this mark.
        let mark = if sheets && name.ends_with(".csv") { "\u{feff}" } else { "" };
        let data = format!("{mark}{text}");
        out.extend(writer.entry(name, data.as_bytes())?);
        out.extend(data.as_bytes());
    }
    out.extend(writer.finish());
    Ok(out)
}
