//! What a file is sent with. The one table for the server here, for the examples of other servers, for `_headers` in the
//! release, and for the policy that a page carries itself.

use crate::digest;

/// What a page may do: its own files, wasm, and pictures that the user gave it. Nothing inline, nothing from
/// elsewhere. Three trusted-types policies, for the addresses of the service worker, of the darkroom and of the desk.
pub(crate) const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
                                 img-src 'self' blob: data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; \
                                 base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; \
                                 trusted-types pressmark pressmark-darkroom pressmark-desk";
/// May stand in the page of any other site, one that is opened from a file among them: of `frame-ancestors` nothing is said.
pub(crate) const FRAME: &str = "frame.html";
/// Shows that page in frames of its own.
pub(crate) const CLUB: &str = "club.html";

/// Scripts that start workers of themselves, by their names before the digest.
const WORKERS: [&str; 2] = ["darkroom", "desk"];

/// Which files a header is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Files {
    /// All of them.
    Every,
    /// Pages, the folder itself (which stands for its start page) and the service worker.
    Pages,
    /// One of this name.
    Named(&'static str),
    /// Those that carry their digest in their names.
    Lasting,
    /// Scripts that are workers as well.
    Workers,
}

impl Files {
    /// Whether a file is one of them.
    fn has(self, name: &str) -> bool {
        match self {
            Files::Every => true,
            Files::Pages => name.is_empty() || name.ends_with(".html") || name == "sw.js",
            Files::Named(one) => name == one,
            Files::Lasting => digest::is_named(name),
            Files::Workers => {
                let of = |worker: &&str| name.strip_prefix(*worker).is_some_and(|rest| rest.starts_with('-'));
                digest::is_named(name) && name.ends_with(".js") && WORKERS.iter().any(of)
            }
        }
    }

    /// The same as a regular expression over the end of a path, as nginx, Apache and Caddy read them.
    pub(crate) fn pattern(self) -> String {
        match self {
            Files::Every => String::new(),
            Files::Pages => "(/|[.]html|/sw[.]js)$".to_owned(),
            Files::Named(one) => format!("/{}$", one.replace('.', "[.]")),
            Files::Lasting => "-[0-9a-f]{16}[.][a-z]+$".to_owned(),
            Files::Workers => format!("/({})-[0-9a-f]{{16}}[.]js$", WORKERS.join("|")),
        }
    }
}

