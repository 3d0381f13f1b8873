//! `conditions.toml`: faults and merits with their factors.

use super::super::Context;
use super::head::small;
use crate::art::drawing;
use crate::cursor::Table;
use crate::fault::{Spot, quote};
use crate::text::Limit;
use pack::prices::Condition;

/// Reads the file.
pub(super) fn read(top: &Table<'_>, context: &Context<'_>) -> Vec<Condition> {
    let mut list: Vec<Condition> = Vec::new();
    // Which others a condition rules out, as written; they may stand further down.
    let mut written: Vec<(usize, String, Spot)> = Vec::new();
    for t in top.tables("condition") {
        let id = t.id("hairline");
        let rests = context.rests_of(&t);
        let factor = |name: &str| small(&t, name, (1, 20_000));
        let condition = Condition {
            id: id.clone().unwrap_or_default(),
            name: t.need_text("name", Limit::NAME, "name = \"Hairline\""),
            part: t.need_text("part", Limit::NAME, "part = \"sole\""),
            low: factor("low"),
            mid: factor("mid"),
            high: factor("high"),
            without: Vec::new(),
            says: t.need_text("says", Limit::SENTENCES, "says = \"What it is and why it counts.\""),
            // The art belongs to packs; that a pack's is enough for these words, a test of the project asks.
            draw: drawing(&t, None),
            care: t.text("care", Limit::NAME).unwrap_or_default(),
            basis: rests.basis,
            source: rests.source,
        };
        let others = t.get("not_with").map(|v| v.texts(Limit::NAME)).unwrap_or_default();
        t.done();
        if condition.low > condition.mid || condition.mid > condition.high {
            let hint = "A quarter of pieces lie below low, half below mid, three quarters below high.";
            context.faults.add(&t.spot_of("mid"), "The factors are not in order.", hint);
        }
        if id.is_none() {
            continue;
        }
        if list.iter().any(|c| c.id == condition.id) {
            let says = format!("The condition {} is described twice.", quote(&condition.id));
            context.faults.add(&t.spot_of("id"), says, "Remove one, or give it another id.");
        }
        written.extend(others.into_iter().map(|(other, spot)| (list.len(), other, spot)));
        list.push(condition);
    }
    top.done();
    for (one, other, spot) in written {
        rule_out(&mut list, one, &other, &spot, context);
    }
    list
}

/// Said once, it holds both ways.
fn rule_out(list: &mut [Condition], one: usize, other: &str, spot: &Spot, context: &Context<'_>) {
    let Some(at) = list.iter().position(|c| c.id == other) else {
        let hint = context.faults.meant(other, list.iter().map(|c| c.id.as_str()), "Conditions");
        let says = format!("There is no condition {}.", quote(other));
        context.faults.add_unknown(spot, says, hint);
        return;
    };
    if at == one {
        context.faults.add(spot, "A condition cannot rule itself out.", "Name others only.");
        return;
    }
    for (a, b) in [(one, at), (at, one)] {
        let b = u16::try_from(b).unwrap_or(0);
        if !list[a].without.contains(&b) {
            list[a].without.push(b);
            list[a].without.sort_unstable();
        }
    }
}
