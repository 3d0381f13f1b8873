//! The most to pay for the piece, what a hammer price really costs, and how the limit came about.

use super::day::{Day, noted};
use super::house::{BASES, House, MARGINS, on_key};
use super::typed::{decimal, money, per_cent, shown};
use super::update::Field;
use super::view::{FieldView, PayView, TermsView};
use super::{worn, worths};
use crate::finding::Facts;
use crate::guide::Guide;
use crate::state::State;
use crate::words::chance;
use appraise::{Cost, Line, TaxOn, Terms, Why, on_step};
use pack::prices::{Meaning, Prices};
use units::Currency;

pub(super) fn house(state: &State) -> House {
    House::read(&state.sale.house).unwrap_or_default()
}

/// The currency of all amounts in the room: as typed, or that of the guide's figures.
pub(super) fn currency(guide: &Guide, prices: &Prices, state: &State) -> Option<Currency> {
    house(state).currency.or_else(|| worths::currency(guide, prices))
}

/// What a typed amount comes to, above nothing.
pub(super) fn amount(text: Option<&str>) -> Option<i64> {
    decimal(text?, 2).ok().flatten().filter(|a| *a > 0)
}

/// The highest bid on the steps within the limit that was typed.
fn highest(prices: &Prices, state: &State) -> Option<i64> {
    let limit = amount(state.sale.typed(Field::Limit))?;
    Some(on_step(&prices.steps, house(state).terms.most(limit)?)).filter(|bid| *bid > 0)
}

/// The hammer price that stands: the one tried, or the highest bid.
pub(super) fn hammer(prices: &Prices, state: &State) -> Option<i64> {
    state.sale.hammer.or_else(|| highest(prices, state))
}

/// The same for a lot of the sheet: the one tried, or the bid that is left for it.
pub(super) fn lot_hammer(guide: &Guide, prices: &Prices, state: &State, lot: usize) -> Option<i64> {
    let tried = state.sale.hammer.filter(|_| state.sale.open == Some(lot));
    tried.or_else(|| {
        let day = Day::read(&state.sale.sheet).ok().flatten()?;
        let sheet = day.sheet(guide, prices, house(state).terms);
        Some(sheet.bid(lot, prices, &prices.steps)?.hammer)
    })
}

/// The suggested limit, where there are figures.
pub(super) fn suggestion(guide: &Guide, prices: &Prices, state: &State, facts: &Facts) -> Option<i64> {
    let (_, suggested) = suggest(guide, prices, state, facts)?;
    Some(suggested.limit.money.minor).filter(|minor| *minor > 0)
}

fn suggest(
    guide: &Guide,
    prices: &Prices,
    state: &State,
    facts: &Facts,
) -> Option<(worths::Worths, appraise::Suggested)> {
    let market = worths::market(guide, prices, currency(guide, prices, state)?);
    let held = worn::held(prices, &state.condition);
    let told = facts.told();
    let noted = noted(guide, prices, state);
    worths::suggested(guide, facts, &market, &noted, &held, house(state).margin, state.sale.gap)
        .filter(|_| told)
}

/// What a hammer price costs, line by line.
pub(super) fn cost_lines(terms: Terms, cost: Cost, currency: Currency) -> Vec<(String, String)> {
    let line = |name: String, minor: i64| (name, money(minor, currency));
    let tax = shown(i64::from(terms.tax), 3, false);
    vec![
        line("Hammer price".to_string(), cost.hammer),
        line(format!("Premium, {}", per_cent(i64::from(terms.premium))), cost.premium),
        line(format!("Tax, {tax} % on {}", on_key(terms.on)), cost.tax),
        line("Carriage and packing".to_string(), cost.shipping),
        line("All together".to_string(), cost.total),
    ]
}

/// How the highest bid comes about.
fn arithmetic(terms: Terms, limit: i64, exact: i64, bid: i64, currency: Currency) -> String {
    let amount = |minor| money(minor, currency);
    let premium = per_cent(i64::from(terms.premium));
    let tax = format!("{} %", shown(i64::from(terms.tax), 3, false));
    let by = match terms.on {
        TaxOn::Whole => format!("(1 + {premium}) / (1 + {tax})"),
        TaxOn::Hammer => format!("(1 + {premium} + {tax})"),
        TaxOn::Premium => format!("(1 + {premium} + {premium} x {tax})"),
        TaxOn::Nothing => format!("(1 + {premium})"),
    };
    format!(
        "({} - {}) / {by} = {} to the cent, each line rounded as on an invoice; on the steps of bids {}.",
        amount(limit),
        amount(terms.shipping),
        amount(exact),
        amount(bid)
    )
}

fn why(line: &Line, currency: Currency) -> (String, String) {
    let share = |p: Option<u32>| chance(f64::from(p.unwrap_or(0)) / 1000.0);
    let rate = |p: Option<u32>| per_cent(i64::from(p.unwrap_or(0)));
    let name = match line.why {
        Why::Right => format!("A period piece, middle of such sales, {} of it", share(line.per_mille)),
        Why::Copy => format!("A later one, {} of it", share(line.per_mille)),
        Why::Condition => {
            format!("Its condition, to {}", super::typed::share(line.per_mille.unwrap_or(1000)))
        }
        Why::Repair => "Repair".to_string(),
        Why::Margin => format!("Kept back for what cannot be seen, {}", rate(line.per_mille)),
        Why::Gap => format!("Fills a gap, to {}", rate(line.per_mille)),
    };
    (name, money(line.minor, currency))
}

