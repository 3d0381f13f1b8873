//! The words of the field.

use super::Pages;
use super::fold::{fold, holds};
use super::page::Page;
use super::search::found;
use super::sheet::{Block, Card, Line, Sheet, Tone};
use super::write::{card, line, lines, ranked, text};
use units::order;

/// How many kinds and looks are named under a word. Basis: practice.
const MOST_NAMED: usize = 12;

impl Pages {
    /// The words with a meaning that stand in a text, as one list.
    #[inline(never)]
    pub(super) fn words_in(&self, words: &str) -> Vec<Block> {
        let folded = fold(words);
        lines(self.book.terms.len(), &mut |t| {
            holds(&folded, &fold(&self.book.terms[t].word)).then(|| self.meaning(t))
        })
    }

    /// A word as a link with what it means.
    #[inline(never)]
    pub(super) fn meaning(&self, term: usize) -> Line {
        let t = &self.book.terms[term];
        line(self.to(&Page::Term(term)), &t.word, &format!(": {}", t.means))
    }

    /// The choice of a look whose label, or else whose clue, names a word: its drawing shows what the word means.
    fn drawing_of(&self, word: &str) -> Option<Card> {
        for by_label in [true, false] {
            for (at, q) in self.core.questions.iter().enumerate() {
                for c in q.choices.iter().filter(|c| !c.draw.is_empty()) {
                    if holds(&fold(if by_label { &c.label } else { &c.clue }), word) {
                        return Some(Card {
                            to: self.to(&Page::Look(at)),
                            draw: c.draw.clone(),
                            says: c.label.clone(),
                            note: q.ask.clone(),
                        });
                    }
                }
            }
        }
        None
    }
}

/// The glossary, or those of its words that meet what was typed.
pub(super) fn list(pages: &Pages, typed: &str) -> Sheet {
    let sought = fold(typed);
    let terms = &pages.book.terms;
    // By name where nothing is looked for, else the best first.
    let order = if sought.is_empty() {
        let mut names = Vec::new();
        for t in terms {
            names.push(fold(&t.word));
        }
        order(terms.len(), &|a, b| names[a].cmp(&names[b]))
    } else {
        ranked(terms.len(), terms.len(), &mut |t| {
            found(&sought, &[(8, &terms[t].word), (1, &terms[t].means)])
        })
    };
    let mut body = lines(order.len(), &mut |at| Some(pages.meaning(order[at])));
    if body.is_empty() {
        body.push(text(Tone::Plain, "No word of the field is like that."));
    }
    pages.sheet("Words", vec![Block::Search("A word".to_string(), typed.to_string())], body)
}

pub(super) fn sheet(pages: &Pages, term: usize) -> Sheet {
    let t = &pages.book.terms[term];
    let word = fold(&t.word);
    let met = |text: &str| holds(&fold(text), &word);
    let mut lead = vec![text(Tone::Plain, &t.means)];
    lead.extend(pages.drawing_of(&word).map(|card| Block::Cards(vec![card])));
    let mut kinds: Vec<Line> = Vec::new();
    for k in pages.kinds() {
        let (kind, told) = (&pages.core.kinds[k], &pages.book.kinds[k]);
        if met(&kind.name) || met(&kind.short) || met(&told.purpose) || told.notes.iter().any(|n| met(n)) {
            kinds.push(line(pages.to(&Page::Kind(k)), &kind.short, ""));
        }
    }
    let mut looks: Vec<Line> = Vec::new();
    for (at, q) in pages.core.questions.iter().enumerate() {
        if met(&q.ask) || met(&q.look) || q.choices.iter().any(|c| met(&c.label) || met(&c.clue)) {
            looks.push(line(pages.to(&Page::Look(at)), &q.ask, ""));
        }
    }
    let mut body = Vec::new();
    card(&mut body, "Other words in it", pages.words_in(&t.means));
    card(&mut body, "Met at these kinds", named(kinds));
    card(&mut body, "Met at these looks", named(looks));
    if body.is_empty() {
        body.push(text(Tone::Small, "No kind and no look of this edition uses the word."));
    }
    let keys = [(&Page::Terms(String::new()), "All words"), (&Page::Parts, "Parts and their names")];
    pages.keyed(&t.word, lead, body, keys, true)
}

/// The first of some lines, and how many more there are.
fn named(mut all: Vec<Line>) -> Vec<Block> {
    let more = all.len().saturating_sub(MOST_NAMED);
    if more > 0 {
        all.truncate(MOST_NAMED);
        all.push(line(String::new(), "", &format!("and {more} more")));
    }
    if all.is_empty() { Vec::new() } else { vec![Block::Lines(all)] }
}
