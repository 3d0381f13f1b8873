//! Laws of the recast test, of density, heft and the metals that are left.

use crate::common::{pair, table};
use measure::{
    Celsius, FineMass, Heft, Instrument, Magnet, Pair, Says, Scale, Side, Told, Weighed, Why, density,
    expected, heft, possible, recast,
};
use pack::metals::Metals;
use proptest::prelude::*;
use std::sync::LazyLock;
use units::{Length, Mass};

static TABLE: LazyLock<Metals> = LazyLock::new(table);

/// Metals that have a shrinkage.
fn cast() -> impl Strategy<Value = usize> {
    let all: Vec<usize> = (0..TABLE.metals.len()).filter(|i| TABLE.metals[*i].shrinks().is_some()).collect();
    prop::sample::select(all)
}

/// A pair whose lengths differ by no more than 6 % either way, most of them from 10 to 160 mm.
fn any_pair() -> impl Strategy<Value = Pair> {
    (1_000_u32..16_000, -600_i64..=600, any::<bool>()).prop_map(|(reference, parts, along_draw)| {
        let piece = i64::from(reference) + i64::from(reference) * parts / 10_000;
        Pair { along_draw, ..pair(u32::try_from(piece).unwrap_or(1), reference) }
    })
}

/// Pairs that nearly share a ratio from 3.5 % less to 1.5 % more, as those of one piece do.
fn pairs_of_a_piece() -> impl Strategy<Value = Vec<Pair>> {
    let one = (2_000_i64..16_000, -25_i64..=25, any::<bool>());
    (-350_i64..=150, prop::collection::vec(one, 1..5)).prop_map(|(ratio, all)| {
        let of = |(reference, own, along_draw): (i64, i64, bool)| {
            let piece = reference + reference * (ratio + own) / 10_000;
            let whole = |n: i64| u32::try_from(n).unwrap_or(1);
            Pair { along_draw, ..pair(whole(piece), whole(reference)) }
        };
        all.into_iter().map(of).collect()
    })
}

/// Pairs that are of no use, or of any length.
fn strange_pair() -> impl Strategy<Value = Pair> {
    let by = || prop::sample::select(Instrument::ALL.to_vec());
    (any::<u32>(), any::<u32>(), by(), by(), any::<bool>(), any::<bool>()).prop_map(
        |(piece, reference, one, other, worked, along_draw)| {
            let mut pair = Pair { worked, along_draw, ..pair(piece, reference) };
            (pair.piece.by, pair.reference.by) = (one, other);
            pair
        },
    )
}