/// A header by what it is called, with its value for some files, and for others. The first that has a file counts; an empty
/// value is not sent.
pub(crate) type Header = (&'static str, Vec<(Files, String)>);

/// The whole table.
pub(crate) fn table() -> Vec<Header> {
    let every = |name, value: &str| (name, vec![(Files::Every, value.to_owned())]);
    let mut table = vec![
        every("X-Content-Type-Options", "nosniff"),
        every("Referrer-Policy", "no-referrer"),
        every("Cross-Origin-Opener-Policy", "same-origin"),
        every("Permissions-Policy", "camera=(), microphone=(), geolocation=(), payment=(), usb=()"),
    ];
    let [frame, club] = [FRAME, CLUB].map(Files::Named);
    table.push((
        "Content-Security-Policy",
        vec![
            (frame, policy_in_page(FRAME)),
            (club, format!("{}; frame-ancestors 'self'", policy_in_page(CLUB))),
            (Files::Pages, format!("{POLICY}; frame-ancestors 'self'")),
        ],
    ));
    // A host page that lets nothing in without being asked (COEP) takes the frame only with these; the worker of a frame that
    // carries the first must carry it too.
    let strict = "require-corp".to_owned();
    table.push(("Cross-Origin-Embedder-Policy", vec![(frame, strict.clone()), (Files::Workers, strict)]));
    let (none, any) = (String::new(), "cross-origin".to_owned());
    table.push((
        "Cross-Origin-Resource-Policy",
        vec![(frame, any.clone()), (Files::Pages, none.clone()), (Files::Every, any)],
    ));
    // In a host page without an origin of its own, as the boxes for snippets of many site builders are, the frame has none either,
    // and its own files come to it from elsewhere. They are public and the same for all.
    table.push(("Access-Control-Allow-Origin", vec![(Files::Pages, none), (Files::Every, "*".to_owned())]));
    table.push((
        "Cache-Control",
        vec![
            (Files::Lasting, "public, max-age=31536000, immutable".to_owned()),
            (Files::Every, "no-cache".to_owned()),
        ],
    ));
    table
}

/// What a file is sent with, its type and packing left out. The start page is the empty name.
pub(crate) fn of(name: &str) -> Vec<(&'static str, String)> {
    let value = |values: Vec<(Files, String)>| {
        values.into_iter().find(|(files, _)| files.has(name)).map(|(_, value)| value)
    };
    let all = table().into_iter().filter_map(|(header, values)| Some((header, value(values)?)));
    all.filter(|(_, value)| !value.is_empty()).collect()
}

/// The policy as a page's own `<meta>`: hosts that send no headers still get it. `frame-ancestors` has no effect there and is
/// left out.
pub(crate) fn policy_in_page(name: &str) -> String {
    if name == CLUB { format!("{POLICY}; frame-src 'self'") } else { POLICY.to_owned() }
}

/// The media types by ending; all else is bytes. Packs are named because servers take them for something else.
pub(crate) const TYPES: [(&str, &str); 10] = [
    ("html", "text/html"),
    ("css", "text/css"),
    ("js", "text/javascript"),
    ("wasm", "application/wasm"),
    ("webmanifest", "application/manifest+json"),
    ("svg", "image/svg+xml"),
    ("png", "image/png"),
    ("json", "application/json"),
    ("txt", "text/plain"),
    ("pack", "application/octet-stream"),
];

/// The media type of a file, with its encoding where it is text.
pub(crate) fn media_type(name: &str) -> String {
    let ending = name.rsplit_once('.').map_or("", |(_, ending)| ending);
    let known = TYPES.iter().find(|(one, _)| *one == ending).map(|(_, media)| *media);
    match known {
        Some(text) if text.starts_with("text/") => format!("{text}; charset=utf-8"),
        Some(media) => media.to_owned(),
        None => "application/octet-stream".to_owned(),
    }
}

/// The same as a `_headers` file, for static hosts that read one. `names` are the files of the release, which lie in the folder
/// `under`: empty for the root of a site, or `/` and a name.
pub(crate) fn file(names: &[String], under: &str) -> String {
    // What all have stands first and once: hosts join what they find for a file.
    let common = of("");
    let common: Vec<_> = common.into_iter().filter(|(header, _)| is_for_all(header)).collect();
    let mut text = format!("{under}/*\n");
    for (header, value) in &common {
        text.push_str(&format!("  {header}: {value}\n"));
    }
    let all = [""].into_iter().chain(names.iter().map(String::as_str));
    for name in all {
        text.push_str(&format!("{under}/{name}\n"));
        for (header, value) in of(name).into_iter().filter(|(header, _)| !is_for_all(header)) {
            text.push_str(&format!("  {header}: {value}\n"));
        }
        if name.ends_with(".wasm") || name.ends_with(".webmanifest") {
            text.push_str(&format!("  Content-Type: {}\n", media_type(name)));
        }
    }
    text
}

fn is_for_all(header: &str) -> bool {
    table()
        .iter()
        .any(|(name, values)| *name == header && values.first().is_some_and(|v| v.0 == Files::Every))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    fn value(file: &str, header: &str) -> Option<String> {
        of(file).into_iter().find(|(name, _)| *name == header).map(|(_, value)| value)
    }

    #[test]
    fn only_names_with_a_digest_are_kept_for_good() {
        assert!(value("app-0123456789abcdef.wasm", "Cache-Control").unwrap().contains("immutable"));
        for name in ["", "index.html", "sw.js", "key.html", "embed.js", FRAME] {
            assert_eq!(value(name, "Cache-Control").unwrap(), "no-cache", "{name}");
        }
    }

    #[test]
    fn one_page_may_be_framed_by_others_and_no_page_may_do_more_than_the_rest() {
        for name in
            ["", "index.html", "book.html", "cabinet.html", "practice.html", "key.html", "sw.js", CLUB]
        {
            let policy = value(name, "Content-Security-Policy").unwrap();
            assert!(policy.starts_with(POLICY) && policy.ends_with("; frame-ancestors 'self'"), "{name}");
            assert!(value(name, "Access-Control-Allow-Origin").is_none(), "{name}");
        }
        assert_eq!(value(FRAME, "Content-Security-Policy").unwrap(), POLICY);
        assert!(!POLICY.contains("unsafe-inline") && !POLICY.contains("'unsafe-eval'"));
        assert_eq!(value("boot-0123456789abcdef.js", "Content-Security-Policy"), None);
    }

    #[test]
    fn the_file_for_static_hosts_says_of_each_file_what_the_table_says() {
        let names = [FRAME, "index.html", "app-0123456789abcdef.wasm"].map(str::to_owned);
        for (under, file) in [("", file(&names, "")), ("/pressmark", file(&names, "/pressmark"))] {
            assert!(file.starts_with(&format!("{under}/*\n  X-Content-Type-Options: nosniff\n")), "{file}");
            let block = |name: &str| {
                let begin = format!("\n{under}/{name}\n");
                let (_, rest) = file.split_once(begin.as_str()).unwrap();
                rest.split("\n/").next().unwrap().to_owned()
            };
            assert!(block(FRAME).contains("Cross-Origin-Embedder-Policy: require-corp"));
            assert!(
                block("").contains("frame-ancestors 'self'") && !block(FRAME).contains("frame-ancestors")
            );
            assert!(block("app-0123456789abcdef.wasm").contains("Content-Type: application/wasm"));
        }
    }
}
