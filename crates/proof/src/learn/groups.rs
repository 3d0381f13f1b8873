//! Questions that say the same thing twice: grouped where they hang together within the forms.

use super::forms::log_chance;
use super::{Form, Lesson};
use crate::data::Character;
use crate::settings;

/// By character, the index of its group, if it has one.
#[must_use]
pub fn groups(lesson: &Lesson, forms: &[Form]) -> Vec<Option<usize>> {
    let characters = &lesson.data.characters;
    let n = characters.len();
    let form_of: Vec<usize> = (lesson.rows.iter())
        .map(|r| {
            let row = &lesson.data.rows[*r];
            let value = |f: usize| libm::log(forms[f].weight) + log_chance(&forms[f], row, characters);
            let own = |f: &usize| forms[*f].class == lesson.data.class_of[*r];
            (0..forms.len()).filter(own).reduce(|a, b| if value(b) > value(a) { b } else { a }).unwrap_or(0)
        })
        .collect();
    // Numbers are halved at their mean within the form.
    let state = |r: usize, c: usize, f: usize| -> Option<(usize, usize)> {
        let v = lesson.data.rows[r][c];
        match characters[c] {
            _ if v.is_nan() => None,
            Character::States(k) => Some((v as usize, k)),
            Character::Number(..) => Some((usize::from(v > forms[f].tables[c][0]), 2)),
        }
    };
    let mut of: Vec<usize> = (0..n).collect();
    for a in 0..n {
        for b in a + 1..n {
            let pairs = lesson
                .rows
                .iter()
                .zip(&form_of)
                .filter_map(|(r, f)| Some((*f, state(*r, a, *f)?, state(*r, b, *f)?)));
            if hang_together(pairs, forms.len()) > settings::HANG_TOGETHER {
                let (from, to) = (of[b].max(of[a]), of[b].min(of[a]));
                of.iter_mut().for_each(|g| {
                    if *g == from {
                        *g = to
                    }
                });
            }
        }
    }
    let size = |g: usize| of.iter().filter(|o| **o == g).count();
    let mut names: Vec<usize> = (0..n).filter(|g| size(*g) > 1).collect();
    names.dedup();
    of.iter().map(|g| names.iter().position(|n| n == g)).collect()
}

/// Root of the mean over forms of chi-square by things and degrees of freedom (Cramer's V, less what chance gives).
fn hang_together(pairs: impl Iterator<Item = (usize, (usize, usize), (usize, usize))>, forms: usize) -> f64 {
    let mut counts: Vec<Vec<f64>> = vec![Vec::new(); forms];
    let (mut ka, mut kb) = (1, 1);
    for (f, (a, na), (b, nb)) in pairs {
        (ka, kb) = (na, nb);
        counts[f].resize(na * nb, 0.0);
        counts[f][a * nb + b] += 1.0;
    }
    let (mut excess, mut all) = (0.0, 0.0);
    for table in counts.iter().filter(|t| !t.is_empty()) {
        let n: f64 = table.iter().sum();
        let row: Vec<f64> = (0..ka).map(|a| (0..kb).map(|b| table[a * kb + b]).sum()).collect();
        let column: Vec<f64> = (0..kb).map(|b| (0..ka).map(|a| table[a * kb + b]).sum()).collect();
        let some = |sums: &[f64]| sums.iter().filter(|s| **s > 0.0).count() as f64 - 1.0;
        let (fa, fb) = (some(&row), some(&column));
        all += n;
        if fa < 1.0 || fb < 1.0 {
            continue;
        }
        let mut chi = 0.0;
        for a in 0..ka {
            for b in 0..kb {
                let expected = row[a] * column[b] / n;
                if expected > 0.0 {
                    let d = table[a * kb + b] - expected;
                    chi += d * d / expected;
                }
            }
        }
        // Chance gives fa * fb in the mean.
        excess += ((chi - fa * fb) / fa.min(fb)).max(0.0);
    }
    if all > 0.0 { (excess / all).sqrt() } else { 0.0 }
}
