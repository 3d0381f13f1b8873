//! From a request to the bytes of the answer. Files are read anew each time, so that a test may change them.

use super::request::Request;
use crate::headers;
use std::path::PathBuf;

/// What is served, and below which path.
pub(super) struct Site {
    pub(super) folder: PathBuf,
    /// Begins and ends with a slash.
    pub(super) under: String,
}

impl Site {
    /// The whole answer, head and body.
    pub(super) fn answer(&self, request: &Request) -> Vec<u8> {
        let with_body = request.method == "GET";
        if !with_body && request.method != "HEAD" {
            return plain(405, "Only GET and HEAD are answered here.", &[("Allow", "GET, HEAD")], true);
        }
        if format!("{}/", request.path) == self.under {
            return plain(308, "The page is one slash further.", &[("Location", &self.under)], with_body);
        }
        let Some(name) = request.path.strip_prefix(&self.under).and_then(file_name) else {
            return plain(404, "There is no such page here.", &[], with_body);
        };
        let Some((bytes, packing)) = self.read(&name, &request.accepts) else {
            return plain(404, "There is no such file here.", &[], with_body);
        };
        let mut head =
            vec![("Content-Type", headers::media_type(&name)), ("Vary", "Accept-Encoding".to_owned())];
        head.extend(headers::of(&name));
        if let Some(packing) = packing {
            head.push(("Content-Encoding", packing.to_owned()));
        }
        assemble(200, &head, &bytes, with_body)
    }

    /// The file, packed if the other side can undo it and a packed copy stands beside it.
    fn read(&self, name: &str, accepts: &str) -> Option<(Vec<u8>, Option<&'static str>)> {
        let takes = |packing: &str| {
            accepts.split(',').any(|one| one.split(';').next().is_some_and(|word| word.trim() == packing))
        };
        for (packing, ending) in [("br", "br"), ("gzip", "gz")] {
            if takes(packing)
                && let Ok(bytes) = std::fs::read(self.folder.join(format!("{name}.{ending}")))
            {
                return Some((bytes, Some(packing)));
            }
        }
        std::fs::read(self.folder.join(name)).ok().map(|bytes| (bytes, None))
    }
}

/// The file behind a path, or none for anything that could lead out of the folder.
fn file_name(path: &str) -> Option<String> {
    let plain = path.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"-_./".contains(&byte));
    let inside = path.split('/').all(|part| part != ".." && part != ".") && !path.starts_with('/');
    (plain && inside).then(|| {
        if path.is_empty() || path.ends_with('/') { format!("{path}index.html") } else { path.to_owned() }
    })
}

fn plain(status: u16, sentence: &str, more: &[(&'static str, &str)], with_body: bool) -> Vec<u8> {
    let mut head = vec![
        ("Content-Type", "text/plain; charset=utf-8".to_owned()),
        ("Cache-Control", "no-store".to_owned()),
    ];
    head.extend(more.iter().map(|(name, value)| (*name, (*value).to_owned())));
    assemble(status, &head, format!("{sentence}\n").as_bytes(), with_body)
}

fn assemble(status: u16, head: &[(&str, String)], body: &[u8], with_body: bool) -> Vec<u8> {
    let reason = match status {
        200 => "OK",
        308 => "Permanent Redirect",
        404 => "Not Found",
        _ => "Method Not Allowed",
    };
    let mut text = format!("HTTP/1.1 {status} {reason}\r\nContent-Length: {}\r\n", body.len());
    for (name, value) in head {
        text.push_str(&format!("{name}: {value}\r\n"));
    }
    text.push_str("\r\n");
    let mut answer = text.into_bytes();
    if with_body {
        answer.extend_from_slice(body);
    }
    answer
}

#[cfg(test)]
mod tests {
    use super::file_name;

    #[test]
    fn no_path_leads_out_of_the_folder() {
        for bad in ["../Cargo.toml", "a/../../b", "/etc/passwd", "a/./b", "%2e%2e/b", "a\\b", "a b"] {
            assert_eq!(file_name(bad), None, "{bad}");
        }
        assert_eq!(file_name("").as_deref(), Some("index.html"));
        assert_eq!(file_name("packs/core-1.pack").as_deref(), Some("packs/core-1.pack"));
    }
}
