//! Words as they are compared: small plain letters, and one slip of the finger forgiven.

/// Base letters of U+00C0 to U+00FF.
const LATIN: &[u8; 64] = b"aaaaaaaceeeeiiiidnooooo ouuuuyts\
                           aaaaaaaceeeeiiiidnooooo ouuuuyty";

/// Small letters and digits, accents taken off, one space for everything else.
pub(super) fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for c in text.chars() {
        let c = match c {
            'a'..='z' | '0'..='9' => c,
            'A'..='Z' => c.to_ascii_lowercase(),
            // An apostrophe stands inside a word.
            '\'' | '\u{2019}' => continue,
            '\u{c0}'..='\u{ff}' => char::from(LATIN[c as usize - 0xc0]),
            _ => ' ',
        };
        if c != ' ' || !folded.is_empty() && !folded.ends_with(' ') {
            folded.push(c);
        }
    }
    if folded.ends_with(' ') {
        folded.pop();
    }
    folded
}

/// A word as it stands in a link: `blind-hole`.
pub(super) fn slug(word: &str) -> String {
    fold(word).replace(' ', "-")
}

/// Whether folded text holds a folded phrase at the beginning of a word: `polishing end` stands in `the polishing ends`.
/// Behind "to" and "that" a word tells what is done and names no thing: no `stand` stands in `sides that stand`.
pub(super) fn holds(text: &str, phrase: &str) -> bool {
    let (mut rest, mut before) = (text, "");
    while !phrase.is_empty() && !rest.is_empty() {
        if let Some(tail) = rest.strip_prefix(phrase).filter(|_| !matches!(before, "to" | "that")) {
            // A plural is the same word; any longer tail makes another one.
            if matches!(tail.split(' ').next(), None | Some("" | "s" | "es")) {
                return true;
            }
        }
        (before, rest) = rest.split_once(' ').unwrap_or_default();
    }
    false
}

/// How well a word that is looked for meets a word of a text, both folded: 4 the same, 3 its beginning, 1 with one
/// letter missing, wrong or too many, 0 not at all.
pub(super) fn meets(sought: &str, word: &str) -> u32 {
    if word == sought {
        4
    } else if word.starts_with(sought) {
        3
    } else if sought.len() >= 4 && near(sought.as_bytes(), word.as_bytes()) {
        1
    } else {
        0
    }
}

/// Whether some beginning of `word` is one slip away from `sought`.
fn near(sought: &[u8], word: &[u8]) -> bool {
    let same = sought.iter().zip(word).take_while(|(a, b)| a == b).count();
    let (rest, other) = (&sought[same..], &word[same..]);
    // The slip is where they part: a letter too many, one missing, or a wrong one. The first letter is taken as right.
    same > 0
        && !rest.is_empty()
        && (other.starts_with(&rest[1..])
            || other.get(1..).is_some_and(|o| o.starts_with(rest) || o.starts_with(&rest[1..])))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folded() {
        assert_eq!(
            fold("  Doll's \u{2018}Kitchen\u{2019}, caf\u{e9}\u{2014}Z\u{dc}RICH 2nd "),
            "dolls kitchen cafe zurich 2nd"
        );
        assert_eq!(fold("\u{4e2d} --"), "");
        assert_eq!(slug("Heat  shield"), "heat-shield");
    }

    #[test]
    fn phrases_are_whole_words_or_plurals() {
        assert!(holds("the polishing ends here", "polishing end"));
        assert!(holds("sole", "sole"));
        assert!(!holds("sides that stand", "stand") && holds("a tall stand that stands", "stand"));
        assert!(!holds("solely", "sole") && !holds("the insole", "sole") && !holds("sole", ""));
    }

    #[test]
    fn one_slip_is_forgiven() {
        for (sought, word, how) in [
            ("grip", "grip", 4),
            ("gri", "grip", 3),
            ("plishing", "polishing", 1),
            ("pollishing", "polishing", 1),
            ("polixhing", "polishing", 1),
            ("irons", "iron", 1),
            ("polsihing", "polishing", 0),
            ("gip", "grip", 0),
            ("xrip", "grip", 0),
            ("wire", "sole", 0),
        ] {
            assert_eq!(meets(sought, word), how, "{sought} {word}");
        }
    }
}
