//! What taps and keys do in the room.

use super::day::{self, Day, DayLot, Piece};
use super::house::{BASES, House, MARGINS, MOST_SHIPPING};
use super::typed::{decimal, money, shown};
use super::{Desk, pay, worn};
use crate::finding::Facts;
use crate::fragment;
use crate::guide::Guide;
use crate::state::{Screen, State};
use crate::update::{Effect, Kept};
use appraise::{Outcome, next_bid, on_step};
use pack::prices::{Date, Prices, Step};
use units::Currency;

/// What a user did in the room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Act {
    /// Texts kept on this device, or the tables, have come.
    Check,
    /// Went to a desk.
    Desk(Desk),
    /// Typed into a field: the whole text as it stands now.
    Type(Field, String),
    /// What the tax is reckoned on: index of the key.
    TaxOn(usize),
    /// What is kept back: index of the key.
    Margin(usize),
    /// The piece fills a gap of the collection, or does not.
    Gap,
    /// Takes the suggested limit.
    Suggested,
    /// The next bid up, or down.
    Step(bool),
    /// Back to the highest bid.
    Highest,
    /// A fault or a merit of the piece, on or off: index of the condition.
    Condition(usize),
    /// The invented sales are shown, or hidden.
    Invented,
    /// Puts the piece of the finding on the sheet.
    PutPiece,
    /// Puts what was typed on the sheet as a lot.
    PutLot,
    /// Adds a piece with the limit that was typed to a lot.
    PutInto(usize),
    /// Opens a lot, or closes it.
    Open(usize),
    /// The first piece of a lot fills a gap, or does not.
    LotGap(usize),
    /// Won at the hammer price that stands.
    Won(usize),
    /// It went to another at the hammer price that stands.
    Lost(usize),
    /// It was not sold, or nobody noted it.
    Passed(usize),
    /// It has not come up after all.
    Again(usize),
    /// Takes a lot off the sheet.
    Drop(usize),
    /// Begins a new sheet.
    NewSheet,
}

/// A field of the room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field {
    /// The most to spend on the piece.
    Limit,
    /// The premium, per cent.
    Premium,
    /// The tax, per cent.
    Tax,
    /// Carriage and packing.
    Shipping,
    /// The currency of all amounts.
    Currency,
    /// A hammer price to try.
    Hammer,
    /// What may be spent on the day.
    Budget,
    /// The day.
    Date,
    /// The label of a new lot.
    Label,
    /// The limit of a new lot or piece.
    LotLimit,
}

/// Does what was asked for; it comes with the tables.
pub(crate) type Run = fn(&Guide, &mut State, Act, &mut Vec<Effect>);

pub(crate) fn run(guide: &Guide, state: &mut State, act: Act, effects: &mut Vec<Effect>) {
    let Some(prices) = guide.tables.prices.get() else { return };
    let (house, sheet) = (state.sale.house.clone(), state.sale.sheet.clone());
    match act {
        Act::Check => check(state),
        Act::Desk(desk) => {
            state.sale.desk = desk;
            (state.sale.open, state.sale.hammer) = (None, None);
            state.sale.set_typed(Field::Hammer, None);
        }
        Act::Type(field, text) => type_in(guide, prices, state, field, &text),
        Act::TaxOn(at) => with_house(state, |h| h.terms.on = BASES.get(at).copied().unwrap_or(h.terms.on)),
        Act::Margin(at) => with_house(state, |h| h.margin = MARGINS.get(at).copied().unwrap_or(h.margin)),
        Act::Gap => state.sale.gap = !state.sale.gap,
        Act::Suggested => {
            let facts = Facts::new(guide, state);
            if let Some(minor) = pay::suggestion(guide, prices, state, &facts) {
                state.sale.set_typed(Field::Limit, Some(shown(minor, 2, true)));
                reset(state);
            }
        }
        Act::Step(up) => step(guide, prices, state, up, effects),
        Act::Highest => reset(state),
        Act::Condition(at) => {
            let gone = worn::toggle(prices, state, at);
            if !gone.is_empty() {
                effects.push(Effect::Say(format!("It took the place of: {}.", gone.join("; "))));
            }
            effects.push(Effect::Address { fragment: fragment::write(guide, state), push: false });
        }
        Act::Invented => state.sale.invented = !state.sale.invented,
        Act::NewSheet => {
            state.sale.sheet = begun(guide, prices, state).map_or(String::new(), |d| d.text());
            (state.sale.open, state.sale.hammer) = (None, None);
        }
        Act::PutPiece => put_piece(guide, prices, state, effects),
        Act::PutLot => put_lot(guide, prices, state, effects),
        Act::Open(lot) => {
            state.sale.open = if state.sale.open == Some(lot) { None } else { Some(lot) };
            reset(state);
        }
        Act::PutInto(lot) => {
            if let Some(limit) = pay::amount(state.sale.typed(Field::LotLimit)) {
                with_lot(state, lot, |l| {
                    if l.pieces.len() < day::MOST_PIECES {
                        l.pieces.push(Piece { limit, ..Piece::default() });
                    }
                });
                state.sale.set_typed(Field::LotLimit, None);
            }
        }
        Act::LotGap(lot) => with_lot(state, lot, |l| {
            if let Some(piece) = l.pieces.first_mut() {
                piece.gap = !piece.gap;
            }
        }),
        Act::Won(lot) | Act::Lost(lot) => {
            let won = act == Act::Won(lot);
            let hammer = pay::lot_hammer(guide, prices, state, lot).unwrap_or(0);
            if hammer > 0 {
                let outcome = if won { Outcome::Won(hammer) } else { Outcome::Lost(hammer) };
                result(state, lot, Some(outcome));
            }
        }
        Act::Passed(lot) => result(state, lot, Some(Outcome::Passed)),
        Act::Again(lot) => result(state, lot, None),
        Act::Drop(lot) => {
            with_day(state, |d| {
                if lot < d.lots.len() {
                    d.lots.remove(lot);
                }
            });
            (state.sale.open, state.sale.hammer) = (None, None);
        }
    }
    if state.sale.house != house {
        effects.push(Effect::Keep { name: Kept::Terms, text: state.sale.house.clone() });
    }
    if state.sale.sheet != sheet {
        effects.push(Effect::Keep { name: Kept::Sheet, text: state.sale.sheet.clone() });
    }
}