proptest! {
    #[test]
    fn a_smaller_piece_is_not_less_likely_a_recast(
        metal in cast(), pairs in pairs_of_a_piece(), at in 0_usize..5, less in 1_u32..60,
    ) {
        let metal = &TABLE.metals[metal];
        let mut smaller = pairs.clone();
        smaller[at % pairs.len()].piece.length.0 -= less;
        let (before, after) = (recast(&TABLE, metal, &pairs), recast(&TABLE, metal, &smaller));
        // Down to where it is smaller than the last generation, and only where both say something.
        if let (Says::Leans(_), Says::Leans(_)) = (before.says, after.says) {
            prop_assert!(after.ratio >= before.ratio * (1.0 - 1e-12), "{before:?} {after:?}");
        }
        prop_assert!(before.says != Says::OtherPattern(Side::Smaller) || after.says != Says::OtherPattern(Side::Larger));
    }

    #[test]
    fn the_ratio_is_capped_and_the_order_of_pairs_changes_nothing(
        metal in 0..TABLE.metals.len(), pairs in prop_oneof![pairs_of_a_piece(), prop::collection::vec(prop_oneof![any_pair(), strange_pair()], 0..7)],
        turn in 0_usize..7,
    ) {
        let metal = &TABLE.metals[metal];
        let found = recast(&TABLE, metal, &pairs);
        let cap = f64::from(TABLE.recast.cap);
        prop_assert!(found.ratio.is_finite() && found.ratio <= cap && found.ratio >= 1.0 / cap, "{found:?}");
        match found.says {
            Says::Leans(_) => {
                prop_assert_eq!(found.generations.len(), TABLE.recast.generations.len());
                prop_assert!((found.generations.iter().sum::<f64>() - 1.0).abs() < 1e-9);
            }
            _ => prop_assert!((found.ratio - 1.0).abs() < 1e-15 && found.generations.is_empty()),
        }
        let mut turned = pairs.clone();
        if !turned.is_empty() {
            turned.rotate_left(turn % pairs.len());
            turned.reverse();
        }
        let other = recast(&TABLE, metal, &turned);
        prop_assert_eq!(
            (found.says, found.ratio, found.across, found.along, &found.generations),
            (other.says, other.ratio, other.across, other.along, &other.generations)
        );
        prop_assert_eq!(found.passed_over.len(), other.passed_over.len());
    }

    #[test]
    fn more_pairs_never_widen_the_ratio(
        metal in cast(), pairs in prop::collection::vec(any_pair(), 1..6), more in prop_oneof![any_pair(), strange_pair()],
    ) {
        let metal = &TABLE.metals[metal];
        let few = recast(&TABLE, metal, &pairs);
        let mut all = pairs;
        all.push(more);
        let many = recast(&TABLE, metal, &all);
        for (one, other) in [(few.across, many.across), (few.along, many.along)] {
            prop_assert!(one.is_none_or(|one| other.is_some_and(|other| other.u <= one.u)), "{one:?} {other:?}");
        }
    }

    #[test]
    fn a_ruler_proves_nothing(pairs in prop::collection::vec(any_pair(), 1..6), on_reference: bool) {
        let mut rough = pairs;
        for pair in &mut rough {
            if on_reference { pair.reference.by = Instrument::Ruler } else { pair.piece.by = Instrument::ByEye }
        }
        let found = recast(&TABLE, &TABLE.metals[0], &rough);
        let why = if on_reference { Why::RoughReference } else { Why::RoughPiece };
        prop_assert_eq!(found.says, Says::ProvesNothing(why));
    }

    #[test]
    fn a_coarser_scale_is_never_more_certain(
        air in 100_u32..200_000, share in 20_u32..400, step in 1_u32..200, more in 1_u32..200, hangs: bool,
        at in prop::option::of(-5_i16..420),
    ) {
        let displaced = FineMass(air * share / 1000);
        let air = FineMass(air);
        let weighed = if hangs {
            Weighed::Hanging { air, water: FineMass(air.0 - displaced.0) }
        } else {
            Weighed::Displaced { air, gain: displaced }
        };
        let of = |step: u32| density(weighed, Scale { step: FineMass(step) }, at.map(Celsius));
        if let (Ok(fine), Ok(coarse)) = (of(step), of(step + more)) {
            prop_assert!(coarse.u >= fine.u && coarse.value == fine.value, "{fine:?} {coarse:?}");
        }
        // What a fine scale refuses a coarse one refuses too.
        prop_assert!(of(step).is_ok() || of(step + more).is_err());
    }

    #[test]
    fn any_weighing_is_answered(air: u32, second: u32, step: u32, at: Option<i16>, hangs: bool) {
        let (air, second) = (FineMass(air), FineMass(second));
        let weighed = if hangs {
            Weighed::Hanging { air, water: second }
        } else {
            Weighed::Displaced { air, gain: second }
        };
        if let Ok(found) = density(weighed, Scale { step: FineMass(step) }, at.map(Celsius)) {
            // Heavier than water, and less certain than to the digit.
            prop_assert!(found.value > 900 && found.u > 0, "{found:?}");
        }
    }

    #[test]
    fn shares_of_metals_make_one(
        d in prop::option::of((500_u32..25_000, 1_u32..2_000)), length: u32, mass: u32, magnet in 0_usize..4, colour in 0_usize..9,
    ) {
        let scale = |n: u32, most: u32| n % most;
        let told = Told {
            density: d.map(|(value, u)| measure::Density { value, u }),
            heft: heft(
                (Length(scale(length, 20_001)), Instrument::Ruler),
                (Mass(scale(mass, 200_001)), Instrument::Scales),
            ),
            magnet: [None, Some(Magnet::Strong), Some(Magnet::Weak), Some(Magnet::None)][magnet],
            colour: (colour < 7).then_some(colour),
        };
        let found = possible(&TABLE, &told);
        prop_assert_eq!(found.len(), TABLE.metals.len());
        prop_assert!((found.iter().map(|p| p.share).sum::<f64>() - 1.0).abs() < 1e-9, "{found:?}");
        prop_assert!(found.iter().all(|p| p.share > 0.0 && p.share.is_finite()));
    }

    #[test]
    fn what_is_expected_is_as_expected(metal in 0..TABLE.metals.len(), length in 400_u32..1_500) {
        let metal = &TABLE.metals[metal];
        let (low, high) = expected(&TABLE, metal, Length(length));
        let beside = |mass: Mass| {
            let found = heft((Length(length), Instrument::Calipers), (mass, Instrument::Scales));
            found.map(|h| h.beside(&TABLE, metal))
        };
        prop_assert!(low < high);
        for mass in [low, high, Mass(low.0.midpoint(high.0))] {
            prop_assert_eq!(beside(mass), Some(Heft::AsExpected));
        }
        prop_assert_eq!(beside(Mass(low.0 / 3)), (low.0 >= 3).then_some(Heft::Lighter));
        prop_assert_eq!(beside(Mass(high.0 * 3)), Some(Heft::Heavier));
    }
}
