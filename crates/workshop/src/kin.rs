//! Which kinds are like which: what the writers name, else the nearest by their tables.

use consult::Guide;
use pack::Standing;

/// Mean tables of every kind, by question: what a piece of the kind shows, whatever its make and form.
#[must_use]
pub(crate) fn mean_tables(guide: &Guide) -> Vec<Vec<Vec<f64>>> {
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
pub(crate) fn cousins(guide: &Guide) -> Vec<Vec<usize>> {
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
