//! How long the slowest text of 64 characters takes.

mod common;

use common::make::{Maker, Random};
use common::mutate::{Mutator, nasty};
use common::{deep, tables};
use dating::{Measured, Tables};
use std::time::{Duration, Instant};

/// The most that any text of 64 characters may take, natively and optimised: a tenth of what a person notices as a delay
/// (practice).
const MOST: Duration = Duration::from_millis(10);
/// How much slower a build for tests may be: what was measured, 1.4 to 2 times, and as much again for a busy machine.
const UNOPTIMISED: u32 = 4;

/// The best of several runs: the machine may be busy with other things.
fn took(t: &Tables, text: &str, runs: usize) -> Duration {
    let one = |_| {
        let start = Instant::now();
        let read = t.read(text, Measured::default());
        let took = start.elapsed();
        std::hint::black_box(read);
        took
    };
    (0..runs).map(one).min().unwrap_or_default()
}

#[test]
fn the_slowest_text_of_64_characters() {
    let t = tables();
    let maker = Maker::new(&t);
    let mutator = Mutator::new(&maker);
    let mut random = Random(20_261_128);
    let n = if deep() { 20_000 } else { 2_000 };
    let mut slowest: Vec<(Duration, String)> = Vec::new();
    let mut sum = Duration::ZERO;
    for _ in 0..n {
        let text = mutator.next(&mut random, 64);
        let once = took(&t, &text, 1);
        sum += once;
        slowest.push((once, text));
        if slowest.len() > 400 {
            slowest.sort_by_key(|(took, _)| std::cmp::Reverse(*took));
            slowest.truncate(40);
        }
    }
    slowest.sort_by_key(|(took, _)| std::cmp::Reverse(*took));
    slowest.truncate(40);
    slowest.extend(nasty().into_iter().map(|text| (Duration::ZERO, text)));
    let best = slowest.into_iter().map(|(_, text)| (took(&t, &text, 9), text));
    let Some((most, text)) = best.max_by_key(|(took, _)| *took) else { return };
    let (of, build) = if cfg!(debug_assertions) { (UNOPTIMISED, "for tests") } else { (1, "optimised") };
    println!(
        "figure: texts of 64 characters, {build}: {n} and the nasty ones; mean {:.2} ms, slowest {:.2} ms: {text}",
        1e3 * sum.as_secs_f64() / f64::from(n),
        1e3 * most.as_secs_f64()
    );
    assert!(most <= MOST * of, "{most:?} for {text:?}");
}
