//! Quantiles of mixtures, of log-normals and of t among each other, held against draws.

use crate::common::{KIND, Random, YEAR, market, sale, tables, worth};
use appraise::{Band, Comparable, Drift, Mixture};

/// 1,000,000 draws from each mixture of log-normals and of t, made as bands after sales are made.
#[test]
fn quantiles_of_mixtures_are_those_of_draws() {
    let market = market(tables());
    let mut random = Random(20_261_128);
    let mut worst = 0.0_f64;
    for set in 0..6 {
        // A period piece after some sales, and copies from their bands alone.
        let n = [0, 1, 3, 6, 10, 20][set];
        let sold: Vec<Comparable> =
            (0..n).map(|i| sale(YEAR, 7_000 + 300 * i64::try_from(i).expect("few"))).collect();
        let estimate = market.estimate(KIND, &worth(5_000, 11_000, YEAR), Drift::unknown(tables()), &sold);
        let (t, freedom) = (estimate.expect("a band").band, 4 + n);
        let copy = Band::of_middle_half(2_000, 6_000);
        let mixture = Mixture::new(vec![(0.7, t), (0.3, copy)]).expect("has weight");
        // The t's own place and scale, from its quartiles; the quartile of Student's t by the band itself.
        let (low, high) = (libm::log(t.quantile(0.25) as f64), libm::log(t.quantile(0.75) as f64));
        let (place, half) = (f64::midpoint(low, high), (high - low) / 2.0);
        let mut logs: Vec<f64> = (0..1_000_000)
            .map(|_| {
                if random.share() < 0.7 {
                    let chi: f64 = (0..freedom).map(|_| random.normal()).map(|z| z * z).sum();
                    place + half / quartile(freedom) * random.normal() / (chi / freedom as f64).sqrt()
                } else {
                    let (low, high) = (libm::log(2_000.0), libm::log(6_000.0));
                    f64::midpoint(low, high) + (high - low) / 1.348_979_500_392_163_4 * random.normal()
                }
            })
            .collect();
        logs.sort_by(f64::total_cmp);
        for share in [0.10, 0.25, 0.50, 0.75, 0.90] {
            let drawn = libm::exp(logs[(share * 1_000_000.0) as usize]);
            worst = worst.max((mixture.quantile(share) as f64 / drawn - 1.0).abs());
        }
    }
    println!("figure: mixtures: quantiles within {:.2} % of 1,000,000 draws", 100.0 * worst);
    assert!(worst < 0.01, "{worst}");
}

/// The quartile of Student's t for so many degrees of freedom: published in any table with three places; these are scipy's.
fn quartile(freedom: usize) -> f64 {
    const QUARTILES: [(usize, f64); 6] =
        [(4, 0.740_697), (5, 0.726_687), (7, 0.711_142), (10, 0.699_812), (14, 0.692_417), (24, 0.684_850)];
    QUARTILES.iter().find(|(f, _)| *f == freedom).expect("in the list").1
}
