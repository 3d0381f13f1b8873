//! Faults and merits of the piece: chosen by hand, kept in the link, each with what it does to the band.

use super::typed::share;
use super::view::{ConditionView, WornView};
use crate::bands::{Bands, plain};
use crate::finding::Facts;
use crate::guide::Guide;
use crate::state::State;
use appraise::{Worn, worn};
use pack::prices::{Condition, Prices};
use units::Basis;

/// The most conditions of one piece; no piece has so many.
pub(crate) const MOST: usize = 20;

/// The conditions of the piece as indices into the tables; what this edition does not have is left out.
pub(crate) fn held(prices: &Prices, ids: &[String]) -> Vec<u16> {
    let place = |id: &String| prices.conditions.iter().position(|c| c.id == *id);
    let all: Vec<u16> = ids.iter().filter_map(|id| u16::try_from(place(id)?).ok()).collect();
    // Two that cannot hold together come from a link of another edition only: the first stands.
    let mut sound: Vec<u16> = Vec::new();
    for at in all {
        let mut with = sound.clone();
        with.push(at);
        if worn(prices, &with).is_ok() {
            sound = with;
        }
    }
    sound
}

/// Turns one on or off. What it rules out goes; returns the names of that.
pub(crate) fn toggle(prices: &Prices, state: &mut State, at: usize) -> Vec<String> {
    let Some(condition) = prices.conditions.get(at) else { return Vec::new() };
    if let Some(had) = state.condition.iter().position(|id| *id == condition.id) {
        state.condition.remove(had);
        return Vec::new();
    }
    if state.condition.len() >= MOST {
        return Vec::new();
    }
    let clashes = |c: &&Condition| {
        let held = state.condition.contains(&c.id);
        held && prices
            .conditions
            .iter()
            .position(|o| o.id == c.id)
            .is_some_and(|i| condition.without.iter().any(|w| usize::from(*w) == i))
    };
    let gone: Vec<&Condition> = prices.conditions.iter().filter(clashes).collect();
    let names = gone.iter().map(|c| c.name.clone()).collect();
    let ids: Vec<String> = gone.iter().map(|c| c.id.clone()).collect();
    state.condition.retain(|id| !ids.contains(id));
    state.condition.push(condition.id.clone());
    names
}

/// Ids of the cautions that the conditions of the piece call for; none as long as the tables are on their way.
pub(crate) fn cares<'a>(guide: &'a Guide, state: &State) -> Vec<&'a str> {
    let Some(prices) = guide.tables.prices.get() else { return Vec::new() };
    let held = held(prices, &state.condition);
    let held = held.iter().filter_map(|at| prices.conditions.get(usize::from(*at)));
    held.flat_map(|c| c.care.split_whitespace()).collect()
}

fn effect(c: &Condition) -> String {
    let ends = |v: u16| share(u32::from(v)).trim_start_matches("about ").to_string();
    format!("to {} of the band (half of such: {} to {})", share(u32::from(c.mid)), ends(c.low), ends(c.high))
}

pub(crate) fn view(guide: &Guide, prices: &Prices, state: &State, money: bool, facts: &Facts) -> WornView {
    let held = held(prices, &state.condition);
    let mut parts: Vec<(String, Vec<ConditionView>)> = Vec::new();
    for (at, c) in prices.conditions.iter().enumerate() {
        let named = guide.core.parts.iter().find(|p| p.id == c.part).map_or(&c.part, |p| &p.name);
        let on = state.condition.contains(&c.id);
        let other =
            c.without.iter().find(|w| held.contains(w)).and_then(|w| prices.conditions.get(usize::from(*w)));
        let instead = other.filter(|_| !on).map(|o| format!("Takes the place of: {}.", o.name));
        let one = ConditionView {
            condition: at,
            name: c.name.clone(),
            says: c.says.clone(),
            draw: c.draw.clone(),
            effect: effect(c),
            basis: c.basis.phrase().to_string(),
            on,
            instead,
        };
        match parts.iter_mut().find(|(part, _)| part == named) {
            Some((_, list)) => list.push(one),
            None => parts.push((named.clone(), vec![one])),
        }
    }
    let together = if held.is_empty() {
        vec!["Nothing chosen: the band stands as it is, for a sound, typical, complete example.".to_string()]
    } else {
        lines_of(guide, prices, &held, facts, money)
    };
    WornView { parts, together }
}

/// What the conditions of the piece do to its band, in sentences; none when nothing was chosen or the tables are on their way.
pub(crate) fn lines(guide: &Guide, state: &State, facts: &Facts) -> Vec<String> {
    let Some(prices) = guide.tables.prices.get() else { return Vec::new() };
    let held = held(prices, &state.condition);
    if held.is_empty() { Vec::new() } else { lines_of(guide, prices, &held, facts, state.money) }
}

fn lines_of(guide: &Guide, prices: &Prices, held: &[u16], facts: &Facts, money: bool) -> Vec<String> {
    let Ok(worn) = worn(prices, held) else { return Vec::new() };
    let conditions = held.iter().filter_map(|at| prices.conditions.get(usize::from(*at)));
    let names: Vec<String> = conditions.clone().map(|c| c.name.clone()).collect();
    let basis = conditions.map(|c| c.basis).fold(Basis::Published, Ord::max);
    let (low, high) = worn.half();
    let end = |v: u32| share(v).trim_start_matches("about ").to_string();
    let mut lines = vec![
        format!("In this condition: {}.", names.join("; ")),
        format!(
            "Together: to {} of the band (half of such: {} to {}), {}.",
            share(worn.per_mille()),
            end(low),
            end(high),
            basis.phrase()
        ),
    ];
    if worn.is_capped() {
        lines.push("All of it together would go further than any piece does: held at the bound.".to_string());
    }
    lines.extend(band(guide, facts, &worn, basis).filter(|_| money));
    lines
}

/// The finding's band in a condition, in money of the guide's own years: half of such pieces, and 8 in 10.
fn band(guide: &Guide, facts: &Facts, worn: &Worn, basis: Basis) -> Option<String> {
    let bands = Bands::of(guide, facts, None, &|_| true, &|_, worth| Some(plain(worth).in_condition(worn)))?;
    Some(format!(
        "Half of such pieces in this condition: {}. 8 in 10: {}. Money of {}, {}.",
        bands.between(0.25, 0.75),
        bands.between(0.10, 0.90),
        bands.money_of(),
        bands.basis.max(basis).phrase()
    ))
}
