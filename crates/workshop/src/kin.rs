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

/// Whether the pack says of one of two kinds that it cannot be told from the other without more evidence.
#[must_use]
pub(crate) fn twins(guide: &Guide, a: usize, b: usize) -> bool {
    let says = |a: usize, b: usize| guide.core.kinds[a].either.iter().any(|k| usize::from(*k) == b);
    says(a, b) || says(b, a)
}

/// What is reported of a kind with these tables, when so many sure answers misread as the pack says.
#[must_use]
pub(crate) fn distributions(guide: &Guide, tables: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let told = |(q, table): (&pack::Question, &Vec<f64>)| {
        let misread = f64::from(q.misread_sure) / 1000.0;
        let others = (table.len() as f64 - 1.0).max(1.0);
        table.iter().map(|p| p * (1.0 - misread) + (1.0 - p) * misread / others).collect()
    };
    guide.core.questions.iter().zip(tables).map(told).collect()
}

/// Steps of the grid on which lengths are laid out.
const STEPS: usize = 300;

/// For every kind and every question about a length its lengths by step of one grid, as read from a ruler; nothing for
/// other questions.
#[must_use]
pub(crate) fn lengths(guide: &Guide) -> Vec<Vec<Vec<f64>>> {
    let core = &guide.core;
    let mut all = vec![vec![Vec::new(); core.questions.len()]; core.kinds.len()];
    for (at, q) in core.questions.iter().enumerate().filter(|(_, q)| q.form == pack::Form::Length) {
        let spread = |c: &pack::Candidate| match q.rows[usize::from(c.rows[at])].says {
            pack::Says::Spread { mean, sd } => (f64::from(mean) / 10.0, f64::from(sd) / 10.0),
            pack::Says::Shares(_) => (0.0, 1.0),
        };
        let known = |c: &&pack::Candidate| core.kinds[usize::from(c.kind)].standing != Standing::Unknown;
        let longest =
            core.candidates.iter().filter(known).map(spread).map(|(m, s)| m + 3.0 * s).fold(1.0, f64::max);
        let misread = f64::from(q.misread_sure) / 1000.0 / STEPS as f64;
        for (kind, all) in all.iter_mut().enumerate() {
            let mut by_step = vec![0.0; STEPS];
            for c in core.candidates.iter().filter(|c| usize::from(c.kind) == kind) {
                let (mean, sd) = spread(c);
                for (i, step) in by_step.iter_mut().enumerate() {
                    let z = ((i as f64 + 0.5) * longest / STEPS as f64 - mean) / sd;
                    *step += f64::from(c.prior[0]) / sd * libm::exp(-0.5 * z * z);
                }
            }
            let sum: f64 = by_step.iter().sum();
            by_step
                .iter_mut()
                .for_each(|s| *s = *s / sum.max(1e-300) * (1.0 - misread * STEPS as f64) + misread);
            all[at] = by_step;
        }
    }
    all
}
