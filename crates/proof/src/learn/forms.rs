//! Forms of a kind: one average table, a mixture found by expectation and maximisation, or one form a distinct pattern.

use crate::data::{Set, Value};

/// What is added to each count of a kind's table (Jeffreys).
pub const ADDED: f64 = 0.5;
/// Weight of the kind's own average in the table of each of its forms, in pieces.
const PULL: f64 = 1.0;
/// Rounds of expectation and maximisation.
const ROUNDS: usize = 30;
/// A kind has at most one form for so many pieces of it.
const PIECES: usize = 4;
/// A form's spread is at least this share of that of all pieces.
const FLOOR: f64 = 0.25;

/// How forms are learned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Way {
    /// One form a kind: its average.
    One,
    /// A mixture of at most so many forms a kind.
    Mixture(usize),
    /// A form for each distinct pattern, softened by this share of the kind's average.
    Patterns(f64),
}

/// A form of a kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Form {
    /// Its kind.
    pub kind: usize,
    /// How many pieces stand behind it.
    pub weight: f64,
    /// What it shows at each question.
    pub seen: Vec<Seen>,
}

/// What a form shows at one question.
#[derive(Debug, Clone, PartialEq)]
pub enum Seen {
    /// P(state).
    Shares(Vec<f64>),
    /// A normal measure.
    Spread {
        /// Mean.
        mean: f64,
        /// Standard deviation.
        sd: f64,
    },
}

/// The forms of every kind that has a piece among those learned from.
#[must_use]
pub fn learn(set: &Set, train: &[usize], way: Way) -> Vec<Form> {
    let floors: Vec<f64> = (0..set.columns.len()).map(|q| FLOOR * spread(set, train, q)).collect();
    (0..set.kinds.len())
        .flat_map(|kind| {
            let own: Vec<usize> = train.iter().copied().filter(|i| set.pieces[*i].kind == kind).collect();
            of_kind(set, &own, kind, way, &floors)
        })
        .collect()
}

fn of_kind(set: &Set, own: &[usize], kind: usize, way: Way, floors: &[f64]) -> Vec<Form> {
    if own.is_empty() {
        return Vec::new();
    }
    let even = vec![1.0; own.len()];
    let average: Vec<Seen> = (0..set.columns.len()).map(|q| table(set, own, &even, q, None, floors[q])).collect();
    let whole = |seen| vec![Form { kind, weight: own.len() as f64, seen }];
    match way {
        Way::One => whole(average),
        Way::Patterns(soft) => patterns(set, own, kind, soft, &average),
        Way::Mixture(most) => {
            let forms = most.min(own.len() / PIECES);
            if forms < 2 { whole(average) } else { mixture(set, own, kind, forms, &average, floors) }
        }
    }
}

fn patterns(set: &Set, own: &[usize], kind: usize, soft: f64, average: &[Seen]) -> Vec<Form> {
    let mut distinct: Vec<(usize, f64)> = Vec::new();
    for i in own {
        match distinct.iter_mut().find(|(j, _)| set.pieces[*j].values == set.pieces[*i].values) {
            Some((_, weight)) => *weight += 1.0,
            None => distinct.push((*i, 1.0)),
        }
    }
    let seen = |value: &Value, average: &Seen| match (value, average) {
        (Value::State(s), Seen::Shares(shares)) => {
            let mut shares: Vec<f64> = shares.iter().map(|a| a * soft).collect();
            shares[*s] += 1.0 - soft;
            Seen::Shares(shares)
        }
        (Value::Number(x), Seen::Spread { mean, sd }) => {
            Seen::Spread { mean: x + soft * (mean - x), sd: sd * soft.sqrt() }
        }
        _ => average.clone(),
    };
    distinct
        .into_iter()
        .map(|(i, weight)| Form {
            kind,
            weight,
            seen: set.pieces[i].values.iter().zip(average).map(|(v, a)| seen(v, a)).collect(),
        })
        .collect()
}

fn mixture(set: &Set, own: &[usize], kind: usize, forms: usize, average: &[Seen], floors: &[f64]) -> Vec<Form> {
    let seeds = far_apart(set, own, forms, floors);
    // shares[m][i] of piece i in form m.
    let mut shares = vec![vec![0.0; own.len()]; forms];
    for (i, piece) in own.iter().enumerate() {
        let near = (0..forms).fold((0, f64::INFINITY), |best, m| {
            let d = apart(set, seeds[m], *piece, floors);
            if d < best.1 { (m, d) } else { best }
        });
        shares[near.0][i] = 1.0;
    }
    let mut found = Vec::new();
    for _ in 0..ROUNDS {
        found = shares
            .iter()
            .map(|share| {
                let seen = (0..set.columns.len())
                    .map(|q| table(set, own, share, q, Some(&average[q]), floors[q]))
                    .collect();
                Form { kind, weight: share.iter().sum(), seen }
            })
            .collect::<Vec<Form>>();
        let logs: Vec<Vec<f64>> = found.iter().map(|f| log_likelihoods(set, own, f)).collect();
        for i in 0..own.len() {
            let top = logs.iter().map(|l| l[i]).fold(f64::NEG_INFINITY, f64::max);
            let sum: f64 = logs.iter().map(|l| libm::exp(l[i] - top)).sum();
            for (share, l) in shares.iter_mut().zip(&logs) {
                share[i] = libm::exp(l[i] - top) / sum;
            }
        }
    }
    found.retain(|f| f.weight >= 0.5);
    found
}

