//! The looks: one list of all, and a page for each: how to look, where newcomers slip, what each answer points to.

use super::Pages;
use super::page::{Grouping, Page};
use super::sheet::{Block, Card, Line, Sheet, Tone};
use super::write::{begun, card, cards, group, ranked, text};
use crate::words::{either, inside};

/// A kind is named under an answer that it shows at least so often. Basis: practice.
const NAMED: f64 = 0.5;
/// How many kinds are named under an answer. Basis: practice.
const MOST_NAMED: usize = 6;

impl Pages {
    /// Name of the part that a look is about.
    pub(super) fn part(&self, question: usize) -> &str {
        &self.core.parts[usize::from(self.core.questions[question].part)].name
    }

    /// The choices of a look as cards that lead nowhere.
    #[inline(never)]
    fn choices(&self, question: usize) -> Vec<Block> {
        let choices = &self.core.questions[question].choices;
        cards(choices.len(), &mut |at| {
            let c = &choices[at];
            Some(Card { draw: c.draw.clone(), says: c.label.clone(), ..Card::default() })
        })
    }

    /// What a look costs and needs: `About 5 seconds; at hand: magnet. A picture is enough.`
    fn costs(&self, question: usize) -> String {
        let q = &self.core.questions[question];
        let mut says = match q.seconds {
            1 => "About a second".to_string(),
            s => format!("About {s} seconds"),
        };
        if let Some(tool) = q.tool.and_then(|t| self.core.tools.get(usize::from(t))) {
            says.push_str(&format!("; at hand: {}", inside(&tool.name)));
        }
        says.push_str(if q.by_picture {
            ". A picture is enough."
        } else {
            ". It takes the piece in the hand."
        });
        if let Some(gate) = &q.gate {
            let asked = &self.core.questions[usize::from(gate.question)];
            let mut labels: Vec<&str> = Vec::new();
            for c in &gate.choices {
                labels.push(&asked.choices[usize::from(*c)].label);
            }
            let after = either(&labels);
            says.push_str(&format!(" Asked after \u{201c}{}\u{201d} was answered so: {after}.", asked.ask));
        }
        says
    }
}

/// All looks by part, each in full but for what its answers point to.
pub(super) fn list(pages: &Pages) -> Sheet {
    let mut body = Vec::new();
    for (part, named) in pages.core.parts.iter().enumerate() {
        let mut blocks = Vec::new();
        for (at, q) in pages.core.questions.iter().enumerate().filter(|(_, q)| usize::from(q.part) == part) {
            let ask = Line { to: pages.to(&Page::Look(at)), strong: q.ask.clone(), says: String::new() };
            blocks.push(Block::Text(Tone::Ask, ask));
            blocks.push(text(Tone::Hint, &q.look));
            blocks.extend(pages.choices(at));
        }
        group(&mut body, &named.name, blocks);
    }
    let how = "Every look of the guide, by part of the piece. While you look at a piece, the program says which of them is \
               worth most.";
    pages.sheet("How to look", vec![text(Tone::Hint, how)], body)
}

pub(super) fn sheet(pages: &Pages, question: usize) -> Sheet {
    let q = &pages.core.questions[question];
    let told = &pages.book.questions[question];
    let mut lead = vec![text(Tone::Plain, &q.look), text(Tone::Small, &pages.costs(question))];
    lead.extend(pages.choices(question));
    let mut body = Vec::new();
    let mut words = format!("{} {} {}", q.ask, q.look, told.newcomers);
    for c in &q.choices {
        words.push(' ');
        words.push_str(&c.label);
    }
    for (title, says) in [("Where newcomers slip", &told.newcomers), ("To ask a seller", &told.seller)] {
        if !says.is_empty() {
            card(&mut body, title, says.split('\n').map(|p| text(Tone::Plain, p)).collect());
        }
    }
    card(&mut body, "What each answer points to", points(pages, question));
    card(&mut body, "Words used here", pages.words_in(&words));
    let next = Page::Look((question + 1) % pages.core.questions.len());
    pages.keyed(&q.ask, lead, body, [(&Page::Looks, "All looks"), (&next, "Next look")], true)
}

/// Under each choice the kinds that mostly show it, the commonest first.
fn points(pages: &Pages, question: usize) -> Vec<Block> {
    let q = &pages.core.questions[question];
    let kinds = pages.kinds();
    let mut shows = Vec::new();
    for kind in &kinds {
        shows.push(pages.mostly_shows(*kind, question).filter(|(_, share)| *share >= NAMED).map(|m| m.0));
    }
    let mut blocks = Vec::new();
    for (choice, c) in q.choices.iter().enumerate() {
        let all = ranked(kinds.len(), kinds.len(), &mut |at| {
            if shows[at] == Some(choice) { 1.0 + pages.common(kinds[at]) } else { 0.0 }
        });
        if all.is_empty() {
            continue;
        }
        let more = all.len().saturating_sub(MOST_NAMED);
        let more = if more > 0 { format!(", the commonest of {}", all.len()) } else { String::new() };
        blocks.push(begun(Tone::Plain, &c.label, &more));
        let mut keys = Vec::new();
        for at in all.iter().take(MOST_NAMED) {
            let kind = kinds[*at];
            keys.push((pages.to(&Page::Kind(kind)), pages.core.kinds[kind].short.clone(), false));
        }
        blocks.push(Block::Keys(keys));
    }
    if !blocks.is_empty() && pages.groups_by(question) {
        let all = pages.to(&Page::Kinds(Grouping::Look(question)));
        blocks.push(begun(Tone::Plain, "All of them", ""));
        blocks.push(Block::Keys(vec![(all, "Kinds by this look".to_string(), false)]));
    }
    blocks
}
