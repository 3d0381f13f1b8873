//! Faults: where, what, and what to do about it. Readers hand them to one collector and go on reading.

use crate::files::plain;
use std::cell::RefCell;
use std::fmt;
use std::rc::Rc;

/// The most faults that are reported, of unknown names and of all else: a hostile folder must not fill the memory
/// with complaints.
pub const MOST_FAULTS: usize = 500;
/// The most of a quoted text that a message repeats, in characters.
const LONGEST_QUOTE: usize = 40;

/// Something wrong with the files of a pack, or worth a look.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// Path within the pack: `kinds/cast.toml`.
    pub file: String,
    /// Line, counted from 1; 0 when it is about the whole file.
    pub line: u32,
    /// Field, with the fields it stands in: `looks.grip`. May be empty.
    pub field: String,
    /// What is wrong, a sentence.
    pub says: String,
    /// What to do about it, a sentence; may be empty.
    pub hint: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if self.line > 0 {
            write!(f, ":{}", self.line)?;
        }
        f.write_str(": ")?;
        if !self.field.is_empty() {
            write!(f, "{}: ", self.field)?;
        }
        f.write_str(&self.says)?;
        if !self.hint.is_empty() {
            write!(f, " {}", self.hint)?;
        }
        Ok(())
    }
}

/// Where something stands in the files; kept with whatever is checked only later.
#[derive(Debug, Clone)]
pub(crate) struct Spot {
    pub(crate) file: Rc<str>,
    pub(crate) line: u32,
    pub(crate) field: String,
}

impl Spot {
    /// A whole file.
    pub(crate) fn file(path: &str) -> Spot {
        Spot { file: Rc::from(path), line: 0, field: String::new() }
    }

    /// The same place, another field.
    pub(crate) fn of(&self, field: &str) -> Spot {
        Spot { field: field.to_string(), ..self.clone() }
    }
}

/// Collects faults and notes from all readers.
#[derive(Debug, Default)]
pub(crate) struct Faults {
    faults: RefCell<Vec<Fault>>,
    /// Names that are not known. They count only when every file could be parsed.
    unknown: RefCell<Vec<Fault>>,
    notes: RefCell<Vec<Fault>>,
}

impl Faults {
    /// Records a fault.
    pub(crate) fn add(&self, at: &Spot, says: impl Into<String>, hint: impl Into<String>) {
        put(&self.faults, at, says.into(), hint.into());
    }

    /// Records that something names what is nowhere described. When a file could not be parsed that would be said
    /// of everything that is described in it, so it is then left unsaid.
    pub(crate) fn add_unknown(&self, at: &Spot, says: impl Into<String>, hint: impl Into<String>) {
        put(&self.unknown, at, says.into(), hint.into());
    }

    /// Records something that is worth a look but does not spoil the pack.
    pub(crate) fn note(&self, at: &Spot, says: impl Into<String>, hint: impl Into<String>) {
        put(&self.notes, at, says.into(), hint.into());
    }

    /// [`meant`], but nothing once no more faults are taken: near names are costly, and a hostile file may hold
    /// very many unknown ones.
    pub(crate) fn meant<'a>(
        &self,
        written: &str,
        known: impl Iterator<Item = &'a str> + Clone,
        list: &str,
    ) -> String {
        if self.faults.borrow().len().max(self.unknown.borrow().len()) >= MOST_FAULTS {
            return String::new();
        }
        meant(written, known, list)
    }

    /// Whether nothing is wrong so far.
    pub(crate) fn is_clean(&self) -> bool {
        self.faults.borrow().is_empty() && self.unknown.borrow().is_empty()
    }

    /// Faults and notes, each in order of file and line, none twice. In a file that could not be parsed only
    /// the faults of parsing count: what else was found there follows from them.
    pub(crate) fn into_sorted(self, unparsed: &[Fault]) -> (Vec<Fault>, Vec<Fault>) {
        let sorted = |list: RefCell<Vec<Fault>>| {
            let mut list = list.into_inner();
            list.retain(|f| !unparsed.iter().any(|u| u.file == f.file));
            list
        };
        let (mut faults, mut notes) = (sorted(self.faults), sorted(self.notes));
        if unparsed.is_empty() {
            faults.extend(self.unknown.into_inner());
        }
        faults.extend_from_slice(unparsed);
        for list in [&mut faults, &mut notes] {
            list.sort();
            list.dedup();
        }
        (faults, notes)
    }
}

