//! The one scale of probability words and the one scale of strength words, always with their numbers.

/// The likelihood word for a probability: IPCC guidance note on uncertainty, 2010, table 1.
#[must_use]
pub fn likelihood_word(p: f64) -> &'static str {
    match p {
        p if p >= 0.99 => "virtually certain",
        p if p >= 0.95 => "extremely likely",
        p if p >= 0.90 => "very likely",
        p if p >= 0.66 => "likely",
        p if p > 0.50 => "more likely than not",
        p if p >= 0.33 => "about as likely as not",
        p if p >= 0.10 => "unlikely",
        p if p >= 0.05 => "very unlikely",
        _ => "extremely unlikely",
    }
}

/// A probability as a plain frequency: `8 in 10`. Never sharper than the tables behind it.
#[must_use]
pub fn chance(p: f64) -> String {
    match p {
        p if p >= 0.995 => "over 99 in 100".into(),
        p if p >= 0.985 => "99 in 100".into(),
        p if p >= 0.925 => "19 in 20".into(),
        p if p >= 0.075 => format!("{} in 10", libm::round(p * 10.0).clamp(1.0, 9.0) as u32),
        p if p >= 0.05 => "1 in 20".into(),
        p if p >= 0.03 => "1 in 30".into(),
        p if p >= 0.01 => "1 in 50".into(),
        _ => "under 1 in 100".into(),
    }
}

/// Word and number together: `likely, 8 in 10`.
#[must_use]
pub fn likely(p: f64) -> String {
    format!("{}, {}", likelihood_word(p), chance(p))
}

/// Words for the strength of support that one clue gives, from log10 of its likelihood ratio: the verbal scale of
/// the ENFSI guideline for evaluative reporting, 2015. Below a factor of 1.25 a clue is said to tell nothing here.
#[must_use]
pub fn strength(log10: f64) -> &'static str {
    match log10.abs() {
        s if s < 0.1 => "tells nothing here",
        s if s < 1.0 => "weak",
        s if s < 2.0 => "moderate",
        s if s < 3.0 => "moderately strong",
        s if s < 4.0 => "strong",
        s if s < 6.0 => "very strong",
        _ => "extremely strong",
    }
}

/// `a`, `a or b`, `a, b or c`.
pub(crate) fn either(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_string(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")),
    }
}

/// First letter small, for a name inside a sentence (left alone when the second letter is a capital or a digit, and
/// outside of ASCII).
pub(crate) fn inside(name: &str) -> String {
    let mut text = name.to_string();
    let plain = name.as_bytes().get(1).is_some_and(|b| b.is_ascii_lowercase() || matches!(b, b' ' | b'\''));
    if let Some(first) = text.get_mut(..1).filter(|_| plain) {
        first.make_ascii_lowercase();
    }
    text
}

/// Ends with a full stop.
pub(crate) fn sentence(text: &str) -> String {
    let text = text.trim_end();
    if text.ends_with(['.', '?', '!']) { text.to_string() } else { format!("{text}.") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_scale() {
        // Limits of the words: published, IPCC AR5 guidance note, table 1.
        for (p, words) in [
            (0.999, "virtually certain, over 99 in 100"),
            (0.96, "extremely likely, 19 in 20"),
            (0.91, "very likely, 9 in 10"),
            (0.80, "likely, 8 in 10"),
            (0.55, "more likely than not, 6 in 10"),
            (0.40, "about as likely as not, 4 in 10"),
            (0.20, "unlikely, 2 in 10"),
            (0.05, "very unlikely, 1 in 20"),
            (0.001, "extremely unlikely, under 1 in 100"),
        ] {
            assert_eq!(likely(p), words);
        }
    }

    #[test]
    fn strength_words() {
        // Steps: published, ENFSI guideline 2015.
        let said: Vec<_> = [0.05, 0.5, -1.5, 2.5, 3.5, 5.0, 7.0].map(strength).to_vec();
        assert_eq!(said[1..4], ["weak", "moderate", "moderately strong"]);
        assert_eq!(said[4..], ["strong", "very strong", "extremely strong"]);
    }
}
