//! Signatures by the independent tool minisign, and what is said of them.
#![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]

use desk::{Keys, Signed, judge};

// Basis: files made by minisign 0.11 (fixtures/sign.sh).
const MESSAGE: &[u8] = include_bytes!("fixtures/message.txt");
const FIRST: &str = include_str!("fixtures/first.minisig");
const LEGACY: &str = include_str!("fixtures/first-legacy.minisig");
const SECOND: &str = include_str!("fixtures/second.minisig");

fn key(file: &str) -> &str {
    file.lines().nth(1).unwrap()
}

fn keys() -> [&'static str; 2] {
    [key(include_str!("fixtures/first.pub")), key(include_str!("fixtures/second.pub"))]
}

#[test]
fn what_minisign_signed_is_signed_and_unchanged() {
    let [first, _] = keys();
    for signature in [FIRST, LEGACY] {
        for keys in [
            Keys { own: first, ..Keys::default() },
            Keys { typed: first, ..Keys::default() },
            Keys { known: first, ..Keys::default() },
        ] {
            let verdict = judge(MESSAGE, Some(signature), keys);
            assert_eq!(
                (verdict.signed, verdict.key.as_str()),
                (Signed::Unchanged, first),
                "{}",
                verdict.says
            );
        }
    }
}

#[test]
fn every_changed_byte_is_damage() {
    let [first, _] = keys();
    let own = Keys { own: first, ..Keys::default() };
    for at in 0..MESSAGE.len() {
        let mut other = MESSAGE.to_vec();
        other[at] ^= 1;
        assert_eq!(judge(&other, Some(FIRST), own).signed, Signed::Damaged, "byte {at}");
    }
    let text = FIRST.replace("an invented club", "a real club");
    assert_eq!(judge(MESSAGE, Some(&text), own).signed, Signed::Damaged, "the trusted remark is signed too");
    for nonsense in ["", "untrusted comment: x", &FIRST[..100]] {
        assert_eq!(judge(MESSAGE, Some(nonsense), own).signed, Signed::Damaged, "{nonsense:?}");
    }
}

#[test]
fn a_club_that_changes_its_key_is_not_believed_by_itself() {
    let [first, second] = keys();
    let changed = Keys { own: second, known: first, typed: "" };
    let verdict = judge(MESSAGE, Some(SECOND), changed);
    assert_eq!((verdict.signed, verdict.key.as_str()), (Signed::Unsigned, first));
    assert!(verdict.says.contains("another key"), "{}", verdict.says);
    // Typed by the person, it is.
    let verdict = judge(MESSAGE, Some(SECOND), Keys { typed: second, ..changed });
    assert_eq!((verdict.signed, verdict.key.as_str()), (Signed::Unchanged, second));
    assert!(verdict.says.contains("another"), "{}", verdict.says);
    // And a stranger's signature under the known key in the pack is none.
    let stolen = Keys { own: first, known: first, typed: "" };
    assert_eq!(judge(MESSAGE, Some(SECOND), stolen).signed, Signed::Damaged);
}

#[test]
fn without_a_signature_or_a_key_nothing_is_claimed() {
    let [first, _] = keys();
    let verdict = judge(MESSAGE, None, Keys { own: first, ..Keys::default() });
    assert_eq!((verdict.signed, verdict.key.as_str()), (Signed::Unsigned, ""));
    let verdict = judge(MESSAGE, None, Keys { known: first, ..Keys::default() });
    assert_eq!(verdict.signed, Signed::Unsigned);
    assert!(verdict.says.contains("signed before") && verdict.key == first, "{}", verdict.says);
    let verdict = judge(MESSAGE, Some(FIRST), Keys::default());
    assert_eq!((verdict.signed, verdict.key.as_str()), (Signed::Unsigned, ""));
}
