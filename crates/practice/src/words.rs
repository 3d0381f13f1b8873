//! Small things about sentences.

/// First letter large.
pub(crate) fn capital(text: &str) -> String {
    let mut text = text.to_string();
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    text
}

/// First letter small, for a name inside a sentence; left alone where the second letter is large too.
pub(crate) fn inside(name: &str) -> String {
    let mut text = name.to_string();
    let plain = name.as_bytes().get(1).is_some_and(|b| b.is_ascii_lowercase() || matches!(b, b' ' | b'\''));
    if let Some(first) = text.get_mut(..1).filter(|_| plain) {
        first.make_ascii_lowercase();
    }
    text
}

/// Words that carry meaning: longer than three letters, small.
fn meaning(text: &str) -> Vec<String> {
    let words = text.split(|c: char| !c.is_alphanumeric());
    words.filter(|w| w.chars().count() > 3).map(str::to_lowercase).collect()
}

/// Whether two texts have a word in common that carries meaning, one as the beginning of the other included (point, points).
pub(crate) fn shares_words(one: &str, other: &str) -> bool {
    let others = meaning(other);
    let alike = |a: &String, b: &String| a.starts_with(b.as_str()) || b.starts_with(a.as_str());
    meaning(one).iter().any(|w| others.iter().any(|o| alike(w, o)))
}

/// A counted thing: `1 piece`, `3 pieces`.
pub(crate) fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}
