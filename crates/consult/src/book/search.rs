//! Finding kinds, words and looks by typed words.

use super::Pages;
use super::fold::{fold, meets};
use super::page::Page;
use super::sheet::{Block, Sheet, Tone};
use super::write::{card, cards, group, line, lines, ranked, text};

/// How many of each sort are shown. Basis: practice.
const MOST: usize = 16;

/// How well folded words meet texts with their weights: every word must be met somewhere, and the best place counts.
#[inline(never)]
pub(super) fn found(sought: &str, fields: &[(u32, &str)]) -> f64 {
    let mut folded = Vec::new();
    for (weight, text) in fields {
        folded.push((*weight, fold(text)));
    }
    let mut sum = 0;
    for word in sought.split(' ') {
        let mut best = 0;
        for (weight, text) in &folded {
            for other in text.split(' ') {
                best = best.max(meets(word, other) * weight);
            }
        }
        if best == 0 {
            return 0.0;
        }
        sum += best;
    }
    f64::from(sum)
}

pub(super) fn sheet(pages: &Pages, typed: &str) -> Sheet {
    let sought = fold(typed);
    let mut body = Vec::new();
    if !sought.is_empty() {
        let all = pages.kinds();
        let best = ranked(all.len(), MOST, &mut |at| {
            let (k, told) = (&pages.core.kinds[all[at]], &pages.book.kinds[all[at]]);
            let mut fields: Vec<(u32, &str)> = vec![
                (8, &k.name),
                (8, &k.short),
                (4, &told.purpose),
                (2, &told.companions),
                (2, &told.found),
            ];
            fields.extend(told.notes.iter().map(|n| (1, n.as_str())));
            found(&sought, &fields)
        });
        let kinds = cards(best.len(), &mut |at| Some(pages.kind_card(all[best[at]], None)));
        group(&mut body, "Kinds", kinds);
        let terms = &pages.book.terms;
        let best =
            ranked(terms.len(), MOST, &mut |t| found(&sought, &[(8, &terms[t].word), (2, &terms[t].means)]));
        card(&mut body, "Words", lines(best.len(), &mut |at| Some(pages.meaning(best[at]))));
        let looks = &pages.core.questions;
        let best = ranked(looks.len(), MOST, &mut |at| {
            let mut fields: Vec<(u32, &str)> = vec![(4, &looks[at].ask), (1, &looks[at].look)];
            fields.extend(looks[at].choices.iter().map(|c| (3, c.label.as_str())));
            found(&sought, &fields)
        });
        let looks = lines(best.len(), &mut |at| {
            Some(line(pages.to(&Page::Look(best[at])), &looks[best[at]].ask, ""))
        });
        card(&mut body, "Looks", looks);
        if body.is_empty() {
            body.push(text(
                Tone::Plain,
                "Nothing in the guide is like that. Try one word, or a shorter one.",
            ));
        }
    }
    let hint = text(Tone::Hint, "Names, what they were for, notes, looks and words of the field.");
    pages.sheet("Find", vec![pages.search(typed), hint], body)
}

impl Pages {
    /// The place to type what is looked for in the whole guide.
    pub(super) fn search(&self, typed: &str) -> Block {
        Block::Search("Find a kind or a word".to_string(), typed.to_string())
    }
}
