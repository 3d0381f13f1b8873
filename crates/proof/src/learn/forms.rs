//! Forms of a class: one, a mixture found by expectation and maximisation, or one around each distinct pattern.

use super::Lesson;
use crate::data::{Character, Row};
use crate::settings;
use reason::Random;

/// How a class is cut into forms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// One table a class.
    One,
    /// As many as the penalised likelihood of the training rows asks for.
    Mixture,
    /// One around each distinct pattern, this share of it spread as the class is spread.
    Around(f64),
}

/// One form.
#[derive(Debug, Clone)]
pub struct Form {
    /// Its class.
    pub class: usize,
    /// How many things it stands for.
    pub weight: f64,
    /// By character: shares of the states, or mean and standard deviation.
    pub tables: Vec<Vec<f64>>,
}

/// The forms of all classes.
#[must_use]
pub fn forms(lesson: &Lesson, shape: Shape) -> Vec<Form> {
    let floors = floors(lesson);
    let class = |class: usize| {
        let rows = lesson.of_class(class);
        if rows.is_empty() {
            return Vec::new();
        }
        let one = fitted(lesson, class, &rows, &vec![1.0; rows.len()], &floors);
        match shape {
            Shape::One => vec![one],
            Shape::Mixture => mixture(lesson, class, &rows, &floors),
            Shape::Around(spread) => around(&one, &rows, &lesson.data.characters, spread),
        }
    };
    (0..lesson.data.classes).flat_map(class).collect()
}

/// By character, the least standard deviation: a share of that of all rows.
fn floors(lesson: &Lesson) -> Vec<f64> {
    (0..lesson.data.characters.len())
        .map(|c| {
            let values: Vec<f64> =
                (lesson.rows.iter().map(|r| lesson.data.rows[*r][c])).filter(|v| !v.is_nan()).collect();
            settings::LEAST_SPREAD * deviation(values.iter().map(|v| (*v, 1.0)))
        })
        .collect()
}

fn mean(values: impl Iterator<Item = (f64, f64)>) -> f64 {
    let (sum, n) = values.fold((0.0, 0.0), |(s, n), (v, w)| (s + v * w, n + w));
    sum / n
}

fn deviation(values: impl Iterator<Item = (f64, f64)> + Clone) -> f64 {
    let middle = mean(values.clone());
    mean(values.map(|(v, w)| ((v - middle) * (v - middle), w))).sqrt()
}

/// Tables of weighted rows: counts with half a thing added to each state.
fn fitted(lesson: &Lesson, class: usize, rows: &[&Row], weights: &[f64], floors: &[f64]) -> Form {
    let table = |c: usize| {
        let seen = rows.iter().map(|r| r[c]).zip(weights.iter().copied()).filter(|(v, _)| !v.is_nan());
        match lesson.data.characters[c] {
            Character::States(k) => {
                let mut counts = vec![settings::ADDED; k];
                seen.for_each(|(v, w)| counts[v as usize] += w);
                let sum: f64 = counts.iter().sum();
                counts.iter().map(|n| n / sum).collect()
            }
            Character::Number(low, high) if seen.clone().map(|s| s.1).sum::<f64>() < 1e-9 => {
                vec![(low + high) / 2.0, (high - low) / 2.0]
            }
            Character::Number(..) => vec![mean(seen.clone()), deviation(seen).max(floors[c])],
        }
    };
    Form { class, weight: weights.iter().sum(), tables: (0..floors.len()).map(table).collect() }
}

/// ln P(row | form), without its weight.
pub(super) fn log_chance(form: &Form, row: &Row, characters: &[Character]) -> f64 {
    let mut sum = 0.0;
    for ((table, value), character) in form.tables.iter().zip(row).zip(characters) {
        if value.is_nan() {
            continue;
        }
        sum += match character {
            Character::States(_) => libm::log(table[*value as usize]),
            Character::Number(..) => {
                let z = (value - table[0]) / table[1];
                -0.5 * z * z - libm::log(table[1])
            }
        };
    }
    sum
}

