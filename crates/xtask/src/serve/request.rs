//! Reads the head of an HTTP request. Bodies are not for this server: it only gives files away.

use std::io::{BufRead, Read};

/// More than any browser sends; a longer head ends the connection.
const LIMIT: u64 = 64 * 1024;

/// What matters of a request.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Request {
    pub(super) method: String,
    pub(super) path: String,
    /// What packings the other side can undo, as it said.
    pub(super) accepts: String,
    /// The connection ends after the answer.
    pub(super) last: bool,
}

/// The next request, or none when the connection is over or makes no sense.
pub(super) fn read(reader: &mut impl BufRead) -> Option<Request> {
    let mut head = reader.take(LIMIT);
    let mut line = String::new();
    head.read_line(&mut line).ok()?;
    let mut words = line.split_ascii_whitespace();
    let (method, target, version) = (words.next()?.to_owned(), words.next()?, words.next()?);
    let path = target.split(['?', '#']).next().unwrap_or_default().to_owned();
    let mut request = Request { method, path, accepts: String::new(), last: version != "HTTP/1.1" };
    loop {
        let mut line = String::new();
        if head.read_line(&mut line).ok()? == 0 {
            return None;
        }
        let line = line.trim_end();
        if line.is_empty() {
            return Some(request);
        }
        let (name, value) = line.split_once(':')?;
        match name.to_ascii_lowercase().as_str() {
            "accept-encoding" => request.accepts = value.to_ascii_lowercase(),
            "connection" if value.trim().eq_ignore_ascii_case("close") => request.last = true,
            // A body would be taken for the next request.
            "content-length" if value.trim() != "0" => request.last = true,
            "transfer-encoding" => request.last = true,
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    #[test]
    fn the_head_is_read_and_the_query_dropped() {
        let text = b"GET /a/b.js?x=1 HTTP/1.1\r\nHost: here\r\nAccept-Encoding: gzip, BR\r\n\r\nGET / HTTP/1.0\r\n\r\n";
        let mut reader = &text[..];
        let first = read(&mut reader).unwrap();
        assert_eq!(
            (first.path.as_str(), first.accepts.as_str(), first.last),
            ("/a/b.js", " gzip, br", false)
        );
        let second = read(&mut reader).unwrap();
        assert_eq!((second.path.as_str(), second.last), ("/", true));
        assert_eq!(read(&mut reader), None);
    }

    #[test]
    fn a_head_that_does_not_end_is_no_request() {
        assert_eq!(read(&mut &b"GET / HTTP/1.1\r\nHost: here\r\n"[..]), None);
        let endless = [b"GET / HTTP/1.1\r\n".as_slice(), &b"a: b\r\n".repeat(20_000), b"\r\n"].concat();
        assert_eq!(read(&mut endless.as_slice()), None);
    }
}
