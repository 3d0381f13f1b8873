//! What is written as EDTF is EDTF: a checker of the part of level 1 that years need, and every region put through it.

use dating::{Curve, FIRST_YEAR, edtf, edtf_bounds, in_words};
use units::{Period, Year};

/// One end of an interval, or a date by itself: the year, and whether it is qualified. Library of Congress, EDTF
/// specification of 2019: level 0 "Date" has years of four digits; level 1 "Qualification of a date" puts one of ? ~ %
/// behind the whole of it.
fn date(text: &str) -> Option<(i32, bool)> {
    let (year, qualified) = match text.strip_suffix(['?', '~', '%']) {
        Some(year) => (year, true),
        None => (text, false),
    };
    let digits = year.len() == 4 && year.bytes().all(|b| b.is_ascii_digit());
    Some((year.parse().ok().filter(|_| digits)?, qualified))
}

/// A date, or an interval of two: level 0 "Time interval" with level 1 "Extended interval", where `..` is an open end
/// and nothing at all an unknown one; one end at least must be a date, and the earlier comes first.
fn level_1(text: &str) -> bool {
    let end = |text: &str| match text {
        "" | ".." => Some(None),
        text => date(text).map(|(year, _)| Some(year)),
    };
    match text.split_once('/') {
        None => date(text).is_some(),
        Some((from, to)) => match (end(from), end(to)) {
            (Some(Some(from)), Some(Some(to))) => from <= to,
            (Some(from), Some(to)) => from.is_some() || to.is_some(),
            _ => false,
        },
    }
}

#[test]
fn the_checker_knows_right_from_wrong() {
    // The first eight follow examples of the specification (published); the rest are against its grammar.
    for text in ["1985", "1984?", "2004~", "2004%", "1964/2008", "1984~/2004~", "1985/..", "/1985"] {
        assert!(level_1(text), "{text}");
    }
    for text in [
        "",
        "/",
        "..",
        "../..",
        "85",
        "01985",
        "1985 ",
        "1985-1990",
        "1990/1985",
        "1984??",
        "?1984",
        "1984/2004/2008",
        "1984?/2004x",
        "about 1984",
        "1984 or 1985",
        "-1",
    ] {
        assert!(!level_1(text), "{text}");
    }
}

/// Uniform 64 bits by `SplitMix64` (published: Steele, Lea and Flood, OOPSLA 2014, figure 17).
fn bits(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

fn below(state: &mut u64, n: i32) -> i32 {
    (bits(state) % n as u64) as i32
}

/// Corners in order, anywhere that a pack may put them.
fn period(state: &mut u64) -> Period {
    let mut years: Vec<Year> = (0..4).map(|_| (800 + below(state, 1401)) as Year).collect();
    years.sort_unstable();
    Period { earliest: years[0], likely_from: years[1], likely_to: years[2], latest: years[3] }
}

#[test]
fn every_region_of_any_mixture() {
    let mut seed = 20_261_124;
    for round in 0..1_500 {
        let this_year =
            if round % 10 == 0 { 1590 + below(&mut seed, 30) } else { 1700 + below(&mut seed, 500) };
        let weight = |seed: &mut u64| f64::from(below(seed, 1000)) / 1000.0;
        let parts: Vec<(f64, Period)> =
            (0..below(&mut seed, 5)).map(|_| (weight(&mut seed), period(&mut seed))).collect();
        let curve = Curve::of_periods(&parts, this_year as Year);
        // Basis of the bound: chances sum to one, but for rounding.
        assert!((curve.p.iter().sum::<f64>() - 1.0).abs() < 1e-9 && curve.p.iter().all(|p| *p >= 0.0));
        let last = (this_year as Year).max(FIRST_YEAR);
        for share in [0.0, 0.5, 0.9, 1.0] {
            let region = curve.densest(share);
            let text = edtf(&region);
            if region.is_empty() {
                assert!(share == 0.0 && in_words(&region) == "not known", "{region:?}");
                continue;
            }
            assert!(level_1(&text), "{text} for {region:?}");
            // The hull of the region and nothing else, each end uncertain, and nothing behind this year.
            let ends: Vec<(i32, bool)> = text.split('/').filter_map(date).collect();
            let hull = [region[0].0, region[region.len() - 1].1].map(i32::from);
            assert!(ends.iter().all(|(_, qualified)| *qualified), "{text}");
            assert_eq!((ends[0].0, ends[ends.len() - 1].0), (hull[0], hull[1]), "{text}");
            assert!(i32::from(FIRST_YEAR) <= hull[0] && hull[1] <= i32::from(last), "{text} in {this_year}");
            assert!(region.windows(2).all(|w| w[0].1 + 1 < w[1].0), "runs in order and apart: {region:?}");
        }
    }
}

#[test]
fn one_year_and_no_year() {
    assert_eq!(edtf(&[(1901, 1901)]), "1901?");
    assert_eq!(edtf(&[(1600, 9999)]), "1600?/9999?");
    // Of nothing there is no date; whoever writes a record leaves the field out.
    assert_eq!(edtf(&[]), "");
}

#[test]
fn bounds_of_marks_are_edtf() {
    let years = [None, Some(1600), Some(1871), Some(1890), Some(2026)];
    for from in years {
        for width in [0, 3, 40] {
            for to in years.into_iter().filter(|to| to.is_none_or(|to| from.is_none_or(|f| f + width <= to)))
            {
                let text = edtf_bounds(from.map(|f| (f, f + width)), to);
                assert_eq!(text.is_empty(), from.is_none() && to.is_none());
                assert!(text.is_empty() || level_1(&text), "{text} for {from:?} {width} {to:?}");
            }
        }
    }
}
