//! What must hold of anything that was read.

use super::YEAR;
use dating::{MOST_READINGS, Read, Tables, bounds};

/// What is unsound about what was read, or nothing: chances sum to one, few readings and it is said when there were more,
/// likelihoods finite and not all nought, sentences whole.
pub fn sound(t: &Tables, read: &Read) -> Result<(), String> {
    for m in &read.marks {
        let sum: f64 = m.readings.iter().map(|r| r.chance).sum::<f64>()
            + m.misread
            + m.rest.as_ref().map_or(0.0, |r| r.0);
        if (sum - 1.0).abs() > 1e-6 || m.readings.is_empty() || m.readings.len() > MOST_READINGS {
            return Err(format!("{}: chances sum to {sum} over {} readings", m.text, m.readings.len()));
        }
        if m.more.is_some() != m.rest.is_some() && m.same_as.is_none() {
            return Err(format!("{}: cut without saying so", m.text));
        }
        if !m.readings.windows(2).all(|w| w[0].chance >= w[1].chance) {
            return Err(format!("{}: out of order", m.text));
        }
        let each = m.readings.iter().map(|r| r.evidence.likelihoods(YEAR)).chain([m.likelihoods(YEAR)]);
        for list in each.flatten() {
            if list.len() != 427
                || list.iter().any(|l| !l.is_finite() || *l < 0.0)
                || list.iter().all(|l| *l <= 0.0)
            {
                return Err(format!("{}: a likelihood is not sound", m.text));
            }
        }
        for r in &m.readings {
            let shares: f64 = r.issues.iter().map(|i| i.share).sum();
            if !r.issues.is_empty() && (shares - 1.0).abs() > 1e-6 {
                return Err(format!("{}: shares of years sum to {shares}", m.text));
            }
            let words = r.in_words(t);
            if words.is_empty() || words.contains("NaN") || words.contains("  ") || r.chance < 0.0 {
                return Err(format!("{}: it says {words}", m.text));
            }
        }
    }
    let all = t.together(&read.marks);
    for list in [&all.period, &all.later, &all.usual] {
        if list.iter().any(|l| !l.is_finite() || *l <= 0.0) {
            return Err("together: a likelihood is not sound".to_string());
        }
    }
    let curve = all.curve();
    let sum: f64 = curve.p.iter().sum();
    if (sum - 1.0).abs() > 1e-6 {
        return Err(format!("together: the curve sums to {sum}"));
    }
    let words = dating::years_in_words(&read.marks, &all);
    if words.contains("NaN") || dating::clash_in_words(&read.marks, &all).len() != all.clashes.len() {
        return Err(format!("together: it says {words}"));
    }
    let (from, to) = bounds(&read.marks, &all);
    let years = from.iter().flat_map(|(a, b)| [*a, *b]).chain(to);
    if years.into_iter().any(|y| !(1500..=2400).contains(&y)) {
        return Err("together: a bound is no year of the grid".to_string());
    }
    Ok(())
}
