//! Walking a parsed file: every look at a field is remembered, so that what nobody asked for is refused, and
//! whatever is missing or of the wrong sort becomes a fault with its line while reading goes on.

use crate::fault::{Faults, Spot, quote};
use crate::files::Lines;
use crate::text::{self, Limit};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;
use toml::de::{DeTable, DeValue};

/// The most entries of a list or a table.
const MOST_ENTRIES: usize = 1000;

/// A file being read.
#[derive(Debug)]
pub(crate) struct Doc<'a> {
    pub(crate) path: Rc<str>,
    pub(crate) lines: Lines,
    pub(crate) faults: &'a Faults,
}

/// A table and what has been asked of it.
#[derive(Debug)]
pub(crate) struct Table<'a> {
    doc: &'a Doc<'a>,
    map: &'a DeTable<'a>,
    line: u32,
    /// Field in which the table stands, with a full stop behind; empty at the top.
    trail: String,
    asked: RefCell<BTreeSet<String>>,
}

/// A value and where it stands.
#[derive(Debug, Clone)]
pub(crate) struct Value<'a> {
    doc: &'a Doc<'a>,
    item: &'a DeValue<'a>,
    pub(crate) spot: Spot,
}

impl<'a> Table<'a> {
    /// The whole file.
    pub(crate) fn top(doc: &'a Doc<'a>, map: &'a DeTable<'a>) -> Table<'a> {
        Table::at(doc, map, 0, String::new())
    }

    fn at(doc: &'a Doc<'a>, map: &'a DeTable<'a>, line: u32, trail: String) -> Table<'a> {
        Table { doc, map, line, trail, asked: RefCell::default() }
    }

    /// The collector.
    pub(crate) fn faults(&self) -> &'a Faults {
        self.doc.faults
    }

    /// Where the table begins.
    pub(crate) fn spot(&self) -> Spot {
        Spot {
            file: Rc::clone(&self.doc.path),
            line: self.line,
            field: self.trail.trim_end_matches('.').to_string(),
        }
    }

    /// Where a field stands, or would stand.
    pub(crate) fn spot_of(&self, name: &str) -> Spot {
        let line =
            self.map.get_key_value(name).map_or(self.line, |(key, _)| self.doc.lines.at(key.span().start));
        Spot { file: Rc::clone(&self.doc.path), line, field: format!("{}{name}", self.trail) }
    }

    /// A field, if it is there.
    pub(crate) fn get(&self, name: &str) -> Option<Value<'a>> {
        self.asked.borrow_mut().insert(name.to_string());
        let (key, item) = self.map.get_key_value(name)?;
        Some(Value {
            doc: self.doc,
            item: item.get_ref(),
            spot: Spot {
                file: Rc::clone(&self.doc.path),
                line: self.doc.lines.at(key.span().start),
                field: format!("{}{name}", self.trail),
            },
        })
    }

    /// A field that must be there; `example` is how it could read.
    pub(crate) fn need(&self, name: &str, example: &str) -> Option<Value<'a>> {
        let value = self.get(name);
        if value.is_none() {
            let hint = format!("Add a line such as: {example}");
            self.faults().add(&self.spot_of(name), "The field is missing.", hint);
        }
        value
    }

    /// A text that must be there and not be empty; empty when it is not.
    pub(crate) fn need_text(&self, name: &str, limit: Limit, example: &str) -> String {
        let Some(value) = self.need(name, example) else {
            return String::new();
        };
        let text = value.text(limit);
        if text.as_ref().is_some_and(|t| t.trim().is_empty()) {
            let hint = format!("Write a line such as: {example}");
            self.faults().add(&value.spot, "The text is empty.", hint);
        }
        text.unwrap_or_default()
    }

    /// A text that may be missing.
    pub(crate) fn text(&self, name: &str, limit: Limit) -> Option<String> {
        self.get(name)?.text(limit)
    }

    /// The id of the thing that this table describes.
    pub(crate) fn id(&self, example: &str) -> Option<String> {
        let value = self.need("id", &format!("id = {}", quote(example)))?;
        let id = value.text(Limit::NAME)?;
        match text::check_id(&id) {
            Ok(()) => Some(id),
            Err((says, hint)) => {
                self.faults().add(&value.spot, says, hint);
                None
            }
        }
    }

    /// Tables of a list such as `[[kind]]`; none when it is not there.
    pub(crate) fn tables(&self, name: &str) -> Vec<Table<'a>> {
        let Some(value) = self.get(name) else {
            return Vec::new();
        };
        match value.item {
            DeValue::Array(_) => {
                // Faults name the fields of `[[kind]]` as they are written below it: without `kind.` before.
                let trail = if self.line == 0 { String::new() } else { format!("{}{name}.", self.trail) };
                let within = |v: &Value<'a>| v.table().map(|t| Table { trail: trail.clone(), ..t });
                value.list().iter().filter_map(within).collect()
            }
            DeValue::Table(_) => {
                let hint = format!("Write [[{name}]] with two brackets on each side.");
                self.faults().add(&value.spot, "This is a list of tables.", hint);
                Vec::new()
            }
            _ => {
                value.wrong("a list of tables");
                Vec::new()
            }
        }
    }

    /// A table within this one.
    pub(crate) fn table(&self, name: &str) -> Option<Table<'a>> {
        self.get(name)?.table()
    }

    /// All fields in the order of the file, for tables whose names are free.
    pub(crate) fn entries(&self) -> Vec<(String, Value<'a>)> {
        let mut names: Vec<(usize, String)> =
            self.map.keys().map(|k| (k.span().start, k.get_ref().to_string())).collect();
        names.sort();
        if names.len() > MOST_ENTRIES {
            self.faults().add(&self.spot(), format!("The table has more than {MOST_ENTRIES} lines."), "");
            names.truncate(MOST_ENTRIES);
        }
        names.into_iter().filter_map(|(_, n)| self.get(&n).map(|v| (n, v))).collect()
    }

    /// Refuses every field that nobody asked for.
    pub(crate) fn done(&self) {
        let asked = self.asked.borrow();
        for key in self.map.keys().filter(|k| !asked.contains(k.get_ref().as_ref())) {
            let hint = self.faults().meant(key.get_ref(), asked.iter().map(String::as_str), "Known here");
            let spot = Spot {
                file: Rc::clone(&self.doc.path),
                line: self.doc.lines.at(key.span().start),
                field: self.trail.trim_end_matches('.').to_string(),
            };
            let says = format!("There is no field {} here.", quote(key.get_ref()));
            self.faults().add(&spot, says, hint);
        }
    }
}

