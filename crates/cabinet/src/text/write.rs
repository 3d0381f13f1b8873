//! Writing a version as text.

use super::{FORMAT, HEAD};
use crate::record::{Part, Version};

/// The remarks under the first line of every record.
const REMARKS: &str = "\
# This is one piece of a collection, in plain text. A line is a key, a colon and a value; a line that
# begins with | goes on with the value above it; a name in [brackets] begins a part of the record.
# Lines that begin with # are remarks. Money, sizes and days carry their units; \"saved\" is when this
# state of the record was kept, \"after\" names the states it was made from.
";

/// The version as text, in UTF-8 with line feeds. What is not tidy is written tidied.
#[must_use]
pub fn write(version: &Version) -> String {
    let mut stamp = version.stamp.clone();
    stamp.tidy();
    let record = version.record.tidied();
    let mut out = format!("{HEAD}{FORMAT}\n{REMARKS}\n");
    put(&mut out, &stamp);
    out.push('\n');
    put(&mut out, &record);
    for (name, part) in record.parts() {
        out.push_str("\n[");
        out.push_str(name);
        out.push_str("]\n");
        put(&mut out, part);
    }
    out
}

fn put(out: &mut String, part: &dyn Part) {
    for (key, value) in part.lines() {
        out.push_str(key);
        out.push(':');
        for (at, line) in value.split('\n').enumerate() {
            out.push_str(match (at, line.is_empty()) {
                (0, true) => "",
                (0, false) => " ",
                (_, true) => "|",
                (_, false) => "| ",
            });
            out.push_str(line);
            out.push('\n');
        }
    }
}
