//! The sheet for a day, kept on the device as lines: first `sale 1 <date> <currency> <budget>`, then for each lot
//! `lot <tab> outcome <tab> label <tab> link` and for each piece in it `piece <tab> limit <tab> gap <tab> kind <tab> make <tab>
//! conditions`. Kinds, makes and conditions stand by their ids, so that it outlives editions, and a result is a price to compare
//! with for whoever reads it later.

use appraise::{Comparable, Lot, Of, Outcome, Part, Sheet, Terms};
use pack::prices::{Date, Prices};
use units::{Basis, Currency};

use crate::guide::Guide;
use crate::state::State;

/// The longest sheet that is read, in bytes.
pub(crate) const LONGEST: usize = 60_000;
/// Lots of a day.
pub(crate) const MOST_LOTS: usize = 100;
/// Pieces in a mixed lot.
pub(crate) const MOST_PIECES: usize = 12;
/// Characters of a label.
pub(crate) const LONGEST_LABEL: usize = 60;
const LONGEST_LINK: usize = 8_000;
/// No amount on a sheet is above this, minor units.
pub(crate) const MOST: i64 = 100_000_000_000;

/// The sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Day {
    pub(crate) date: Date,
    pub(crate) currency: Currency,
    pub(crate) budget: i64,
    pub(crate) lots: Vec<DayLot>,
}

/// A lot with its label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct DayLot {
    pub(crate) label: String,
    /// The fragment of the finding; empty for none.
    pub(crate) link: String,
    pub(crate) pieces: Vec<Piece>,
    pub(crate) outcome: Option<Outcome>,
}

/// A piece in a lot.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Piece {
    pub(crate) limit: i64,
    pub(crate) gap: bool,
    /// Ids of kind and make; empty when nobody knows.
    pub(crate) of: (String, String),
    /// Ids of its conditions.
    pub(crate) condition: Vec<String>,
}

/// Whether a text may be an id of the data.
pub(crate) fn is_id(text: &str) -> bool {
    (1..=40).contains(&text.len())
        && text.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
}

fn outcome_text(outcome: Option<Outcome>) -> String {
    match outcome {
        None => "open".to_string(),
        Some(Outcome::Won(hammer)) => format!("won {hammer}"),
        Some(Outcome::Lost(hammer)) => format!("lost {hammer}"),
        Some(Outcome::Passed) => "passed".to_string(),
    }
}

fn amount(text: &str) -> Option<i64> {
    text.parse().ok().filter(|a| (0..=MOST).contains(a))
}

fn outcome(text: &str) -> Option<Option<Outcome>> {
    Some(match text.split_once(' ') {
        None if text == "open" => None,
        None if text == "passed" => Some(Outcome::Passed),
        Some(("won", hammer)) => Some(Outcome::Won(amount(hammer)?)),
        Some(("lost", hammer)) => Some(Outcome::Lost(amount(hammer)?)),
        _ => return None,
    })
}

/// `2026`, `2026-11-28`.
pub(crate) fn date(text: &str) -> Option<Date> {
    let mut parts = text.trim().split('-');
    let year = parts.next()?.parse().ok()?;
    let date = match (parts.next(), parts.next(), parts.next()) {
        (None, None, None) => Date { year, month: 0, day: 0 },
        (Some(month), Some(day), None) => {
            Date { year, month: month.parse().ok()?, day: day.parse().ok().filter(|d| *d > 0)? }
        }
        _ => return None,
    };
    date.is_sound().then_some(date)
}

pub(crate) fn date_text(date: Date) -> String {
    match date.month {
        0 => date.year.to_string(),
        month => format!("{}-{month:02}-{:02}", date.year, date.day),
    }
}

/// A label without what would break a line.
pub(crate) fn label(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).take(LONGEST_LABEL).collect::<String>().trim().to_string()
}

impl Day {
    /// As it is kept.
    pub(crate) fn text(&self) -> String {
        let mut text = format!("sale 1 {} {} {}", date_text(self.date), self.currency.code(), self.budget);
        for lot in &self.lots {
            text.push_str(&format!("\nlot\t{}\t{}\t{}", outcome_text(lot.outcome), lot.label, lot.link));
            for p in &lot.pieces {
                let (gap, held) = (u8::from(p.gap), p.condition.join("+"));
                text.push_str(&format!("\npiece\t{}\t{gap}\t{}\t{}\t{held}", p.limit, p.of.0, p.of.1));
            }
        }
        text
    }

