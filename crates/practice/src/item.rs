//! What is practised: a feature, a kind, two kinds that are taken for each other, old or later, what a mark proves. By
//! permanent codes, so that it stays the same whatever edition of the pack is at hand.

/// What is practised.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Item {
    /// A feature: code of a question.
    Look(u16),
    /// A kind by its name: its code.
    Kind(u16),
    /// Two kinds that are taken for each other: their codes, the smaller first.
    Pair(u16, u16),
    /// Old or later within a kind: its code.
    Make(u16),
    /// What a mark may prove: code of the statement.
    Proof(u16),
}

impl Item {
    /// Two kinds, in whatever order.
    #[must_use]
    pub fn pair(one: u16, other: u16) -> Item {
        Item::Pair(one.min(other), one.max(other))
    }

    /// As it stands in a text.
    pub(crate) fn words(self) -> String {
        match self {
            Item::Look(q) => format!("look {q}"),
            Item::Kind(k) => format!("kind {k}"),
            Item::Pair(a, b) => format!("pair {a} {b}"),
            Item::Make(k) => format!("make {k}"),
            Item::Proof(p) => format!("proof {p}"),
        }
    }

    /// Reads words from the front of a list; what is left.
    pub(crate) fn read<'a>(words: &'a [&'a str]) -> Option<(Item, &'a [&'a str])> {
        let code = |at: usize| words.get(at)?.parse::<u16>().ok();
        let (item, taken) = match *words.first()? {
            "look" => (Item::Look(code(1)?), 2),
            "kind" => (Item::Kind(code(1)?), 2),
            "pair" => (Item::pair(code(1)?, code(2)?), 3),
            "make" => (Item::Make(code(1)?), 2),
            "proof" => (Item::Proof(code(1)?), 2),
            _ => return None,
        };
        Some((item, words.get(taken..)?))
    }
}