/// What is damaged is not taken, and said; nothing is written over it until the user changes something.
fn check(state: &mut State) {
    if let Err(sentence) = House::read(&state.sale.house) {
        state.sale.house = String::new();
        state.notice = Some(sentence);
    }
    if let Err(sentence) = Day::read(&state.sale.sheet) {
        state.sale.sheet = String::new();
        state.notice = Some(sentence);
    }
}

fn reset(state: &mut State) {
    state.sale.hammer = None;
    state.sale.set_typed(Field::Hammer, None);
}

fn with_house(state: &mut State, change: impl FnOnce(&mut House)) {
    let mut house = House::read(&state.sale.house).unwrap_or_default();
    change(&mut house);
    state.sale.house = house.text();
    reset(state);
}

fn with_day(state: &mut State, change: impl FnOnce(&mut Day)) {
    if let Ok(Some(mut day)) = Day::read(&state.sale.sheet) {
        change(&mut day);
        let text = day.text();
        if text.len() <= day::LONGEST {
            state.sale.sheet = text;
        } else {
            state.notice = Some("The sheet is full.".to_string());
        }
    }
}

fn with_lot(state: &mut State, lot: usize, change: impl FnOnce(&mut DayLot)) {
    with_day(state, |d| {
        if let Some(lot) = d.lots.get_mut(lot) {
            change(lot);
        }
    });
}

fn result(state: &mut State, lot: usize, outcome: Option<Outcome>) {
    with_lot(state, lot, |l| l.outcome = outcome);
    state.sale.open = None;
    reset(state);
}

/// Takes a text as it was typed; what can be read of it counts at once.
fn type_in(guide: &Guide, prices: &Prices, state: &mut State, field: Field, text: &str) {
    let text: String = text.chars().filter(|c| !c.is_control()).take(day::LONGEST_LABEL).collect();
    let rate =
        |places: usize, most: i64| decimal(&text, places).ok().map(|r| r.unwrap_or(0)).filter(|r| *r <= most);
    match field {
        Field::Premium => {
            if let Some(premium) = rate(1, 1000).and_then(|r| u16::try_from(r).ok()) {
                with_house(state, |h| h.terms.premium = premium);
            }
        }
        Field::Tax => {
            if let Some(tax) = rate(3, 100_000).and_then(|r| u32::try_from(r).ok()) {
                with_house(state, |h| h.terms.tax = tax);
            }
        }
        Field::Shipping => {
            if let Some(shipping) = rate(2, MOST_SHIPPING) {
                with_house(state, |h| h.terms.shipping = shipping);
            }
        }
        Field::Currency => {
            if let Some(currency) = Currency::new(text.trim().to_ascii_uppercase().as_str()) {
                with_house(state, |h| h.currency = Some(currency));
            }
        }
        Field::Hammer => state.sale.hammer = pay::amount(Some(&text)),
        Field::Budget => {
            if let Some(budget) = rate(2, day::MOST) {
                begin(guide, prices, state);
                with_day(state, |d| d.budget = budget);
            }
        }
        Field::Date => {
            if let Some(date) = day::date(&text) {
                begin(guide, prices, state);
                with_day(state, |d| d.date = date);
            }
        }
        Field::Limit => reset(state),
        Field::Label | Field::LotLimit => {}
    }
    state.sale.set_typed(field, Some(text));
}

