//! How long an answer takes: the posterior, and which question next, on packs far larger than any club will write.
//!
//! Every kind has a row of its own in every question, so that nothing can be shared; ten questions are answered, seven
//! of them in two groups. The tables are drawn at random (invented).
#![allow(missing_docs, reason = "the macros of the benchmark make public functions without docs")]

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use reason::{
    Answer, Goal, Model, Parts, Plan, Quantity, QuestionParts, Random, Reach, RowParts, Told, rank, weigh,
};
use std::hint::black_box;
use std::time::Instant;

const QUESTIONS: usize = 100;
const CHOICES: usize = 4;
const ANSWERS: usize = 10;

fn question(at: usize, kinds: usize, random: &mut Random) -> QuestionParts {
    let rows = (0..kinds).map(|_| {
        let raw: Vec<f64> = (0..CHOICES).map(|_| 0.02 + random.unit()).collect();
        let sum: f64 = raw.iter().sum();
        RowParts::Shares(raw.iter().map(|x| x / sum).collect())
    });
    QuestionParts {
        choices: CHOICES,
        quantity: Quantity::None,
        rows: rows.collect(),
        row_of: (0..kinds).collect(),
        misread: (0.04, 0.2),
        confused: (0..CHOICES).map(|c| vec![(c + 1) % CHOICES]).collect(),
        group: match at {
            0..4 => Some(0),
            4..7 => Some(1),
            _ => None,
        },
        gate: None,
        seconds: 5.0 + at as f64 % 7.0,
        tellable: 0.9,
        tool: None,
        by_picture: true,
    }
}

fn model(kinds: usize) -> Model {
    let mut random = Random::seeded(kinds as u64);
    Model::new(Parts {
        kinds,
        makes: 1,
        kind_of: (0..kinds).collect(),
        make_of: vec![0; kinds],
        roles: vec![vec![1.0]; kinds],
        priors: vec![(0..kinds).map(|_| 0.1 + random.unit()).collect()],
        overlaps: vec![0.2, 0.2],
        questions: (0..QUESTIONS).map(|at| question(at, kinds, &mut random)).collect(),
        mixed: 0.0,
        unknown: None,
        fit_limits: Vec::new(),
    })
    .expect("the shapes fit")
}

fn answers() -> Vec<Answer> {
    (0..ANSWERS)
        .map(|question| Answer {
            question,
            told: if question == 9 { Told::OneOf(vec![0, 1]) } else { Told::OneOf(vec![question % CHOICES]) },
            sure: question != 8,
        })
        .collect()
}

/// Middle of so many timings, in ns.
fn median(runs: usize, mut work: impl FnMut()) -> f64 {
    let mut times: Vec<u128> = (0..runs)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_nanos()
        })
        .collect();
    times.sort_unstable();
    times[runs / 2] as f64
}

/// Figures are for the whole pack; the throughput is in kinds.
fn next(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("answer");
    for kinds in [100, 1_000, 10_000] {
        let model = model(kinds);
        let plan = Plan::new(&model, Goal::kind(&model));
        let (answers, reach) = (answers(), Reach::default());
        let every: Vec<usize> = (0..QUESTIONS).collect();
        let posterior = weigh(&model, 0, &answers);
        group.throughput(Throughput::Elements(kinds as u64));
        group.bench_with_input(BenchmarkId::new("posterior", kinds), &kinds, |b, _| {
            b.iter(|| weigh(black_box(&model), 0, black_box(&answers)));
        });
        group.bench_with_input(BenchmarkId::new("gains of all", kinds), &kinds, |b, _| {
            b.iter(|| plan.gains(black_box(&model), black_box(&posterior), &every));
        });
        group.bench_with_input(BenchmarkId::new("posterior and next", kinds), &kinds, |b, _| {
            b.iter(|| {
                let posterior = weigh(black_box(&model), 0, black_box(&answers));
                rank(&model, &plan, &posterior, &answers, &reach)
            });
        });
        let per_kind = median(51, || {
            let posterior = weigh(black_box(&model), 0, black_box(&answers));
            black_box(rank(&model, &plan, &posterior, &answers, &reach));
        }) / kinds as f64;
        println!("answer/posterior and next/{kinds}: {per_kind:.0} ns a kind (median of 51)");
    }
    group.finish();
}

criterion_group!(benches, next);
criterion_main!(benches);
