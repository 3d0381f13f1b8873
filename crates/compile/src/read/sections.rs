//! What families, kinds, forms and makes have in common: looks, roles, spreads, years, worth, factors by place.

use super::{Context, find};
use crate::cursor::{Table, Value};
use crate::fault::quote;
use crate::model::{Entry, Looks, Manifest, OfMake, Question, Rests, RoleLine, Section, Thing};
use crate::shares::{self, Of};
use crate::spread::Quantity;
use crate::text::Limit;
use pack::Worth;
use units::{Currency, Money, Period};

/// The largest factor by place, per cent: a thousandfold.
const MOST_AT: f64 = 100_000.0;
/// Stands for years that cannot be read, which is a fault already; that none are there would be a second.
const BEHIND_A_FAULT: Period = Period { earliest: 1900, likely_from: 1900, likely_to: 1900, latest: 1900 };
/// The largest price in whole units.
const MOST_WORTH: f64 = 1e7;

/// Which questions the looks of a section may name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum About {
    /// All of them.
    Anything,
    /// Those about the make: in `makes.toml`.
    Make,
}

/// What a reader of sections needs beside the table.
#[derive(Clone, Copy)]
pub(super) struct Desk<'a> {
    pub(super) context: &'a Context<'a>,
    pub(super) manifest: &'a Manifest,
    pub(super) questions: &'a [Question],
}

