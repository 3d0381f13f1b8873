//! Pages that are made of another page: places in it that must be there exactly once are changed.

use anyhow::{Result, bail};

/// The page with `from` replaced by `to`.
pub(super) fn once(page: &str, from: &str, to: &str) -> Result<String> {
    let times = page.matches(from).count();
    if times != 1 {
        bail!("The page has {from:?} {times} times, and once was expected by what is made of it.");
    }
    Ok(page.replacen(from, to, 1))
}

/// The page with all lines taken out that begin so; at least one must.
pub(super) fn without_lines(page: &str, beginning: &str) -> Result<String> {
    let kept: String =
        page.lines().filter(|line| !line.starts_with(beginning)).flat_map(|line| [line, "\n"]).collect();
    if kept.lines().count() == page.lines().count() {
        bail!("The page has no line that begins with {beginning:?}.");
    }
    Ok(kept)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    #[test]
    fn what_is_not_there_once_is_not_changed() {
        assert_eq!(once("a b c", "b", "d").unwrap(), "a d c");
        assert!(once("a b b", "b", "d").is_err());
        assert!(once("a", "b", "d").is_err());
        assert_eq!(without_lines("x 1\ny\nx 2\n", "x").unwrap(), "y\n");
        assert!(without_lines("y\n", "x").is_err());
    }
}
