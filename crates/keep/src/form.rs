//! The form of a record: a field for every line of it, made from the description of its parts, so that a new line of a record
//! has its field by itself.

use cabinet::record::{
    Attribution, Date, Included, Moment, PARTS, Part, Photo, Record, Standing, Uuid, Version, Worth, faults,
};

/// Signs between the fields of a draft, and between its parts.
const UNIT: char = '\u{1f}';
const GROUP: char = '\u{1d}';

/// A form.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Form {
    pub(crate) id: Uuid,
    /// The states that it was begun from: a save names them.
    pub(crate) from: Vec<Version>,
    pub(crate) parts: Vec<Fields>,
    /// What is wrong with the whole.
    pub(crate) faults: Vec<String>,
    /// Whether anything was typed.
    pub(crate) touched: bool,
}

/// The fields of one part.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Fields {
    /// Its name in a record; empty for the record itself.
    pub(crate) name: String,
    /// Key, text, what is wrong with it.
    pub(crate) all: Vec<(&'static str, String, Option<String>)>,
    /// Lines that this edition does not know.
    other: Vec<(String, String)>,
}

impl Fields {
    fn of(name: &str, part: &dyn Part) -> Fields {
        let lines = part.lines();
        let text =
            |key: &str| lines.iter().find(|(k, _)| *k == key).map_or(String::new(), |(_, v)| v.clone());
        let all = part.keys().iter().map(|key| (*key, text(key), None)).collect();
        let known = |key: &str| part.keys().contains(&key);
        let other = lines.iter().filter(|(k, _)| !known(k)).map(|(k, v)| ((*k).to_string(), v.clone()));
        Fields { name: name.to_string(), all, other: other.collect() }
    }

    /// Fills a part; what is wrong is said beside its field. Whether all of it could be used.
    fn fill(&mut self, part: &mut dyn Part) -> bool {
        let mut sound = true;
        for (key, text, fault) in &mut self.all {
            *fault = None;
            if !text.trim().is_empty()
                && let Err(says) = part.set(key, text.trim())
            {
                *fault = Some(says);
                sound = false;
            }
        }
        part.other().extend(self.other.iter().cloned());
        sound
    }

    /// The text of a key.
    pub(crate) fn text(&self, key: &str) -> &str {
        self.all.iter().find(|(k, ..)| *k == key).map_or("", |(_, text, _)| text)
    }
}

impl Form {
    /// The form of a record, begun from some states of it.
    pub(crate) fn new(id: Uuid, from: Vec<Version>, record: &Record) -> Form {
        let mut parts = vec![Fields::of("", record)];
        parts.extend(record.parts().into_iter().map(|(name, part)| Fields::of(name, part)));
        Form { id, from, parts, faults: Vec::new(), touched: false }
    }

    /// Puts text into a field.
    pub(crate) fn put(&mut self, part: usize, at: usize, text: String) {
        if let Some((_, old, fault)) = self.parts.get_mut(part).and_then(|p| p.all.get_mut(at)) {
            *old = text;
            *fault = None;
            self.touched = true;
        }
    }

    /// Adds an empty part of a sort, by its place in [`PARTS`]. Those of which there is one only come once.
    pub(crate) fn add(&mut self, sort: usize) -> bool {
        let Some(name) = PARTS.get(sort) else { return false };
        let mut fresh = Record::default();
        let once = sort < 2 && self.parts.iter().any(|p| p.name == *name);
        match fresh.open(name) {
            Ok(part) if !once => {
                let fields = Fields::of(name, part);
                // Behind the last of its name, or where it belongs among the others.
                let place = |n: &str| PARTS.iter().position(|p| *p == n).unwrap_or(PARTS.len());
                let own = place(name);
                let at = self.parts.iter().skip(1).position(|p| place(&p.name) > own);
                let at = at.map_or(self.parts.len(), |at| at + 1);
                self.parts.insert(at, fields);
                self.touched = true;
                true
            }
            _ => false,
        }
    }

    /// Adds a photograph.
    pub(crate) fn photo(&mut self, digest: &str) {
        let known = self.parts.iter().any(|p| p.text("sha256") == digest);
        if !known && self.add(6) {
            let first = self.parts.iter().filter(|p| p.name == PARTS[6]).count() == 1;
            let view = if first { "overall" } else { "" }.to_string();
            let photo = Photo { digest: digest.to_string(), view, ..Photo::default() };
            let empty = |p: &&mut Fields| p.name == PARTS[6] && p.text("sha256").is_empty();
            if let Some(fields) = self.parts.iter_mut().find(empty) {
                *fields = Fields::of(PARTS[6], &photo);
            }
        }
    }