impl Desk<'_> {
    /// Looks and roles of a table, and the spreads beside them.
    pub(super) fn section(&self, table: &Table<'_>, rests: Rests, about: About) -> Section {
        let mut looks = table.table("looks").map(|t| self.looks(&t, rests, about)).unwrap_or_default();
        if about == About::Anything {
            for quantity in [Quantity::Length, Quantity::Heft] {
                let entry = table.get(quantity.field()).map(|v| {
                    // A spread that cannot be read is a fault already; that none is there would be a second.
                    self.spread(&v, quantity, rests)
                        .unwrap_or_else(|| Entry { says: quantity.spread(1.0, 2.0), rests })
                });
                let at = self.questions.iter().position(|q| q.quantity == Some(quantity));
                if let (Some(entry), Some(at)) = (entry, at) {
                    looks.insert(at, entry);
                }
            }
        }
        let roles = table.get("roles").map(|v| self.roles(&v, rests));
        Section { looks, roles }
    }

    fn looks(&self, table: &Table<'_>, rests: Rests, about: About) -> Looks {
        let mut looks = Looks::new();
        for (name, value) in table.entries() {
            let Some(at) = self.questions.iter().position(|q| q.id == name) else {
                if !self.questions.is_empty() {
                    let hint = self.context.faults.meant(
                        &name,
                        self.questions.iter().map(|q| q.id.as_str()),
                        "Questions",
                    );
                    value.unknown(format!("There is no question {}.", quote(&name)), hint);
                }
                continue;
            };
            let question = &self.questions[at];
            if question.quantity.is_some() {
                let hint = "Write it beside the name of the kind: length = { from = 38, to = 100 }";
                value.fault("A measured quantity does not stand among the looks.", hint);
                continue;
            }
            if about == About::Make && !question.about_make {
                let hint = "Say about = \"make\" in the question, or give the table to kinds.";
                value.fault("This question is about the form, not about the make.", hint);
                continue;
            }
            let choices: Vec<&str> = question.wire.choices.iter().map(|c| c.id.as_str()).collect();
            let entry = self.context.table_line(&value, &choices, self.manifest, rests);
            looks.insert(at, entry);
        }
        looks
    }

    /// What a thing was made as is no evidence that is weighed, so it may be certain.
    fn roles(&self, value: &Value<'_>, rests: Rests) -> RoleLine {
        let line = self.line(value, Of::Roles, &self.manifest.roles);
        if line.is_some() {
            self.context.count(rests);
        }
        let weights = line.unwrap_or_else(|| vec![1.0; self.manifest.roles.len()]);
        RoleLine { shares: crate::even::per_mille(&weights), basis: rests.basis }
    }

    /// Weights by thing of a list of `pack.toml`.
    fn line(&self, value: &Value<'_>, of: Of, things: &[Thing]) -> Option<Vec<f64>> {
        let ids: Vec<&str> = things.iter().map(|t| t.id.as_str()).collect();
        let text = value.text(Limit::TABLE)?;
        match shares::read(&text, of, &ids, &self.manifest.words) {
            Ok(line) => Some(line.weights),
            Err(refused) => {
                refused.tell(value);
                None
            }
        }
    }

    fn spread(&self, value: &Value<'_>, quantity: Quantity, above: Rests) -> Option<Entry> {
        let table = value.table()?;
        let (least, most) = quantity.bounds();
        let end = |name: &str| table.need(name, &format!("{name} = 50")).and_then(|v| v.number(least, most));
        let (from, to) = (end("from"), end("to"));
        let rests = self.context.rests(&table, above);
        table.done();
        let (from, to) = (from?, to?);
        if from > to {
            value.fault(format!("From {from} to {to} runs backwards."), "Swap the two.");
            return None;
        }
        self.context.count(rests);
        Some(Entry { says: quantity.spread(from, to), rests })
    }

    /// Factors by place from `{ dug = 150 }`, per cent.
    pub(super) fn at(&self, table: &Table<'_>) -> Vec<Option<f64>> {
        let places = &self.manifest.places;
        let mut factors = vec![None; places.len()];
        for (name, value) in table.table("at").iter().flat_map(Table::entries) {
            let place = find(places, &name, &value.spot, "place", self.context.faults);
            let factor = value.number(0.0, MOST_AT);
            if let (Some(place), Some(factor)) = (place, factor) {
                factors[usize::from(place)] = Some(factor / 100.0);
            }
        }
        factors
    }

    /// Shares of the makes, per cent.
    pub(super) fn makes(&self, table: &Table<'_>) -> Option<Vec<f64>> {
        let value = table.get("makes")?;
        let makes = &self.manifest.makes;
        // Behind a fault no make has a share, so that nothing follows from it.
        Some(self.line(&value, Of::Makes, makes).unwrap_or_else(|| vec![0.0; makes.len()]))
    }

    /// What is said of each make: `[kind.later]`.
    pub(super) fn by_make(&self, table: &Table<'_>, rests: Rests) -> Vec<OfMake> {
        let read = |make: &Thing| table.table(&make.id).map(|t| self.of_make(&t, rests)).unwrap_or_default();
        self.manifest.makes.iter().map(read).collect()
    }

    fn of_make(&self, table: &Table<'_>, above: Rests) -> OfMake {
        let rests = self.context.rests(table, above);
        let section = self.section(table, rests, About::Anything);
        let years = table.get("years").map(|v| {
            let period = years(&v);
            if period.is_some() {
                self.context.count(rests);
            }
            (period.unwrap_or(BEHIND_A_FAULT), rests)
        });
        let worth = table.get("worth").and_then(|v| self.worth(table, &v, rests));
        if table.get("worth").is_none() {
            // Asked for so that they are known; without a price they say nothing.
            for name in ["currency", "year", "worth_basis", "worth_source"] {
                if let Some(v) = table.get(name) {
                    v.fault(
                        "This belongs to a worth, but none is given.",
                        "Add worth = [low, high] or leave it out.",
                    );
                }
            }
        }
        table.done();
        OfMake { section, years, worth }
    }

    fn worth(&self, table: &Table<'_>, value: &Value<'_>, above: Rests) -> Option<Worth> {
        let currency = table.need("currency", "currency = \"USD\"").and_then(|v| {
            let found = v.text(Limit::SHORT).map(|t| Currency::new(&t));
            if found == Some(None) {
                v.fault("This is not a currency.", "Write three capital letters of ISO 4217: \"USD\".");
            }
            found.flatten()
        });
        let year = table.need("year", "year = 2020").and_then(|v| v.whole(1900, 2200));
        let rests = self.context.rests_named(table, "worth_basis", "worth_source", above);
        let list = value.list();
        let ends: Vec<f64> = list.iter().filter_map(|v| v.number(0.01, MOST_WORTH)).collect();
        if ends.len() < list.len() {
            return None;
        }
        let &[low, high] = ends.as_slice() else {
            value.fault("A worth is two numbers.", "Write the middle half of prices: worth = [10, 35]");
            return None;
        };
        if low >= high {
            value.fault(
                format!("The lower price {low} is not below the higher {high}."),
                "Write the lower first.",
            );
            return None;
        }
        let (currency, year) = (currency?, i16::try_from(year?).ok()?);
        let money = |whole: f64| Money { minor: libm::round(whole * 100.0) as i64, currency };
        self.context.count(rests);
        Some(Worth { low: money(low), high: money(high), year, basis: rests.basis, source: rests.source })
    }
}

fn years(value: &Value<'_>) -> Option<Period> {
    let list = value.list();
    let corners: Vec<i16> =
        list.iter().filter_map(|v| v.whole(800, 2200).and_then(|y| i16::try_from(y).ok())).collect();
    if corners.len() < list.len() {
        return None;
    }
    let &[earliest, likely_from, likely_to, latest] = corners.as_slice() else {
        value.fault(
            "The years are four numbers.",
            "Write not before, mostly from, mostly to, not after: years = [1850, 1880, 1915, 1935]",
        );
        return None;
    };
    let period = Period { earliest, likely_from, likely_to, latest };
    if !period.is_sound() {
        value.fault("The years are out of order.", "Write not before, mostly from, mostly to, not after.");
        return None;
    }
    Some(period)
}
