//! The contents, and what every page has.

use super::page::{Grouping, Page};
use super::sheet::{Block, Card, Sheet, Tone};
use super::write::{group, text};
use super::{Pages, parts};
use crate::fragment::to_marks;
use crate::words::sentence;

impl Pages {
    /// The address of a page within the guide.
    #[inline(never)]
    pub(super) fn to(&self, page: &Page) -> String {
        format!("#{}", self.fragment(page))
    }

    /// A page with the usual keys.
    #[inline(never)]
    pub(super) fn sheet(&self, title: &str, lead: Vec<Block>, body: Vec<Block>) -> Sheet {
        let home = (&Page::Home, "Contents");
        self.keyed(title, lead, body, [home, (&Page::Kinds(Grouping::Usual), "All kinds")], true)
    }

    /// A page with keys of its own; the way to a piece is the last, where it is wanted.
    #[inline(never)]
    pub(super) fn keyed(
        &self,
        title: &str,
        lead: Vec<Block>,
        body: Vec<Block>,
        keys: [(&Page, &str); 2],
        piece: bool,
    ) -> Sheet {
        let mut all = Vec::new();
        for (page, says) in keys {
            all.push((self.to(page), says.to_string()));
        }
        if piece {
            all.push(("./".to_string(), "Look at a piece".to_string()));
        }
        Sheet { title: title.to_string(), lead, body, keys: all, find: self.to(&Page::Search(String::new())) }
    }

    /// Name, edition and licence.
    pub(super) fn edition(&self) -> String {
        let head = &self.core.head;
        format!("{}, edition of {}, {}.", head.name, head.edition, head.licence)
    }

    fn key(&self, page: &Page, says: &str) -> (String, String, bool) {
        (self.to(page), says.to_string(), false)
    }
}

pub(super) fn sheet(pages: &Pages) -> Sheet {
    let kinds = pages.kinds();
    let mut lead = vec![pages.search("")];
    if !pages.core.head.notice.is_empty() {
        lead.push(text(Tone::Care, &sentence(&pages.core.head.notice)));
    }
    let draw = |kind: Option<usize>| kind.map_or("", |k| pages.book.kinds[k].draw.as_str());
    let card = |page: &Page, draw: &str, says: &str, note: &str| Card {
        to: pages.to(page),
        draw: draw.to_string(),
        says: says.to_string(),
        note: note.to_string(),
    };
    let pair = kinds.iter().find_map(|k| Some((*k, pages.confusions(*k).first()?.0)));
    let first = pages.core.opening.first().and_then(|q| pages.core.questions.get(usize::from(*q)));
    let choice = first.and_then(|q| q.choices.first()).map_or("", |c| c.draw.as_str());
    let count = format!("{} kinds, by what they look like", kinds.len());
    let looks = format!("{} looks, with drawings", pages.core.questions.len());
    let mut cards =
        vec![card(&Page::Kinds(Grouping::Usual), draw(kinds.first().copied()), "All kinds", &count)];
    if let Some((one, other)) = pair {
        cards.push(card(
            &Page::Compare(one, None),
            draw(Some(other)),
            "Two side by side",
            "what tells them apart",
        ));
    }
    cards.push(card(
        &Page::Parts,
        draw(parts::first(pages)),
        "Parts and their names",
        "what they are called",
    ));
    cards.push(card(&Page::Looks, choice, "How to look", &looks));
    lead.push(Block::Cards(cards));
    lead.push(Block::Keys(vec![
        pages.key(&Page::Terms(String::new()), &format!("{} words", pages.book.terms.len())),
        (format!("./#{}", to_marks(&pages.core.head.id)), "Read the marks".to_string(), false),
        pages.key(&Page::Care, "Care and cautions"),
        pages.key(&Page::Sources, "Sources"),
        ("key.html".to_string(), "Printed key".to_string(), false),
        ("practice.html".to_string(), "Learning to see".to_string(), false),
        pages.key(&Page::Packs, "Packs"),
        pages.key(&Page::Desk, "Pack desk"),
    ]));
    let mut body = Vec::new();
    group(&mut body, "How is it shown?", vec![Block::Themes]);
    body.push(text(Tone::Small, &pages.edition()));
    pages.sheet("The guide", lead, body)
}
