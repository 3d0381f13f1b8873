//! Finding kinds, words and looks by typed words.

use super::Pages;
use super::fold::{fold, meets};
use super::page::Page;
use super::sheet::{Block, Card, Run, Sheet, Tone, section, toned};
use units::descending;

/// How many of each sort are shown. Basis: practice.
const MOST: usize = 24;

/// How well folded words meet texts with their weights: every word must be met somewhere, and the best place counts.
pub(super) fn found(sought: &str, fields: &[(u32, &str)]) -> u32 {
    let folded: Vec<(u32, String)> = fields.iter().map(|(weight, text)| (*weight, fold(text))).collect();
    let mut sum = 0;
    for word in sought.split(' ') {
        let in_field = |(weight, text): &(u32, String)| {
            text.split(' ').map(|w| meets(word, w)).max().unwrap_or(0) * weight
        };
        match folded.iter().map(in_field).max() {
            Some(best) if best > 0 => sum += best,
            _ => return 0,
        }
    }
    sum
}

pub(super) fn sheet(pages: &Pages, typed: &str) -> Sheet {
    let sought = fold(typed);
    let mut body = Vec::new();
    if !sought.is_empty() {
        let kinds: Vec<Card> = best(pages.kinds().collect(), |k| of_kind(pages, k, &sought))
            .into_iter()
            .map(|k| pages.kind_card(k, &Page::Kind(k)))
            .collect();
        if !kinds.is_empty() {
            body.push(Block::Group("Kinds".to_string(), vec![Block::Cards(kinds)]));
        }
        let term =
            |t: usize| found(&sought, &[(8, &pages.book.terms[t].word), (2, &pages.book.terms[t].means)]);
        let words = best((0..pages.book.terms.len()).collect(), term).into_iter().map(|t| pages.meaning(t));
        section(&mut body, "Words", lines(words.collect()));
        let looks = best((0..pages.core.questions.len()).collect(), |q| of_look(pages, q, &sought));
        let looks = looks
            .into_iter()
            .map(|q| vec![Run::Link(pages.to(&Page::Look(q)), pages.core.questions[q].ask.clone())]);
        section(&mut body, "Looks", lines(looks.collect()));
        if body.is_empty() {
            body.push(toned(
                Tone::Plain,
                "Nothing in the guide is like that. Try one word, or a shorter one.",
            ));
        }
    }
    Sheet {
        title: "Find".to_string(),
        lead: vec![
            pages.search(typed),
            toned(Tone::Hint, "Names, what they were for, notes, looks and words of the field."),
        ],
        body,
        keys: pages.usual_keys(),
    }
}

impl Pages {
    /// The place to type what is looked for in the whole guide.
    pub(super) fn search(&self, typed: &str) -> Block {
        Block::Search("Find a kind or a word".to_string(), typed.to_string())
    }
}

fn of_kind(pages: &Pages, kind: usize, sought: &str) -> u32 {
    let (k, told) = (&pages.core.kinds[kind], &pages.book.kinds[kind]);
    let mut fields: Vec<(u32, &str)> =
        vec![(8, &k.name), (8, &k.short), (4, &told.purpose), (2, &told.companions), (2, &told.found)];
    fields.extend(told.notes.iter().map(|n| (1, n.as_str())));
    found(sought, &fields)
}

fn of_look(pages: &Pages, question: usize, sought: &str) -> u32 {
    let q = &pages.core.questions[question];
    let mut fields: Vec<(u32, &str)> = vec![(4, &q.ask), (1, &q.look)];
    fields.extend(q.choices.iter().map(|c| (3, c.label.as_str())));
    found(sought, &fields)
}

/// Those with a score, the best first, the earlier first among equals.
fn best(all: Vec<usize>, score: impl Fn(usize) -> u32) -> Vec<usize> {
    let scores: Vec<f64> = all.iter().map(|i| f64::from(score(*i))).collect();
    descending(&scores).into_iter().filter(|i| scores[*i] > 0.0).take(MOST).map(|i| all[i]).collect()
}

fn lines(lines: Vec<Vec<Run>>) -> Vec<Block> {
    if lines.is_empty() { Vec::new() } else { vec![Block::List(lines)] }
}
