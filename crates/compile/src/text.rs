//! What a text of a pack may be. It is shown as text only; still nothing that could disguise it gets in.

/// What is wrong with a text, as a sentence and a hint.
pub(crate) type Wrong = (String, String);

/// How long a text may be and what it is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Limit {
    /// Characters.
    pub(crate) most: usize,
    /// Words; 0 for any number.
    pub(crate) words: usize,
    /// Whether lines may end within it.
    pub(crate) lines: bool,
}

impl Limit {
    /// A name in a list.
    pub(crate) const NAME: Limit = Limit::line(80);
    /// A short name on a key.
    pub(crate) const SHORT: Limit = Limit { most: 40, words: 4, lines: false };
    /// The label of a choice.
    pub(crate) const LABEL: Limit = Limit { most: 60, words: 6, lines: false };
    /// One sentence.
    pub(crate) const SENTENCE: Limit = Limit::line(240);
    /// A few sentences.
    pub(crate) const SENTENCES: Limit = Limit::line(500);
    /// A drawing, in the words of the sketch.
    pub(crate) const DRAWING: Limit = Limit::line(200);
    /// One paragraph for the book. Four bytes to a character fit into what the reader of packs takes as one text.
    pub(crate) const PARAGRAPH: Limit = Limit { most: 1000, words: 0, lines: true };
    /// Paragraphs for the book.
    pub(crate) const PAGES: Limit = Limit { most: 8000, words: 0, lines: true };
    /// A line of a table.
    pub(crate) const TABLE: Limit = Limit::line(400);

    const fn line(most: usize) -> Limit {
        Limit { most, words: 0, lines: false }
    }
}

/// Characters that cannot be seen or that turn the direction of writing.
pub(crate) fn disguises(c: char) -> bool {
    (c.is_control() && c != '\n')
        || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200b}'..='\u{200f}'
            | '\u{2028}' | '\u{2029}' | '\u{2060}'..='\u{2064}' | '\u{feff}' | '\u{061c}' | '\u{fff9}'..='\u{fffb}'
            | '\u{e0000}'..='\u{e007f}')
}

/// Checks a text.
pub(crate) fn check(text: &str, limit: Limit) -> Result<(), Wrong> {
    let wrong = |says: String, hint: &str| Err((says, hint.to_string()));
    if let Some(c) = text.chars().find(|c| disguises(*c)) {
        let says = format!("The text holds the hidden character U+{:04X}.", u32::from(c));
        return wrong(says, "Type the words anew instead of pasting them.");
    }
    if !limit.lines && text.contains('\n') {
        return wrong("The text goes over more than one line.".to_string(), "Write it in one line.");
    }
    if looks_like_markup(text) {
        return wrong(
            "The text looks like a tag of a web page.".to_string(),
            "Texts are shown as they are: leave out < before a letter or a slash.",
        );
    }
    let length = text.chars().count();
    if length > limit.most {
        let says = format!("The text is {length} characters long; at most {} fit.", limit.most);
        return wrong(says, "Shorten it.");
    }
    if limit.words > 0 && text.split_whitespace().count() > limit.words {
        let says = format!("At most {} words fit here.", limit.words);
        return wrong(says, "Shorten it.");
    }
    if text != text.trim() && !limit.lines {
        return wrong("The text begins or ends with a space.".to_string(), "Remove the space.");
    }
    Ok(())
}

/// Checks an id: `solid-bar-toy`.
pub(crate) fn check_id(id: &str) -> Result<(), Wrong> {
    let sound = id.len() <= 40
        && id.bytes().next().is_some_and(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
        && !id.ends_with('-')
        && id.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-');
    if sound {
        return Ok(());
    }
    Err((
        format!("{} is not an id.", crate::fault::quote(id)),
        "Use lower-case letters, digits and single hyphens, at most 40 of them.".to_string(),
    ))
}

fn looks_like_markup(text: &str) -> bool {
    text.match_indices('<').any(|(i, _)| {
        text[i + 1..].starts_with(|c: char| c.is_ascii_alphabetic() || matches!(c, '/' | '!' | '?'))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_that_are_refused() {
        for text in
            ["<script>", "a </b>", "<!-- -->", "a\u{202e}b", "a\u{7}", "two\nlines", " led", "a\u{200b}"]
        {
            assert!(check(text, Limit::SENTENCE).is_err(), "{text:?} was taken");
        }
        assert!(check("one two three four five six seven", Limit::LABEL).is_err());
    }

    #[test]
    fn texts_that_are_taken() {
        for text in ["size < 40 mm", "5 <6", "caf\u{e9} \u{bd}", "a & b"] {
            assert_eq!(check(text, Limit::SENTENCE), Ok(()), "{text}");
        }
        assert_eq!(check("One.\n\nTwo.", Limit::PAGES), Ok(()));
        assert_eq!(check("one two three four five six", Limit::LABEL), Ok(()));
    }

    #[test]
    fn ids() {
        for id in ["a", "solid-bar-toy", "2-points"] {
            assert_eq!(check_id(id), Ok(()), "{id}");
        }
        for id in ["", "-a", "a-", "A", "a b", "\u{e4}", "a.b", "a_b"] {
            assert!(check_id(id).is_err(), "{id} was taken");
        }
    }
}
