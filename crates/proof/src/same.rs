//! Is the engine the naive Bayes of a well-known library, where it is to be? The same rows, learned and asked alike.

use crate::data::{Character, Data};
use crate::page::Line;
use crate::parts;
use anyhow::{Context, Result, anyhow};
use reason::{Answer, Model, Quantity, RowParts, Told, weigh};
use std::path::Path;

/// What is added to each count, as in the peer's settings.
const ADDED: f64 = 0.5;
/// The small tolerance of the last comparison, in the measure's unit (mm or g).
const TOLERANCE: f64 = 1e-3;
/// Name, whether it compares numbers, tolerance, limit.
const COMPARED: [(&str, bool, f64, f64); 5] = [
    ("zoo", false, 0.0, 1e-9),
    ("soybean", false, 0.0, 1e-9),
    ("mushroom", false, 0.0, 1e-9),
    ("penguins", true, 0.0, 1e-9),
    ("penguins", true, TOLERANCE, 1e-6),
];

fn file(name: &str, tolerance: f64) -> String {
    format!("{name}-{}.csv", if tolerance > 0.0 { "tolerance" } else { "exact" })
}

/// Writes the posteriors of all complete rows (characters of one sort only), learned from the same rows.
///
/// # Errors
/// When a file cannot be read or written.
pub fn write(data: &Path, out: &Path) -> Result<()> {
    std::fs::create_dir_all(out)?;
    for (name, numbers, tolerance, _) in COMPARED {
        if !data.join(format!("{name}.csv")).exists() {
            continue;
        }
        let data = Data::read(data, name)?;
        let text = posteriors(&data, numbers, tolerance)?;
        std::fs::write(out.join(file(name, tolerance)), text)?;
    }
    Ok(())
}

fn posteriors(data: &Data, numbers: bool, tolerance: f64) -> Result<String> {
    let is_number = |c: &usize| matches!(data.characters[*c], Character::Number(..));
    let used: Vec<usize> = (0..data.characters.len()).filter(|c| is_number(c) == numbers).collect();
    let complete = |r: &usize| used.iter().all(|c| !data.rows[*r][*c].is_nan());
    let rows: Vec<usize> = (0..data.rows.len()).filter(complete).collect();
    let of = |class: usize| -> Vec<usize> {
        rows.iter().copied().filter(|r| data.class_of[*r] == class).collect()
    };
    // A class without a complete row is none here, as in the peer.
    let classes: Vec<Vec<usize>> = (0..data.classes).map(of).filter(|o| !o.is_empty()).collect();
    let questions = used.iter().map(|c| {
        let tables: Vec<RowParts> = classes.iter().map(|own| table(data, own, *c)).collect();
        let choices = if let Character::States(k) = data.characters[*c] { k } else { 2 };
        let mut question = parts::question(vec![vec![1.0 / choices as f64; choices]; classes.len()], 0.0);
        if let Character::Number(low, high) = data.characters[*c] {
            question.quantity = Quantity::Length(vec![(low + high) / 2.0]);
        }
        question.rows = tables;
        question
    });
    let prior = classes.iter().map(|own| own.len() as f64).collect();
    let model =
        Model::new(parts::model(classes.len(), (0..classes.len()).collect(), prior, questions.collect()))
            .map_err(|e| anyhow!(e))?;
    let mut text = String::new();
    for row in rows {
        let told = |(question, c): (usize, &usize)| {
            let value = data.rows[row][*c];
            let told = if numbers {
                Told::Measured { value, uncertainty: tolerance }
            } else {
                Told::OneOf(vec![value as usize])
            };
            Answer { question, told, sure: true }
        };
        let answers: Vec<Answer> = used.iter().enumerate().map(told).collect();
        let p: Vec<String> = weigh(&model, 0, &answers).p.iter().map(|p| format!("{p:.17e}")).collect();
        text.push_str(&p.join(","));
        text.push('\n');
    }
    Ok(text)
}

fn table(data: &Data, own: &[usize], c: usize) -> RowParts {
    let values: Vec<f64> = own.iter().map(|r| data.rows[*r][c]).collect();
    let n = values.len() as f64;
    match data.characters[c] {
        Character::States(k) => {
            let count = |s: usize| values.iter().filter(|v| **v as usize == s).count() as f64;
            RowParts::Shares((0..k).map(|s| (count(s) + ADDED) / (n + ADDED * k as f64)).collect())
        }
        Character::Number(..) => {
            let mean = values.iter().sum::<f64>() / n;
            let squares: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
            RowParts::Spread { mean, sd: (squares / n).sqrt() }
        }
    }
}

/// The largest difference from the peer's posteriors, by data set.
///
/// # Errors
/// When the peer's figures are there but cannot be read.
pub fn lines(folder: &Path) -> Result<Vec<Line>> {
    let peer = std::fs::read_to_string(folder.join("peer.csv")).unwrap_or_default();
    let mut lines = Vec::new();
    for (name, numbers, tolerance, limit) in COMPARED {
        let key = file(name, tolerance);
        let Some(found) = peer.lines().find_map(|l| l.strip_prefix(&key)?.strip_prefix(',')) else {
            continue;
        };
        let (apart, rows) = found.split_once(',').context("A line of the peer's is cut short.")?;
        let apart: f64 = apart.parse().context("The peer's difference is no number.")?;
        let library = if numbers { "GaussianNB" } else { "CategoricalNB" };
        let how = if tolerance > 0.0 { ", as the tolerance shrinks" } else { "" };
        lines.push(Line {
            what: format!("Posterior beside {library}{how}, {name}, {rows} rows: largest difference"),
            ours: apart,
            peer: f64::NAN,
            limit: format!("{limit:.0e}"),
            ratio: apart / limit,
            met: Some(apart <= limit),
        });
    }
    Ok(lines)
}
