//! What is reported of kinds: their mean tables after misreading, their lengths on one grid.

use consult::Guide;
use pack::Standing;

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