    /// Reads it; none for an empty text.
    ///
    /// # Errors
    /// A sentence with the line at fault.
    pub(crate) fn read(text: &str) -> Result<Option<Day>, String> {
        if text.is_empty() {
            return Ok(None);
        }
        let damaged = |line: usize| {
            format!("The sale sheet kept on this device is damaged in line {} and was not taken.", line + 1)
        };
        if text.len() > LONGEST {
            return Err("The sale sheet kept on this device is too long and was not taken.".to_string());
        }
        let mut lines = text.lines().enumerate();
        let mut day = lines.next().and_then(|(_, l)| head(l)).ok_or_else(|| damaged(0))?;
        for (at, line) in lines {
            day.take(line).ok_or_else(|| damaged(at))?;
        }
        match day.lots.iter().all(|l| !l.pieces.is_empty()) {
            true => Ok(Some(day)),
            false => Err(damaged(text.lines().count().saturating_sub(1))),
        }
    }

    fn take(&mut self, line: &str) -> Option<()> {
        let mut fields = line.split('\t');
        let mut next = || fields.next();
        match next()? {
            "lot" if self.lots.len() < MOST_LOTS => {
                let (result, name, link) = (next()?, next()?, next()?);
                let sound = !name.is_empty() && label(name) == name && is_link(link);
                let outcome = outcome(result).filter(|_| sound)?;
                let (label, link) = (name.to_string(), link.to_string());
                self.lots.push(DayLot { label, link, pieces: Vec::new(), outcome });
            }
            "piece" => {
                let lot = self.lots.last_mut().filter(|l| l.pieces.len() < MOST_PIECES)?;
                let limit = amount(next()?)?;
                let gap = match next()? {
                    "0" => false,
                    "1" => true,
                    _ => return None,
                };
                let (kind, make, held) = (next()?, next()?, next()?);
                let known = is_id(kind) && is_id(make) || kind.is_empty() && make.is_empty();
                let condition: Vec<String> = match held {
                    "" => Vec::new(),
                    held => held.split('+').map(String::from).collect(),
                };
                if !known || condition.len() > 20 || !condition.iter().all(|c| is_id(c)) {
                    return None;
                }
                lot.pieces.push(Piece { limit, gap, of: (kind.to_string(), make.to_string()), condition });
            }
            _ => return None,
        }
        next().is_none().then_some(())
    }

    /// As it is reckoned with.
    pub(crate) fn sheet(&self, guide: &Guide, prices: &Prices, terms: Terms) -> Sheet {
        let place = |id: &String| prices.conditions.iter().position(|c| c.id == *id);
        let condition = |ids: &[String]| -> Vec<u16> {
            ids.iter().filter_map(|id| u16::try_from(place(id)?).ok()).collect()
        };
        let part = |p: &Piece| Part {
            // Families are not in a pack: each kind is one of its own.
            of: find(guide, &p.of.0, &p.of.1).map(|(kind, make)| Of { kind, make, family: kind }),
            condition: condition(&p.condition),
            limit: p.limit,
            gap: p.gap,
        };
        let lot = |l: &DayLot| Lot { parts: l.pieces.iter().map(part).collect(), outcome: l.outcome };
        let lots = self.lots.iter().map(lot).collect();
        Sheet { date: self.date, currency: self.currency, budget: self.budget, terms, lots }
    }
}

/// What the results on the sheet say of prices, lot by lot: each is what the user saw and nobody checked.
pub(crate) fn noted(guide: &Guide, prices: &Prices, state: &State) -> Vec<Comparable> {
    let Some(day) = Day::read(&state.sale.sheet).ok().flatten() else { return Vec::new() };
    let sheet = day.sheet(guide, prices, super::pay::house(state).terms);
    (0..sheet.lots.len()).filter_map(|lot| sheet.comparable(lot, Basis::Memory)).collect()
}

fn head(line: &str) -> Option<Day> {
    let mut words = line.split(' ');
    let known = words.next() == Some("sale") && words.next() == Some("1");
    let date = date(words.next().filter(|_| known)?)?;
    let currency = Currency::new(words.next()?)?;
    let budget = amount(words.next()?)?;
    words.next().is_none().then_some(Day { date, currency, budget, lots: Vec::new() })
}

fn is_link(text: &str) -> bool {
    text.len() <= LONGEST_LINK && text.bytes().all(|b| b.is_ascii_graphic())
}

/// Indices of a kind and a make by their ids.
pub(crate) fn find(guide: &Guide, kind: &str, make: &str) -> Option<(u16, u16)> {
    let kind = guide.core.kinds.iter().position(|k| k.id == kind)?;
    let make = guide.core.makes.iter().position(|m| m.id == make)?;
    Some((u16::try_from(kind).ok()?, u16::try_from(make).ok()?))
}
