//! Reading numbers that a person typed, in integers all the way: no float parser is linked into the page.

use alloc::format;
use alloc::string::String;

/// Why a typed figure could not be read: a sentence for the person who typed it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misread(pub String);

/// A typed number as a fraction `top / bottom`, both below 10^12.
///
/// Reads `64`, `64.5`, `64,5`, `5/8`, `2 5/8`, `2-5/8` and the one-character fractions (½ ¼ ¾ ⅛ ⅜ ⅝ ⅞).
///
/// # Errors
/// A sentence that says what was expected.
pub(crate) fn fraction(text: &str) -> Result<(u64, u64), Misread> {
    let mut spelled = String::new();
    for c in text.trim().chars() {
        match spelled_fraction(c) {
            Some(s) => {
                spelled.push(' ');
                spelled.push_str(s);
            }
            None => spelled.push(if c == '-' || c == '\u{2044}' { dash_or_slash(c) } else { c }),
        }
    }
    let mut parts = spelled.split_whitespace();
    let (first, second, rest) = (parts.next(), parts.next(), parts.next());
    let unclear =
        || Misread(format!("\u{201c}{}\u{201d} is not a number. Write 64, 64.5 or 2 5/8.", shorten(text)));
    match (first, second, rest) {
        (Some(one), None, None) if one.contains('/') => ratio(one).ok_or_else(unclear),
        (Some(one), None, None) => decimal(one).ok_or_else(unclear),
        (Some(whole), Some(part), None) => {
            let (w, (t, b)) = digits(whole).zip(ratio(part)).ok_or_else(unclear)?;
            Ok((w * b + t, b))
        }
        _ => Err(unclear()),
    }
}

/// `top / bottom` times `scale`, rounded half up.
pub(crate) fn scaled((top, bottom): (u64, u64), scale: u64) -> u64 {
    (2 * top * scale + bottom) / (2 * bottom)
}

fn dash_or_slash(c: char) -> char {
    if c == '-' { ' ' } else { '/' }
}

fn spelled_fraction(c: char) -> Option<&'static str> {
    Some(match c {
        '\u{bd}' => "1/2",
        '\u{bc}' => "1/4",
        '\u{be}' => "3/4",
        '\u{215b}' => "1/8",
        '\u{215c}' => "3/8",
        '\u{215d}' => "5/8",
        '\u{215e}' => "7/8",
        _ => return None,
    })
}

fn digits(s: &str) -> Option<u64> {
    (!s.is_empty() && s.len() <= 6 && s.bytes().all(|b| b.is_ascii_digit())).then(|| s.parse().ok())?
}

fn ratio(s: &str) -> Option<(u64, u64)> {
    let (t, b) = s.split_once('/')?;
    let (t, b) = (digits(t)?, digits(b)?);
    (b > 0).then_some((t, b))
}

fn decimal(s: &str) -> Option<(u64, u64)> {
    let Some((whole, part)) = s.split_once(['.', ',']) else {
        return Some((digits(s)?, 1));
    };
    let whole = if whole.is_empty() { 0 } else { digits(whole)? };
    if part.is_empty() {
        return Some((whole, 1));
    }
    // Read first: it bounds the length, and so the power.
    let below = digits(part)?;
    let ten = 10_u64.checked_pow(u32::try_from(part.len()).ok()?)?;
    Some((whole * ten + below, ten))
}

fn shorten(text: &str) -> String {
    text.trim().chars().take(20).collect()
}
