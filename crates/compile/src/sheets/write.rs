//! Texts and keys as TOML writes them.

use std::fmt::Write;

/// A text in quotes; over several lines between triple quotes.
pub(super) fn text(text: &str) -> String {
    let several = text.contains('\n');
    let quotes = if several { "\"\"\"" } else { "\"" };
    let mut out = String::from(quotes);
    if several {
        out.push('\n');
    }
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push('\n'),
            '\t' => out.push_str("\\t"),
            c if c.is_control() => {
                let _ = write!(out, "\\u{:04X}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push_str(quotes);
    out
}

/// A key: names parted by full stops, each in quotes where it needs them.
pub(super) fn key(path: &str) -> String {
    let part = |part: &str| {
        let plain = |b: u8| b.is_ascii_alphanumeric() || b == b'-' || b == b'_';
        if !part.is_empty() && part.bytes().all(plain) { part.to_string() } else { text(part) }
    };
    path.split('.').map(part).collect::<Vec<_>>().join(".")
}
