//! The contents.

use super::Pages;
use super::page::{Grouping, Page};
use super::sheet::{Block, Card, Sheet, Tone, toned};
use crate::words::sentence;

impl Pages {
    /// The address of a page within the guide.
    pub(super) fn to(&self, page: &Page) -> String {
        format!("#{}", self.fragment(page))
    }

    /// The keys of a page without keys of its own.
    pub(super) fn usual_keys(&self) -> Vec<(String, String)> {
        let keys = [
            (self.to(&Page::Home), "Contents"),
            (self.to(&Page::Kinds(Grouping::Usual)), "All kinds"),
            ("./".to_string(), "Look at a piece"),
        ];
        keys.map(|(to, says)| (to, says.to_string())).to_vec()
    }

    /// Name, edition and licence.
    pub(super) fn edition(&self) -> String {
        let head = &self.core.head;
        format!("{}, edition of {}, {}.", head.name, head.edition, head.licence)
    }

    /// How common a kind is where nothing is said of the place.
    pub(super) fn common(&self, kind: usize) -> f64 {
        let own = self.core.candidates.iter().filter(|c| usize::from(c.kind) == kind);
        own.map(|c| c.prior.first().copied().map_or(0.0, f64::from)).sum()
    }
}

pub(super) fn sheet(pages: &Pages) -> Sheet {
    let kinds = pages.kinds().count();
    let card = |page: Page, draw: String, says: &str, note: String| Card {
        to: pages.to(&page),
        draw,
        says: says.to_string(),
        note,
    };
    let draw = |kind: usize| pages.book.kinds[kind].draw.clone();
    let first_look = pages.core.opening.first().map_or(0, |q| usize::from(*q));
    let choice = pages.core.questions[first_look].choices.first().map(|c| c.draw.clone()).unwrap_or_default();
    let pair = pages.kinds().find_map(|k| Some((k, pages.confusions(k).first()?.0)));
    let mut cards = vec![card(
        Page::Kinds(Grouping::Usual),
        draw(0),
        "All kinds",
        format!("{kinds} kinds, by what they look like"),
    )];
    if let Some((one, other)) = pair {
        cards.push(card(
            Page::Compare(one, None),
            draw(other),
            "Two side by side",
            "what tells them apart".to_string(),
        ));
    }
    cards.push(card(Page::Parts, draw(kinds / 2), "Parts of an iron", "what they are called".to_string()));
    cards.push(card(
        Page::Looks,
        choice,
        "How to look",
        format!("{} looks, with drawings", pages.core.questions.len()),
    ));
    let key = |page: Page, says: String| (pages.to(&page), says, false);
    let more = vec![
        key(Page::Terms(String::new()), format!("{} words", pages.book.terms.len())),
        key(Page::Care, "Care and cautions".to_string()),
        key(Page::Sources, "Sources".to_string()),
        ("key.html".to_string(), "Printed key".to_string(), false),
    ];
    let mut lead = vec![pages.search("")];
    if !pages.core.head.notice.is_empty() {
        lead.push(toned(Tone::Care, sentence(&pages.core.head.notice)));
    }
    lead.push(Block::Cards(cards));
    lead.push(Block::Keys(more));
    Sheet {
        title: "The guide".to_string(),
        lead,
        body: vec![
            Block::Group("How is it shown?".to_string(), vec![Block::Themes]),
            toned(Tone::Small, pages.edition()),
        ],
        keys: pages.usual_keys(),
    }
}
