//! Whether a pack is as its club signed it. Signatures are Ed25519 (RFC 8032) in the format of minisign.
//!
//! The key may be typed, known from a pack of the same id that was opened before, or stand in the pack. The last proves only
//! that whoever signed it also wrote the key into it; so a key that is met for the first time is said to be that, and one
//! that is another than before as well.

use minisign_verify::{PublicKey, Signature};

/// In a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Signed {
    /// Signed, and unchanged since.
    Unchanged,
    /// Nothing can be said.
    Unsigned,
    /// It is not what was signed.
    Damaged,
}

impl Signed {
    /// The word, for whoever keeps it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Signed::Unchanged => "signed",
            Signed::Unsigned => "unsigned",
            Signed::Damaged => "damaged",
        }
    }
}

/// Public keys in Base64, each empty where there is none.
#[derive(Debug, Clone, Copy, Default)]
pub struct Keys<'a> {
    /// In the pack.
    pub own: &'a str,
    /// Typed by the person who opens it.
    pub typed: &'a str,
    /// By which a pack of this id was found signed before.
    pub known: &'a str,
}

/// What a signature says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Verdict {
    /// In a word.
    pub signed: Signed,
    /// In a sentence or two.
    pub says: String,
    /// The key to know this club by from now on; empty for none.
    pub key: String,
}

/// Judges the bytes of a pack by the text of a `.minisig`, when there is one.
#[must_use]
pub fn judge(bytes: &[u8], signature: Option<&str>, keys: Keys<'_>) -> Verdict {
    let of = |signed, says: &str, key: &str| Verdict { signed, says: says.to_string(), key: key.to_string() };
    let Keys { own, typed, known } = keys;
    let Some(signature) = signature else {
        return match known {
            "" => of(Signed::Unsigned, "Unsigned: nobody vouches that it is as its club made it.", ""),
            known => of(
                Signed::Unsigned,
                "Unsigned, though this club has signed before. Ask the club before you rely on it.",
                known,
            ),
        };
    };
    let holds = |key: &str| {
        let (key, signature) = (PublicKey::from_base64(key), Signature::decode(signature));
        key.ok().zip(signature.ok()).is_some_and(|(key, signature)| {
            // Both ways of minisign to sign: the older signs the bytes, the newer their digest.
            key.verify(bytes, &signature, true).is_ok()
        })
    };
    let key = [typed, known, own].into_iter().find(|key| !key.is_empty());
    let Some(key) = key else {
        let says = "Unsigned, as far as can be told: a signature came with it, but no key to check it by. Type the key that \
                    the club publishes.";
        return of(Signed::Unsigned, says, "");
    };
    if holds(key) {
        let says = match () {
            () if !known.is_empty() && known != key => {
                "Signed and unchanged, by the key that you typed, which is another than this club's before."
            }
            () if typed.is_empty() && known.is_empty() => {
                "Signed and unchanged, by the key that stands in it, met here for the first time. Compare it with the one \
                 that the club publishes."
            }
            () => "Signed and unchanged, by the key of this club.",
        };
        return of(Signed::Unchanged, says, key);
    }
    if typed.is_empty() && !known.is_empty() && known != own && holds(own) {
        let says = "Signed with another key than this club's packs before. Ask the club whether it changed its key, and type \
                    the new one; until then take it for unsigned.";
        return of(Signed::Unsigned, says, known);
    }
    let says = "Damaged: it is not what was signed, or it was signed with another key.";
    of(Signed::Damaged, says, known)
}
