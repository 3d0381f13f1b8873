//! Lettering made from the tables and worn: the true reading is among the first three, and the stated chances are what
//! they say. One seed by which the figures were looked at while the reader was written, and three that nothing was tuned
//! to.

use crate::common::make::{Maker, Random, Truth, found, is_true};
use crate::common::{deep, tables};
use dating::{Kind, Measured, Read};

/// Upper ends of the classes of stated chances.
const CLASSES: [f64; 8] = [0.02, 0.1, 0.25, 0.5, 0.75, 0.9, 0.97, 1.0];

#[derive(Debug, Default, Clone, Copy)]
struct Class {
    n: usize,
    stated: f64,
    right: usize,
}

impl Class {
    fn stated(self) -> f64 {
        self.stated / self.n as f64
    }

    fn right(self) -> f64 {
        self.right as f64 / self.n as f64
    }
}

type Classes = [Class; CLASSES.len()];

#[derive(Default)]
struct Outcome {
    /// Marks with a word that says what they are; how often the truth comes first, and among the first three.
    marks: usize,
    first: usize,
    three: usize,
    strict: usize,
    /// The same for bare numbers.
    bare: usize,
    bare_three: usize,
    readings: Classes,
    years: Classes,
    /// Marks, the chance that none of their readings is right, and how often none was.
    none: Class,
    missed: Vec<String>,
}

fn run(seed: u64, n: usize) -> Outcome {
    let t = tables();
    let maker = Maker::new(&t);
    let mut random = Random(seed);
    let mut o = Outcome::default();
    while o.marks < n {
        let made = maker.lettering(&mut random);
        let lost = random.below(4);
        let text = maker.worn(&mut random, &made.text, lost, true);
        let read = t.read(&text, Measured::default());
        for truth in &made.truths {
            let at = found(&read, truth);
            let three = at.is_some_and(|(_, rank)| rank < 3);
            if made.bare {
                o.bare += 1;
                o.bare_three += usize::from(three);
                continue;
            }
            o.marks += 1;
            o.first += usize::from(at.is_some_and(|(_, rank)| rank == 0));
            o.three += usize::from(three);
            o.strict += usize::from(among_years(&read, truth));
            if !three {
                o.missed.push(format!("{text}  <- {}  {truth:?} {at:?}", made.text));
            }
        }
        for m in &read.marks {
            let is = |r| made.truths.iter().any(|truth| is_true(r, truth));
            o.none.n += 1;
            o.none.stated += m.misread;
            o.none.right += usize::from(!m.readings.iter().any(is));
            for r in &m.readings {
                count(&mut o.readings, r.chance, is(r));
                for (year, share) in r.years() {
                    let right = made.truths.iter().any(|truth| match truth {
                        Truth::Number(_, y) => is_true(r, truth) && *y == year,
                        Truth::Size(_, n) => is_true(r, truth) && u32::try_from(year) == Ok(*n),
                        _ => is_true(r, truth),
                    });
                    count(&mut o.years, r.chance * share, right);
                }
            }
        }
    }
    o
}

/// The stricter count: series and single year of grant among the first three such pairs.
fn among_years(read: &Read, truth: &Truth) -> bool {
    let Truth::Number(series, year) = truth else {
        return found(read, truth).is_some_and(|(_, rank)| rank < 3);
    };
    read.marks.iter().any(|m| {
        let mut pairs: Vec<(f64, bool)> = Vec::new();
        for r in &m.readings {
            let this = r.kind == Kind::Number(*series);
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

fn count(classes: &mut Classes, chance: f64, right: bool) {
    let at = CLASSES.iter().position(|upper| chance <= *upper).unwrap_or(CLASSES.len() - 1);
    classes[at].n += 1;
    classes[at].stated += chance;
    classes[at].right += usize::from(right);
}

/// Prints a table; gives the mean distance of stated and right, weighted by what was stated.
fn table(name: &str, classes: &Classes) -> f64 {
    println!("figure: {name}");
    println!("figure:   up to  readings  stated   right");
    let (mut off, mut all) = (0.0, 0.0);
    for (class, upper) in classes.iter().zip(CLASSES).filter(|(c, _)| c.n > 0) {
        println!("figure:   {upper:5.2}  {:8}  {:6.3}  {:6.3}", class.n, class.stated(), class.right());
        off += (class.stated - class.right as f64).abs();
        all += class.stated;
    }
    off / all
}

fn holds(seed: u64) {
    let o = run(seed, if deep() { 20_000 } else { 3_000 });
    let share = |part: usize, of: usize| part as f64 / of as f64;
    println!(
        "figure: lettering made and worn, seed {seed}: {} marks; first {:.3}, among the first three {:.3}, with the \
         single year {:.3}; {} bare numbers, among the first three {:.3}",
        o.marks,
        share(o.first, o.marks),
        share(o.three, o.marks),
        share(o.strict, o.marks),
        o.bare,
        share(o.bare_three, o.bare)
    );
    o.missed.iter().take(10).for_each(|m| println!("missed: {m}"));
    let off = table("chances of readings", &o.readings);
    let off_years = table("chances of readings with single years", &o.years);
    println!("figure: distance of stated and right: readings {off:.4}, years {off_years:.4}");
    println!(
        "figure: none of the readings right: {} marks, stated {:.3}, right {:.3}",
        o.none.n,
        o.none.stated(),
        o.none.right()
    );
    // Basis of the bounds: practice. What a person can do with a list is look at its first three; a chance is said in
    // whole tenths, so half a tenth is the most that it may be out, and too sure is worse than too careful. Three times
    // the spread of a count is left for the seed.
    assert!(share(o.three, o.marks) >= 0.95, "{}", share(o.three, o.marks));
    assert!(off < 0.045 && off_years < 0.045, "{off} {off_years}");
    for class in o.readings.iter().filter(|c| c.n >= 50) {
        let (stated, right) = (class.stated(), class.right());
        let noise = 3.0 * (stated * (1.0 - stated) / class.n as f64).sqrt();
        assert!(stated - right < TOO_SURE + noise, "too sure: {stated} {right} {}", class.n);
        assert!(right - stated < TOO_CAREFUL + noise, "too careful: {stated} {right} {}", class.n);
    }
    assert!(o.none.right() - o.none.stated() < 0.02, "{:?}", o.none);
}

/// How far stated chances may lie above and below what comes true, in any class.
const TOO_SURE: f64 = 0.025;
const TOO_CAREFUL: f64 = 0.05;

#[test]
fn true_readings_and_true_chances() {
    holds(20_261_124);
}

#[test]
fn the_same_with_a_seed_nothing_was_tuned_to() {
    holds(31_415_927);
}

#[test]
fn the_same_with_a_second_seed() {
    holds(27_182_818);
}

#[test]
fn the_same_with_a_third_seed() {
    holds(16_180_339);
}
