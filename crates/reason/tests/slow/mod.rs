//! A second engine that shares no function with the first: every sum written out, every integral added in small steps.
//! Slow, and meant to be read beside the definitions, not beside the code it checks.
#![allow(
    clippy::disallowed_methods,
    reason = "the platform's own ln, exp and pow, so that the two engines share nothing"
)]

use crate::small::misreading;
use reason::{Answer, Parts, Quantity, QuestionParts, RowParts, Told};

/// A gate is open for a candidate that shows an opening choice at least this often. Basis: memory, as in the engine.
const OPEN: f64 = 0.10;

fn bell(x: f64, mean: f64, sd: f64) -> f64 {
    (-0.5 * ((x - mean) / sd).powi(2)).exp() / (sd * (2.0 * std::f64::consts::PI).sqrt())
}

/// Boole's rule (Simpson's with one more order: error by the sixth power of the step), steps of at most `step`.
pub(crate) fn integral(from: f64, to: f64, step: f64, f: impl Fn(f64) -> f64) -> f64 {
    if to <= from {
        return 0.0;
    }
    let panels = ((to - from) / step / 4.0).ceil().max(1.0) as usize;
    let h = (to - from) / (4 * panels) as f64;
    let weights = [14.0, 32.0, 12.0, 32.0];
    let inner: f64 = (1..4 * panels).map(|i| f(from + h * i as f64) * weights[i % 4]).sum();
    (7.0 * f(from) + inner + 7.0 * f(to)) * 2.0 * h / 45.0
}

/// The mean of f over a normal error around `at`; no error, no mean.
pub(crate) fn blurred(at: f64, sd: f64, finest: f64, f: impl Fn(f64) -> f64) -> f64 {
    if sd == 0.0 {
        return f(at);
    }
    let step = 0.1 * sd.min(finest);
    integral(at - 10.0 * sd, at + 10.0 * sd, step, |x| bell(x, at, sd) * f(x))
}

/// P(truly c | candidate) from its own row, whatever a gate says. A spread falls into classes by adding up its density.
fn own_table(q: &QuestionParts, candidate: usize) -> Vec<f64> {
    match (&q.rows[q.row_of[candidate]], &q.quantity) {
        (RowParts::Shares(shares), _) => shares.clone(),
        (RowParts::Spread { mean, sd }, Quantity::Length(bounds) | Quantity::Heft(bounds)) => {
            let mut edges = vec![mean - 12.0 * sd];
            edges.extend(bounds.iter().map(|b| b.clamp(mean - 12.0 * sd, mean + 12.0 * sd)));
            edges.push(mean + 12.0 * sd);
            edges.windows(2).map(|e| integral(e[0], e[1], 0.01 * sd, |x| bell(x, *mean, *sd))).collect()
        }
        (RowParts::Spread { .. }, Quantity::None) => unreachable!("choices have shares"),
    }
}

/// The candidates that stand in for one in a question: itself where the question applies, all to which it applies, by
/// their prior, where it does not.
fn stand_ins(parts: &Parts, at: usize, candidate: usize) -> Vec<(usize, f64)> {
    let all = 0..parts.kind_of.len();
    if applies(parts, at, candidate) {
        return vec![(candidate, 1.0)];
    }
    let open: Vec<usize> = all.filter(|c| applies(parts, at, *c)).collect();
    let sum: f64 = open.iter().map(|c| parts.priors[0][*c]).sum();
    open.into_iter().filter(|c| parts.priors[0][*c] > 0.0).map(|c| (c, parts.priors[0][c] / sum)).collect()
}

/// Whether a question speaks of a candidate: its gate is open often enough, and the gate's question speaks of it too.
pub(crate) fn applies(parts: &Parts, at: usize, candidate: usize) -> bool {
    parts.questions[at].gate.as_ref().is_none_or(|(asked, open)| {
        let table = own_table(&parts.questions[*asked], candidate);
        applies(parts, *asked, candidate) && open.iter().map(|o| table[*o]).sum::<f64>() >= OPEN
    })
}

/// What each answer says and how it was said: the set of reports, or a number.
fn misread(q: &QuestionParts, answer: &Answer) -> f64 {
    if answer.sure { q.misread.0 } else { q.misread.1 }
}

