//! Words as they are compared: small letters, without accents.

/// Letters with accents that stand in European names, and what is typed for them.
const ACCENTS: [(&str, &str); 22] = [
    ("àáâãåā", "a"),
    ("ä", "a"),
    ("æ", "ae"),
    ("çćč", "c"),
    ("ď", "d"),
    ("èéêëēęě", "e"),
    ("ğ", "g"),
    ("ìíîïī", "i"),
    ("ł", "l"),
    ("ñńň", "n"),
    ("òóôõøō", "o"),
    ("ö", "o"),
    ("œ", "oe"),
    ("ř", "r"),
    ("śš", "s"),
    ("ß", "ss"),
    ("ť", "t"),
    ("ùúûūů", "u"),
    ("ü", "u"),
    ("ýÿ", "y"),
    ("źżž", "z"),
    ("\u{2019}", "'"),
];

/// A text in small letters without accents.
#[must_use]
pub fn folded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if c.is_ascii() {
            out.push(c.to_ascii_lowercase());
            continue;
        }
        for c in c.to_lowercase() {
            match ACCENTS.iter().find(|(from, _)| from.contains(c)) {
                Some((_, to)) => out.push_str(to),
                None => out.push(c),
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    #[test]
    fn accents_do_not_matter() {
        assert_eq!(
            super::folded("Bügeleisen, Ciężkie Żelazko; Straße"),
            "bugeleisen, ciezkie zelazko; strasse"
        );
    }
}
