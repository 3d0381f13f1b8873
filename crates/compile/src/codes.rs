//! `codes.csv`: the permanent number of everything that a link or a saved record can name.

use crate::fault::{Faults, Spot, meant, quote};
use crate::model::Model;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// What has a code.
const WHAT: [&str; 11] =
    ["question", "choice", "kind", "place", "role", "make", "tool", "part", "caution", "lesson", "proof"];
const PATH: &str = "codes.csv";
const HEADER: &str = "what,id,code";

/// Codes by what and id, with what is still to be numbered.
#[derive(Debug, Default)]
pub(crate) struct Codes {
    given: BTreeMap<(String, String), u16>,
    /// Numbers taken, by the list in which they are unique.
    taken: BTreeMap<String, BTreeSet<u16>>,
    /// There is no line at all: that is one fault, not one for each thing.
    empty: bool,
    /// Lines that must be added.
    pub(crate) missing: Vec<String>,
}

/// The list within which a code is unique: choices are numbered within their question.
fn list_of(what: &str, id: &str) -> String {
    match (what, id.split_once('.')) {
        ("choice", Some((question, _))) => format!("choice {question}"),
        _ => what.to_string(),
    }
}

impl Codes {
    /// Reads the file.
    pub(crate) fn read(text: &str, faults: &Faults) -> Codes {
        let mut codes = Codes::default();
        let path: Rc<str> = Rc::from(PATH);
        let mut header = false;
        for (i, line) in text.lines().enumerate() {
            let spot = Spot {
                file: Rc::clone(&path),
                line: u32::try_from(i + 1).unwrap_or(u32::MAX),
                field: String::new(),
            };
            let line = line.trim();
            if line.is_empty() || line.starts_with('#') {
                continue;
            }
            if !header {
                header = true;
                if line == HEADER {
                    continue;
                }
                faults.add(&spot, "The first line must name the columns.", format!("Write: {HEADER}"));
            }
            codes.line(line, &spot, faults);
        }
        if !header {
            codes.empty = true;
            codes.missing.push(HEADER.to_string());
            let hint = "`workshop codes` with the folder of the pack writes all its lines.";
            faults.add(&Spot::file(PATH), "The file is missing or empty.", hint);
        }
        codes
    }

    fn line(&mut self, line: &str, spot: &Spot, faults: &Faults) {
        let cells: Vec<&str> = line.split(',').map(str::trim).collect();
        let &[what, id, code] = cells.as_slice() else {
            faults.add(spot, "A line has three columns.", "Write for example: question,grip,3");
            return;
        };
        if !WHAT.contains(&what) {
            let hint = meant(what, WHAT.into_iter(), "Write one of");
            faults.add(spot, format!("{} has no codes.", quote(what)), hint);
            return;
        }
        if (what == "choice") != id.contains('.') {
            let hint = "Write choices as question.choice, everything else as a plain id.";
            faults.add(spot, format!("{} does not fit {what}.", quote(id)), hint);
            return;
        }
        let number = code.parse::<u16>().ok().filter(|n| *n > 0 && code.bytes().all(|b| b.is_ascii_digit()));
        let Some(number) = number else {
            faults.add(
                spot,
                format!("{} is not a code.", quote(code)),
                "Write a whole number from 1 to 65535.",
            );
            return;
        };
        if !self.taken.entry(list_of(what, id)).or_default().insert(number) {
            let hint =
                format!("The next free number is {}. Change the line that is newer.", self.free(what, id));
            faults.add(spot, format!("The code {number} of {what} is used twice."), hint);
        }
        if self.given.insert((what.to_string(), id.to_string()), number).is_some() {
            faults.add(spot, format!("{} {} stands twice.", what, quote(id)), "Keep the older line.");
        }
    }

    /// One above the highest number of the list, retired ones included.
    fn free(&self, what: &str, id: &str) -> u32 {
        let highest = self.taken.get(&list_of(what, id)).and_then(|t| t.last().copied());
        u32::from(highest.unwrap_or(0)) + 1
    }

    /// The code of a thing; a fault and the next free number when it has none.
    pub(crate) fn of(&mut self, what: &str, id: &str, spot: &Spot, faults: &Faults) -> u16 {
        if let Some(code) = self.given.get(&(what.to_string(), id.to_string())) {
            return *code;
        }
        let Ok(code) = u16::try_from(self.free(what, id)) else {
            faults.add(spot, format!("All numbers for {what} are used up."), "");
            return 0;
        };
        let line = format!("{what},{id},{code}");
        if !self.empty {
            faults.add(
                spot,
                format!("{} has no code.", quote(id)),
                format!("Add this line to codes.csv: {line}"),
            );
        }
        self.missing.push(line);
        self.taken.entry(list_of(what, id)).or_default().insert(code);
        self.given.insert((what.to_string(), id.to_string()), code);
        code
    }

    /// Asks for every code, in the order of the files, so that all that are missing are known.
    pub(crate) fn all(&mut self, model: &Model, faults: &Faults) {
        let m = &model.manifest;
        let lists = [
            ("place", &m.places),
            ("tool", &m.tools),
            ("part", &m.parts),
            ("role", &m.roles),
            ("make", &m.makes),
        ];
        for (what, things) in lists {
            for t in things {
                self.of(what, &t.id, &t.spot, faults);
            }
        }
        for q in &model.questions {
            self.of("question", &q.id, &q.spot, faults);
            for (c, spot) in q.wire.choices.iter().zip(&q.choice_spots) {
                self.of("choice", &format!("{}.{}", q.id, c.id), spot, faults);
            }
        }
        for k in &model.kinds {
            self.of("kind", &k.id, &k.spot, faults);
        }
        for c in &model.cautions {
            self.of("caution", &c.id, &c.spot, faults);
        }
        for l in &model.taught.lessons {
            self.of("lesson", &l.id, &l.spot, faults);
        }
        for p in &model.taught.proofs {
            self.of("proof", &p.id, &p.spot, faults);
        }
    }
}
