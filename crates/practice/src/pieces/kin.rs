//! Which kinds are like which: what the writers name, else the nearest by their tables.

use consult::Guide;
use pack::Standing;
use units::descending;

/// Mean tables of every kind, by question: what a piece of the kind shows, whatever its make and form.
#[must_use]
pub fn mean_tables(guide: &Guide) -> Vec<Vec<Vec<f64>>> {
    let (core, model) = (&guide.core, &guide.model);
    let mut tables: Vec<Vec<Vec<f64>>> =
        vec![core.questions.iter().map(|q| vec![0.0; q.choices.len()]).collect(); core.kinds.len()];
    let mut weights = vec![0.0; core.kinds.len()];
    for (c, candidate) in core.candidates.iter().enumerate() {
        let (kind, weight) = (usize::from(candidate.kind), f64::from(candidate.prior[0]));
        weights[kind] += weight;
        for (q, table) in tables[kind].iter_mut().enumerate() {
            table.iter_mut().zip(model.truth(q, c)).for_each(|(t, p)| *t += weight * p);
        }
    }
    for (tables, weight) in tables.iter_mut().zip(weights) {
        tables.iter_mut().flatten().for_each(|t| *t /= if weight > 0.0 { weight } else { 1.0 });
    }
    tables
}

/// For every kind the kinds that its pieces are taken for: those that its writer names, else the one whose mean tables
/// are nearest. Never the kind for everything unknown.
#[must_use]
pub fn cousins(guide: &Guide) -> Vec<Vec<usize>> {
    let known = |k: usize| guide.core.kinds[k].standing != Standing::Unknown;
    let tables = mean_tables(guide);
    let named = |kind: usize| -> Vec<usize> {
        let texts = guide.book.as_ref().and_then(|b| b.kinds.get(kind));
        let list = texts.into_iter().flat_map(|t| &t.confusions).map(|c| usize::from(c.kind));
        list.filter(|k| known(*k)).collect()
    };
    let nearest = |kind: usize| {
        let others = (0..tables.len()).filter(|k| *k != kind && known(*k));
        others.map(|k| (distance(&tables[kind], &tables[k]), k)).min_by(|a, b| a.0.total_cmp(&b.0))
    };
    (0..tables.len())
        .map(|kind| match named(kind) {
            list if list.is_empty() => nearest(kind).into_iter().map(|(_, k)| k).collect(),
            list => list,
        })
        .collect()
}

/// Sum over the questions of half the summed differences.
fn distance(a: &[Vec<f64>], b: &[Vec<f64>]) -> f64 {
    let apart = |(a, b): (&Vec<f64>, &Vec<f64>)| -> f64 {
        a.iter().zip(b).map(|(x, y)| (x - y).abs()).sum::<f64>() / 2.0
    };
    a.iter().zip(b).map(apart).sum()
}

/// Whether the pack says of one of two kinds that it cannot be told from the other without more evidence.
#[must_use]
pub fn twins(guide: &Guide, a: usize, b: usize) -> bool {
    let says = |a: usize, b: usize| guide.core.kinds[a].either.iter().any(|k| usize::from(*k) == b);
    says(a, b) || says(b, a)
}

/// Bits that one look tells on average about which of two kinds it is, at even chances, by their mean tables: 0 where
/// both show the same, 1 where they never do. The divergence of Jensen and Shannon.
#[must_use]
pub fn apart(one: &[f64], other: &[f64]) -> f64 {
    let bits = |(a, b): (&f64, &f64)| {
        let middle = (a + b) / 2.0;
        let part = |x: f64| if x > 0.0 { x * libm::log2(x / middle) / 2.0 } else { 0.0 };
        part(*a) + part(*b)
    };
    one.iter().zip(other).map(bits).sum::<f64>().clamp(0.0, 1.0)
}

/// For every kind the kinds that it could be taken for: those that its writer names, then the nearest by their tables,
/// `most` at most; never a kind that the pack says cannot be told from it, never the one for everything unknown.
#[must_use]
pub fn lookalikes(guide: &Guide, most: usize) -> Vec<Vec<usize>> {
    let tables = mean_tables(guide);
    let named = cousins(guide);
    let fits = |a: usize, b: usize| {
        a != b && guide.core.kinds[b].standing != Standing::Unknown && !twins(guide, a, b)
    };
    let of = |kind: usize| {
        let mut list: Vec<usize> = named[kind].iter().copied().filter(|k| fits(kind, *k)).collect();
        let far: Vec<f64> = tables.iter().map(|t| -distance(&tables[kind], t)).collect();
        for other in descending(&far) {
            if fits(kind, other) && !list.contains(&other) {
                list.push(other);
            }
        }
        list.truncate(most);
        list
    };
    (0..tables.len()).map(of).collect()
}
