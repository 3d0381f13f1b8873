//! One row into one record: cells over what is there.

use super::column::{Column, Of, length, marks, weight};
use super::day::day;
use crate::record::{
    Date, Deal, Mark, Measurement, Part, Record, Size, Valuation, Value, Worth, places, scaled, short,
};
use units::{Currency, Length, Mass, Money};

/// The cells of a row that are not empty, with their columns.
pub(super) struct Row<'a> {
    pub cells: Vec<(&'a Column, String)>,
}

/// What is wrong in a cell: the head of its column, a sentence.
type Wrong = (&'static str, String);

impl Row<'_> {
    fn cell(&self, of: Of) -> Option<(&'static str, &str)> {
        self.cells
            .iter()
            .find(|(column, _)| column.of == of)
            .map(|(column, text)| (column.head, text.as_str()))
    }

    /// Writes the cells over a record. An empty cell leaves what is there: a spreadsheet loses more than it adds. Gives
    /// what was left alone, in sentences.
    pub(super) fn fill(&self, record: &mut Record, faults: &mut Vec<Wrong>) -> Vec<String> {
        let mut notes = Vec::new();
        for (column, text) in &self.cells {
            let done = match column.of {
                Of::Line("number") => number(record, text),
                Of::Line("recorded") => day(text).map(|d| record.recorded = Some(d)),
                Of::Line(key) => record.set(key, text).map(|_| ()),
                Of::Length => size(record, "length", text),
                Of::Weight => size(record, "weight", text),
                Of::Marks => {
                    notes.extend(lettering(record, text));
                    Ok(())
                }
                Of::Acquired(key) => deal(&mut record.acquired, key, text),
                Of::Parted(key) => deal(&mut record.parted, key, text),
                _ => Ok(()),
            };
            faults.extend(done.err().map(|says| (column.head, says)));
        }
        for parted in [false, true] {
            let price = self.money(Of::Price { parted }, Of::PriceCurrency { parted }, faults);
            let place = if parted { &mut record.parted } else { &mut record.acquired };
            if price.is_some() {
                place.get_or_insert_default().price = price;
            }
        }
        self.valuation(record, faults);
        notes
    }

    /// An amount whose currency stands in a column of its own, or behind it.
    fn money(&self, amount: Of, currency: Of, faults: &mut Vec<Wrong>) -> Option<Money> {
        let (head, text) = self.cell(amount)?;
        let code = self.cell(currency).map(|(_, code)| code);
        let money = match code {
            _ if text.ends_with(|c: char| c.is_ascii_alphabetic()) => Money::read(text),
            None => Err("An amount needs its currency: three letters such as USD, in a column of its own."
                .to_string()),
            Some(code) => Currency::new(&code.to_ascii_uppercase())
                .ok_or_else(|| {
                    format!("\u{201c}{}\u{201d} is no currency: three letters such as USD.", short(code))
                })
                .and_then(|currency| Ok(Money { minor: scaled(text, places(currency))?, currency })),
        };
        money.map_err(|says| faults.push((head, says))).ok()
    }

    /// A valuation that the record does not have is added; none is changed.
    fn valuation(&self, record: &mut Record, faults: &mut Vec<Wrong>) {
        let low = self.money(Of::Value { high: false }, Of::ValueCurrency, faults);
        let high = self.money(Of::Value { high: true }, Of::ValueCurrency, faults);
        let read =
            |key: &'static str| self.cell(Of::Valued(key)).map(|(head, text)| (head, text.to_string()));
        let (basis, date, source) = (read("basis"), read("date"), read("source"));
        let mut wrong = |head: &'static str, says: String| faults.push((head, says));
        let basis = basis.and_then(|(head, text)| Worth::read(&text).map_err(|says| wrong(head, says)).ok());
        let date: Option<Date> =
            date.and_then(|(head, text)| day(&text).map_err(|says| wrong(head, says)).ok());
        let source = source.map(|(_, text)| text);
        if low.is_none() && high.is_none() && basis.is_none() && date.is_none() && source.is_none() {
            return;
        }
        let same = |v: &Valuation| {
            v.low == low
                && v.high == high
                && v.basis == basis
                && v.date == date
                && v.source == source.clone().unwrap_or_default()
        };
        if !record.valuations.iter().any(same) {
            let source = source.unwrap_or_default();
            record.valuations.push(Valuation { low, high, basis, date, source, ..Valuation::default() });
        }
    }
}

/// A number that a spreadsheet took for a decimal has lost a nought or got a comma.
fn number(record: &mut Record, text: &str) -> Result<(), String> {
    let text = text.replace(',', ".");
    let bare = |t: &str| t.trim_end_matches('0').to_string();
    let known = record.number.as_ref().map(|n| n.text().to_string());
    if known.is_some_and(|known| text.matches('.').count() == 1 && bare(&known) == bare(&text)) {
        return Ok(());
    }
    record.set("number", &text).map(|_| ())
}

/// A size in millimetres or grams, unless the record has it already and more exactly.
fn size(record: &mut Record, what: &str, text: &str) -> Result<(), String> {
    let weighs = what == "weight";
    let bare = text.trim().trim_end_matches(if weighs { "g" } else { "mm" }).trim();
    let tenths = u32::try_from(scaled(bare, 1)?).map_err(|_| "A size is more than nothing.".to_string())?;
    let known = if weighs { weight(record) } else { length(record) };
    if known == Some(tenths) {
        return Ok(());
    }
    let value = if weighs { Size::of_mass(Mass(tenths)) } else { Size::of_length(Length(tenths)) };
    let place = record.measurements.iter_mut().find(|m| m.what.eq_ignore_ascii_case(what));
    match place {
        // Its plus or minus belonged to another reading.
        Some(m) => (m.value, m.uncertainty) = (Some(value), None),
        None => record.measurements.push(Measurement {
            what: what.to_string(),
            value: Some(value),
            ..Measurement::default()
        }),
    }
    Ok(())
}

/// Marks are taken where there are none; a cell cannot say where they stand, so it does not replace them.
fn lettering(record: &mut Record, text: &str) -> Option<String> {
    if record.marks.is_empty() {
        let mark = |line: &str| Mark { text: line.trim().to_string(), ..Mark::default() };
        record.marks = text.split('\n').filter(|l| !l.trim().is_empty()).map(mark).collect();
        return None;
    }
    let differs = marks(&record.marks) != crate::record::tidied(text);
    differs.then(|| "its marks differ from those in the cabinet, which were left as they are".to_string())
}

fn deal(place: &mut Option<Deal>, key: &str, text: &str) -> Result<(), String> {
    let deal = place.get_or_insert_default();
    if key == "date" {
        deal.date = Some(day(text)?);
        return Ok(());
    }
    deal.set(key, text).map(|_| ())
}
