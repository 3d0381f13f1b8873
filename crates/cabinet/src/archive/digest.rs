//! The name of a photograph: SHA-256 of its bytes (FIPS 180-4).

use crate::record::hex;
use sha2::{Digest, Sha256};

/// The digest as 64 digits.
#[must_use]
pub fn digest(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes), &[])
}

#[cfg(test)]
mod tests {
    #[test]
    fn known_digest() {
        // Published: FIPS 180-4 example, "abc".
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(super::digest(b"abc"), abc);
    }
}
