//! How long an answer takes: the posterior, and which question next, on packs far larger than any club will write.
#![allow(missing_docs, reason = "the macros of the benchmark make public functions without docs")]

mod large;

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use large::{QUESTIONS, answers, model};
use reason::{Goal, Plan, Reach, rank, weigh};
use std::hint::black_box;
use std::time::Instant;

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