/// Likelihood of one answer for one candidate.
fn likelihood(parts: &Parts, answer: &Answer, all: &[Answer], candidate: usize) -> f64 {
    let q = &parts.questions[answer.question];
    let instead = stand_ins(parts, answer.question, candidate);
    if instead.is_empty() {
        return nobody(q, answer);
    }
    let one = |c: usize| match &answer.told {
        Told::Cannot => 1.0,
        Told::OneOf(_) => joint(parts, &[answer], c),
        Told::Measured { value, uncertainty } => number(parts, answer, (*value, *uncertainty), all, c),
    };
    instead.into_iter().map(|(c, share)| share * one(c)).sum()
}

/// The question applies to nobody: any choice is as likely as any other, any number too.
fn nobody(q: &QuestionParts, answer: &Answer) -> f64 {
    match &answer.told {
        Told::Cannot => 1.0,
        Told::Measured { .. } => 1.0 / range(q),
        Told::OneOf(set) => {
            let reads = misreading(q, misread(q, answer));
            let told = |t: usize| set.iter().map(|r| reads[t][*r]).sum::<f64>();
            (0..q.choices).map(told).sum::<f64>() / q.choices as f64
        }
    }
}

/// From three deviations below the lowest row to three above the highest.
fn range(q: &QuestionParts) -> f64 {
    let ends = |sign: f64| {
        q.rows.iter().map(move |r| match r {
            RowParts::Spread { mean, sd } => mean + sign * 3.0 * sd,
            RowParts::Shares(_) => unreachable!("a measured question has spreads"),
        })
    };
    ends(1.0).fold(f64::MIN, f64::max) - ends(-1.0).fold(f64::MAX, f64::min)
}

/// Density of a number: over all true values, and under a gross error anywhere in the range.
fn number(parts: &Parts, answer: &Answer, (value, u): (f64, f64), all: &[Answer], c: usize) -> f64 {
    let q = &parts.questions[answer.question];
    let e = misread(q, answer);
    let RowParts::Spread { mean, sd } = q.rows[q.row_of[c]] else {
        unreachable!("a measured question has spreads")
    };
    let density = match q.quantity {
        // Over all true sizes. Its range covers both bells, its step the narrower.
        Quantity::Length(_) if u > 0.0 => integral(
            (mean - 10.0 * sd).min(value - 10.0 * u),
            (mean + 10.0 * sd).max(value + 10.0 * u),
            0.1 * sd.min(u),
            |truly| bell(truly, mean, sd) * bell(value, truly, u),
        ),
        Quantity::Length(_) => bell(value, mean, sd),
        // Over all true masses and lengths, both with relative errors: normal in the logarithm.
        _ => {
            let (mm, relative) = length_for_heft(parts, all, c);
            blurred(mm.ln(), relative, sd / 3.0, |ln_mm| {
                blurred(value.ln(), u / value, sd, |ln_g| bell(ln_g - 3.0 * (ln_mm - 10_f64.ln()), mean, sd))
            })
        }
    };
    (1.0 - e) * density + e / range(q)
}

/// The length by which a mass is judged, and its relative uncertainty: measured; else the candidate's own; else 10 mm,
/// give or take a factor e.
fn length_for_heft(parts: &Parts, all: &[Answer], c: usize) -> (f64, f64) {
    let is_length = |q: &QuestionParts| matches!(q.quantity, Quantity::Length(_));
    let Some(asked) = parts.questions.iter().position(is_length) else {
        return (10.0, 1.0);
    };
    let typed = all.iter().find_map(|a| match a.told {
        Told::Measured { value, uncertainty } if a.question == asked => Some((value, uncertainty / value)),
        _ => None,
    });
    let q = &parts.questions[asked];
    match q.rows[q.row_of[c]] {
        _ if typed.is_some() => typed.expect("just seen"),
        RowParts::Spread { mean, sd } if applies(parts, asked, c) => (mean, sd / mean),
        _ => (10.0, 1.0),
    }
}

/// P(all these reports | candidate), over every combination of truths and of reports within the sets told.
fn joint(parts: &Parts, answers: &[&Answer], c: usize) -> f64 {
    let Some((answer, rest)) = answers.split_first() else {
        return 1.0;
    };
    let q = &parts.questions[answer.question];
    let Told::OneOf(set) = &answer.told else { unreachable!("only choices are joined") };
    let (table, reads) = (own_table(q, c), misreading(q, misread(q, answer)));
    let mut sum = 0.0;
    for (t, truly) in table.iter().enumerate() {
        for r in set {
            sum += truly * reads[t][*r] * joint(parts, rest, c);
        }
    }
    sum
}

fn normalised(weights: &[f64]) -> Vec<f64> {
    let sum: f64 = weights.iter().sum();
    let even = 1.0 / weights.len() as f64;
    weights.iter().map(|w| if sum > 0.0 { w / sum } else { even }).collect()
}

