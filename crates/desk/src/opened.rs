//! A finished pack of somebody else's: read with distrust, told what it is.

use crate::signature::{Keys, Verdict, judge};
use consult::Guide;
use sha2::{Digest, Sha256};

/// The year that a pack is tried with: whether it can be opened does not depend on it.
const YEAR: i16 = 2000;

/// What a pack is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opened {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// The day of its edition.
    pub edition: String,
    /// Its licence.
    pub licence: String,
    /// SHA-256 of the file, 64 hexadecimal digits.
    pub digest: String,
    /// Of its signature.
    pub verdict: Verdict,
}

/// Opens the bytes of a pack. `known` are the keys of clubs met before, one a line: id, a space, key.
///
/// # Errors
/// A sentence that says why not.
pub fn open(bytes: &[u8], signature: Option<&str>, typed: &str, known: &str) -> Result<Opened, String> {
    let (whole, core, _) = pack::read_whole(bytes).map_err(|e| e.0)?;
    // What the question page does with it: were that refused, it would be refused too late.
    Guide::from_bytes(whole.core, whole.book, YEAR)?;
    let typed = typed.trim();
    if !typed.is_empty() && !pack::is_key(typed) {
        return Err(format!(
            "What was typed is not a public key: it is a line of {} letters and digits, the second of the club's .pub file.",
            pack::KEY
        ));
    }
    let head = core.head;
    let of_club =
        |line: &str| line.split_once(' ').filter(|(id, _)| *id == head.id).map(|(_, key)| key.to_string());
    let known = known.lines().find_map(of_club).filter(|key| pack::is_key(key)).unwrap_or_default();
    let verdict = judge(bytes, signature, Keys { own: whole.key, typed, known: &known });
    let digest: [u8; 32] = Sha256::digest(bytes).into();
    let digest = digest.iter().map(|b| format!("{b:02x}")).collect();
    Ok(Opened { id: head.id, name: head.name, edition: head.edition, licence: head.licence, digest, verdict })
}
