//! The sheet for the day: lots, what may be bid on each, what is left.

use super::day::{Day, DayLot, LONGEST_LABEL, MOST, date, date_text};
use super::pay::{self, about, cost_lines};
use super::typed::{money, shown};
use super::update::Field;
use super::view::{FieldView, LotView, OpenLot, SheetView};
use super::worths;
use crate::guide::Guide;
use crate::state::State;
use appraise::{Outcome, Sheet};
use pack::prices::{Meaning, Prices};
use units::Currency;

pub(super) fn view(guide: &Guide, prices: &Prices, state: &State, currency: Currency) -> SheetView {
    let day = Day::read(&state.sale.sheet).ok().flatten();
    let house = pay::house(state);
    let currency = day.as_ref().map_or(currency, |d| d.currency);
    let typed = |field, label: String, stands: String, fault| FieldView {
        field,
        label,
        text: state.sale.typed(field).map_or(stands, String::from),
        fault,
    };
    let budget = day.as_ref().map_or(String::new(), |d| shown(d.budget, 2, true));
    let when = day.as_ref().map_or(String::new(), |d| date_text(d.date));
    let odd = state.sale.typed(Field::Date).filter(|t| !t.trim().is_empty() && date(t).is_none());
    let odd = odd.map(|_| "A day is a year, or year, month and day: 2026-11-28.".to_string());
    let code = currency.code();
    let fault = |f| pay::fault(state, f, 2, MOST);
    let fields = vec![
        typed(Field::Budget, format!("Budget of the day, {code}"), budget, fault(Field::Budget)),
        typed(Field::Date, "Day".to_string(), when, odd),
    ];
    let new = vec![
        typed(Field::Label, "Label of a lot".to_string(), String::new(), None),
        typed(Field::LotLimit, format!("Limit, {code}"), String::new(), fault(Field::LotLimit)),
    ];
    let sheet = day.as_ref().map(|d| d.sheet(guide, prices, house.terms));
    let mixed = house.currency.is_some_and(|c| c != currency);
    let year = worths::market(guide, prices, currency).money_year();
    let lot = |at: usize, lot: &DayLot, sheet: &Sheet| one(guide, prices, state, at, lot, sheet);
    SheetView {
        fields,
        new,
        longest: LONGEST_LABEL,
        left: sheet.as_ref().and_then(|s| {
            Some(format!("{} left of {}", money(s.left()?, currency), money(s.budget, currency)))
        }),
        left_minor: sheet.as_ref().and_then(Sheet::left),
        currencies: mixed.then(|| {
            format!("The sheet is in {code}; the terms are in another currency, and no rate is known here.")
        }),
        lots: day
            .iter()
            .zip(&sheet)
            .flat_map(|(d, s)| d.lots.iter().enumerate().map(|(i, l)| lot(i, l, s)).collect::<Vec<_>>())
            .collect(),
        about: about(prices, &[Meaning::Limit, Meaning::Hammer], currency, year),
    }
}

fn outcome(lot: &DayLot, sheet: &Sheet, currency: Currency) -> Option<String> {
    Some(match lot.outcome? {
        Outcome::Won(hammer) => format!(
            "Won at {}, {} in all",
            money(hammer, currency),
            money(sheet.terms.cost(hammer).total, currency)
        ),
        Outcome::Lost(hammer) => format!("Went to another at {}", money(hammer, currency)),
        Outcome::Passed => "Passed".to_string(),
    })
}

fn one(guide: &Guide, prices: &Prices, state: &State, at: usize, lot: &DayLot, sheet: &Sheet) -> LotView {
    let currency = sheet.currency;
    let bid = sheet.bid(at, prices, &prices.steps);
    let done = outcome(lot, sheet, currency);
    let says = match (&done, bid) {
        (Some(done), _) => done.clone(),
        (None, Some(bid)) => format!("Bid up to {}", money(bid.hammer, currency)),
        (None, None) => "No bid is left for it".to_string(),
    };
    let parts = match lot.pieces.len() {
        1 => String::new(),
        n => format!(", {n} pieces together"),
    };
    let open = (state.sale.open == Some(at)).then(|| {
        let hammer = pay::lot_hammer(guide, prices, state, at).filter(|h| *h > 0);
        let cost = hammer.map(|h| cost_lines(sheet.terms, sheet.terms.cost(h), currency));
        OpenLot {
            hammer: hammer.map(|h| money(h, currency)),
            cost: cost.unwrap_or_default(),
            gap: lot.pieces.first().is_some_and(|p| p.gap),
            each: lot
                .pieces
                .iter()
                .map(|p| {
                    let kind = guide.core.kinds.iter().find(|k| k.id == p.of.0);
                    let name = kind.map_or("A piece", |k| k.name.as_str());
                    let gap = if p.gap { ", fills a gap" } else { "" };
                    format!("{name}: limit {}{gap}", money(p.limit, currency))
                })
                .collect(),
        }
    });
    LotView {
        lot: at,
        label: lot.label.clone(),
        link: lot.link.clone(),
        says,
        limit: format!("Limit {}{parts}", money(sheet.limit(at, prices), currency)),
        over: lot.outcome.is_some(),
        bid_minor: bid.map(|b| b.hammer),
        open,
    }
}