/// What one answer alone tells, in nats.
fn information(prior: &[f64], l: &[f64]) -> f64 {
    let weights: Vec<f64> = prior.iter().zip(l).map(|(p, l)| p * l).collect();
    if weights.iter().sum::<f64>() == 0.0 {
        return 0.0;
    }
    let alone = normalised(&weights);
    let terms = alone.iter().zip(prior).filter(|(a, _)| **a > 0.0);
    terms.map(|(a, p)| a * (a / p).ln()).sum()
}

/// The posteriors that the definitions allow: one, or several where clues of a group tell equally much to the last
/// bits, so that rounding decides which goes first.
pub(crate) fn posteriors(parts: &Parts, place: usize, answers: &[Answer]) -> Vec<Vec<f64>> {
    let prior = normalised(&parts.priors[place]);
    let n = prior.len();
    let speaking: Vec<&Answer> = answers
        .iter()
        .filter(|a| match &a.told {
            Told::Cannot => false,
            Told::OneOf(set) => !set.is_empty(),
            Told::Measured { .. } => parts.questions[a.question].quantity != Quantity::None,
        })
        .collect();
    let plain = |a: &Answer, c: usize| {
        matches!(a.told, Told::OneOf(_))
            && parts.questions[a.question].group.is_none()
            && parts.mixed == 0.0
            && applies(parts, a.question, c)
    };
    // Ungrouped choices that apply: the whole joint at once. The rest one by one, and so all of them where each is
    // doubted by itself.
    let mut base: Vec<f64> = Vec::new();
    let prior_of_all = prior.clone();
    for (c, prior) in prior.iter().enumerate() {
        let together: Vec<&Answer> = speaking.iter().copied().filter(|a| plain(a, c)).collect();
        let mut p = prior * joint(parts, &together, c);
        for a in &speaking {
            if parts.questions[a.question].group.is_none() && !plain(a, c) {
                let l: Vec<f64> = (0..n).map(|c| likelihood(parts, a, answers, c)).collect();
                p *= with_others(&prior_of_all, &l, parts.mixed)[c];
            }
        }
        base.push(p);
    }
    let mut found = vec![base];
    for (group, rho) in parts.overlaps.iter().enumerate() {
        let clues: Vec<(f64, Vec<f64>)> = speaking
            .iter()
            .filter(|a| parts.questions[a.question].group == Some(group))
            .map(|a| {
                let l: Vec<f64> = (0..n).map(|c| likelihood(parts, a, answers, c)).collect();
                (information(&prior, &l), l)
            })
            .collect();
        let ways = orders(&clues);
        found = found
            .iter()
            .flat_map(|p| {
                ways.iter().map(|way| {
                    let l = with_others(&prior, &tempered(&vec![1.0; n], way, &clues, *rho), parts.mixed);
                    p.iter().zip(l).map(|(p, l)| p * l).collect()
                })
            })
            .collect();
    }
    found.iter().map(|p| normalised(p)).collect()
}

/// Of so many groups the looks are those of any candidate.
fn with_others(prior: &[f64], l: &[f64], mixed: f64) -> Vec<f64> {
    let anybody: f64 = prior.iter().zip(l).map(|(p, l)| p * l).sum();
    l.iter().map(|l| l - mixed * l + mixed * anybody).collect()
}

fn tempered(p: &[f64], way: &[usize], clues: &[(f64, Vec<f64>)], rho: f64) -> Vec<f64> {
    let mut p = p.to_vec();
    for (rank, clue) in way.iter().enumerate() {
        let weight = (1.0 - rho).powi(rank as i32);
        p.iter_mut().zip(&clues[*clue].1).for_each(|(p, l)| *p *= l.powf(weight));
    }
    p
}

/// All orders in which no clue tells noticeably less than one after it.
fn orders(clues: &[(f64, Vec<f64>)]) -> Vec<Vec<usize>> {
    let mut ways: Vec<Vec<usize>> = vec![Vec::new()];
    for _ in 0..clues.len() {
        ways = ways
            .iter()
            .flat_map(|way| {
                let left: Vec<usize> = (0..clues.len()).filter(|i| !way.contains(i)).collect();
                let most = left.iter().map(|i| clues[*i].0).fold(f64::MIN, f64::max);
                left.into_iter()
                    .filter(move |i| clues[*i].0 >= most - 1e-11)
                    .map(|i| [way.clone(), vec![i]].concat())
                    .collect::<Vec<_>>()
            })
            .collect();
    }
    ways
}