    /// Takes a part away.
    pub(crate) fn remove(&mut self, part: usize) {
        if part > 0 && part < self.parts.len() {
            self.parts.remove(part);
            self.touched = true;
        }
    }

    /// The record that the form says; nothing when something is wrong, which is said beside it. `taken` tells whether another
    /// piece wears a number.
    pub(crate) fn record(&mut self, today: Date, taken: &dyn Fn(&str) -> Option<String>) -> Option<Record> {
        let mut record = Record::default();
        let mut sound = true;
        self.faults.clear();
        for (at, fields) in self.parts.iter_mut().enumerate() {
            if at == 0 {
                sound &= fields.fill(&mut record);
                continue;
            }
            let empty =
                fields.all.iter().all(|(_, text, _)| text.trim().is_empty()) && fields.other.is_empty();
            match record.open(&fields.name) {
                _ if empty => {}
                Ok(part) => sound &= fields.fill(part),
                Err(says) => {
                    self.faults.push(says);
                    sound = false;
                }
            }
        }
        if let Some((_, text, fault)) = self.parts[0].all.iter_mut().find(|(k, ..)| *k == "number")
            && fault.is_none()
            && let Some(other) = taken(text.trim())
        {
            *fault = Some(format!("{} wears this number already. Give every piece its own.", other));
            sound = false;
        }
        let record = record.tidied();
        if sound {
            self.faults.extend(faults(&record, today));
        } else {
            self.faults.push("Something cannot be used yet: it is said beside it.".to_string());
        }
        (sound && self.faults.is_empty()).then_some(record)
    }

    /// As a draft: all that was typed, whether it can be used or not.
    pub(crate) fn draft(&self) -> String {
        let from: Vec<String> = self.from.iter().map(|v| v.stamp.version.to_string()).collect();
        let mut out = from.join(" ");
        for fields in &self.parts {
            out.push(GROUP);
            out.push_str(&fields.name);
            for (key, text, _) in fields.all.iter().filter(|(_, text, _)| !text.is_empty()) {
                out.push(UNIT);
                out.push_str(key);
                out.push(UNIT);
                out.push_str(&text.replace([UNIT, GROUP], " "));
            }
        }
        out
    }

    /// Takes what a draft has, when it was begun from the same states.
    pub(crate) fn restore(&mut self, draft: &str) -> bool {
        let from: Vec<String> = self.from.iter().map(|v| v.stamp.version.to_string()).collect();
        let mut groups = draft.split(GROUP);
        if groups.next() != Some(from.join(" ").as_str()) {
            return false;
        }
        // What this edition does not know stays with the part that has it, the n-th of a name with the n-th.
        let mut old = core::mem::take(&mut self.parts);
        for group in groups {
            let mut words = group.split(UNIT);
            let name = words.next().unwrap_or_default();
            let mut fields = match old.iter().position(|p| p.name == name) {
                Some(at) => old.remove(at),
                None => match Record::default().open(name) {
                    Ok(part) => Fields::of(name, part),
                    Err(_) => continue,
                },
            };
            fields.all.iter_mut().for_each(|(_, text, _)| text.clear());
            while let (Some(key), Some(text)) = (words.next(), words.next()) {
                if let Some(field) = fields.all.iter_mut().find(|(k, ..)| *k == key) {
                    field.1 = text.to_string();
                }
            }
            self.parts.push(fields);
        }
        if self.parts.first().is_none_or(|p| !p.name.is_empty()) {
            self.parts.insert(0, Fields::of("", &Record::default()));
        }
        self.touched = true;
        true
    }
}

/// The words that a key chooses among; none where anything may be typed.
pub(crate) fn words(part: &str, key: &str) -> Option<Vec<String>> {
    fn all<T: Copy>(list: &[T], word: fn(T) -> &'static str) -> Vec<String> {
        let words = list.iter().map(|item| word(*item).to_string());
        core::iter::once(String::new()).chain(words).collect()
    }
    Some(match (part, key) {
        ("", "state") => all(Standing::ALL, Standing::word).into_iter().skip(1).collect(),
        ("", "attribution") => all(Attribution::ALL, Attribution::word),
        ("valuation", "basis") => all(Worth::ALL, Worth::word),
        ("valuation", "premium included" | "tax included") => all(Included::ALL, Included::word),
        ("", "sell singly") | ("photograph", "scale shown") => vec![String::new(), "yes".to_string()],
        _ => return None,
    })
}

/// The day of a moment, for fields that are filled in.
pub(crate) fn day(now: Moment) -> Date {
    now.date()
}
