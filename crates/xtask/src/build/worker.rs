//! Writes the list of files into the service worker.

use crate::digest;
use anyhow::{Result, bail};

const FILES: &str = "/* build: files */";
const VERSION: &str = "/* build: version */";

/// The worker with the list and its digest in place: another list is another version.
pub(super) fn filled(template: &str, listed: &[(String, String)]) -> Result<String> {
    for place in [FILES, VERSION] {
        if template.matches(place).count() != 1 {
            bail!("www/sw.js must have {place:?} in exactly one place for the build to fill.");
        }
    }
    let mut sorted = listed.to_vec();
    sorted.sort();
    let list: String =
        sorted.iter().map(|(name, digest)| format!("\n  [\"{name}\", \"{digest}\"],")).collect();
    // The worker's own text belongs to the version: a mended worker fills a cache of its own.
    let version = digest::short(format!("{list}{template}").as_bytes());
    Ok(template.replacen(FILES, &format!("{list}\n"), 1).replacen(VERSION, &version, 1))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    #[test]
    fn the_version_follows_the_list_and_not_its_order() {
        let template = "const F = [/* build: files */]; const V = \"/* build: version */\";";
        let entry = |name: &str, digest: &str| (name.to_owned(), digest.to_owned());
        let (one, two) = (entry("a", "1"), entry("b", "2"));
        let listed = filled(template, &[one.clone(), two.clone()]).unwrap();
        assert!(listed.contains("[\"a\", \"1\"],\n  [\"b\", \"2\"],"));
        assert_eq!(listed, filled(template, &[two, one.clone()]).unwrap());
        assert_ne!(listed, filled(template, &[one, entry("b", "3")]).unwrap());
        assert!(filled("const F = [];", &[]).is_err());
    }
}
