//! How long the next question takes, beside the same quantity as one matrix product of a numerical library.

use crate::page::Line;
use crate::parts;
use anyhow::{Context, Result, anyhow};
use reason::{Goal, Model, Plan, Posterior, Random, Reach, RowParts, rank, weigh};
use std::hint::black_box;
use std::path::Path;
use std::time::Instant;

/// Kinds, questions, choices.
const SIZE: (usize, usize, usize) = (1000, 100, 4);
/// Forms of a kind, where kinds have forms.
const FORMS: usize = 3;
/// Share of answers misread.
const MISREAD: f64 = 0.05;
/// Timings of each; the middle one counts.
const RUNS: usize = 201;
/// At most so long, in ms (the project's own).
const LIMIT: f64 = 0.5;

/// Tables drawn at random (invented): truth by question, candidate and choice.
fn drawn(candidates: usize, random: &mut Random) -> Vec<Vec<Vec<f64>>> {
    let row = |random: &mut Random| {
        let raw: Vec<f64> = (0..SIZE.2).map(|_| 0.02 + random.unit()).collect();
        let sum: f64 = raw.iter().sum();
        raw.into_iter().map(|x| x / sum).collect()
    };
    (0..SIZE.1).map(|_| (0..candidates).map(|_| row(random)).collect()).collect()
}

fn model(kind_of: Vec<usize>, prior: Vec<f64>, tables: &[Vec<Vec<f64>>]) -> Result<Model> {
    let questions = tables.iter().map(|rows| {
        let mut question = parts::question(vec![rows[0].clone()], MISREAD);
        question.rows = rows.iter().cloned().map(RowParts::Shares).collect();
        question.row_of = (0..rows.len()).collect();
        question
    });
    let parts = parts::model(SIZE.0, kind_of, prior, questions.collect());
    Model::new(parts).map_err(|e| anyhow!(e))
}

/// P(report) of a row.
fn reported(truth: &[f64]) -> Vec<f64> {
    let others = (truth.len() - 1) as f64;
    truth.iter().map(|p| p * (1.0 - MISREAD) + (1.0 - p) * MISREAD / others).collect()
}

/// The gain with a logarithm for every cell, in bits: what the engine's form saves.
fn plainly(p: &[f64], reports: &[Vec<Vec<f64>>]) -> Vec<f64> {
    let x_ln_x = |x: f64| if x > 0.0 { x * libm::log(x) } else { 0.0 };
    let before: f64 = p.iter().map(|p| x_ln_x(*p)).sum();
    let one = |rows: &Vec<Vec<f64>>| {
        let mut after = 0.0;
        for choice in 0..SIZE.2 {
            let joint: Vec<f64> = rows.iter().zip(p).map(|(r, p)| r[choice] * p).collect();
            after += joint.iter().map(|x| x_ln_x(*x)).sum::<f64>() - x_ln_x(joint.iter().sum());
        }
        (after - before) / core::f64::consts::LN_2
    };
    reports.iter().map(one).collect()
}