fn begun(guide: &Guide, prices: &Prices, state: &State) -> Option<Day> {
    let currency = pay::currency(guide, prices, state)?;
    let date = Date { year: guide.this_year, month: 0, day: 0 };
    Some(Day { date, currency, budget: 0, lots: Vec::new() })
}

/// A sheet stands from here on.
fn begin(guide: &Guide, prices: &Prices, state: &mut State) {
    if !matches!(Day::read(&state.sale.sheet), Ok(Some(_))) {
        state.sale.sheet = begun(guide, prices, state).map_or(String::new(), |d| d.text());
    }
}

fn put(guide: &Guide, prices: &Prices, state: &mut State, lot: DayLot, effects: &mut Vec<Effect>) {
    begin(guide, prices, state);
    let full = matches!(Day::read(&state.sale.sheet), Ok(Some(d)) if d.lots.len() >= day::MOST_LOTS);
    if full {
        state.notice = Some(format!("The sheet is full: {} lots.", day::MOST_LOTS));
        return;
    }
    effects.push(Effect::Say(format!("On the sheet: {}.", lot.label)));
    with_day(state, |d| d.lots.push(lot));
}

fn put_lot(guide: &Guide, prices: &Prices, state: &mut State, effects: &mut Vec<Effect>) {
    let label = day::label(state.sale.typed(Field::Label).unwrap_or_default());
    let limit = pay::amount(state.sale.typed(Field::LotLimit));
    let (false, Some(limit)) = (label.is_empty(), limit) else {
        state.notice = Some("A lot needs a label and a limit, such as 45 or 45.50.".to_string());
        return;
    };
    let piece = Piece { limit, ..Piece::default() };
    let lot = DayLot { label, link: String::new(), pieces: vec![piece], outcome: None };
    put(guide, prices, state, lot, effects);
    state.sale.set_typed(Field::Label, None);
    state.sale.set_typed(Field::LotLimit, None);
}

fn put_piece(guide: &Guide, prices: &Prices, state: &mut State, effects: &mut Vec<Effect>) {
    let facts = Facts::new(guide, state);
    let typed = pay::amount(state.sale.typed(Field::Limit));
    // The gap is on the sheet and counts there: the limit goes on it without.
    let bare = State { sale: super::Sale { gap: false, ..state.sale.clone() }, ..state.clone() };
    let Some(limit) = typed.or_else(|| pay::suggestion(guide, prices, &bare, &facts)) else {
        state.notice = Some("Type a limit first: the guide has no figure for this piece.".to_string());
        return;
    };
    let kind = &guide.core.kinds[facts.first];
    let likelier = |best: usize, m: usize| if facts.makes[m] > facts.makes[best] { m } else { best };
    let make = guide.core.makes.get((1..facts.makes.len()).fold(0, likelier));
    let finding = State { screen: Screen::Finding, focus: None, ..state.clone() };
    let known = facts.told() && day::is_id(&kind.id);
    let of = match make.filter(|m| known && day::is_id(&m.id)) {
        Some(make) => (kind.id.clone(), make.id.clone()),
        None => (String::new(), String::new()),
    };
    // A limit that was typed is what the user is ready to spend: nothing is added to it.
    let gap = state.sale.gap && typed.is_none();
    let piece = Piece { limit: limit.min(day::MOST), gap, of, condition: state.condition.clone() };
    let label = day::label(if known { &kind.name } else { "Not looked at yet" });
    let link = if known { fragment::write(guide, &finding) } else { String::new() };
    put(guide, prices, state, DayLot { label, link, pieces: vec![piece], outcome: None }, effects);
    state.sale.desk = Desk::Sheet;
}

/// A bid step up or down from the hammer price that stands.
fn step(guide: &Guide, prices: &Prices, state: &mut State, up: bool, effects: &mut Vec<Effect>) {
    let steps: &[Step] = &prices.steps;
    let now = match state.sale.open {
        Some(lot) => pay::lot_hammer(guide, prices, state, lot),
        None => pay::hammer(prices, state),
    };
    let now = now.unwrap_or(0);
    let to = if up { next_bid(steps, now) } else { on_step(steps, now.saturating_sub(1)) };
    let to = to.clamp(0, day::MOST);
    state.sale.set_typed(Field::Hammer, None);
    state.sale.hammer = Some(to);
    if let Some(currency) = pay::currency(guide, prices, state).filter(|_| state.money) {
        effects.push(Effect::Say(money(to, currency)));
    }
}
