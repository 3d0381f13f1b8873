//! A pack's texts in a page.

/// A pack's text may hold anything that looks like markup; here it is text.
pub(crate) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