impl<'a> Value<'a> {
    /// Records that it is of the wrong sort.
    pub(crate) fn wrong(&self, wanted: &str) {
        let found = match self.item {
            DeValue::String(_) => "a text",
            DeValue::Integer(_) => "a number",
            DeValue::Float(_) => "a number with a decimal point",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        let says = format!("This must be {wanted}, but is {found}.");
        self.doc.faults.add(&self.spot, says, "");
    }

    /// The collector.
    pub(crate) fn faults(&self) -> &'a Faults {
        self.doc.faults
    }

    /// Records a fault here.
    pub(crate) fn fault(&self, says: impl Into<String>, hint: impl Into<String>) {
        self.doc.faults.add(&self.spot, says, hint);
    }

    /// Records that it names what is nowhere described.
    pub(crate) fn unknown(&self, says: impl Into<String>, hint: impl Into<String>) {
        self.doc.faults.add_unknown(&self.spot, says, hint);
    }

    pub(crate) fn is_table(&self) -> bool {
        self.item.is_table()
    }

    pub(crate) fn is_text(&self) -> bool {
        self.item.is_str()
    }

    /// A text within its limit.
    pub(crate) fn text(&self, limit: Limit) -> Option<String> {
        let Some(text) = self.item.as_str() else {
            self.wrong("a text in quotes");
            return None;
        };
        // A text of several lines is written between triple quotes, which leave an end of line behind.
        let text = if limit.lines { text.trim() } else { text };
        if let Err((says, hint)) = text::check(text, limit) {
            self.fault(says, hint);
            return None;
        }
        Some(text.to_string())
    }

