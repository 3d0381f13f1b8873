//! From a pack's core to a model.

use crate::model::{Model, Parts, Quantity, QuestionParts, RowParts};
use pack::{Core, Form, Says, Standing};

impl Model {
    /// The model of a pack.
    ///
    /// # Errors
    /// A sentence when the tables do not fit together (never for a core that the pack reader accepted).
    pub fn from_core(core: &Core) -> Result<Model, String> {
        let share = |permille: u16| f64::from(permille) / 1000.0;
        let questions = core.questions.iter().enumerate().map(|(i, q)| QuestionParts {
            choices: q.choices.len(),
            quantity: match q.form {
                Form::Choice => Quantity::None,
                Form::Length => Quantity::Length(bounds(q, |tenths| f64::from(tenths) / 10.0)),
                Form::Heft => {
                    Quantity::Heft(bounds(q, |thousandths| libm::log(f64::from(thousandths) / 1000.0)))
                }
            },
            rows: rows(q),
            row_of: core.candidates.iter().map(|c| usize::from(c.rows[i])).collect(),
            misread: (share(q.misread_sure), share(q.misread_unsure)),
            confused: q
                .choices
                .iter()
                .map(|c| c.confused.iter().map(|o| usize::from(*o)).collect())
                .collect(),
            group: q.group.map(usize::from),
            gate: q
                .gate
                .as_ref()
                .map(|g| (usize::from(g.question), g.choices.iter().map(|c| usize::from(*c)).collect())),
            seconds: f64::from(q.seconds),
            tellable: share(q.tellable),
            tool: q.tool.map(usize::from),
            by_picture: q.by_picture,
        });
        Model::new(Parts {
            kinds: core.kinds.len(),
            makes: core.makes.len(),
            kind_of: core.candidates.iter().map(|c| usize::from(c.kind)).collect(),
            make_of: core.candidates.iter().map(|c| usize::from(c.make)).collect(),
            roles: core
                .candidates
                .iter()
                .map(|c| core.role_rows[usize::from(c.roles)].shares.iter().map(|s| share(*s)).collect())
                .collect(),
            priors: (0..core.places.len())
                .map(|place| core.candidates.iter().map(|c| f64::from(c.prior[place])).collect())
                .collect(),
            overlaps: core.groups.iter().map(|g| share(*g)).collect(),
            mixed: share(core.mixed),
            questions: questions.collect(),
            unknown: core.kinds.iter().position(|k| k.standing == Standing::Unknown),
            fit_limits: core.fit_limits.iter().map(|l| f64::from(*l) / 1000.0).collect(),
        })
    }
}

fn bounds(q: &pack::Question, unit: impl Fn(u32) -> f64) -> Vec<f64> {
    q.choices.iter().filter_map(|c| c.upper).map(unit).collect()
}

/// The distributions of a question. One that waits for the book shows every candidate alike, so it tells nothing.
fn rows(q: &pack::Question) -> Vec<RowParts> {
    let alike = || match q.form {
        Form::Choice => RowParts::Shares(vec![1.0 / q.choices.len() as f64; q.choices.len()]),
        Form::Length | Form::Heft => RowParts::Spread { mean: 0.0, sd: 1.0 },
    };
    if q.is_whole() { q.rows.iter().map(|r| row(&r.says, q.form)).collect() } else { vec![alike()] }
}

fn row(says: &Says, form: Form) -> RowParts {
    match says {
        Says::Shares(s) => RowParts::Shares(s.iter().map(|x| f64::from(*x) / 1000.0).collect()),
        Says::Spread { mean, sd } => {
            let unit = if form == Form::Length { 10.0 } else { 1000.0 };
            RowParts::Spread { mean: f64::from(*mean) / unit, sd: f64::from(*sd) / unit }
        }
    }
}
