//! The cheapest key there can be, by branch and bound over sets of items.
//!
//! Items are equally common and every answer is right. The bound: a question of k states tells at most log2 k bits
//! and is asked at most once of each item, so no key is cheaper than filling the entropy of the set with the
//! questions that are cheapest by the bit.

use std::collections::BTreeMap;

/// Items by question, as the state each shows, and what each question costs. At most 64 items.
#[derive(Debug, Clone)]
pub struct Table {
    /// State of each item, by question.
    pub states: Vec<Vec<usize>>,
    /// Cost of each question, above zero.
    pub costs: Vec<f64>,
}

impl Table {
    /// Number of items.
    #[must_use]
    pub fn items(&self) -> usize {
        self.states.first().map_or(0, Vec::len)
    }

    /// The parts into which a question cuts a set of items, if it cuts it.
    fn cut(&self, question: usize, set: u64) -> Vec<u64> {
        let mut parts: Vec<u64> = Vec::new();
        let (mut left, states) = (set, &self.states[question]);
        while left != 0 {
            let i = left.trailing_zeros() as usize;
            left &= left - 1;
            let state = states[i];
            if parts.len() <= state {
                parts.resize(state + 1, 0);
            }
            parts[state] |= 1 << i;
        }
        parts.retain(|p| *p != 0);
        parts
    }
}

/// Mean cost of the cheapest key that tells every item apart.
#[must_use]
pub fn cost(table: &Table) -> f64 {
    let n = table.items();
    let all = if n >= 64 { u64::MAX } else { (1 << n) - 1 };
    let mut known = BTreeMap::new();
    best(table, all, f64::INFINITY, &mut known) / n as f64
}

/// What is known of a set: a lower bound, and whether it is the value itself.
type Known = BTreeMap<u64, (f64, bool)>;

/// Summed cost over the items of a set; anything at or above `limit` may come back as that bound or more.
fn best(table: &Table, set: u64, limit: f64, known: &mut Known) -> f64 {
    if set.count_ones() <= 1 {
        return 0.0;
    }
    if let Some((value, exact)) = known.get(&set)
        && (*exact || *value >= limit)
    {
        return *value;
    }
    let size = f64::from(set.count_ones());
    let mut moves: Vec<(f64, Vec<(u64, f64)>)> = (0..table.costs.len())
        .filter_map(|q| {
            let parts: Vec<(u64, f64)> =
                (table.cut(q, set).into_iter()).map(|part| (part, lower(table, part, known))).collect();
            let below: f64 = parts.iter().map(|p| p.1).sum();
            (parts.len() > 1).then_some((size * table.costs[q] + below, parts))
        })
        .collect();
    moves.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut found = f64::INFINITY;
    for (bound, parts) in &moves {
        let room = limit.min(found);
        if *bound >= room - 1e-9 {
            break;
        }
        let mut sum = *bound;
        for (part, assumed) in parts {
            // What the other parts are bound to cost is in the sum: the rest of the room is this part's.
            let value = best(table, *part, room - (sum - assumed), known);
            sum += value - assumed;
            if sum >= room - 1e-9 {
                break;
            }
        }
        found = found.min(sum);
    }
    let exact = found < limit - 1e-9;
    let value = if exact { found } else { limit.max(lower(table, set, known)) };
    known.insert(set, (value, exact));
    value
}

/// A lower bound on the summed cost of a set.
fn lower(table: &Table, set: u64, known: &Known) -> f64 {
    let size = f64::from(set.count_ones());
    if size <= 1.0 {
        return 0.0;
    }
    if let Some((value, _)) = known.get(&set) {
        return *value;
    }
    let mut rates: Vec<(f64, f64)> = (0..table.costs.len())
        .filter_map(|q| {
            let states = table.cut(q, set).len();
            (states > 1).then(|| (libm::log2(states as f64), table.costs[q]))
        })
        .collect();
    rates.sort_by(|a, b| (a.1 / a.0).total_cmp(&(b.1 / b.0)));
    let mut bits = libm::log2(size);
    let mut cost = 0.0;
    for (tells, costs) in rates {
        let share = (bits / tells).min(1.0);
        cost += share * costs;
        bits -= share * tells;
        if bits <= 1e-12 {
            break;
        }
    }
    cost * size
}