/// Times the engine and writes what the peer needs: `tables.f64` (shares of kinds, then reports by question, choice and
/// kind, then gains in bits) and `ours.csv`.
///
/// # Errors
/// When a file cannot be written, or the engine's form and the plain one disagree.
pub fn measure(out: &Path) -> Result<()> {
    let mut random = Random::seeded(1);
    let prior: Vec<f64> = (0..SIZE.0).map(|_| 0.1 + random.unit()).collect();
    let tables = drawn(SIZE.0, &mut random);
    let model = self::model((0..SIZE.0).collect(), prior.clone(), &tables)?;
    let plan = Plan::new(&model, Goal::kind(&model));
    let posterior = weigh(&model, 0, &[]);
    let every: Vec<usize> = (0..SIZE.1).collect();
    let gains = plan.gains(&model, &posterior, &every);
    let reports: Vec<Vec<Vec<f64>>> =
        tables.iter().map(|rows| rows.iter().map(|r| reported(r)).collect()).collect();
    let apart =
        plainly(&posterior.p, &reports).iter().zip(&gains).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
    anyhow::ensure!(apart < 1e-9, "The engine's gains and the plain ones differ by {apart:e}.");

    let kind_of = (0..SIZE.0 * FORMS).map(|c| c / FORMS).collect();
    let form_prior: Vec<f64> =
        (0..SIZE.0 * FORMS).map(|c| prior[c / FORMS] * (0.5 + random.unit())).collect();
    let many = self::model(kind_of, form_prior, &drawn(SIZE.0 * FORMS, &mut random))?;
    let mut text = String::from("what,ms\n");
    text.push_str(&format!("next,{:.6}\n", next(&model, &posterior, RUNS)));
    text.push_str(&format!(
        "plain,{:.6}\n",
        median(RUNS / 10, || drop(black_box(plainly(&posterior.p, &reports))))
    ));
    text.push_str(&format!("forms,{:.6}\n", next(&many, &weigh(&many, 0, &[]), RUNS / 4)));
    std::fs::create_dir_all(out)?;
    std::fs::write(out.join("ours.csv"), text)?;
    let mut numbers = posterior.p.clone();
    for rows in &reports {
        (0..SIZE.2).for_each(|choice| numbers.extend(rows.iter().map(|r| r[choice])));
    }
    numbers.extend(&gains);
    let bytes: Vec<u8> = numbers.iter().flat_map(|x| x.to_le_bytes()).collect();
    std::fs::write(out.join("tables.f64"), bytes).context("Cannot write the tables for the peer.")
}

/// Middle time, in ms, to rank all questions.
fn next(model: &Model, posterior: &Posterior, runs: usize) -> f64 {
    let plan = Plan::new(model, Goal::kind(model));
    let reach = Reach::default();
    median(runs, || drop(black_box(rank(black_box(model), &plan, black_box(posterior), &[], &reach))))
}

fn median(runs: usize, mut work: impl FnMut()) -> f64 {
    let mut times: Vec<f64> = (0..runs)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[runs / 2]
}

/// What was measured, in ms, beside the peer where it was there.
///
/// # Errors
/// When the engine was not timed.
pub fn lines(folder: &Path) -> Result<Vec<Line>> {
    let read = |name: &str| std::fs::read_to_string(folder.join(name));
    let ours = read("ours.csv").context("The engine was not timed: run `speed` first.")?;
    let peer = read("peer.csv").unwrap_or_default();
    let of = |text: &str, what: &str| {
        let line = text.lines().find_map(|l| l.strip_prefix(what)?.strip_prefix(','));
        line.and_then(|l| l.split(',').next()?.parse().ok()).unwrap_or(f64::NAN)
    };
    let (next, blas) = (of(&ours, "next"), of(&peer, "blas"));
    let kernel = peer.lines().find_map(|l| l.strip_prefix("kernel,")).unwrap_or("not measured");
    let line = |what: &str, ours: f64, peer: f64, limit: &str, met| Line {
        what: what.to_owned(),
        ours,
        peer,
        limit: limit.to_owned(),
        ratio: ours / peer,
        met,
    };
    let twice = (!blas.is_nan()).then_some(next <= 2.0 * blas);
    Ok(vec![
        line(
            "Next question, 1,000 kinds x 100 questions x 4 choices, ms",
            next,
            f64::NAN,
            "0.5 ms",
            Some(next <= LIMIT),
        ),
        line(
            &format!("The same beside one matrix product in numpy ({kernel}), ms"),
            next,
            blas,
            "twice",
            twice,
        ),
        line(
            "Gains differ from numpy's by at most, bits",
            of(&peer, "apart"),
            f64::NAN,
            "1e-9",
            (!blas.is_nan()).then_some(of(&peer, "apart") < 1e-9),
        ),
        line(
            "A logarithm for every cell, the engine's language beside numpy, ms",
            of(&ours, "plain"),
            of(&peer, "plain"),
            "printed",
            None,
        ),
        line("With three forms a kind, ms", of(&ours, "forms"), f64::NAN, "printed", None),
    ])
}