    /// A date as ISO text, written as a date or in quotes.
    pub(crate) fn date(&self) -> Option<String> {
        let text = match self.item {
            DeValue::Datetime(d) if d.time.is_none() && d.offset.is_none() => d.to_string(),
            DeValue::String(s) => s.to_string(),
            _ => String::new(),
        };
        let digits = |r: &str, least: u32, most: u32| r.parse::<u32>().is_ok_and(|n| least <= n && n <= most);
        let parts: Vec<&str> = text.split('-').collect();
        let sound = text.len() == 10
            && text.bytes().all(|b| b.is_ascii_digit() || b == b'-')
            && matches!(parts[..], [y, m, d] if digits(y, 1900, 2200) && digits(m, 1, 12) && digits(d, 1, 31));
        if !sound {
            self.fault("This is not a date.", "Write year, month and day: \"2026-01-31\".");
        }
        sound.then_some(text)
    }

    /// A number between bounds; whole or with a decimal point, never endless.
    pub(crate) fn number(&self, least: f64, most: f64) -> Option<f64> {
        let number = match self.item {
            DeValue::Integer(i) => i64::from_str_radix(i.as_str(), i.radix()).ok().map(|n| n as f64),
            DeValue::Float(f) => f.as_str().parse::<f64>().ok(),
            _ => {
                self.wrong("a number");
                return None;
            }
        };
        let number = number.filter(|n| n.is_finite() && *n >= least && *n <= most);
        if number.is_none() {
            self.fault(format!("The number must lie between {least} and {most}."), "");
        }
        number
    }

    /// A whole number between bounds.
    pub(crate) fn whole(&self, least: i64, most: i64) -> Option<i64> {
        let DeValue::Integer(i) = self.item else {
            self.wrong("a whole number");
            return None;
        };
        let number = i64::from_str_radix(i.as_str(), i.radix()).ok();
        let number = number.filter(|n| (least..=most).contains(n));
        if number.is_none() {
            self.fault(format!("The number must lie between {least} and {most}."), "");
        }
        number
    }

    /// True or false.
    pub(crate) fn flag(&self) -> Option<bool> {
        let flag = self.item.as_bool();
        if flag.is_none() {
            self.wrong("true or false, without quotes");
        }
        flag
    }

    /// The values of a list, each with its own line.
    pub(crate) fn list(&self) -> Vec<Value<'a>> {
        let Some(list) = self.item.as_array() else {
            self.wrong("a list in square brackets");
            return Vec::new();
        };
        if list.len() > MOST_ENTRIES {
            self.fault(format!("The list has more than {MOST_ENTRIES} entries."), "");
        }
        list.iter()
            .take(MOST_ENTRIES)
            .map(|item| Value {
                doc: self.doc,
                item: item.get_ref(),
                spot: Spot { line: self.doc.lines.at(item.span().start), ..self.spot.clone() },
            })
            .collect()
    }

    /// A list of texts.
    pub(crate) fn texts(&self, limit: Limit) -> Vec<(String, Spot)> {
        self.list().into_iter().filter_map(|v| v.text(limit).map(|t| (t, v.spot.clone()))).collect()
    }

    /// The table that this is.
    pub(crate) fn table(&self) -> Option<Table<'a>> {
        let Some(map) = self.item.as_table() else {
            self.wrong("a table");
            return None;
        };
        Some(Table::at(self.doc, map, self.spot.line, format!("{}.", self.spot.field)))
    }
}
