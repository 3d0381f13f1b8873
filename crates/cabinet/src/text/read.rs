//! Reading a version from text. The text may come from anywhere.

use super::lines::{Block, Line, blocks};
use super::{FORMAT, Fault, HEAD};
use crate::record::{Limits, Part, Stamp, Version, short};

/// How many faults are told of one text.
pub const MOST_FAULTS: usize = 40;
/// How many lines of one text may be unknown to this edition.
const MOST_UNKNOWN: usize = 400;
/// How many values one part may have.
const MOST_LINES: usize = 500;

/// Reads a version. Everything that is wrong is told, up to [`MOST_FAULTS`]; then nothing is read.
///
/// # Errors
/// What is wrong, by line.
pub fn read(bytes: &[u8]) -> Result<Version, Vec<Fault>> {
    let whole = |says: String| vec![Fault { line: 0, says }];
    if bytes.len() > Limits::TEXT {
        return Err(whole(format!(
            "It is longer than a record can be: {} bytes of at most {}.",
            bytes.len(),
            Limits::TEXT
        )));
    }
    let text = core::str::from_utf8(bytes).map_err(|e| {
        let line = 1 + bytes[..e.valid_up_to()].iter().filter(|b| **b == b'\n').count();
        vec![Fault { line, says: "It is not plain text in UTF-8. Save it again as UTF-8.".to_string() }]
    })?;
    let text = text.trim_start_matches('\u{feff}');
    let (head, body) = text.split_once('\n').unwrap_or((text, ""));
    match head.trim().strip_prefix(HEAD).map(str::parse::<u32>) {
        Some(Ok(FORMAT)) => {}
        Some(Ok(newer)) if newer > FORMAT => {
            return Err(whole(format!(
                "It has format {newer}, and this edition reads format {FORMAT}. A newer one reads it."
            )));
        }
        _ => {
            return Err(whole(format!(
                "It is no record: its first line is not \u{201c}{HEAD}{FORMAT}\u{201d}."
            )));
        }
    }
    let mut faults = Vec::new();
    let parts = blocks(body, 2, &mut faults);
    let version = version(&parts, &mut faults);
    if faults.is_empty() {
        return Ok(version);
    }
    if faults.len() > MOST_FAULTS {
        let more = faults.len() - MOST_FAULTS;
        faults.truncate(MOST_FAULTS);
        faults.push(Fault { line: 0, says: format!("And {more} more.") });
    }
    Err(faults)
}

fn version(blocks: &[Block], faults: &mut Vec<Fault>) -> Version {
    let mut version = Version::default();
    let mut unknown = 0;
    if blocks.len() > Limits::PARTS + 1 {
        let says = format!("It has {} parts; at most {} are read.", blocks.len() - 1, Limits::PARTS);
        faults.push(Fault { line: 0, says });
        return version;
    }
    for (at, block) in blocks.iter().enumerate() {
        if at == 0 {
            let (of_stamp, of_record): (Vec<&Line>, Vec<&Line>) =
                block.lines.iter().partition(|line| STAMP.contains(&line.key.as_str()));
            unknown += fill(&mut version.stamp, &of_stamp, faults);
            unknown += fill(&mut version.record, &of_record, faults);
            continue;
        }
        match version.record.open(&block.name) {
            Ok(part) => unknown += fill(part, &block.lines.iter().collect::<Vec<_>>(), faults),
            Err(says) => faults.push(Fault { line: block.at, says }),
        }
    }
    if unknown > MOST_UNKNOWN {
        let says =
            format!("{unknown} of its lines are unknown to this edition; at most {MOST_UNKNOWN} are kept.");
        faults.push(Fault { line: 0, says });
    }
    let Stamp { id, version: own, time, .. } = &version.stamp;
    for (missing, key) in [(id.is_none(), "id"), (own.is_none(), "version"), (time.0 == 0, "saved")] {
        if missing && !faults.iter().any(|f| f.says.starts_with(&format!("\u{201c}{key}\u{201d}"))) {
            faults.push(Fault { line: 0, says: format!("The line \u{201c}{key}\u{201d} is missing.") });
        }
    }
    if version.stamp.after.contains(own) {
        faults.push(Fault { line: 0, says: "It names itself among the versions it came after.".to_string() });
    }
    // Values are tidy as they are read; parts in which nothing stands go.
    version.stamp.tidy();
    version.record = version.record.tidied();
    version
}

/// The keys that say which version it is.
const STAMP: [&str; 6] = ["id", "version", "saved", "device", "after", "deleted"];

/// Fills a part; gives how many of its lines are unknown.
fn fill(part: &mut dyn Part, lines: &[&Line], faults: &mut Vec<Fault>) -> usize {
    let mut unknown = 0;
    if lines.len() > MOST_LINES {
        let says = format!("This part has {} lines; at most {MOST_LINES} are read.", lines.len());
        faults.push(Fault { line: lines[0].at, says });
        return 0;
    }
    for (at, Line { at: line, key, value }) in lines.iter().enumerate() {
        let mut fault = |says: String| faults.push(Fault { line: *line, says });
        if lines[..at].iter().any(|before| before.key == *key) {
            fault(format!("\u{201c}{key}\u{201d} stands twice in this part."));
            continue;
        }
        if value.is_empty() {
            continue;
        }
        if value.len() > Limits::VALUE {
            fault(format!(
                "\u{201c}{key}\u{201d} has {} bytes; at most {} are kept.",
                value.len(),
                Limits::VALUE
            ));
            continue;
        }
        match part.set(key, value) {
            Ok(true) => {}
            Ok(false) => {
                unknown += 1;
                part.other().push((key.clone(), value.clone()));
            }
            Err(says) => fault(format!("\u{201c}{}\u{201d}: {says}", short(key))),
        }
    }
    unknown
}
