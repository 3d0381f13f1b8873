//! The identity of a record, a version: 128 bits that are given, never made here.

use super::value::Value;

/// A universally unique id, written as RFC 9562 writes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Uuid(pub [u8; 16]);

impl Uuid {
    /// An id of version 4 out of sixteen random bytes (RFC 9562, 5.4).
    #[must_use]
    pub fn of_random(mut bytes: [u8; 16]) -> Uuid {
        bytes[6] = bytes[6] & 0x0f | 0x40;
        bytes[8] = bytes[8] & 0x3f | 0x80;
        Uuid(bytes)
    }

    /// Whether it is all zero, which stands for no id.
    #[must_use]
    pub fn is_none(self) -> bool {
        self == Uuid::default()
    }

    /// `6f0c6a52-6c0e-4b0e-9f55-0d6f3f3c1a01`, in either case; nothing else.
    #[must_use]
    pub fn parse(text: &str) -> Option<Uuid> {
        let bytes = text.as_bytes();
        if bytes.len() != 36 {
            return None;
        }
        let mut out = [0_u8; 16];
        let mut digits = 0;
        for (at, b) in bytes.iter().enumerate() {
            if matches!(at, 8 | 13 | 18 | 23) {
                if *b != b'-' {
                    return None;
                }
                continue;
            }
            let digit = char::from(*b).to_digit(16)? as u8;
            out[digits / 2] = out[digits / 2] << 4 | digit;
            digits += 1;
        }
        Some(Uuid(out))
    }

    /// The first eight digits, for a name that a person can read.
    #[must_use]
    pub fn short(self) -> String {
        let mut text = self.to_string();
        text.truncate(8);
        text
    }
}

impl core::fmt::Display for Uuid {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&hex(&self.0, &[4, 6, 8, 10]))
    }
}

/// Bytes as digits of base 16, with a dash before the bytes named.
pub(crate) fn hex(bytes: &[u8], dashes: &[usize]) -> String {
    let digit = |d: u8| char::from(b"0123456789abcdef"[usize::from(d & 15)]);
    let mut out = String::with_capacity(bytes.len() * 2 + dashes.len());
    for (at, b) in bytes.iter().enumerate() {
        if dashes.contains(&at) {
            out.push('-');
        }
        out.extend([digit(b >> 4), digit(*b)]);
    }
    out
}

impl Value for Uuid {
    fn shown(&self) -> String {
        if self.is_none() { String::new() } else { self.to_string() }
    }

    fn read(text: &str) -> Result<Uuid, String> {
        Uuid::parse(text).filter(|id| !id.is_none()).ok_or_else(|| {
            format!(
                "\u{201c}{}\u{201d} is no id: 32 digits of base 16 in five groups.",
                super::value::short(text)
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_the_standard_writes_it() {
        // Published: RFC 9562, appendix A.3, an example of version 4.
        let text = "919108f7-52d1-4320-9bac-f847db4148a8";
        let id = Uuid::parse(text).unwrap_or_default();
        assert_eq!(id.to_string(), text);
        assert_eq!(Uuid::of_random(id.0), id, "version and variant stand already");
        assert_eq!(Uuid::parse(&text.to_uppercase()), Some(id));
        assert_eq!(id.short(), "919108f7");
        for wrong in
            ["", "919108f752d143209bacf847db4148a8", "919108f7-52d1-4320-9bac-f847db4148ag", "\u{e9}"]
        {
            assert_eq!(Uuid::parse(wrong), None, "{wrong}");
        }
        assert_eq!(Uuid::of_random([0xff; 16]).to_string(), "ffffffff-ffff-4fff-bfff-ffffffffffff");
    }
}
