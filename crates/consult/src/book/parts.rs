//! The parts of an iron: a few drawings with numbers, chosen so that together they show every part that the drawings
//! of this pack know.

use super::Pages;
use super::fold::fold;
use super::page::Page;
use super::sheet::{Block, Part, Run, Sheet, Tone, say, section, toned};
use crate::words::inside;
use pack::Standing;

/// How many numbered drawings are shown at most. Basis: practice.
const MOST_DRAWINGS: usize = 5;
/// How many parts a further drawing must add. Basis: practice.
const ADDS: usize = 1;

pub(super) fn sheet(pages: &Pages) -> Sheet {
    let mut body: Vec<Block> = Vec::new();
    for (kind, keys) in chosen(pages) {
        let piece = pages.piece(kind);
        let parts: Vec<Part> = keys.into_iter().filter_map(|(key, value)| part(pages, key, value)).collect();
        let title = pages.core.kinds[kind].short.clone();
        body.push(Block::Group(title, vec![Block::Numbered(piece, parts)]));
    }
    let of_part = |part: usize| {
        let looks = pages.core.questions.iter().enumerate().filter(|(_, q)| usize::from(q.part) == part);
        looks.map(|(at, q)| vec![Run::Link(pages.to(&Page::Look(at)), q.ask.clone())]).collect::<Vec<_>>()
    };
    for (at, part) in pages.core.parts.iter().enumerate() {
        let looks = of_part(at);
        if !looks.is_empty() {
            section(&mut body, &format!("Looks at {}", inside(&part.name)), vec![Block::List(looks)]);
        }
    }
    Sheet {
        title: "Parts of an iron".to_string(),
        lead: vec![toned(
            Tone::Hint,
            "What the parts are called. The numbers stand in the drawings and before the words.",
        )],
        body,
        keys: pages.usual_keys(),
    }
}

/// Kinds, and of each the keys and values of its drawing that no drawing before it had; the one that adds most first.
fn chosen(pages: &Pages) -> Vec<(usize, Vec<(&str, &str)>)> {
    let mut shown: Vec<&str> = Vec::new();
    let mut chosen = Vec::new();
    while chosen.len() < MOST_DRAWINGS {
        let fresh = |k: usize| -> Vec<(&str, &str)> {
            let pairs = pages.book.kinds[k].draw.split_ascii_whitespace().filter_map(|w| w.split_once('='));
            pairs.filter(|(key, value)| *value != "none" && *key != "view" && !shown.contains(key)).collect()
        };
        let inside = pages.kinds().filter(|k| pages.core.kinds[*k].standing == Standing::Inside);
        // The first of those that add most: `max_by_key` would take the last.
        let best = inside.fold(None, |best: Option<(usize, usize)>, k| {
            let adds = fresh(k).len();
            if adds > best.map_or(0, |b| b.1) { Some((k, adds)) } else { best }
        });
        let Some((kind, _)) = best.filter(|b| b.1 >= ADDS) else { break };
        let keys = fresh(kind);
        shown.extend(keys.iter().map(|k| k.0));
        chosen.push((kind, keys));
    }
    chosen
}

/// What a key draws, in the words of the art, with the meanings of the words in it.
fn part(pages: &Pages, key: &str, value: &str) -> Option<Part> {
    let name = format!("{key}.{value}");
    let phrase = &pages.book.art.iter().find(|f| f.name == name)?.says;
    let folded = fold(&format!("{key} {phrase}"));
    let stands = |t: &usize| super::fold::holds(&folded, &fold(&pages.book.terms[*t].word));
    let mut says = vec![say(phrase.as_str())];
    for term in (0..pages.book.terms.len()).filter(stands) {
        says.push(say(" \u{2013} "));
        says.extend(pages.meaning(term));
    }
    Some(Part { key: key.to_string(), says })
}
