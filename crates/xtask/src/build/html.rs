//! Fills the template of a page and checks what came out of it.

use super::change::once;
use crate::headers;
use anyhow::{Context, Result, bail};
use std::path::Path;

/// Names in the release that the page must know.
pub(super) struct Names<'a> {
    pub(super) wasm: &'a str,
    /// What the page loads once it can be used, by name: glue and wasm of a second program, tables.
    pub(super) later: &'a [(&'a str, &'a str)],
    /// Both halves of the pack; empty on a page that needs none.
    pub(super) core: &'a str,
    pub(super) book: &'a str,
    /// Digest of the whole pack, by which a record knows what it was found with.
    pub(super) pack: &'a str,
    /// Whether the page cannot begin without the book.
    pub(super) whole: bool,
}

/// Where a template wants its policy.
const POLICY: &str = "<!-- build: policy -->";

/// A policy as a page carries it.
pub(super) fn policy(value: &str) -> String {
    format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{value}\">")
}

/// The page, with its policy, the early loads, the names and the first screen in place.
pub(super) fn filled(template: &str, names: &Names<'_>, first_screen: &str) -> Result<String> {
    let Names { wasm, later, core, book, pack, whole } = names;
    let policy = policy(headers::POLICY);
    // As `fetch` asks for them, or the browser would load them twice.
    let mut preload =
        format!("<link rel=\"preload\" href=\"{wasm}\" as=\"fetch\" type=\"application/wasm\" crossorigin>");
    if !core.is_empty() {
        preload.push_str(&format!("\n<link rel=\"preload\" href=\"{core}\" as=\"fetch\" crossorigin>"));
    }
    if *whole {
        preload.push_str(&format!("\n<link rel=\"preload\" href=\"{book}\" as=\"fetch\" crossorigin>"));
    }
    let mut boot = format!("<script id=\"boot\" data-wasm=\"{wasm}\" data-pack=\"{pack}\"");
    if !core.is_empty() {
        boot.push_str(&format!(" data-core=\"{core}\" data-book=\"{book}\""));
    }
    for (what, file) in *later {
        boot.push_str(&format!(" data-{what}=\"{file}\""));
    }
    let mut page: String =
        template.lines().filter(|line| !line.contains("data-trunk")).flat_map(|line| [line, "\n"]).collect();
    for (place, content) in [
        (POLICY, policy.as_str()),
        ("<!-- build: preload -->", preload.as_str()),
        ("<script id=\"boot\"", boot.as_str()),
        ("<!-- build: first screen -->", first_screen.trim()),
    ] {
        let (before, after) = page
            .split_once(place)
            .with_context(|| format!("The template has no {place:?} for the build to fill."))?;
        page = format!("{before}{content}{after}");
    }
    Ok(page)
}

/// A page without a program, with its policy in place.
pub(super) fn plain(template: &str, name: &str) -> Result<String> {
    once(template, POLICY, &policy(&headers::policy_in_page(name)))
}

/// Refuses a page with a link to a file that is not there, or with anything inline that the policy would block.
pub(super) fn check(page: &str, dist: &Path) -> Result<()> {
    for target in values(page, "href").chain(values(page, "src")) {
        let file = target.split(['#', '?']).next().unwrap_or_default();
        let inside = file.strip_prefix("./").unwrap_or(file);
        if inside.contains(':') || inside.starts_with('/') {
            bail!("The page points out of its own folder: {target:?}.");
        }
        if !inside.is_empty() && !dist.join(inside).is_file() {
            bail!("The page points to {target:?}, and there is no such file in the release.");
        }
    }
    for inline in [" style=\"", "<style", " onclick=\"", " onload=\"", "javascript:", "<script>"] {
        if page.contains(inline) {
            bail!("The page contains {inline:?}, which its own policy forbids: nothing inline.");
        }
    }
    Ok(())
}

/// The values of an attribute, wherever it stands.
pub(crate) fn values<'a>(page: &'a str, attribute: &str) -> impl Iterator<Item = &'a str> {
    let opening = format!(" {attribute}=\"");
    let mut rest = page;
    std::iter::from_fn(move || {
        let (_, after) = rest.split_once(opening.as_str())?;
        let (value, next) = after.split_once('"')?;
        rest = next;
        Some(value)
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    const TEMPLATE: &str = "<!-- build: policy -->\n<!-- build: preload -->\n<script id=\"boot\" src=\"b.js\"></script>\n\
                            <link data-trunk rel=\"rust\">\n<main><!-- build: first screen --></main>\n";
    const NAMES: Names<'_> =
        Names { wasm: "a.wasm", later: &[], core: "c.pack", book: "b.pack", pack: "12ab", whole: false };

    #[test]
    fn every_place_is_filled_and_nothing_of_trunk_remains() {
        let page = filled(TEMPLATE, &NAMES, "<h1>How long?</h1>\n").unwrap();
        assert!(page.contains("<main><h1>How long?</h1></main>"));
        assert!(page.contains("data-pack=\"12ab\" data-core=\"c.pack\" data-book=\"b.pack\" src=\"b.js\""));
        let none = filled(TEMPLATE, &Names { core: "", ..NAMES }, "").unwrap();
        assert!(!none.contains("c.pack") && !none.contains("data-book"));
        assert!(!page.contains("build:") && !page.contains("data-trunk"));
        assert!(filled(&TEMPLATE.replace("build: preload", "gone"), &NAMES, "").is_err());
        assert!(!page.contains("href=\"b.pack\""));
        let two = filled(TEMPLATE, &Names { later: &[("app", "l.js"), ("app-wasm", "l.wasm")], ..NAMES }, "")
            .unwrap();
        assert!(two.contains("data-app=\"l.js\" data-app-wasm=\"l.wasm\"") && !two.contains("\"l.js\" as="));
        let whole = filled(TEMPLATE, &Names { whole: true, ..NAMES }, "").unwrap();
        assert!(whole.contains("<link rel=\"preload\" href=\"b.pack\" as=\"fetch\" crossorigin>"));
    }

    #[test]
    fn dead_links_and_inline_code_are_refused() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
        assert!(
            check("<a href=\"Cargo.toml#x\"> <a href=\"#only-a-fragment\"> <a href=\"./\">", folder).is_ok()
        );
        for bad in [
            "<a href=\"missing.html\">",
            "<img src=\"https://example.org/x.png\">",
            "<a href=\"/Cargo.toml\">",
            "<p style=\"color: red\">",
            "<script>start()</script>",
        ] {
            assert!(check(bad, folder).is_err(), "{bad}");
        }
    }
}
