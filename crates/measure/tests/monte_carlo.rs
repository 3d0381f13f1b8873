//! Stated uncertainties beside drawn readings: what GUM's sum of squares gives must be what repeated measuring would show
//! (JCGM 101:2008, propagation of distributions by a Monte Carlo method).

use crate::common::{Random, metal, pairs, spread, table};
use measure::{
    AIR, Celsius, FineMass, Instrument, Scale, Weighed, combined, density, heft, of_half_width, of_step,
    recast, water,
};
use units::{Length, Mass};

const DRAWS: usize = 40_000;

/// An uncertainty that is stated rounded up to a whole `unit`, and one that was drawn: 40 000 draws know a deviation to
/// 0.35 %, 2 % is more than five times that.
fn agree(what: &str, stated: f64, unit: f64, drawn: f64) {
    println!("figure: {what}: stated {stated:.3}, drawn {drawn:.3}");
    assert!(drawn <= stated * 1.02 && stated - unit <= drawn * 1.02, "{what}: {stated} {drawn}");
}

#[test]
fn the_ratio_of_lengths() {
    let mut random = Random(20_260_131);
    let table = table();
    let alone = f64::from(table.recast.alone) / 1e5;
    for text in ["7430/7500", "7430/7500 4960/5000 2970/3000"] {
        let all = pairs(text);
        let found = recast(&table, metal(&table, "cast-iron"), &all).across.expect("a ratio");
        // A caliper's error: anywhere within a tenth, and a step (GUM 4.3.7, F.2.2.1, where 0.29 is one over root 12).
        let draws: Vec<f64> = (0..DRAWS)
            .map(|_| {
                let mut read = |mm: f64| mm + 0.1 * random.within() + 0.05 * random.within();
                let one: Vec<(f64, f64)> = all
                    .iter()
                    .map(|p| {
                        let (piece, reference) = (p.piece.length.mm(), p.reference.length.mm());
                        (read(piece), read(reference))
                    })
                    .collect();
                // Weighted as their uncertainties ask.
                let weight = |reference: f64| {
                    let u = combined(&[0.064_609 / reference, 0.064_609 / reference, alone]);
                    1.0 / (u * u)
                };
                let weights: Vec<f64> = all.iter().map(|p| weight(p.reference.length.mm())).collect();
                let logs = one.iter().map(|(piece, reference)| {
                    libm::log(piece * libm::exp(alone * random.normal()) / reference)
                });
                logs.zip(&weights).map(|(log, w)| log * w).sum::<f64>() / weights.iter().sum::<f64>()
            })
            .collect();
        agree(&format!("ratio of {text}"), f64::from(found.u), 1.0, spread(&draws).1 * 1e5);
    }
}

#[test]
fn the_density() {
    let mut random = Random(7);
    // 300 g of brass and of iron, scales that read a gram and a tenth; 60 g on the finer one; water measured and not.
    for (air, displaced, step, at) in [
        (30_000_u32, 3_529_u32, 100_u32, Some(180_i16)),
        (30_000, 3_529, 10, Some(180)),
        (20_000, 2_817, 100, None),
        (6_000, 845, 10, None),
    ] {
        for hangs in [true, false] {
            let second = FineMass(if hangs { air - displaced } else { displaced });
            let weighed = if hangs {
                Weighed::Hanging { air: FineMass(air), water: second }
            } else {
                Weighed::Displaced { air: FineMass(air), gain: second }
            };
            let scale = Scale { step: FineMass(step) };
            let found = density(weighed, scale, at.map(Celsius)).expect("a density");
            let g = f64::from(step) / 100.0;
            let draws: Vec<f64> = (0..DRAWS)
                .map(|_| {
                    let mut read = |m: FineMass| m.grams() + g * random.within() + g / 2.0 * random.within();
                    let (w, two) = (read(FineMass(air)), read(second));
                    let bubbles = 0.03 * random.within();
                    let d = if hangs { w - two - bubbles } else { two + bubbles };
                    let (t, half_width) = at.map_or((20.0, 5.0), |t| (f64::from(t) / 10.0, 1.0));
                    let density = water(t + half_width * random.within()) + 0.5 * random.within();
                    let air = AIR.0 + AIR.1 * random.within();
                    air + (density - air) * w / d
                })
                .collect();
            let (mean, drawn) = spread(&draws);
            let what = format!("density of {air} less {displaced}, step {step}, hanging {hangs}");
            agree(&what, f64::from(found.u), 1.0, drawn);
            // The mean of a quotient is a little high; it stays well inside the uncertainty.
            assert!((mean - f64::from(found.value)).abs() < drawn / 5.0, "{what}: {mean} {}", found.value);
        }
    }
}

#[test]
fn the_heft() {
    let mut random = Random(11);
    let (length, mass) = (Length(750), Mass(2_400));
    let found = heft((length, Instrument::Ruler), (mass, Instrument::Scales)).expect("a heft");
    let draws: Vec<f64> = (0..DRAWS)
        .map(|_| {
            let l = length.mm() + 0.5 * random.within() + 0.5 * random.within();
            let m = mass.grams() + 0.5 * random.within() + 0.01 * mass.grams() * random.within();
            m / (l * l * l) * 1e6
        })
        .collect();
    let (mean, drawn) = spread(&draws);
    agree("heft", f64::from(found.u), 1.0, drawn / mean * 1000.0);
    assert!((mean / f64::from(found.value) - 1.0).abs() < 0.003, "{mean} {}", found.value);
}

/// Published budgets, by the sums that all of the above rest on.
#[test]
fn published_budgets() {
    // GUM H.1.4, calibration of an end gauge: 25, 9.7, 2.9 and 16.6 nm make 32 nm.
    assert!((combined(&[25.0, 9.7, 2.9, 16.6]) - 32.0).abs() < 0.5);
    // EURACHEM/CITAC QUAM, example A1: relative 0.000058, 0.0005 and 0.0007 of 1002.7 mg/l make 0.9 mg/l.
    assert!((1002.7 * combined(&[0.000_058, 0.000_5, 0.000_7]) - 0.9).abs() < 0.05);
    // GUM 4.3.7 and F.2.2.1, where the Monte Carlo above takes the same shapes.
    let mut random = Random(3);
    let draws: Vec<f64> = (0..DRAWS).map(|_| random.within()).collect();
    let drawn = spread(&draws).1;
    assert!(
        (drawn / of_half_width(1.0) - 1.0).abs() < 0.01 && (drawn / 2.0 / of_step(1.0) - 1.0).abs() < 0.01
    );
}