/// ln (weight x P(piece | form)) of each piece.
fn log_likelihoods(set: &Set, own: &[usize], form: &Form) -> Vec<f64> {
    let logs: Vec<Vec<f64>> = form
        .seen
        .iter()
        .map(|s| match s {
            Seen::Shares(s) => s.iter().map(|p| libm::log(*p)).collect(),
            Seen::Spread { sd, .. } => vec![libm::log(*sd)],
        })
        .collect();
    let one = |piece: &usize| -> f64 {
        let values = set.pieces[*piece].values.iter().zip(form.seen.iter().zip(&logs));
        let told = values.map(|(value, (seen, logs))| match (value, seen) {
            (Value::State(s), _) => logs[*s],
            (Value::Number(x), Seen::Spread { mean, sd }) => -0.5 * ((x - mean) / sd) * ((x - mean) / sd) - logs[0],
            _ => 0.0,
        });
        libm::log(form.weight.max(1e-300)) + told.sum::<f64>()
    };
    own.iter().map(one).collect()
}

/// The table of pieces with weights, pulled towards an average, if one is given.
fn table(set: &Set, own: &[usize], weights: &[f64], q: usize, average: Option<&Seen>, floor: f64) -> Seen {
    let states = set.columns[q].states.len();
    if states > 0 {
        let mut counts = match average {
            Some(Seen::Shares(a)) => a.iter().map(|a| a * PULL).collect(),
            _ => vec![ADDED; states],
        };
        for (i, w) in own.iter().zip(weights) {
            if let Value::State(s) = set.pieces[*i].values[q] {
                counts[s] += w;
            }
        }
        let sum: f64 = counts.iter().sum();
        return Seen::Shares(counts.into_iter().map(|c| c / sum).collect());
    }
    let (mut n, mut sum, mut squares) = match average {
        Some(Seen::Spread { mean, sd }) => (PULL, PULL * mean, PULL * (sd * sd + mean * mean)),
        _ => (0.0, 0.0, 0.0),
    };
    for (i, w) in own.iter().zip(weights) {
        if let Value::Number(x) = set.pieces[*i].values[q] {
            n += w;
            sum += w * x;
            squares += w * x * x;
        }
    }
    if n <= 0.0 {
        return Seen::Spread { mean: 0.0, sd: floor.max(1e-9) };
    }
    let mean = sum / n;
    Seen::Spread { mean, sd: (squares / n - mean * mean).max(0.0).sqrt().max(floor) }
}

/// Standard deviation of a measure among all pieces.
fn spread(set: &Set, train: &[usize], q: usize) -> f64 {
    match table(set, train, &vec![1.0; train.len()], q, None, 0.0) {
        Seen::Spread { sd, .. } => sd,
        Seen::Shares(_) => 0.0,
    }
}

/// Pieces that stand for the first forms: the one with most like it, then each time the one farthest from those taken.
fn far_apart(set: &Set, own: &[usize], forms: usize, floors: &[f64]) -> Vec<usize> {
    // At most so many are looked at: the rest of a large kind is like them.
    let some: Vec<usize> = own.iter().copied().step_by(own.len().div_ceil(400)).collect();
    let near = |i: &usize| -> f64 { some.iter().map(|j| apart(set, *i, *j, floors)).sum() };
    let middle = some.iter().fold((own[0], f64::INFINITY), |best, i| {
        let d = near(i);
        if d < best.1 { (*i, d) } else { best }
    });
    let mut seeds = vec![middle.0];
    while seeds.len() < forms {
        let far = some.iter().fold((own[0], -1.0), |best, i| {
            let d = seeds.iter().map(|s| apart(set, *s, *i, floors)).fold(f64::INFINITY, f64::min);
            if d > best.1 { (*i, d) } else { best }
        });
        seeds.push(far.0);
    }
    seeds
}

/// Questions at which two pieces differ; a measure by how many spreads of all pieces, at most one.
fn apart(set: &Set, one: usize, other: usize, floors: &[f64]) -> f64 {
    let both = set.pieces[one].values.iter().zip(&set.pieces[other].values).zip(floors);
    both.map(|((a, b), floor)| match (a, b) {
        (Value::Number(a), Value::Number(b)) => ((a - b).abs() * FLOOR / floor.max(1e-9)).min(1.0),
        (Value::State(a), Value::State(b)) if a == b => 0.0,
        (Value::State(_), Value::State(_)) => 1.0,
        _ => 0.0,
    })
    .sum()
}
