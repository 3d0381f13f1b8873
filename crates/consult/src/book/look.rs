//! The looks: one list of all, and a page for each: how to look, where newcomers slip, what each answer points to.

use super::Pages;
use super::page::{Grouping, Page};
use super::sheet::{Block, Card, Run, Sheet, Tone, say, section, text, toned};
use crate::words::{either, inside, sentence};
use units::descending;

/// A kind is named under an answer that it shows at least so often. Basis: practice.
const NAMED: f64 = 0.5;
/// How many kinds are named under an answer. Basis: practice.
const MOST_NAMED: usize = 10;

impl Pages {
    /// Name of the part that a look is about.
    pub(super) fn part(&self, question: usize) -> String {
        self.core.parts[usize::from(self.core.questions[question].part)].name.clone()
    }

    /// The choices of a look as cards that lead nowhere.
    fn choices(&self, question: usize) -> Vec<Card> {
        let card = |c: &pack::Choice| Card { draw: c.draw.clone(), says: c.label.clone(), ..Card::default() };
        self.core.questions[question].choices.iter().map(card).collect()
    }

    /// What a look costs and needs: `About 5 seconds, with a magnet. It can be told from a picture.`
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
            let labels: Vec<&str> =
                gate.choices.iter().map(|c| asked.choices[usize::from(*c)].label.as_str()).collect();
            says.push_str(&format!(
                " Only where \u{201c}{}\u{201d} was answered with {}.",
                asked.ask,
                inside(&either(&labels))
            ));
        }
        says
    }
}

/// All looks by part, each in full but for what its answers point to.
pub(super) fn list(pages: &Pages) -> Sheet {
    let mut body = Vec::new();
    for (part, named) in pages.core.parts.iter().enumerate() {
        let of_part =
            (0..pages.core.questions.len()).filter(|q| usize::from(pages.core.questions[*q].part) == part);
        let mut blocks = Vec::new();
        for question in of_part {
            let q = &pages.core.questions[question];
            blocks.push(Block::Text(
                Tone::Ask,
                vec![Run::Link(pages.to(&Page::Look(question)), q.ask.clone())],
            ));
            blocks.push(toned(Tone::Hint, &q.look));
            blocks.push(Block::Cards(pages.choices(question)));
        }
        if !blocks.is_empty() {
            body.push(Block::Group(named.name.clone(), blocks));
        }
    }
    let how = "Every look of the guide, by part of the iron. The finding tells which of them is worth most for your piece.";
    Sheet {
        title: "How to look".to_string(),
        lead: vec![toned(Tone::Hint, how)],
        body,
        keys: pages.usual_keys(),
    }
}

pub(super) fn sheet(pages: &Pages, question: usize) -> Sheet {
    let q = &pages.core.questions[question];
    let told = &pages.book.questions[question];
    let lead =
        vec![text(&q.look), toned(Tone::Small, pages.costs(question)), Block::Cards(pages.choices(question))];
    let mut body = Vec::new();
    let texts = |t: &String| if t.is_empty() { Vec::new() } else { t.split('\n').map(text).collect() };
    section(&mut body, "Where newcomers slip", texts(&told.newcomers));
    section(&mut body, "What each answer points to", points(pages, question));
    section(&mut body, "To ask a seller", texts(&told.seller));
    let after = sentence(&q.choices.iter().map(|c| c.label.as_str()).collect::<Vec<_>>().join(". "));
    let words = super::fold::fold(&[q.ask.as_str(), &q.look, &told.newcomers, &after].join(" "));
    section(&mut body, "Words used here", pages.words_in(&words));
    let next = (question + 1) % pages.core.questions.len();
    let keys = [
        (pages.to(&Page::Looks), "All looks"),
        (pages.to(&Page::Look(next)), "Next look"),
        ("./".to_string(), "Look at a piece"),
    ];
    Sheet { title: q.ask.clone(), lead, body, keys: keys.map(|(to, says)| (to, says.to_string())).to_vec() }
}

/// Under each choice the kinds that mostly show it, the commonest first.
fn points(pages: &Pages, question: usize) -> Vec<Block> {
    let q = &pages.core.questions[question];
    let kinds: Vec<usize> = pages.kinds().collect();
    let weights: Vec<f64> = kinds.iter().map(|k| pages.common(*k)).collect();
    let kinds = units::arranged(kinds, &descending(&weights));
    let mut lines = Vec::new();
    for (choice, c) in q.choices.iter().enumerate() {
        let shows = |k: &&usize| {
            pages.mostly_shows(**k, question).is_some_and(|(most, share)| most == choice && share >= NAMED)
        };
        let all: Vec<usize> = kinds.iter().filter(shows).copied().collect();
        if all.is_empty() {
            continue;
        }
        let mut runs = vec![Run::Strong(format!("{}: ", c.label))];
        for (i, kind) in all.iter().take(MOST_NAMED).enumerate() {
            if i > 0 {
                runs.push(say(", "));
            }
            runs.push(Run::Link(pages.to(&Page::Kind(*kind)), pages.core.kinds[*kind].short.clone()));
        }
        if all.len() > MOST_NAMED {
            runs.push(say(format!(" and {} more", all.len() - MOST_NAMED)));
        }
        runs.push(say("."));
        lines.push(runs);
    }
    if lines.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::List(lines)];
    if pages.groups_by(question) {
        let all = Page::Kinds(Grouping::Look(question));
        blocks.push(Block::Keys(vec![(pages.to(&all), "All kinds by this look".to_string(), false)]));
    }
    blocks
}
