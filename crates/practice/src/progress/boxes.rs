//! Plain boxes: what was answered right when it was due moves on, what was answered wrong begins again.
//!
//! That learning is spaced matters much, how cleverly it is spaced hardly: spaced against massed retrieval g = 0.74, growing
//! against equal gaps no difference (Latimier and others 2021, 10.1007/s10648-020-09572-8). Basis of the days: practice.

use crate::item::Item;

/// Days until what stands in a box is asked again.
pub const DAYS: [u32; 5] = [1, 3, 7, 14, 30];

/// A day: days since 1 January 1970. It is given; nobody here knows what day it is.
pub type Day = u32;

/// Where an item stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Card {
    /// What is practised.
    pub item: Item,
    /// Index into [`DAYS`].
    pub stands: usize,
    /// From this day on it is asked again.
    pub due: Day,
    /// Right answers so far.
    pub right: u32,
    /// Wrong answers so far.
    pub wrong: u32,
}

impl Card {
    /// After the first answer: in the first box, whatever it was.
    #[must_use]
    pub fn begun(item: Item, right: bool, today: Day) -> Card {
        let due = today.saturating_add(DAYS[0]);
        Card { item, stands: 0, due, right: u32::from(right), wrong: u32::from(!right) }
    }

    /// After a further answer. Right before it is due changes nothing but the count: what was seen a moment ago is no
    /// proof of memory. A clock that was turned back never keeps an item away for longer than its box.
    #[must_use]
    pub fn answered(self, right: bool, today: Day) -> Card {
        let mut card = self;
        if !right {
            card.wrong = card.wrong.saturating_add(1);
            card.stands = 0;
            card.due = today.saturating_add(DAYS[0]);
            return card;
        }
        card.right = card.right.saturating_add(1);
        if card.is_due(today) {
            card.stands = (card.stands + 1).min(DAYS.len() - 1);
            card.due = today.saturating_add(DAYS[card.stands]);
        }
        card.due = card.due.min(today.saturating_add(DAYS[card.stands]));
        card
    }

    /// Whether it is to be asked.
    #[must_use]
    pub fn is_due(&self, today: Day) -> bool {
        self.due <= today
    }
}