fn terms(state: &State, currency: Currency) -> TermsView {
    let house = house(state);
    let Terms { premium, tax, on, shipping } = house.terms;
    let field = |field, label: &str, stands: String, fault: Option<String>| FieldView {
        field,
        label: label.to_string(),
        text: state.sale.typed(field).map_or(stands, String::from),
        fault,
    };
    let rate = |f: Field, places, most: i64| fault(state, f, places, most);
    let code = state.sale.typed(Field::Currency).map(|t| t.trim().to_ascii_uppercase());
    let odd = code.is_some_and(|c| Currency::new(&c).is_none());
    let code_fault = odd.then(|| "A currency is three letters, such as USD or EUR.".to_string());
    TermsView {
        fields: vec![
            field(
                Field::Premium,
                "Premium, %",
                shown(i64::from(premium), 1, false),
                rate(Field::Premium, 1, 1000),
            ),
            field(Field::Tax, "Tax, %", shown(i64::from(tax), 3, false), rate(Field::Tax, 3, 100_000)),
            field(
                Field::Shipping,
                &format!("Carriage, {}", currency.code()),
                shown(shipping, 2, true),
                rate(Field::Shipping, 2, super::house::MOST_SHIPPING),
            ),
            field(Field::Currency, "Currency", currency.code().to_string(), code_fault),
        ],
        tax_on: BASES.iter().map(|b| (on_key(*b).to_string(), *b == on)).collect(),
        margins: MARGINS.iter().map(|m| (per_cent(i64::from(*m)), *m == house.margin)).collect(),
    }
}

/// Why what stands in a field cannot be used.
pub(super) fn fault(state: &State, field: Field, places: usize, most: i64) -> Option<String> {
    match decimal(state.sale.typed(field)?, places) {
        Err(sentence) => Some(sentence),
        Ok(value) if value.unwrap_or(0) > most => Some("That is too much to be right.".to_string()),
        Ok(_) => None,
    }
}

pub(super) fn view(
    guide: &Guide,
    prices: &Prices,
    state: &State,
    facts: &Facts,
    currency: Currency,
) -> PayView {
    let house = house(state);
    let limit = amount(state.sale.typed(Field::Limit));
    let highest = highest(prices, state);
    let hammer = hammer(prices, state);
    let cost = hammer.map(|h| house.terms.cost(h));
    let suggested = suggest(guide, prices, state, facts);
    let year = worths::market(guide, prices, currency).money_year();
    let lines = |s: &appraise::Suggested| {
        let mut lines: Vec<(String, String)> = s.lines.iter().map(|l| why(l, currency)).collect();
        lines.push(("Suggested limit".to_string(), money(s.limit.money.minor, currency)));
        lines
    };
    let rests = |(w, s): &(worths::Worths, appraise::Suggested)| {
        let none = if w.copy.is_none() {
            " A later one has no figure in the guide and counts as nothing."
        } else {
            ""
        };
        format!(
            "Typical prices, their middle, in money of {}; {}.{none}",
            s.limit.year,
            s.limit.basis.phrase()
        )
    };
    let unsaid = if !facts.told() {
        "Nothing was looked at yet: a limit can be typed.".to_string()
    } else {
        format!("The guide has no figures in {} for pieces like this one; type a limit.", currency.code())
    };
    let exact = limit.and_then(|l| house.terms.most(l));
    let over = cost.zip(limit).filter(|(c, l)| c.total > *l);
    PayView {
        limit: FieldView {
            field: Field::Limit,
            label: format!("Limit, all included, {}", currency.code()),
            text: state.sale.typed(Field::Limit).unwrap_or_default().to_string(),
            fault: fault(state, Field::Limit, 2, i64::MAX),
        },
        terms: terms(state, currency),
        gap: state.sale.gap,
        suggested: suggested.as_ref().map(|(_, s)| lines(s)).unwrap_or_default(),
        suggested_rests: suggested.as_ref().map_or(unsaid, rests),
        highest: match (limit, highest) {
            (None, _) => None,
            (Some(_), None) => Some("No bid keeps this limit.".to_string()),
            (Some(_), Some(bid)) => Some(money(bid, currency)),
        },
        highest_minor: highest,
        hammer: hammer.map(|h| money(h, currency)),
        hammer_minor: hammer,
        total_minor: cost.map(|c| c.total),
        limit_minor: limit,
        cost: cost.map(|c| cost_lines(house.terms, c, currency)).unwrap_or_default(),
        over: over.map(|(c, l)| format!("{} over the limit.", money(c.total - l, currency))),
        arithmetic: limit
            .zip(exact)
            .map(|(l, exact)| arithmetic(house.terms, l, exact, highest.unwrap_or(0), currency)),
        about: about(prices, &[Meaning::Limit, Meaning::Hammer], currency, year),
    }
}

/// What the figures of a desk mean, of which year they are and what they rest on.
pub(super) fn about(prices: &Prices, meanings: &[Meaning], currency: Currency, year: i16) -> Vec<String> {
    let defined = meanings.iter().filter_map(|m| prices.meanings.iter().find(|d| d.meaning == *m));
    let mut lines: Vec<String> =
        defined.map(|d| format!("{}: {} ({})", d.name, d.says, d.basis.phrase())).collect();
    let steps = prices.steps.iter().map(|s| s.basis).max();
    let steps = steps
        .map_or(String::new(), |b| format!(" Steps of bids are {}: those of the room hold.", b.phrase()));
    lines.push(format!(
        "Amounts in {}, money of {year}. Premium, tax and carriage as typed: those of the room hold.{steps}",
        currency.code()
    ));
    lines
}
