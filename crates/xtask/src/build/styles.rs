//! Joins the style sheets in order of their names and takes out what only readers need.

use crate::house;
use anyhow::{Context, Result, bail};
use std::path::Path;

/// The sheet of a page beside the questions: what all of them need, then its own.
pub(super) fn of_page(name: &str) -> Result<String> {
    let own = joined(&house::at(&format!("www/styles-{name}")))?;
    Ok(joined(&house::at("www/styles-page"))? + &own)
}

/// All `.css` files of the folder as one.
pub(super) fn joined(folder: &Path) -> Result<String> {
    let mut text = String::new();
    for file in
        house::files(folder)?.iter().filter(|file| file.extension().is_some_and(|ending| ending == "css"))
    {
        let sheet =
            std::fs::read_to_string(file).with_context(|| format!("Cannot read {}.", file.display()))?;
        text.push_str(&trimmed(&sheet).with_context(|| format!("In {}:", file.display()))?);
    }
    if text.is_empty() {
        bail!("There is no style sheet in {}.", folder.display());
    }
    Ok(text)
}

/// Without comments and indentation. Strings with `/*` in them are not expected and would end in the error below.
pub(super) fn trimmed(sheet: &str) -> Result<String> {
    let mut rest = sheet;
    let mut bare = String::with_capacity(sheet.len());
    while let Some((before, comment)) = rest.split_once("/*") {
        bare.push_str(before);
        (_, rest) = comment.split_once("*/").context("A comment in the style sheet does not end.")?;
    }
    bare.push_str(rest);
    let lines = bare.lines().map(str::trim).filter(|line| !line.is_empty());
    Ok(lines.flat_map(|line| [line, "\n"]).collect())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::trimmed;

    #[test]
    fn comments_and_indentation_go() {
        assert_eq!(trimmed("/* why\n */\na {\n  b: c; /* d */\n\n}\n").unwrap(), "a {\nb: c;\n}\n");
        assert!(trimmed("a { /* b: c }").is_err());
    }
}
