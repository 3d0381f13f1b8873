//! The number that a piece wears: a label, never its identity. Year, lot, item; or E and a number before it is decided
//! that the piece stays.

use super::value::{Value, short};
use core::cmp::Ordering;

/// A number such as `2026.4`, `2026.4.2`, `2026.4.2b`, `E17`, `E17.2`. The form follows the numbering of museum
/// registration (New Museum Registration Methods, 1998; Collections Trust on entry numbers).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Number(String);

impl Number {
    /// The number, when it has the form.
    #[must_use]
    pub fn new(text: &str) -> Option<Number> {
        parts(text).map(|_| Number(text.to_string()))
    }

    /// As it is written on the tag.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.0
    }

    /// The next free lot of a year: one more than the highest. `used` is every number that was ever given, those of deleted
    /// pieces too: a number is never used again.
    #[must_use]
    pub fn next(used: &[&Number], year: i16) -> Option<Number> {
        let lots = used
            .iter()
            .filter_map(|n| parts(&n.0))
            .filter(|(entry, p, _)| !entry && p[0] == u32::from(year as u16));
        let last = lots.map(|(_, p, _)| p[1]).max().unwrap_or(0);
        Number::new(&format!("{year:04}.{}", last + 1))
    }

    /// By the parts as numbers: `2026.9` before `2026.10`, entry numbers behind all others.
    #[must_use]
    pub fn order(&self, other: &Number) -> Ordering {
        self.rank().cmp(&other.rank())
    }

    /// What numbers are ordered by, to be kept where many are.
    pub(crate) fn rank(&self) -> Option<Rank> {
        parts(&self.0)
    }
}

/// Whether it is an entry number, its parts (0 where there is none), the letter of a loose part.
pub(crate) type Rank = (bool, [u32; 4], u8);

fn parts(text: &str) -> Option<Rank> {
    let (entry, rest) = match text.strip_prefix('E') {
        Some(rest) => (true, rest),
        None => (false, text),
    };
    let (rest, letter) = match rest.as_bytes().last() {
        Some(b) if b.is_ascii_lowercase() && !entry => (&rest[..rest.len() - 1], *b),
        _ => (rest, 0),
    };
    let mut out = [0; 4];
    let mut count = 0;
    for (at, part) in rest.split('.').enumerate() {
        let longest = if entry && at == 0 { 6 } else { 4 };
        if part.is_empty() || part.len() > longest || !part.bytes().all(|b| b.is_ascii_digit()) {
            return None;
        }
        *out.get_mut(at)? = part.parse().ok()?;
        count = at + 1;
    }
    let first = rest.split('.').next().map_or(0, str::len);
    let sound = if entry { count <= 2 } else { first == 4 && count >= 2 };
    sound.then_some((entry, out, letter))
}

impl Value for Number {
    fn shown(&self) -> String {
        self.0.clone()
    }

    fn read(text: &str) -> Result<Number, String> {
        Number::new(text.trim()).ok_or_else(|| {
            format!(
                "\u{201c}{}\u{201d} is no number for a piece: year, lot and item as in 2026.4.2, or E17.",
                short(text)
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers() {
        // Form: museum numbering as published; the examples are made up.
        for text in ["2026.4", "2026.4.2", "2026.4.2b", "2026.4.2.1", "E17", "E17.2", "E123456"] {
            assert!(Number::new(text).is_some(), "{text}");
        }
        for text in [
            "",
            "26.4",
            "2026",
            "2026-4",
            "2026.4.2B",
            "2026..2",
            "E",
            "E17b",
            "2026.4.",
            "2026.12345",
            "E1.2.3",
            "2026.1.1.1.1",
            "\u{661}026.4",
            "2026.4\n",
        ] {
            assert!(Number::new(text).is_none(), "{text} was taken");
        }
        let order = |a: &str, b: &str| Number::new(a).zip(Number::new(b)).map(|(a, b)| a.order(&b));
        assert_eq!(order("2026.9", "2026.10"), Some(Ordering::Less));
        assert_eq!(order("2026.4.2b", "2026.4.2"), Some(Ordering::Greater));
        assert_eq!(order("E1", "2026.4"), Some(Ordering::Greater));
        let used: Vec<Number> =
            ["2026.4.2", "2026.10", "2025.77", "E9999"].into_iter().filter_map(Number::new).collect();
        let next = |year| Number::next(&used.iter().collect::<Vec<_>>(), year).map(|n| n.0);
        assert_eq!((next(2026).as_deref(), next(2027).as_deref()), (Some("2026.11"), Some("2027.1")));
    }
}
