//! Taps from anywhere and pictures of any size: a result or a refusal, never a panic.

use picture::outline::{Cutting, Window};
use picture::photo::{Height, Lens, place_card, place_coin};
use picture::propose::Proposing;
use picture::{Pixels, Point};
use proptest::prelude::*;

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![8 => 0.0..800.0_f64, 1 => -1e9..1e9_f64, 1 => prop::sample::select(vec![f64::NAN, f64::INFINITY, 0.0, -0.0, 1e300])]
}

fn point() -> impl Strategy<Value = Point> {
    (number(), number()).prop_map(|(x, y)| Point::new(x, y))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn any_taps(
        taps in prop::collection::vec(point(), 8..14), near in prop::collection::vec(-30.0..30.0_f64, 16),
        tap in number(), from in number(), to in number(), size in prop::sample::select(vec![(800, 600), (0, 0), (1, 9)]),
    ) {
        let lens = Lens::of(size.0, size.1, None);
        // Any eight points, and eight near to the edges of a card.
        let any = core::array::from_fn(|i| [taps[2 * i], taps[2 * i + 1]]);
        let card = [(200.0, 150.0), (500.0, 150.0), (500.0, 340.0), (200.0, 340.0)];
        let card = core::array::from_fn(|i| {
            let at = |c: (f64, f64), k: usize| Point::new(c.0 + near[k], c.1 + near[k + 1]);
            let (a, b) = (at(card[i], 4 * i), at(card[(i + 1) % 4], 4 * i + 2));
            [a.towards(b, 0.15), a.towards(b, 0.85)]
        });
        let placed = [
            place_card(&lens, &any, tap), place_card(&lens, &card, tap), place_card(&lens, &card, 4.0),
            place_coin(&lens, &taps, from, tap), place_coin(&lens, &taps, 25.0, 3.0),
        ];
        for placed in placed.into_iter().flatten() {
            prop_assert!(placed.distance() > 0.0);
            for height in [Height { from, to }, Height::UNKNOWN] {
                if let Ok(found) = placed.length([taps[0], taps[1]], height, tap) {
                    prop_assert!(found.low <= found.high && found.mm.is_finite() && found.u > 0.0, "{found:?}");
                }
            }
        }
    }

    #[test]
    fn any_picture(width in 1_usize..70, height in 1_usize..70, long: bool, seed: u8, a in point(), b in point()) {
        // Some wider than what is looked at in one piece.
        let width = if long { width * 60 } else { width };
        let rgba: Vec<u8> = (0..width * height * 4).map(|i| (i * usize::from(seed) / 7) as u8).collect();
        prop_assert!(Pixels::of(width, height, &rgba[1..]).is_none());
        let pixels = Pixels::of(width, height, &rgba).expect("pixels");
        let lens = Lens::of(width as u32, height as u32, None);
        let mut proposing = Proposing::new(pixels, lens);
        let mut steps = 0;
        while proposing.step(pixels).is_none() {
            steps += 1;
            prop_assert!(steps < 10_000);
        }
        let lens = Lens::of(800, 600, None);
        let edge = |a: f64, b: f64, c: f64, d: f64| [Point::new(a, b), Point::new(c, d)];
        let edges = [
            edge(240.0, 150.0, 460.0, 150.0), edge(500.0, 180.0, 500.0, 310.0), edge(460.0, 339.2, 240.0, 339.2), edge(200.0, 310.0, 200.0, 180.0),
        ];
        let placed = place_card(&lens, &edges, 1.0).expect("a card");
        for window in [Window { from: a, to: b }, Window::around(&[a, b])] {
            let mut cutting = Cutting::new(placed.clone(), a.x, window, Vec::new());
            let mut steps = 0;
            while cutting.step(pixels).is_none() {
                steps += 1;
                prop_assert!(steps < 10_000);
            }
        }
    }
}
