//! The words of the field.

use super::Pages;
use super::fold::{fold, holds};
use super::page::Page;
use super::search::found;
use super::sheet::{Block, Card, Run, Sheet, Tone, say, section, text, toned};
use units::descending;

/// How many kinds and looks are named under a word. Basis: practice.
const MOST_NAMED: usize = 12;

impl Pages {
    /// The words with a meaning that stand in a folded text, as one list.
    pub(super) fn words_in(&self, folded: &str) -> Vec<Block> {
        let stands = |t: &usize| holds(folded, &fold(&self.book.terms[*t].word));
        let lines: Vec<Vec<Run>> =
            (0..self.book.terms.len()).filter(stands).map(|t| self.meaning(t)).collect();
        if lines.is_empty() { Vec::new() } else { vec![Block::List(lines)] }
    }

    /// A word as a link with what it means.
    pub(super) fn meaning(&self, term: usize) -> Vec<Run> {
        let t = &self.book.terms[term];
        vec![Run::Link(self.to(&Page::Term(term)), t.word.clone()), say(format!(": {}", t.means))]
    }

    /// The choice of a look whose label or clue names a word: its drawing shows what the word means.
    fn drawn(&self, term: usize) -> Option<(usize, usize)> {
        let word = fold(&self.book.terms[term].word);
        let named = |text: &str| holds(&fold(text), &word);
        let all = || {
            let questions = self.core.questions.iter().enumerate();
            questions.flat_map(|(q, asked)| {
                asked.choices.iter().enumerate().map(move |(c, choice)| (q, c, choice))
            })
        };
        let drawn = |(_, _, c): &(usize, usize, &pack::Choice)| !c.draw.is_empty();
        let by_label = all().filter(drawn).find(|(_, _, c)| named(&c.label));
        let found = by_label.or_else(|| all().filter(drawn).find(|(_, _, c)| named(&c.clue)))?;
        Some((found.0, found.1))
    }

    fn drawing_of(&self, term: usize) -> Option<Card> {
        let (q, c) = self.drawn(term)?;
        let choice = &self.core.questions[q].choices[c];
        Some(Card {
            to: self.to(&Page::Look(q)),
            draw: choice.draw.clone(),
            says: choice.label.clone(),
            note: self.core.questions[q].ask.clone(),
        })
    }
}

/// The glossary, or those of its words that meet what was typed.
pub(super) fn list(pages: &Pages, typed: &str) -> Sheet {
    let sought = fold(typed);
    let terms = &pages.book.terms;
    let scores: Vec<f64> = terms
        .iter()
        .map(|t| {
            f64::from(if sought.is_empty() { 1 } else { found(&sought, &[(8, &t.word), (1, &t.means)]) })
        })
        .collect();
    let names: Vec<String> = terms.iter().map(|t| fold(&t.word)).collect();
    // By name where nothing is looked for, else the best first.
    let order = if sought.is_empty() {
        units::order(terms.len(), &|a, b| names[a].cmp(&names[b]))
    } else {
        descending(&scores)
    };
    let lines: Vec<Vec<Run>> =
        order.into_iter().filter(|t| scores[*t] > 0.0).map(|t| pages.meaning(t)).collect();
    let none = || text("No word of the field is like that.");
    Sheet {
        title: "Words".to_string(),
        lead: vec![Block::Search("A word".to_string(), typed.to_string())],
        body: if lines.is_empty() { vec![none()] } else { vec![Block::List(lines)] },
        keys: pages.usual_keys(),
    }
}

pub(super) fn sheet(pages: &Pages, term: usize) -> Sheet {
    let t = &pages.book.terms[term];
    let word = fold(&t.word);
    let mut lead = vec![text(&t.means)];
    lead.extend(pages.drawing_of(term).map(|card| Block::Cards(vec![card])));
    let other = pages.words_in(&fold(&t.means));
    let met = |texts: &[&str]| texts.iter().any(|text| holds(&fold(text), &word));
    let mut kinds: Vec<(String, String)> = Vec::new();
    for k in pages.kinds() {
        let (kind, told) = (&pages.core.kinds[k], &pages.book.kinds[k]);
        let notes = told.notes.iter().any(|n| met(&[n]));
        if notes || met(&[&kind.name, &kind.short, &told.purpose]) {
            kinds.push((pages.to(&Page::Kind(k)), kind.short.clone()));
        }
    }
    let looks = pages
        .core
        .questions
        .iter()
        .enumerate()
        .filter(|(_, q)| met(&[&q.ask, &q.look]) || q.choices.iter().any(|c| met(&[&c.label, &c.clue])));
    let looks: Vec<(String, String)> =
        looks.map(|(at, q)| (pages.to(&Page::Look(at)), q.ask.clone())).collect();
    let mut body = Vec::new();
    section(&mut body, "Other words in it", other);
    section(&mut body, "Met at these kinds", links(kinds));
    section(&mut body, "Met at these looks", links(looks));
    if body.is_empty() {
        body.push(toned(Tone::Small, "No kind and no look of this edition uses the word."));
    }
    let keys = [
        (pages.to(&Page::Terms(String::new())), "All words"),
        (pages.to(&Page::Parts), "Parts of an iron"),
        ("./".to_string(), "Look at a piece"),
    ];
    Sheet { title: t.word.clone(), lead, body, keys: keys.map(|(to, says)| (to, says.to_string())).to_vec() }
}

fn links(all: Vec<(String, String)>) -> Vec<Block> {
    let more = all.len().saturating_sub(MOST_NAMED);
    let mut lines: Vec<Vec<Run>> =
        all.into_iter().take(MOST_NAMED).map(|(to, says)| vec![Run::Link(to, says)]).collect();
    if more > 0 {
        lines.push(vec![say(format!("and {more} more"))]);
    }
    if lines.is_empty() { Vec::new() } else { vec![Block::List(lines)] }
}
