//! The edition of one file: the question page with its whole program, its scripts, styles and tables in the page itself, so that it
//! opens from a memory stick. Its policy names the scripts and styles by their digests and lets nothing be fetched.
//!
//! The files stand in it as plain base64. Packed they would have two thirds of the size, and would need either a newer browser or
//! an unpacker of our own; a memory stick has room.

use super::change::{once, without_lines};
use super::html;
use crate::base64;
use crate::headers;
use anyhow::{Result, bail};
use sha2::{Digest, Sha256};

/// What it is made of.
pub(super) struct Parts<'a> {
    /// The start page with the names of the sources, filled for the whole program.
    pub(super) page: String,
    pub(super) styles: String,
    /// Before anything is painted.
    pub(super) early: String,
    /// Modules: the start script, what is different in this edition, the darkroom.
    pub(super) modules: [String; 3],
    /// The icon as SVG.
    pub(super) icon: &'a [u8],
    /// Names and bytes of the files that the programs ask for.
    pub(super) files: Vec<(&'a str, Vec<u8>)>,
    /// What the page says of itself.
    pub(super) says: &'a str,
}

/// The page.
pub(super) fn made(parts: &Parts<'_>) -> Result<String> {
    let Parts { page, styles, early, modules: [boot, own, darkroom], icon, files, says } = parts;
    for script in [early, boot, own, darkroom] {
        // Either would end the script for the reader of the page, or begin something else in it.
        if script.contains("</script") || script.contains("<!--") {
            bail!("A script that goes into the edition of one file contains \"</script\" or \"<!--\".");
        }
    }
    if styles.contains("</style") {
        bail!("The styles that go into the edition of one file contain \"</style\".");
    }
    let page = [
        "<link rel=\"preload\"",
        "<link rel=\"modulepreload\"",
        "<link rel=\"manifest\"",
        "<link rel=\"apple-touch-icon\"",
    ]
    .into_iter()
    .try_fold(page.clone(), |page, line| without_lines(&page, line))?;
    let digests: Vec<String> = [early, boot, own, darkroom].map(|text| digest(text)).to_vec();
    let policy = format!(
        "default-src 'none'; script-src {} 'wasm-unsafe-eval'; style-src {}; img-src blob: data:; base-uri 'none'; \
         form-action 'none'; require-trusted-types-for 'script'; trusted-types pressmark pressmark-darkroom",
        digests.join(" "),
        digest(styles)
    );
    let page = once(&page, &html::policy(headers::POLICY), &html::policy(&policy))?;
    let page = once(&page, "<script src=\"early.js\"></script>", &format!("<script>{early}</script>"))?;
    let page =
        once(&page, "<link rel=\"stylesheet\" href=\"styles.css\">", &format!("<style>{styles}</style>"))?;
    let page = once(
        &page,
        " type=\"module\" src=\"boot.js\"></script>",
        &format!(" data-alone type=\"module\">{boot}</script>"),
    )?;
    // What the start script tells is listened to from before it begins.
    let page = once(
        &page,
        "<script id=\"boot\"",
        &format!("<script type=\"module\">{own}</script>\n<script id=\"boot\""),
    )?;
    let icon = format!("href=\"data:image/svg+xml;base64,{}\"", base64::text(icon));
    let page = once(&page, "href=\"icon.svg\"", &icon)?;
    // There is no other page.
    let page = once(&page, "id=\"trouble-again\" href=\"./\"", "id=\"trouble-again\" href=\"#\"")?;
    let page = once(&page, " <a href=\"key.html\">Use the printed key</a>", "")?;
    let page = once(&page, " <a href=\"key.html\">The printed key</a> does without.", "")?;
    let mut held = format!("<script type=\"module\">{darkroom}</script>\n");
    for (name, bytes) in files {
        held.push_str(&format!(
            "<script type=\"application/octet-stream\" id=\"held-{name}\">{}</script>\n",
            base64::text(bytes)
        ));
    }
    once(&page, "</body>", &format!("{says}{held}</body>"))
}

/// As a policy names an inline script (CSP Level 3, hash-source).
fn digest(text: &str) -> String {
    format!("'sha256-{}'", base64::text(&Sha256::digest(text.as_bytes())))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    const PAGE: &str = "<script src=\"early.js\"></script>\n<link rel=\"stylesheet\" href=\"styles.css\">\n\
                        <link rel=\"preload\" href=\"x\">\n<link rel=\"modulepreload\" href=\"boot.js\">\n<script id=\"boot\" type=\"module\" src=\"boot.js\"></script>\n\
                        <link rel=\"manifest\" href=\"m\">\n<link rel=\"icon\" href=\"icon.svg\">\n<link rel=\"apple-touch-icon\" href=\"i\">\n\
                        <a id=\"trouble-again\" href=\"./\">Try again</a> <a href=\"key.html\">Use the printed key</a>\n\
                        <p>It needs JavaScript. <a href=\"key.html\">The printed key</a> does without.</p>\n</body>\n";

    fn parts() -> Parts<'static> {
        Parts {
            page: format!("{}\n{PAGE}", html::policy(headers::POLICY)),
            styles: "a{}".to_owned(),
            early: "early()".to_owned(),
            modules: ["boot()", "own()", "alert('Hello, world.');"].map(str::to_owned),
            icon: b"<svg/>",
            files: vec![("a-1.wasm", vec![0, 1])],
            says: "<footer></footer>\n",
        }
    }

    #[test]
    fn all_stands_in_the_page_and_nothing_leads_out_of_it() {
        let page = made(&parts()).unwrap();
        for gone in [" src=\"", "key.html", "href=\"./\"", "manifest", "build:"] {
            assert!(!page.contains(gone), "{gone}");
        }
        assert!(page.contains("id=\"held-a-1.wasm\">AAE=</script>"));
        assert!(page.contains("<script id=\"boot\" data-alone type=\"module\">boot()</script>"));
        // Published: the example of CSP Level 3, 8.3, for the script alert('Hello, world.');
        assert!(page.contains("'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"));
    }

    #[test]
    fn a_script_that_would_end_early_is_refused() {
        let mut bad = parts();
        bad.early = "x = '</script>'".to_owned();
        assert!(made(&bad).is_err());
        bad.early = "x = '<!--'".to_owned();
        assert!(made(&bad).is_err());
    }
}