fn put(list: &RefCell<Vec<Fault>>, at: &Spot, says: String, hint: String) {
    let mut list = list.borrow_mut();
    if list.len() < MOST_FAULTS {
        // Names of files are plain already; those of fields stand as somebody wrote them.
        list.push(Fault { file: at.file.to_string(), line: at.line, field: plain(&at.field), says, hint });
    }
}

/// A text as a message may repeat it: in quotes, short, without anything that could disguise it.
pub(crate) fn quote(text: &str) -> String {
    let mut shown: String = text.chars().take(LONGEST_QUOTE).flat_map(char::escape_debug).collect();
    if text.chars().nth(LONGEST_QUOTE).is_some() {
        shown.push_str("...");
    }
    let shown = shown.replace("\\'", "'");
    // Characters that turn the direction of writing are not escaped by the standard rules.
    let shown: String = shown.chars().map(|c| if crate::text::disguises(c) { '?' } else { c }).collect();
    format!("\"{shown}\"")
}

/// The known name that was most likely meant, and the list of what there is when it is short or nothing is near.
pub(crate) fn meant<'a>(written: &str, known: impl Iterator<Item = &'a str> + Clone, list: &str) -> String {
    let near = known.clone().map(|k| (distance(written, k), k)).min();
    let near = near.filter(|(d, k)| *d <= 1 + k.len() / 4).map(|(_, k)| k);
    let mut names: Vec<&str> = known.take(31).collect();
    if names.is_empty() || (names.len() > 8 && near.is_some()) {
        return near.map(|k| format!("Did you mean {}?", quote(k))).unwrap_or_default();
    }
    let end = if names.len() > 30 { ", ..." } else { "." };
    names.truncate(30);
    // Other people's names as well: they may be no names at all.
    let shown = |name: &&str| plain(name).chars().take(LONGEST_QUOTE).collect::<String>();
    format!("{list}: {}{end}", names.iter().map(shown).collect::<Vec<_>>().join(", "))
}

/// Letters to change, add or drop to come from one word to the other. Long words are cut: this is a hint.
fn distance(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().take(48).collect(), b.chars().take(48).collect());
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.iter().enumerate() {
        let mut corner = row[0];
        row[0] = i + 1;
        for (j, cb) in b.iter().enumerate() {
            let change = corner + usize::from(ca != cb);
            corner = row[j + 1];
            row[j + 1] = change.min(corner + 1).min(row[j] + 1);
        }
    }
    row[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances_are_counted_in_letters() {
        // Arithmetic: one letter dropped, one changed, none, all.
        for (a, b, d) in [("bar", "barr", 1), ("wire", "wore", 1), ("bar", "bar", 0), ("", "abc", 3)] {
            assert_eq!(distance(a, b), d, "{a} {b}");
        }
    }

    #[test]
    fn a_near_name_is_offered_and_a_far_one_is_not() {
        let few = ["bar", "pierced", "wire"];
        assert_eq!(meant("barr", few.into_iter(), "Choices"), "Choices: bar, pierced, wire.");
        let many = ["bar", "pierced", "wire", "c1", "c2", "c3", "c4", "c5", "c6"];
        assert_eq!(meant("barr", many.into_iter(), "Choices"), "Did you mean \"bar\"?");
        let odd = ["b\u{0}\u{202e}r", "wire"];
        assert_eq!(meant("wooden", odd.into_iter(), "Choices"), "Choices: b??r, wire.");
        assert!(meant("wooden", many.into_iter(), "Choices").starts_with("Choices: bar, pierced, wire, c1"));
    }

    #[test]
    fn quoted_text_cannot_disguise_a_message() {
        assert_eq!(quote("a\u{202e}b\n"), "\"a\\u{202e}b\\n\"");
    }
}
