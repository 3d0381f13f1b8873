//! Ways through a text: pieces that follow each other, with what it costs or gains that one stands beside another. The best
//! way, and of each piece the share of all ways, by their weight, that take it.

use super::glyph::Glyph;

/// A word that touches a number without a gap: one number in ten is typed so. Basis: memory.
pub(crate) const TOUCHES: f64 = -2.3;
/// Other lettering that touches a number. What has both letters and digits is rather one word, or one number, with a
/// character taken for another: `N0`, `DALM0`. Basis: memory.
const STRANGE: f64 = -4.0;
/// A lost character that touches a digit is a digit as a rule. Basis: memory.
const BESIDE_LOST: f64 = -1.4;
/// How much likelier a number stands behind a word that leads to one than behind other lettering. Basis: memory.
const LEADS: f64 = 8.0;

/// What a piece is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sort {
    /// Other lettering.
    Other,
    /// A wording; whether it leads to a number.
    Words { leads: bool },
    /// A row of digits.
    Row,
}

/// A piece that the way may be made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Item {
    pub(crate) from: usize,
    pub(crate) to: usize,
    /// The logarithm of how much likelier it is than other lettering.
    pub(crate) gain: f64,
    pub(crate) sort: Sort,
}

/// Sorts by which the start of the rest of a way is told apart.
const STARTS: usize = 3;

fn start(sort: Sort) -> usize {
    match sort {
        Sort::Other => 0,
        Sort::Words { .. } => 1,
        Sort::Row => 2,
    }
}

/// The gain of one piece that ends before a place, and one that starts there.
fn join(glyphs: &[Glyph], at: usize, one: Sort, next: usize) -> f64 {
    let (Some(a), Some(b)) = (at.checked_sub(1).and_then(|a| glyphs.get(a)), glyphs.get(at)) else {
        return 0.0;
    };
    let leads = one == (Sort::Words { leads: true }) && next == start(Sort::Row);
    let touch = match (b.apart(), a.digit() == b.digit()) {
        (true, _) | (_, true) => 0.0,
        _ if !a.letter() && !b.letter() => BESIDE_LOST,
        _ if one == Sort::Other || next == start(Sort::Other) => STRANGE,
        _ => TOUCHES,
    };
    touch + if leads { libm::log(LEADS) } else { 0.0 }
}

/// The best way on from each place, by what it starts with.
struct Ways<'a> {
    glyphs: &'a [Glyph],
    gain: Vec<[f64; STARTS]>,
    take: Vec<[Option<usize>; STARTS]>,
}

impl Ways<'_> {
    /// The gain from a place on behind a piece of this sort, and what it starts with.
    fn on(&self, at: usize, behind: Sort) -> (f64, usize) {
        let mut best = (f64::NEG_INFINITY, 0);
        for (next, gain) in self.gain[at].iter().enumerate() {
            let total = gain + join(self.glyphs, at, behind, next);
            if total > best.0 {
                best = (total, next);
            }
        }
        best
    }
}

/// The items of the best way, in order; what none of them covers is other lettering.
pub(crate) fn best(glyphs: &[Glyph], items: &[Item]) -> Vec<usize> {
    let n = glyphs.len();
    let mut by_start: Vec<Vec<usize>> = vec![Vec::new(); n + 1];
    for (i, item) in items.iter().enumerate() {
        by_start[item.from].push(i);
    }
    let mut ways =
        Ways { glyphs, gain: vec![[f64::NEG_INFINITY; STARTS]; n + 1], take: vec![[None; STARTS]; n + 1] };
    ways.gain[n] = [0.0; STARTS];
    for at in (0..n).rev() {
        ways.gain[at][start(Sort::Other)] = ways.on(at + 1, Sort::Other).0;
        for i in &by_start[at] {
            let item = &items[*i];
            let (total, kind) = (item.gain + ways.on(item.to, item.sort).0, start(item.sort));
            if total > ways.gain[at][kind] {
                (ways.gain[at][kind], ways.take[at][kind]) = (total, Some(*i));
            }
        }
    }
    let (mut way, mut at, mut behind) = (Vec::new(), 0, Sort::Other);
    while at < n {
        let (_, next) = ways.on(at, behind);
        match ways.take[at][next] {
            Some(i) => {
                way.push(i);
                (at, behind) = (items[i].to, items[i].sort);
            }
            None => (at, behind) = (at + 1, Sort::Other),
        }
    }
    way
}

