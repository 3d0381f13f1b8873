//! Writes the lists of files into the service worker.

use crate::digest;
use anyhow::{Result, bail};

const FILES: &str = "/* build: files */";
const LATER: &str = "/* build: later */";
const VERSION: &str = "/* build: version */";

/// An address and the digest of its bytes.
type Listed = (String, String);

/// The worker with the lists and their digest in place: another list is another version.
pub(super) fn filled(template: &str, listed: &[Listed], later: &[Listed]) -> Result<String> {
    for place in [FILES, LATER, VERSION] {
        if template.matches(place).count() != 1 {
            bail!("www/sw.js must have {place:?} in exactly one place for the build to fill.");
        }
    }
    let lines = |listed: &[Listed]| -> String {
        let mut sorted = listed.to_vec();
        sorted.sort();
        sorted.iter().map(|(name, digest)| format!("\n  [\"{name}\", \"{digest}\"],")).collect()
    };
    let (list, late) = (lines(listed), lines(later));
    // The worker's own text belongs to the version: a mended worker fills a cache of its own.
    let version = digest::short(format!("{list}{late}{template}").as_bytes());
    let filled = template.replacen(FILES, &format!("{list}\n"), 1).replacen(LATER, &format!("{late}\n"), 1);
    Ok(filled.replacen(VERSION, &version, 1))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    #[test]
    fn the_version_follows_the_list_and_not_its_order() {
        let template = "const F = [/* build: files */]; const L = [/* build: later */]; const V = \"/* build: version */\";";
        let entry = |name: &str, digest: &str| (name.to_owned(), digest.to_owned());
        let (one, two) = (entry("a", "1"), entry("b", "2"));
        let listed = filled(template, &[one.clone(), two.clone()], &[]).unwrap();
        assert!(listed.contains("[\"a\", \"1\"],\n  [\"b\", \"2\"],"));
        assert_eq!(listed, filled(template, &[two.clone(), one.clone()], &[]).unwrap());
        assert_ne!(listed, filled(template, &[one.clone(), entry("b", "3")], &[]).unwrap());
        let later = filled(template, &[one], &[two]).unwrap();
        assert!(later != listed && later.contains("const L = [\n  [\"b\", \"2\"],\n]"), "{later}");
        assert!(filled("const F = [];", &[], &[]).is_err());
    }
}
