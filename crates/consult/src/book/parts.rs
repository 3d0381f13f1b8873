//! The parts of an iron: a few drawings with numbers, chosen so that together they show every word of the field that
//! the drawings of this pack know.

use super::Pages;
use super::fold::{fold, holds};
use super::page::Page;
use super::sheet::{Block, Line, Part, Sheet, Tone};
use super::write::{card, group, line, lines, text};
use crate::words::inside;
use pack::Standing;

/// How many numbered drawings are shown at most. Basis: practice.
const MOST_DRAWINGS: usize = 5;

/// A kind, and of its drawing the keys and values that get a number.
type Plate<'a> = (usize, Vec<(&'a str, &'a str)>);

pub(super) fn sheet(pages: &Pages) -> Sheet {
    let mut body: Vec<Block> = Vec::new();
    let mut told: Vec<usize> = Vec::new();
    for (kind, keys) in chosen(pages, MOST_DRAWINGS) {
        let mut parts = Vec::new();
        for (key, value) in keys {
            parts.extend(part(pages, key, value, &mut told));
        }
        let numbered = Block::Numbered(pages.piece(kind), parts);
        group(&mut body, &pages.core.kinds[kind].short, vec![numbered]);
    }
    for (at, part) in pages.core.parts.iter().enumerate() {
        let looks = lines(pages.core.questions.len(), &mut |q| {
            let asked = &pages.core.questions[q];
            (usize::from(asked.part) == at).then(|| line(pages.to(&Page::Look(q)), &asked.ask, ""))
        });
        card(&mut body, &format!("Looks at {}", inside(&part.name)), looks);
    }
    let hint = "What the parts are called. The numbers stand in the drawings and before the words.";
    pages.sheet("Parts and their names", vec![text(Tone::Hint, hint)], body)
}

/// The kind whose drawing has the most parts with a name.
pub(super) fn first(pages: &Pages) -> Option<usize> {
    chosen(pages, 1).first().map(|plate| plate.0)
}

/// Kinds, and of each the keys and values of its drawing that are worth a number: on the first drawing all, on a further
/// one those with a word that no drawing before it had. The kind that adds most comes first.
fn chosen(pages: &Pages, most: usize) -> Vec<Plate<'_>> {
    let mut told: Vec<usize> = Vec::new();
    let mut chosen: Vec<Plate<'_>> = Vec::new();
    while chosen.len() < most {
        let mut best: Plate<'_> = (0, Vec::new());
        for kind in pages.kinds() {
            if pages.core.kinds[kind].standing != Standing::Inside {
                continue;
            }
            let mut keys = Vec::new();
            for pair in pages.book.kinds[kind].draw.split_ascii_whitespace().filter_map(|w| w.split_once('='))
            {
                let drawn = pair.1 != "none" && pages.outside.contains(&pair.0);
                let fresh = |t: &usize| !told.contains(t);
                if drawn && (chosen.is_empty() || pages.terms_of(pair).iter().any(fresh)) {
                    keys.push(pair);
                }
            }
            if keys.len() > best.1.len() {
                best = (kind, keys);
            }
        }
        if best.1.is_empty() {
            break;
        }
        for pair in &best.1 {
            told.extend(pages.terms_of(*pair));
        }
        chosen.push(best);
    }
    chosen
}

impl Pages {
    /// The words of the field in what a key draws.
    fn terms_of(&self, (key, value): (&str, &str)) -> Vec<usize> {
        let Some(phrase) = self.phrase(key, value) else { return Vec::new() };
        let folded = fold(&format!("{key} {phrase}"));
        let stands = |t: &usize| holds(&folded, &fold(&self.book.terms[*t].word));
        (0..self.book.terms.len()).filter(stands).collect()
    }

    fn phrase(&self, key: &str, value: &str) -> Option<&str> {
        let name = format!("{key}.{value}");
        self.book.art.iter().find(|f| f.name == name).map(|f| f.says.as_str())
    }
}

/// What a key draws, in the words of the art, with the meanings of those words in it that have not been told yet.
fn part(pages: &Pages, key: &str, value: &str, told: &mut Vec<usize>) -> Option<Part> {
    let mut says = pages.phrase(key, value)?.to_string();
    if let Some(first) = says.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    let mut words: Vec<Line> = Vec::new();
    for term in pages.terms_of((key, value)) {
        if !told.contains(&term) {
            told.push(term);
            words.push(pages.meaning(term));
        }
    }
    Some(Part { key: key.to_string(), says, words })
}
