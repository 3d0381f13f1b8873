//! The list of records, ready to be searched.

use super::card::Card;
use super::sort::{Placed, Sort};
use super::words::folded;
use crate::order::sorted;
use crate::record::{Date, Number, Rank, Record, Standing, Uuid, Version, is_past};
use units::order;

/// What is asked of the list.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Query {
    /// Words that must all stand in a record, anywhere; parts of words do.
    pub words: String,
    /// What must hold, all of it.
    pub filters: Vec<Filter>,
    /// In which order.
    pub sort: Sort,
    /// From the end.
    pub backwards: bool,
}

/// One thing that must hold of a record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Filter {
    /// How it stands.
    Standing(Standing),
    /// Its class is this one, accents and capitals apart.
    Class(String),
    /// Its kind is this one.
    Kind(String),
    /// This is among its materials.
    Material(String),
    /// It is kept at this place.
    Location(String),
    /// It has no photograph.
    NoPhoto,
    /// It has no valuation.
    NoValue,
    /// Its valuation is old.
    OldValue,
    /// It lacks something.
    Lacking,
    /// It is to be sold by itself.
    Singly,
    /// It was taken out of the cabinet, or was not.
    Gone(bool),
    /// Versions of it disagree.
    Disagreeing,
    /// Its length lies between, in tenths of a millimetre.
    Length(u32, u32),
}

/// One record in the list.
#[derive(Debug)]
struct Entry {
    card: Card,
    /// Its valuation is old.
    old: bool,
    rank: Option<Rank>,
}

/// Records made ready. What is found is told by place in the list that was given.
#[derive(Debug, Default)]
pub struct Index {
    entries: Vec<Entry>,
}

impl Index {
    /// Reads the records, once; `today` is given.
    #[must_use]
    pub fn new(versions: &[&Version], today: Date) -> Index {
        Index::of(versions.iter().map(|v| Card::new(v, 0)).collect(), today)
    }

    /// Takes cards; `today` is given.
    #[must_use]
    pub fn of(cards: Vec<Card>, today: Date) -> Index {
        let mut index = Index::default();
        for card in cards {
            index.push(card, today);
        }
        index
    }

    /// Adds a card that is not among them: [`Index::put`] without looking.
    pub fn push(&mut self, card: Card, today: Date) {
        self.entries.push(Entry::new(card, today));
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// The card at a place.
    #[must_use]
    pub fn card(&self, at: usize) -> &Card {
        &self.entries[at].card
    }

    /// All cards.
    pub fn cards(&self) -> impl Iterator<Item = &Card> {
        self.entries.iter().map(|e| &e.card)
    }

    /// The card of a piece.
    #[must_use]
    pub fn card_of(&self, id: Uuid) -> Option<&Card> {
        self.cards().find(|card| card.id == id)
    }

    /// Puts one record in place of the one of its id, or behind the others.
    pub fn put(&mut self, card: Card, today: Date) {
        match self.entries.iter().position(|e| e.card.id == card.id) {
            Some(at) => self.entries[at] = Entry::new(card, today),
            None => self.push(card, today),
        }
    }

    /// The places of the records that answer the query, in its order.
    #[must_use]
    pub fn find(&self, query: &Query) -> Vec<usize> {
        let asked = folded(&query.words);
        let words: Vec<&str> = asked.split_whitespace().collect();
        let filters: Vec<(&Filter, String)> = query.filters.iter().map(|f| (f, folded(f.word()))).collect();
        let answers = |e: &Entry| {
            filters.iter().all(|(f, word)| e.holds(f, word)) && words.iter().all(|w| e.card.all.contains(w))
        };
        let found: Vec<usize> = (0..self.entries.len()).filter(|at| answers(&self.entries[*at])).collect();
        let placed: Vec<Placed> =
            found.iter().map(|at| query.sort.placed(self.card(*at), self.entries[*at].rank)).collect();
        let by = order(found.len(), &|a, b| query.sort.compare(&placed[a], &placed[b], query.backwards));
        by.into_iter().map(|at| found[at]).collect()
    }
}

impl Filter {
    fn word(&self) -> &str {
        match self {
            Filter::Class(w) | Filter::Kind(w) | Filter::Material(w) | Filter::Location(w) => w,
            _ => "",
        }
    }
}

impl Entry {
    fn new(card: Card, today: Date) -> Entry {
        let old = card.has_value && card.valued.is_none_or(|day| is_past(day, today));
        let rank = card.number.as_ref().and_then(Number::rank);
        Entry { old, rank, card }
    }

    fn holds(&self, filter: &Filter, word: &str) -> bool {
        match filter {
            Filter::Standing(standing) => self.card.standing == *standing && !self.card.gone,
            Filter::Class(_) => folded(&self.card.class) == word,
            Filter::Kind(_) => folded(&self.card.kind) == word,
            Filter::Location(_) => folded(&self.card.location) == word,
            Filter::Material(_) => self.card.materials.iter().any(|m| folded(m) == word),
            Filter::NoPhoto => self.card.photo.is_empty(),
            Filter::NoValue => !self.card.has_value,
            Filter::OldValue => self.old,
            Filter::Lacking => self.card.lacks > 0 || self.old,
            Filter::Singly => self.card.singly,
            Filter::Gone(gone) => self.card.gone == *gone,
            Filter::Disagreeing => self.card.against > 0,
            Filter::Length(from, to) => self.card.length.is_some_and(|l| l > 0 && (from..=to).contains(&&l)),
        }
    }
}

/// The words that stand in one place of the records, with how many have each, most first: for a list to choose from.
#[must_use]
pub fn words_of(versions: &[&Version], of: &dyn Fn(&Record) -> Vec<String>) -> Vec<(String, usize)> {
    let all: Vec<String> =
        sorted(versions.iter().flat_map(|v| of(&v.record)).filter(|w| !w.is_empty()).collect());
    let counted: Vec<(String, usize)> =
        all.chunk_by(|a, b| a == b).map(|c| (c[0].clone(), c.len())).collect();
    let by = order(counted.len(), &|a, b| counted[b].1.cmp(&counted[a].1));
    units::arranged(counted, &by)
}
