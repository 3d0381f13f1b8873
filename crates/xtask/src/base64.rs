//! Bytes as text (RFC 4648, section 4): for what is written into a page.

const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// The bytes as base64, padded.
pub(crate) fn text(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let at = |place: usize| u32::from(three.get(place).copied().unwrap_or(0));
        let bits = at(0) << 16 | at(1) << 8 | at(2);
        for place in 0..4 {
            let sign = SIGNS[(bits >> (18 - 6 * place) & 63) as usize];
            text.push(if place > three.len() { '=' } else { char::from(sign) });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::text;

    #[test]
    fn it_is_the_base64_of_the_standard() {
        // Published: RFC 4648, section 10.
        for (bytes, written) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(text(bytes.as_bytes()), written);
        }
        assert_eq!(text(&[0xfb, 0xff]), "+/8=");
    }
}