/// Of each item the share of all ways that take it, by their weight: sums forwards and backwards (published: Rabiner,
/// Proceedings of the IEEE 77(2), 1989, section III).
pub(crate) fn shares(glyphs: &[Glyph], items: &[Item]) -> Vec<f64> {
    let n = glyphs.len();
    let sorts = [Sort::Other, Sort::Words { leads: false }, Sort::Row, Sort::Words { leads: true }];
    let place = |sort: Sort| sorts.iter().position(|s| *s == sort).unwrap_or(0);
    let (mut by_start, mut by_end) = (vec![Vec::new(); n + 1], vec![Vec::new(); n + 1]);
    for (i, item) in items.iter().enumerate() {
        by_start[item.from].push(i);
        by_end[item.to].push(i);
    }
    // The weight of all ways to the end from a place, by what stands before it; logarithms, since texts may be long.
    let mut on = vec![[0.0; 4]; n + 1];
    let mut starts = vec![[f64::NEG_INFINITY; STARTS]; n + 1];
    for at in (0..n).rev() {
        starts[at][start(Sort::Other)] = on[at + 1][place(Sort::Other)];
        for i in &by_start[at] {
            let item = &items[*i];
            let sum = &mut starts[at][start(item.sort)];
            *sum = plus(*sum, item.gain + on[item.to][place(item.sort)]);
        }
        for (into, sort) in on[at].iter_mut().zip(sorts) {
            let each = starts[at].iter().enumerate().map(|(next, w)| w + join(glyphs, at, sort, next));
            *into = each.fold(f64::NEG_INFINITY, plus);
        }
    }
    // The same up to a place, by what starts there.
    let mut up = vec![[0.0; STARTS]; n + 1];
    let mut ends = vec![[f64::NEG_INFINITY; 4]; n + 1];
    for at in 0..n {
        if at > 0 {
            ends[at][place(Sort::Other)] = up[at - 1][start(Sort::Other)];
            for i in &by_end[at] {
                let item = &items[*i];
                let sum = &mut ends[at][place(item.sort)];
                *sum = plus(*sum, up[item.from][start(item.sort)] + item.gain);
            }
            for (next, into) in up[at].iter_mut().enumerate() {
                let each = ends[at].iter().zip(sorts).map(|(w, sort)| w + join(glyphs, at, sort, next));
                *into = each.fold(f64::NEG_INFINITY, plus);
            }
        }
    }
    let all = on[0][place(Sort::Other)];
    let share = |i: &Item| libm::exp(up[i.from][start(i.sort)] + i.gain + on[i.to][place(i.sort)] - all);
    items.iter().map(|i| share(i).min(1.0)).collect()
}

/// The logarithm of a sum of two weights.
fn plus(a: f64, b: f64) -> f64 {
    let (most, least) = if a > b { (a, b) } else { (b, a) };
    // What is a thousand millionth of the other is not worth its logarithm.
    if least < most - 21.0 { most } else { most + libm::log1p(libm::exp(least - most)) }
}

#[cfg(test)]
mod tests {
    use super::super::glyph::glyphs;
    use super::*;

    const LEADS_ON: Sort = Sort::Words { leads: true };

    /// All ways of a few pieces, counted out one by one, with their gains.
    fn all(glyphs: &[Glyph], items: &[Item]) -> Vec<(Vec<usize>, f64)> {
        let mut list = Vec::new();
        for set in 0_u32..1 << items.len() {
            let mut way: Vec<usize> = (0..items.len()).filter(|i| set & (1 << i) != 0).collect();
            way.sort_by_key(|i| items[*i].from);
            if way.windows(2).any(|w| items[w[0]].to > items[w[1]].from) {
                continue;
            }
            let (mut pieces, mut at) = (Vec::new(), 0);
            for x in way.iter().map(|i| &items[*i]) {
                pieces.extend((at..x.from).map(|k| (k, 0.0, Sort::Other)));
                pieces.push((x.from, x.gain, x.sort));
                at = x.to;
            }
            pieces.extend((at..glyphs.len()).map(|k| (k, 0.0, Sort::Other)));
            let (mut sum, mut behind) = (0.0, Sort::Other);
            for (from, gain, sort) in pieces {
                sum += gain + join(glyphs, from, behind, start(sort));
                behind = sort;
            }
            list.push((way, sum));
        }
        list
    }

    fn pieces() -> (Vec<Glyph>, Vec<Item>) {
        let item = |from, to, gain, sort| Item { from, to, gain, sort };
        let items = vec![
            item(0, 2, 0.5, LEADS_ON),
            item(0, 1, 0.4, LEADS_ON),
            item(2, 4, 1.0, Sort::Row),
            item(3, 4, 0.9, Sort::Row),
            item(5, 6, 0.5, Sort::Row),
            item(4, 6, -2.8, Sort::Other),
            item(0, 4, 2.0, Sort::Words { leads: false }),
        ];
        (glyphs("NO 12 A3").0, items)
    }

    #[test]
    fn the_best_of_all_ways() {
        let (glyphs, items) = pieces();
        let all = all(&glyphs, &items);
        let most = all.iter().max_by(|a, b| a.1.total_cmp(&b.1));
        assert_eq!(most.map(|(way, _)| way.clone()), Some(best(&glyphs, &items)));
        assert_eq!(best(&glyphs, &items), [0, 2, 5]);
    }

    #[test]
    fn shares_of_all_ways() {
        let (glyphs, items) = pieces();
        let all = all(&glyphs, &items);
        let total: f64 = all.iter().map(|(_, sum)| libm::exp(*sum)).sum();
        for (i, share) in shares(&glyphs, &items).iter().enumerate() {
            let with = all.iter().filter(|(way, _)| way.contains(&i));
            let counted = with.map(|(_, sum)| libm::exp(*sum)).sum::<f64>() / total;
            assert!((share - counted).abs() < 1e-9, "{i}: {share} {counted}");
        }
    }
}
