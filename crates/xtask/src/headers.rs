//! What a file is sent with. The one table for the server here, for `_headers` in the release, and for the policy that
//! the page carries itself.

use crate::digest;

/// What the page may do: its own files, wasm, and pictures that the user gave it. Nothing inline, nothing from
/// elsewhere. Three trusted-types policies, for the addresses of the service worker, of the darkroom and of the desk.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
                      img-src 'self' blob: data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; \
                      base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; \
                      trusted-types pressmark pressmark-darkroom pressmark-desk";

/// The policy as the page's own `<meta>`: hosts that send no headers still get it. `frame-ancestors` has no effect
/// there and is left out.
pub(crate) fn policy_in_page() -> &'static str {
    POLICY
}

/// For every file.
pub(crate) const ALWAYS: [(&str, &str); 4] = [
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Permissions-Policy", "camera=(), microphone=(), geolocation=(), payment=(), usb=()"),
];

/// For pages and the service worker: the policy as a header.
pub(crate) fn policy() -> (&'static str, String) {
    ("Content-Security-Policy", format!("{POLICY}; frame-ancestors 'self'"))
}

/// Whether a file gets the policy.
pub(crate) fn has_policy(name: &str) -> bool {
    name.ends_with(".html") || name == "sw.js"
}

/// Names that carry a digest never change; all others are asked for anew each time.
pub(crate) fn caching(name: &str) -> &'static str {
    if digest::is_named(name) { "public, max-age=31536000, immutable" } else { "no-cache" }
}

/// The media type by ending.
pub(crate) fn media_type(name: &str) -> &'static str {
    match name.rsplit_once('.').map_or("", |(_, ending)| ending) {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "json" => "application/json",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// The same as a `_headers` file, for static hosts that read one. `names` are the files of the release.
pub(crate) fn file(names: &[String]) -> String {
    let mut text = String::from("/*\n");
    for (name, value) in ALWAYS {
        text.push_str(&format!("  {name}: {value}\n"));
    }
    let (policy_name, policy) = policy();
    text.push_str(&format!("/\n  {policy_name}: {policy}\n  Cache-Control: no-cache\n"));
    for name in names {
        text.push_str(&format!("/{name}\n  Cache-Control: {}\n", caching(name)));
        if has_policy(name) {
            text.push_str(&format!("  {policy_name}: {policy}\n"));
        }
        if name.ends_with(".wasm") || name.ends_with(".webmanifest") {
            text.push_str(&format!("  Content-Type: {}\n", media_type(name)));
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_names_with_a_digest_are_kept_for_good() {
        assert!(caching("app-0123456789abcdef.wasm").contains("immutable"));
        for name in ["index.html", "sw.js", "key.html"] {
            assert_eq!(caching(name), "no-cache", "{name}");
        }
    }

    #[test]
    fn the_header_forbids_foreign_frames_and_the_page_policy_says_the_same_of_all_else() {
        let (_, header) = policy();
        assert!(header.starts_with(policy_in_page()));
        assert!(header.ends_with("frame-ancestors 'self'"));
        assert!(!header.contains("unsafe-inline") && !header.contains("'unsafe-eval'"));
    }
}
