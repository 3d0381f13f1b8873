//! The words of a finding: chances always with their number, care in what is claimed, no figure without its unit.

use crate::common::{for_all_walks, irons, tiny, walked};
use consult::{Body, FindingView, Msg, Screen, likelihood_word, likely, strength, update, view};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// What the program itself says in a finding: everything but the pack's long texts.
fn said(f: &FindingView) -> Vec<String> {
    let mut said = vec![f.likely.clone(), f.made_as.clone(), f.make.clone(), f.standing.clone()];
    said.extend(f.outside.clone());
    said.extend(f.roles.iter().map(|(name, chance)| format!("{name}: {chance}")));
    said.extend(f.kinds.iter().map(|(name, chance, _)| format!("{name}: {chance}")));
    said.extend([&f.years.half, &f.years.nine, &f.years.basis].map(Clone::clone));
    match &f.worth {
        Ok(w) => said.extend([w.half.clone(), w.eight.clone(), w.basis.clone()]),
        Err(none) => said.push(none.clone()),
    }
    said.extend(f.next.iter().map(|n| n.why.clone()));
    said.extend(
        f.clues.iter().flat_map(|c| [Some(c.text.clone()), Some(c.words.clone()), c.again.clone()]).flatten(),
    );
    said.extend(f.change.clone());
    said.extend(f.second.iter().map(|s| format!("{}: {}", s.name, s.likely)));
    said
}

/// The words of the one scale, the longest first, so that none is found inside another.
fn scale() -> Vec<&'static str> {
    let of_all: BTreeSet<&str> = (0..=1000).map(|p| likelihood_word(f64::from(p) / 1000.0)).collect();
    let mut words: Vec<&str> = of_all.into_iter().collect();
    words.sort_by_key(|w| std::cmp::Reverse(w.len()));
    words
}

/// `N in 10`, `19 in 20`, `over 99 in 100`, `under 1 in 100` at the beginning of a text.
fn begins_with_a_chance(text: &str) -> bool {
    let text = text.strip_prefix("over ").or(text.strip_prefix("under ")).unwrap_or(text);
    let Some((n, rest)) = text.split_once(" in ") else { return false };
    let of: String = rest.chars().take_while(char::is_ascii_digit).collect();
    match (n.parse::<u32>(), of.parse::<u32>()) {
        (Ok(n), Ok(of)) => 0 < n && n < of && [10, 20, 30, 50, 100].contains(&of),
        _ => false,
    }
}

/// Every word of the scale in a text is followed by its number.
fn chances_have_numbers(text: &str) -> Result<(), String> {
    let mut rest = text;
    while let Some((at, word)) = scale()
        .into_iter()
        .filter_map(|w| Some((rest.find(w)?, w)))
        .min_by_key(|(at, w)| (*at, std::cmp::Reverse(w.len())))
    {
        rest = &rest[at + word.len()..];
        if !rest.strip_prefix(", ").is_some_and(begins_with_a_chance) {
            return Err(format!("\u{201c}{word}\u{201d} stands without its number in: {text}"));
        }
    }
    Ok(())
}

/// What may stand behind a number: a unit, the other end of a range, the whole of a chance.
fn is_unit(after: &str) -> bool {
    let word: String = after.trim_start().chars().take_while(|c| c.is_alphabetic()).collect();
    let range = |w: &str| {
        ["to", "or", "and"].contains(&w)
            && after.trim_start()[w.len()..].trim_start().starts_with(|c: char| c.is_ascii_digit())
    };
    ["mm", "cm", "g", "kg", "in", "kind", "kinds", "more", "look", "looks", "second", "seconds", "per"]
        .contains(&word.as_str())
        || (word.len() == 3 && word.chars().all(|c| c.is_ascii_uppercase()))
        || range(&word)
}

/// Every number in a text is a year, a part of a chance, or has its unit.
fn figures_have_units(text: &str) -> Result<(), String> {
    let number = |c: char| c.is_ascii_digit();
    let mut at = 0;
    while let Some(begin) = text[at..].find(number).map(|i| at + i) {
        let mut end = begin;
        // 64.5, 5/8 and 2 5/8 are one number each.
        loop {
            end += text[end..].find(|c| !number(c)).unwrap_or(text.len() - end);
            let joined = text[end..].starts_with(['.', '/', ',']) && text[end + 1..].starts_with(number);
            let mixed = text[end..].starts_with(' ')
                && text[end + 1..].trim_start_matches(number).starts_with('/')
                && text[end + 1..].starts_with(number);
            if !joined && !mixed {
                break;
            }
            end += 1;
        }
        let shown = &text[begin..end];
        let year = shown.len() == 4 && shown.parse::<u32>().is_ok_and(|y| (1000..=2200).contains(&y));
        let whole = text[..begin].ends_with(" in ") && ["10", "20", "30", "50", "100"].contains(&shown);
        if !year && !whole && !is_unit(&text[end..]) {
            return Err(format!("{shown} has no unit in: {text}"));
        }
        at = end;
    }
    Ok(())
}

