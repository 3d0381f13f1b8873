//! What a person types for worn lettering, as glyphs: `?` one character lost, `*` some lost, `3/8` this or that.

/// The most characters of a text that are read.
pub(crate) const MOST_GLYPHS: usize = 160;
/// The most characters that `3/8` may join.
const MOST_EITHER: usize = 4;

/// One character of the lettering, or what is left of it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Glyph {
    /// What it may be: one, or several for `3/8`; none when it is lost.
    pub(crate) one_of: Vec<char>,
    /// Some characters are lost here, not just one.
    pub(crate) many: bool,
    /// What stands between it and the character before: spaces and signs.
    pub(crate) gap: String,
    /// Where it stands in the text, in bytes.
    pub(crate) at: (usize, usize),
}

impl Glyph {
    /// One character is lost.
    pub(crate) fn lost(&self) -> bool {
        self.one_of.is_empty() && !self.many
    }

    /// It may be a digit as told.
    pub(crate) fn digit(&self) -> bool {
        self.one_of.iter().any(char::is_ascii_digit)
    }

    /// It is a letter as told.
    pub(crate) fn letter(&self) -> bool {
        !self.one_of.is_empty() && !self.digit()
    }

    /// Something stands between it and the character before.
    pub(crate) fn apart(&self) -> bool {
        !self.gap.is_empty()
    }
}

/// The glyphs of a text, and whether it was too long to be read to its end.
pub(crate) fn glyphs(text: &str) -> (Vec<Glyph>, bool) {
    let mut list: Vec<Glyph> = Vec::new();
    let mut gap = String::new();
    // A stroke right behind a glyph: the next character is another guess at the same one.
    let mut either = false;
    // Up to here strokes part the figures of a date.
    let mut figures = 0;
    for (at, c) in text.char_indices() {
        let end = at + c.len_utf8();
        if c.is_ascii_digit() && !text[..at].ends_with(|c: char| c.is_alphanumeric() || c == '/') {
            figures = figures.max(at + date_in_figures(&text[at..]));
        }
        if c == '/' && at < figures {
            gap.push('-');
            continue;
        }
        if c == '/' && gap.is_empty() && !list.is_empty() && !either {
            either = true;
            continue;
        }
        let folded = fold(c);
        let lost = matches!(c, '?' | '*');
        if folded.is_none() && !lost {
            if either {
                gap.push('/');
                either = false;
            }
            // A long row of spaces is one gap; signs are kept.
            if !(c.is_whitespace() && gap.ends_with(' ')) && gap.len() < 16 {
                gap.push(if c.is_whitespace() { ' ' } else { c });
            }
            continue;
        }
        if either && let Some(last) = list.last_mut() {
            either = false;
            last.at.1 = end;
            match folded {
                Some(c) if !last.one_of.is_empty() && last.one_of.len() < MOST_EITHER => {
                    if !last.one_of.contains(&c) {
                        last.one_of.push(c);
                    }
                }
                // `3/?` tells nothing.
                _ => last.one_of.clear(),
            }
            continue;
        }
        if list.len() == MOST_GLYPHS {
            return (list, true);
        }
        let one_of = folded.into_iter().collect();
        list.push(Glyph { one_of, many: c == '*', gap: core::mem::take(&mut gap), at: (at, end) });
    }
    (list, false)
}

/// The length of a date in figures such as `7/4/71` that the text begins with; 0 when it does not.
fn date_in_figures(text: &str) -> usize {
    let end = text.find(|c: char| !c.is_ascii_digit() && !matches!(c, '/' | '?')).unwrap_or(text.len());
    let parts: Vec<&str> = text[..end].split('/').collect();
    let [a, b, year] = parts[..] else { return 0 };
    // What can be no day stands for this or that: `3/8/55`.
    let day = |t: &str| (1..=2).contains(&t.len()) && t.parse::<u8>().is_ok_and(|n| (1..=31).contains(&n));
    let month = |t: &str| t.parse::<u8>().is_ok_and(|n| n <= 12);
    if day(a) && day(b) && (month(a) || month(b)) && matches!(year.len(), 2 | 4) { end } else { 0 }
}

/// A letter as a capital without its accent, a digit, or a sign that is lettering; none for all else.
fn fold(c: char) -> Option<char> {
    Some(match c {
        'a'..='z' => c.to_ascii_uppercase(),
        'A'..='Z' | '0'..='9' | '&' | '®' | '™' | '©' => c,
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' | 'À' | 'Á' | 'Â' | 'Ã' | 'Ä' | 'Å' => 'A',
        'ç' | 'Ç' => 'C',
        'è' | 'é' | 'ê' | 'ë' | 'È' | 'É' | 'Ê' | 'Ë' => 'E',
        'ì' | 'í' | 'î' | 'ï' | 'Ì' | 'Í' | 'Î' | 'Ï' => 'I',
        'ñ' | 'Ñ' => 'N',
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' | 'Ò' | 'Ó' | 'Ô' | 'Õ' | 'Ö' | 'Ø' => 'O',
        'ù' | 'ú' | 'û' | 'ü' | 'Ù' | 'Ú' | 'Û' | 'Ü' => 'U',
        'ß' => 'S',
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(text: &str) -> String {
        let one = |g: &Glyph| {
            let what: String = match g.one_of.len() {
                0 => String::from(if g.many { "*" } else { "?" }),
                _ => g.one_of.iter().collect(),
            };
            let gap = if g.apart() { format!("<{}>", g.gap) } else { String::new() };
            format!("{gap}[{what}]")
        };
        glyphs(text).0.iter().map(one).collect()
    }

    #[test]
    fn the_notation() {
        assert_eq!(shown("Pat. 3/8?*"), "[P][A][T]<. >[38][?][*]");
        assert_eq!(shown("1/7/4 / a"), "[174]< / >[A]");
        assert_eq!(shown("é-Ü"), "[E]<->[U]");
        assert_eq!(shown("3/?"), "[?]");
        assert_eq!(shown("7/4/71"), "[7]<->[4]<->[7][1]");
        assert_eq!(shown("1/7/4"), "[174]");
        assert_eq!(shown("11/748"), "[1][17][4][8]");
        assert_eq!(shown("/5//6/"), "</>[5]<//>[6]");
        assert_eq!(shown(""), "");
    }

    #[test]
    fn a_long_text_is_cut_and_says_so() {
        let (list, cut) = glyphs(&"x".repeat(MOST_GLYPHS + 1));
        assert!(cut && list.len() == MOST_GLYPHS);
        assert!(!glyphs(&"x".repeat(MOST_GLYPHS)).1);
    }
}