/// One, two, three... forms, as long as the penalised likelihood grows.
fn mixture(lesson: &Lesson, class: usize, rows: &[&Row], floors: &[f64]) -> Vec<Form> {
    let characters = &lesson.data.characters;
    let free: f64 = (characters.iter())
        .map(|c| match c {
            Character::States(k) => (*k as f64 - 1.0).min(settings::FREE_STATES),
            Character::Number(..) => 2.0,
        })
        .sum();
    let mut best: Option<(f64, Vec<Form>)> = None;
    for k in 1..=settings::MOST_FORMS.min(rows.len()) {
        let mut found: Option<(f64, Vec<Form>)> = None;
        for start in 0..if k == 1 { 1 } else { settings::STARTS } {
            let (log_l, forms) = climbed(lesson, class, rows, floors, k, start as u64);
            if found.as_ref().is_none_or(|f| log_l > f.0) {
                found = Some((log_l, forms));
            }
        }
        let Some((log_l, forms)) = found else { break };
        let penalty = settings::PENALTY * 0.5 * libm::log(rows.len() as f64) * k as f64 * (free + 1.0);
        let value = log_l - penalty;
        if best.as_ref().is_some_and(|b| value <= b.0) {
            break;
        }
        best = Some((value, forms));
    }
    best.map(|b| b.1).unwrap_or_default()
}

/// Expectation and maximisation from rows drawn as seeds.
fn climbed(
    lesson: &Lesson,
    class: usize,
    rows: &[&Row],
    floors: &[f64],
    k: usize,
    seed: u64,
) -> (f64, Vec<Form>) {
    let mut random = Random::seeded(1000 + seed);
    let characters = &lesson.data.characters;
    let n = rows.len();
    // Seeds far from each other: each next one drawn by the number of characters in which it differs from the nearest.
    let mut seeds = vec![random.below(n)];
    while seeds.len() < k {
        let apart = |r: usize| seeds.iter().map(|s| differs(rows[r], rows[*s])).fold(f64::INFINITY, f64::min);
        let weights: Vec<f64> = (0..n).map(|r| apart(r) * apart(r)).collect();
        seeds.push(random.pick(&weights));
    }
    let mut shares: Vec<Vec<f64>> = vec![vec![0.0; n]; k];
    for r in 0..n {
        let nearest = (0..k).fold(0, |a, b| {
            if differs(rows[r], rows[seeds[b]]) < differs(rows[r], rows[seeds[a]]) { b } else { a }
        });
        shares[nearest][r] = 1.0;
    }
    let (mut log_l, mut forms) = (f64::NEG_INFINITY, Vec::new());
    for _ in 0..settings::CLIMBS {
        forms = shares.iter().map(|w| fitted(lesson, class, rows, w, floors)).collect::<Vec<Form>>();
        let mut sum = 0.0;
        for (r, row) in rows.iter().enumerate() {
            let logs: Vec<f64> = (forms.iter())
                .map(|f| libm::log((f.weight / n as f64).max(1e-12)) + log_chance(f, row, characters))
                .collect();
            let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            let all: f64 = logs.iter().map(|l| libm::exp(l - top)).sum();
            sum += top + libm::log(all);
            shares.iter_mut().zip(&logs).for_each(|(s, l)| s[r] = libm::exp(l - top) / all);
        }
        let done = sum - log_l < 1e-4 * n as f64;
        log_l = sum;
        if done {
            break;
        }
    }
    forms.retain(|f| f.weight > 0.5);
    (log_l, forms)
}

fn differs(a: &Row, b: &Row) -> f64 {
    a.iter().zip(b).filter(|(a, b)| a != b && !a.is_nan() && !b.is_nan()).count() as f64
}

/// A form around each distinct pattern.
fn around(one: &Form, rows: &[&Row], characters: &[Character], spread: f64) -> Vec<Form> {
    let mut patterns: Vec<(&Row, f64)> = Vec::new();
    for row in rows {
        let same = |p: &(&Row, f64)| p.0.iter().zip(*row).all(|(a, b)| a == b || (a.is_nan() && b.is_nan()));
        match patterns.iter_mut().find(|p| same(p)) {
            Some(pattern) => pattern.1 += 1.0,
            None => patterns.push((row, 1.0)),
        }
    }
    let form = |(row, weight): (&Row, f64)| {
        let table = |((value, general), character): ((&f64, &Vec<f64>), &Character)| match character {
            _ if value.is_nan() => general.clone(),
            Character::States(_) => (general.iter().enumerate())
                .map(|(s, g)| spread * g + if s == *value as usize { 1.0 - spread } else { 0.0 })
                .collect(),
            // Silverman's rule for one dimension, a little wider since there are several.
            Character::Number(..) => vec![*value, general[1] * settings::KERNEL_WIDTH],
        };
        Form {
            class: one.class,
            weight,
            tables: row.iter().zip(&one.tables).zip(characters).map(table).collect(),
        }
    };
    patterns.into_iter().map(form).collect()
}
