//! Two thousand marks made from the tables and worn: the true reading is among the first three, and the stated chances
//! are what they say. The seed stands here, and a second one that nothing was tuned to.

mod common;

use common::make::{Maker, Random, Truth, found, is_true};
use common::tables;
use dating::Measured;

const MARKS: usize = 2_000;
/// The seed by which the figures were looked at.
const SEED: u64 = 20_261_124;
/// One that nothing was tuned to.
const OTHER: u64 = 31_415_927;

/// Upper ends of the classes of stated chances.
const CLASSES: [f64; 8] = [0.02, 0.1, 0.25, 0.5, 0.75, 0.9, 0.97, 1.0];

#[derive(Debug, Default, Clone, Copy)]
struct Class {
    n: usize,
    stated: f64,
    right: usize,
}

struct Outcome {
    marks: usize,
    first: usize,
    three: usize,
    strict: usize,
    classes: [Class; CLASSES.len()],
    years: [Class; CLASSES.len()],
    missed: Vec<String>,
}

fn run(seed: u64) -> Outcome {
    let t = tables();
    let maker = Maker::new(&t);
    let mut random = Random(seed);
    let mut o = Outcome {
        marks: 0,
        first: 0,
        three: 0,
        strict: 0,
        classes: Default::default(),
        years: Default::default(),
        missed: Vec::new(),
    };
    while o.marks < MARKS {
        let made = maker.make(&mut random);
        let lost = random.below(4);
        let text = maker.worn(&mut random, &made.text, lost, true);
        let read = t.read(&text, Measured::default());
        for truth in &made.truths {
            o.marks += 1;
            let at = found(&read, truth);
            o.first += usize::from(at.is_some_and(|(_, rank)| rank == 0));
            o.three += usize::from(at.is_some_and(|(_, rank)| rank < 3));
            o.strict += usize::from(among_years(&read, truth));
            if at.is_none_or(|(_, rank)| rank >= 3) {
                o.missed.push(format!("{text}  <- {}  {truth:?} {at:?}", made.text));
            }
        }
        for r in read.marks.iter().flat_map(|m| &m.readings) {
            let right = made.truths.iter().any(|truth| is_true(r, truth));
            count(&mut o.classes, r.chance, right);
            for (year, share) in r.years() {
                let right = made.truths.iter().any(|truth| match truth {
                    Truth::Number(_, y) => is_true(r, truth) && *y == year,
                    _ => is_true(r, truth),
                });
                count(&mut o.years, r.chance * share, right);
            }
        }
    }
    o
}

/// The stricter count: series and single year of grant among the first three such pairs.
fn among_years(read: &dating::Read, truth: &Truth) -> bool {
    let Truth::Number(series, year) = truth else {
        return found(read, truth).is_some_and(|(_, rank)| rank < 3);
    };
    read.marks.iter().any(|m| {
        let mut pairs: Vec<(f64, bool)> = Vec::new();
        for r in &m.readings {
            let this = r.kind == dating::Kind::Number(*series);
            let years = r.years();
            pairs.extend(years.iter().map(|(y, s)| (r.chance * s, this && y == year)));
            if years.is_empty() {
                pairs.push((r.chance, false));
            }
        }
        pairs.sort_by(|a, b| b.0.total_cmp(&a.0));
        pairs.iter().take(3).any(|(_, right)| *right)
    })
}

fn count(classes: &mut [Class; CLASSES.len()], chance: f64, right: bool) {
    let at = CLASSES.iter().position(|upper| chance <= *upper).unwrap_or(CLASSES.len() - 1);
    classes[at].n += 1;
    classes[at].stated += chance;
    classes[at].right += usize::from(right);
}

/// Prints a table of stated chances against what came true; gives the mean distance, weighted by what was stated.
fn table(name: &str, classes: &[Class; CLASSES.len()]) -> f64 {
    println!("figure: {name}: stated, right, of so many readings");
    let (mut off, mut all) = (0.0, 0.0);
    for class in classes.iter().filter(|c| c.n > 0) {
        let (stated, right) = (class.stated / class.n as f64, class.right as f64 / class.n as f64);
        println!("figure:   {stated:.3}  {right:.3}  {}", class.n);
        off += (class.stated - class.right as f64).abs();
        all += class.stated;
    }
    off / all
}

fn holds(seed: u64) {
    let o = run(seed);
    let share = |n: usize| n as f64 / o.marks as f64;
    println!(
        "figure: marks made and worn, seed {seed}: {} marks; first {:.3}, among the first three {:.3}, with the single year \
         {:.3}",
        o.marks,
        share(o.first),
        share(o.three),
        share(o.strict)
    );
    o.missed.iter().take(25).for_each(|m| println!("missed: {m}"));
    let off = table("chances of readings", &o.classes);
    let off_years = table("chances of readings with single years", &o.years);
    println!("figure: distance of stated and right: readings {off:.4}, years {off_years:.4}");
    // Basis of the bounds: practice. What a person can do with a list is look at its first three; chances are said in
    // tenths, so half a tenth is what they may be out.
    assert!(share(o.three) >= 0.95, "{}", share(o.three));
    assert!(off < 0.05 && off_years < 0.05, "{off} {off_years}");
    for class in o.classes.iter().filter(|c| c.n >= 100) {
        let (stated, right) = (class.stated / class.n as f64, class.right as f64 / class.n as f64);
        let noise = 3.0 * (stated * (1.0 - stated) / class.n as f64).sqrt();
        assert!((stated - right).abs() < 0.05 + noise, "{stated} {right} {}", class.n);
    }
}

#[test]
fn true_readings_and_true_chances() {
    holds(SEED);
}

#[test]
fn the_same_with_a_seed_nothing_was_tuned_to() {
    holds(OTHER);
}
