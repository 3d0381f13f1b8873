//! Factors of condition.

use crate::common::tables;
use appraise::{Band, worn};

#[test]
fn conditions_multiply_within_bounds() {
    let tables = tables();
    let at = |id: &str| {
        let at = tables.conditions.iter().position(|c| c.id == id).expect("a condition");
        u16::try_from(at).expect("few")
    };
    let sound = worn(tables, &[]).expect("nothing to clash");
    assert_eq!((sound.per_mille(), sound.half()), (1000, (1000, 1000)));
    // Arithmetic: 0.45 x 0.6 = 0.27.
    let two = worn(tables, &[at("pitting-heavy"), at("stripped")]).expect("no clash");
    assert_eq!((two.per_mille(), two.is_capped()), (270, false));
    assert!(two.half().0 < 270 && 270 < two.half().1);
    let wreck = [at("pitting-heavy"), at("stripped"), at("crack"), at("grip-missing")];
    assert_eq!(worn(tables, &wreck).map(|w| (w.per_mille(), w.is_capped())), Ok((150, true)));
    let best = [at("finish-full"), at("boxed"), at("rare-size")];
    assert_eq!(worn(tables, &best).map(|w| (w.per_mille(), w.is_capped())), Ok((6000, true)));
    let (one, other) = (at("crack"), at("hairline"));
    assert_eq!(worn(tables, &[one, other]), Err(appraise::NotSo::Clash(one, other)));
    assert_eq!(worn(tables, &[other, one]), Err(appraise::NotSo::Clash(other, one)));
    assert_eq!(worn(tables, &[one, one]), Err(appraise::NotSo::Twice(one)));
    assert_eq!(worn(tables, &[999]), Err(appraise::NotSo::Unknown(999)));
    // A band moves by the factor and is wider by its spread, never narrower.
    let band = Band::of_middle_half(10_000, 20_000);
    let worse = band.in_condition(&worn(tables, &[at("crack")]).expect("one"));
    let ratio = |b: Band| b.quantile(0.75) as f64 / b.quantile(0.25) as f64;
    assert!((worse.quantile(0.5) as f64 / band.quantile(0.5) as f64 - 0.4).abs() < 1e-3);
    assert!(ratio(worse) > ratio(band));
}
