//! SHA-256 as text, and names made of it.

use sha2::{Digest, Sha256};

/// The whole digest, 64 hexadecimal digits.
pub(crate) fn hex(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The first 16 hexadecimal digits: 64 bits, enough to tell files of one site apart.
pub(crate) fn short(bytes: &[u8]) -> String {
    hex(bytes).chars().take(16).collect()
}

/// `boot.js` becomes `boot-0123456789abcdef.js`.
pub(crate) fn named(name: &str, bytes: &[u8]) -> String {
    match name.rsplit_once('.') {
        Some((stem, ending)) => format!("{stem}-{}.{ending}", short(bytes)),
        None => format!("{name}-{}", short(bytes)),
    }
}

/// Whether a file name carries its digest, so that the file behind it can never change.
pub(crate) fn is_named(name: &str) -> bool {
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    stem.rsplit_once('-').is_some_and(|(_, digest)| {
        digest.len() == 16 && digest.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f'))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_digest_is_sha_256() {
        // Published: FIPS 180-4 example, SHA-256 of "abc".
        assert_eq!(hex(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    #[test]
    fn names_carry_their_digest_and_are_recognised() {
        assert_eq!(named("boot.js", b"abc"), "boot-ba7816bf8f01cfea.js");
        assert!(is_named("boot-ba7816bf8f01cfea.js"));
        assert!(!is_named("boot.js"));
        assert!(!is_named("sw-off.js"));
        assert!(!is_named("boot-BA7816BF8F01CFEA.js"));
    }
}
