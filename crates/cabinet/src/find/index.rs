//! The list of records, ready to be searched.

use super::looks::Looks;
use super::sort::{Keys, Sort};
use super::told::Told;
use super::words::folded;
use crate::order::sorted;
use crate::record::{Date, Part, Record, Standing, Uuid, Version, is_old, lacks};
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
    /// Its length lies between, in tenths of a millimetre.
    Length(u32, u32),
}

/// One record in the list.
#[derive(Debug)]
pub(super) struct Entry {
    /// Everything that stands in it, folded.
    all: String,
    /// Class, kind, place, and the materials behind them.
    exact: Vec<String>,
    standing: Standing,
    photo: bool,
    value: bool,
    old: bool,
    lacking: bool,
    singly: bool,
    pub(super) keys: Keys,
    /// All but its answers.
    pub(super) looks: Looks,
    /// Its answers: questions, and places in [`Told`].
    pub(super) answers: Vec<(u16, usize)>,
}

/// Records made ready. What is found is told by place in the list that was given.
#[derive(Debug, Default)]
pub struct Index {
    pub(super) entries: Vec<Entry>,
    pub(super) ids: Vec<Uuid>,
    pub(super) told: Told,
}

impl Index {
    /// Reads the records, once; `today` is given.
    #[must_use]
    pub fn new(versions: &[&Version], today: Date) -> Index {
        let mut index = Index::default();
        for version in versions {
            index.push(version, today);
        }
        index
    }

    fn push(&mut self, version: &Version, today: Date) {
        let entry = Entry::new(version, today, &mut self.told);
        self.entries.push(entry);
        self.ids.push(version.stamp.id);
    }

    /// Puts one record in place of the one of its id, or behind the others.
    pub fn put(&mut self, version: &Version, today: Date) {
        match self.ids.iter().position(|id| *id == version.stamp.id) {
            Some(at) => {
                self.told.remove(&self.entries[at].answers);
                self.entries[at] = Entry::new(version, today, &mut self.told);
            }
            None => self.push(version, today),
        }
    }

    /// The places of the records that answer the query, in its order.
    #[must_use]
    pub fn find(&self, query: &Query) -> Vec<usize> {
        let asked = folded(&query.words);
        let words: Vec<&str> = asked.split_whitespace().collect();
        let filters: Vec<(&Filter, String)> = query.filters.iter().map(|f| (f, folded(f.word()))).collect();
        let answers = |e: &Entry| {
            filters.iter().all(|(f, word)| e.holds(f, word)) && words.iter().all(|w| e.all.contains(w))
        };
        let found: Vec<usize> = (0..self.entries.len()).filter(|at| answers(&self.entries[*at])).collect();
        let keys = |at: usize| &self.entries[found[at]].keys;
        let by = order(found.len(), &|a, b| query.sort.compare(keys(a), keys(b), query.backwards));
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
    fn new(version: &Version, today: Date, told: &mut Told) -> Entry {
        let record = &version.record;
        let mut all = String::new();
        let mut add = |part: &dyn Part| {
            for (key, value) in part.lines() {
                // Digests and links are no words.
                if !matches!(key, "sha256" | "pack sha256" | "answers" | "outline") {
                    all.push_str(&folded(&value));
                    all.push('\n');
                }
            }
        };
        add(record);
        for (_, part) in record.parts() {
            add(part);
        }
        let mut exact: Vec<String> =
            [&record.class, &record.kind, &record.location].map(|t| folded(t)).to_vec();
        exact.extend(record.materials.iter().map(|m| folded(m)));
        let mut looks = Looks::of(record);
        let answers = told.add(&core::mem::take(&mut looks.answers));
        Entry {
            all,
            exact,
            standing: record.standing,
            photo: !record.photos.is_empty(),
            value: !record.valuations.is_empty(),
            old: is_old(record, today),
            lacking: !lacks(record, today).is_empty(),
            singly: record.singly,
            keys: Keys::new(version),
            answers,
            looks,
        }
    }

    fn holds(&self, filter: &Filter, word: &str) -> bool {
        match filter {
            Filter::Standing(standing) => self.standing == *standing,
            Filter::Class(_) => self.exact[0] == word,
            Filter::Kind(_) => self.exact[1] == word,
            Filter::Location(_) => self.exact[2] == word,
            Filter::Material(_) => self.exact[3..].iter().any(|m| m == word),
            Filter::NoPhoto => !self.photo,
            Filter::NoValue => !self.value,
            Filter::OldValue => self.old,
            Filter::Lacking => self.lacking,
            Filter::Singly => self.singly,
            Filter::Length(from, to) => self.looks.length.is_some_and(|l| (from..=to).contains(&&l)),
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
