//! Messages: each comes back as it was, and nothing that was tampered with is taken for another.

use picture::ask::{Asked, MOST_WORDS, Outline, Patch, Spot, Told, Valued};
use picture::outline::Uncut;
use picture::photo::Refused;
use proptest::prelude::*;

fn spot() -> impl Strategy<Value = Spot> {
    (-200_000..=200_000_i32, -200_000..=200_000_i32).prop_map(|(x, y)| Spot { x, y })
}

fn spots(least: usize, most: usize) -> impl Strategy<Value = Vec<Spot>> {
    prop::collection::vec(spot(), least..=most)
}

fn asked() -> impl Strategy<Value = Asked> {
    let patch =
        (spot(), 1..=500_i32, any::<bool>()).prop_map(|(at, radius, piece)| Patch { at, radius, piece });
    prop_oneof![
        Just(Asked::Propose),
        (spots(8, 8), 1..=10_000_i32)
            .prop_map(|(s, tap)| Asked::Card { edges: core::array::from_fn(|i| s[i]), tap }),
        (spots(5, 16), 500..=12_000_i32, 1..=10_000_i32).prop_map(|(rim, diameter, tap)| Asked::Coin {
            diameter,
            rim,
            tap
        }),
        (spots(2, 2), 0..=3000_i32, 0..=3000_i32, 1..=10_000_i32).prop_map(|(s, a, b, tap)| Asked::Length {
            ends: [s[0], s[1]],
            height: [a, b],
            tap
        }),
        (spots(2, 16), 0..=3000_i32, prop::collection::vec(patch, 0..20))
            .prop_map(|(around, height, patches)| Asked::Cut { around, height, patches }),
        prop::collection::vec(spots(3, 40), 0..30).prop_map(Asked::Compare),
    ]
}

fn told() -> impl Strategy<Value = Told> {
    let n = || 0..=1_000_000_i32;
    let outline = (spots(3, 300), spots(3, 300), n(), n(), 0..=1000_i32, 0..=2_i32);
    prop_oneof![
        (1..=20_000_i32, 1..=20_000_i32, 0..=65_535_i32, any::<bool>())
            .prop_map(|(width, height, equivalent, place)| Told::Opened { width, height, equivalent, place }),
        Just(Told::Proposed(None)),
        spots(8, 8).prop_map(|s| Told::Proposed(Some(core::array::from_fn(|i| s[i])))),
        (n(), 0..=900_i32).prop_map(|(above, leans)| Told::Placed { above, leans }),
        (0..4_u8).prop_map(|edge| Told::Refused(Refused::TapsTooNear(edge))),
        prop::sample::select(vec![Refused::NotFlat, Refused::CutOff, Refused::TooUncertain])
            .prop_map(Told::Refused),
        (n(), n(), n(), 1..=1_000_000_i32, n()).prop_map(|(length, low, high, u, by_height)| Told::Length(
            Valued { length, low, high, u, by_height }
        )),
        prop::sample::select(vec![Uncut::NoWindow, Uncut::Touches]).prop_map(Told::Uncut),
        prop::collection::vec((n(), n()).prop_map(|(a, b)| [a, b]), 0..30).prop_map(Told::Compared),
        outline.prop_map(|(seen, true_size, length, area, share, points)| Told::Cut(Box::new(Outline {
            seen,
            true_size,
            size: [length, area],
            length,
            width: length,
            widest: share,
            area,
            symmetry: share,
            points,
            convexity: share,
        }))),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_asked_arrives(asked in asked()) {
        prop_assert_eq!(Asked::of(&asked.words()), Some(asked));
    }

    #[test]
    fn what_is_told_arrives(told in told()) {
        prop_assert_eq!(Told::of(&told.words()), Some(told));
    }

    #[test]
    fn shortened_or_lengthened_it_is_refused(asked in asked(), told in told()) {
        let longer = |words: Vec<i32>| words.into_iter().chain([0]).collect::<Vec<i32>>();
        prop_assert_eq!(Asked::of(&longer(asked.words())), None);
        prop_assert_eq!(Told::of(&longer(told.words())), None);
        let words = asked.words();
        prop_assert_eq!(Asked::of(&words[..words.len() - 1]), None);
    }

    #[test]
    fn any_numbers_are_read_without_harm(words in prop::collection::vec(-10..4000_i32, 0..60)) {
        if let Some(asked) = Asked::of(&words) {
            prop_assert_eq!(asked.words(), words.clone());
        }
        if let Some(told) = Told::of(&words) {
            prop_assert_eq!(told.words(), words);
        }
    }
}

#[test]
fn too_many_numbers_are_not_even_looked_at() {
    assert_eq!(Asked::of(&vec![1; MOST_WORDS + 1]), None);
    assert_eq!(Told::of(&vec![9; MOST_WORDS + 1]), None);
}
