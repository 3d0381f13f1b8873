//! Year regions as words and as EDTF.

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
}