/// Without what stands in quotes: lettering is said as it stands on the piece.
fn unquoted(text: &str) -> String {
    let mut parts = text.split('\u{201c}');
    let first = parts.next().unwrap_or_default().to_string();
    parts.fold(first, |said, part| said + part.split_once('\u{201d}').map_or(part, |(_, after)| after))
}

/// Care in what is claimed. A finding leans; it never vouches.
const NEVER: [&str; 8] =
    ["genuine", "authentic", "guarantee", "definitely", "certified", "appraised", "fake", "fraud"];

fn holds(f: &FindingView) -> Result<(), String> {
    for text in said(f) {
        chances_have_numbers(&text)?;
        figures_have_units(&unquoted(&text))?;
    }
    let everything = serde_json::to_string(f).map_err(|e| e.to_string())?.to_lowercase();
    match NEVER.into_iter().find(|word| everything.contains(word)) {
        Some(word) => Err(format!("the finding says \u{201c}{word}\u{201d}")),
        None => Ok(()),
    }
}

#[test]
fn what_a_finding_says() {
    for (guide, cases) in [(tiny(), 600), (irons(), 150)] {
        for_all_walks(cases, 12, |taps| {
            let state = update(&guide, walked(&guide, &taps), Msg::Show(Screen::Finding)).0;
            let Body::Finding(f) = view(&guide, &state).body else {
                unreachable!("the finding was asked for")
            };
            holds(&f).map_err(TestCaseError::fail)?;
            let known =
                |w: &str| w == "tells nothing here" || w.ends_with(", for") || w.ends_with(", against");
            prop_assert!(f.clues.iter().all(|c| known(&c.words)), "{:?}", f.clues);
            prop_assert!(f.clues.iter().all(|c| !c.basis.is_empty()), "a clue says what it rests on");
            prop_assert!(f.years.basis.starts_with("By this guide's tables ("), "so do the years");
            if let Ok(w) = &f.worth {
                prop_assert!(w.basis.contains("Price evidence, not an appraisal"), "{}", w.basis);
                prop_assert!(w.half.ends_with(&w.currency) && w.eight.ends_with(&w.currency));
                prop_assert!(w.quantiles.is_sorted() && w.quantiles[0] > 0, "{:?}", w.quantiles);
            }
            Ok(())
        });
    }
}

/// The checks above can fail.
#[test]
fn what_would_be_noticed() {
    for bad in [
        "likely",
        "It is likely.",
        "unlikely, about",
        "likely, 0 in 10",
        "very likely, 11 in 10",
        "virtually certain, 99 of 100",
    ] {
        assert!(chances_have_numbers(bad).is_err(), "{bad}");
    }
    for good in [
        "likely, 8 in 10",
        "about as likely as not, 4 in 10 and extremely unlikely, under 1 in 100",
        "no such word",
    ] {
        assert_eq!(chances_have_numbers(good), Ok(()));
    }
    for bad in ["64", "Weighs 48.5, on scales", "10 to 35", "about 3", "12 irons"] {
        assert!(figures_have_units(bad).is_err(), "{bad}");
    }
    for good in [
        "64.5 mm (2 5/8 in)",
        "10 to 35 USD",
        "1865 to 1905 or 1970 to 2010",
        "19 in 20",
        "about 2 more looks",
        "none",
    ] {
        assert_eq!(figures_have_units(good), Ok(()));
    }
}

/// Words and numbers of one chance agree, at every thousandth.
#[test]
fn one_scale_of_chances() {
    for p in 0..=1000 {
        let p = f64::from(p) / 1000.0;
        let text = likely(p);
        assert_eq!(chances_have_numbers(&text), Ok(()));
        assert_eq!(figures_have_units(&text), Ok(()));
    }
    // The scale has nine words, and none is left out. Published: IPCC guidance note, 2010, table 1, to which "more likely than
    // not" and "extremely" belong.
    assert_eq!(scale().len(), 9);
    let strengths: BTreeSet<&str> = (-80..=80).map(|s| strength(f64::from(s) / 10.0)).collect();
    assert_eq!(strengths.len(), 7);
}
