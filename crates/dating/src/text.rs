//! Year regions and bounds as words and as EDTF.

use units::Year;

/// EDTF level 1 text of a region: the interval over all its pieces, uncertain: `1865?/1905?` (Library of Congress
/// EDTF specification, level 1: qualification of a date, and extended intervals). Years are those of four digits; empty
/// for no region.
#[must_use]
pub fn edtf(region: &[(Year, Year)]) -> String {
    match (region.first(), region.last()) {
        (Some((from, _)), Some((_, to))) if from == to => format!("{from}?"),
        (Some((from, _)), Some((_, to))) => format!("{from}?/{to}?"),
        _ => String::new(),
    }
}

/// EDTF level 1 text of bounds: `1871/..` not before, `../1952` not after, `1947/1952` between; a bound of which only
/// the decade is sure is qualified: `1880?/..`. Empty where there is no bound.
#[must_use]
pub fn edtf_bounds(not_before: Option<(Year, Year)>, not_after: Option<Year>) -> String {
    let from = not_before.map(|(a, b)| format!("{a}{}", if a == b { "" } else { "?" }));
    match (from, not_after) {
        (None, None) => String::new(),
        (Some(from), None) => format!("{from}/.."),
        (None, Some(to)) => format!("../{to}"),
        (Some(from), Some(to)) if not_before.is_some_and(|(a, b)| a == to && a == b) => from,
        (Some(from), Some(to)) => format!("{from}/{to}"),
    }
}

/// `1865 to 1905`, or `1865 to 1905 or 1970 to 2010` when the region has pieces; slivers under two years are left out.
#[must_use]
pub fn in_words(region: &[(Year, Year)]) -> String {
    let wide: Vec<String> =
        region.iter().filter(|(a, b)| b - a >= 2).map(|(a, b)| format!("{a} to {b}")).collect();
    match (wide.is_empty(), region.first()) {
        (false, _) => wide.join(" or "),
        (true, Some((a, _))) => format!("about {a}"),
        (true, None) => String::from("not known"),
    }
}

/// Bounds as a person would write them, with the likeliest years: `1880s or later, most likely 1885 to 1905`; `1947 to
/// 1952`; `1921 or earlier`. `not_before` is the earliest and the latest that the bound may be; `likely` may be empty.
/// Empty when there is nothing to say.
#[must_use]
pub fn bounds_in_words(
    not_before: Option<(Year, Year)>,
    not_after: Option<Year>,
    likely: &[(Year, Year)],
) -> String {
    let start = |(a, b): (Year, Year)| match b - a {
        0 => a.to_string(),
        // The same ten years: a decade says it; but "1900s" may be a century.
        _ if a / 10 == b / 10 && a / 10 % 10 != 0 => format!("{}s", a / 10 * 10),
        _ if b - a < 10 => format!("about {a}"),
        _ => a.to_string(),
    };
    let mut words = match (not_before, not_after) {
        (None, None) => String::new(),
        (Some(from), None) => format!("{} or later", start(from)),
        (None, Some(to)) => format!("{to} or earlier"),
        (Some(from), Some(to)) if start(from) == to.to_string() => to.to_string(),
        (Some(from), Some(to)) => format!("{} to {to}", start(from)),
    };
    let most = in_words(likely);
    let same = not_before.zip(not_after).is_some_and(|((a, _), to)| likely == [(a, to)]);
    if likely.is_empty() || same {
        return words;
    }
    words.push_str(if words.is_empty() { "most likely " } else { ", most likely " });
    words.push_str(&most);
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_edtf() {
        assert_eq!(edtf(&[(1865, 1905)]), "1865?/1905?");
        assert_eq!(edtf(&[(1865, 1905), (1970, 2010)]), "1865?/2010?");
        assert_eq!(in_words(&[(1865, 1905), (1970, 2010)]), "1865 to 1905 or 1970 to 2010");
        assert_eq!(in_words(&[(1900, 1900)]), "about 1900");
    }

    #[test]
    fn bounds() {
        // EDTF of bounds: extended intervals of level 1 with an open end, after the Library of Congress specification.
        let all = [
            (
                Some((1871, 1871)),
                None,
                vec![(1871, 1893)],
                "1871 or later, most likely 1871 to 1893",
                "1871/..",
            ),
            (
                Some((1881, 1889)),
                None,
                vec![(1885, 1905)],
                "1880s or later, most likely 1885 to 1905",
                "1881?/..",
            ),
            (Some((1871, 1905)), None, vec![], "1871 or later", "1871?/.."),
            (Some((1903, 1906)), None, vec![], "about 1903 or later", "1903?/.."),
            (Some((1947, 1947)), Some(1952), vec![(1947, 1952)], "1947 to 1952", "1947/1952"),
            (None, Some(1921), vec![(1895, 1921)], "1921 or earlier, most likely 1895 to 1921", "../1921"),
            (Some((1901, 1901)), Some(1901), vec![], "1901", "1901"),
            (None, None, vec![(1850, 1900)], "most likely 1850 to 1900", ""),
            (None, None, vec![], "", ""),
        ];
        for (from, to, likely, words, text) in all {
            assert_eq!(bounds_in_words(from, to, &likely), words);
            assert_eq!(edtf_bounds(from, to), text);
        }
    }
}
