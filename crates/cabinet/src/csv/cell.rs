//! One cell: quotes, and what a spreadsheet would take for a formula.

/// Signs with which a spreadsheet begins to reckon (OWASP, "CSV injection").
const RECKONS: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// Whether a text begins like one that was defused.
fn looks_defused(text: &str) -> bool {
    text.strip_prefix('\'').is_some_and(|rest| rest.starts_with(RECKONS) || rest.starts_with('\''))
}

/// A text that no spreadsheet reckons with: a quote mark goes before what begins like a formula.
pub(super) fn defused(text: &str) -> String {
    if text.starts_with(RECKONS) || looks_defused(text) { format!("'{text}") } else { text.to_string() }
}

/// The text again.
pub(super) fn restored(text: &str) -> &str {
    if looks_defused(text) { &text[1..] } else { text }
}

/// A text as a cell (RFC 4180): in quotes where it holds a separator of any sort, a quote, a line end. Texts of records have no
/// blanks at their ends.
pub(super) fn quoted(text: &str) -> String {
    let plain = !text.contains([',', ';', '\t', '"', '\n', '\r']);
    if plain { text.to_string() } else { format!("\"{}\"", text.replace('"', "\"\"")) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn formulas_are_defused() {
        for text in ["=1+1", "+1", "-1", "@SUM(A1)", "=cmd|' /C calc'!A0", "'=1", "''", "'-"] {
            let cell = defused(text);
            assert!(cell.starts_with('\'') && cell != text, "{text}");
            assert_eq!(restored(&cell), text);
        }
        for text in ["", "iron", "'tis", "'", "1-2", "a=b"] {
            assert_eq!((defused(text).as_str(), restored(text)), (text, text));
        }
    }

    proptest! {
        #[test]
        fn comes_back(text in "['=+@a-]{0,6}\\PC{0,6}") {
            let cell = defused(&text);
            prop_assert_eq!(restored(&cell), text.as_str());
            prop_assert!(!cell.starts_with(RECKONS));
        }
    }
}
