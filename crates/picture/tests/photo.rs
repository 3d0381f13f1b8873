//! What a length in a photograph is worth, by Monte Carlo; coins; and what is refused.

use crate::common::{Camera, Dice, corners, flat};
use core::f64::consts::TAU;
use picture::Point;
use picture::photo::{CARD, Height, Lens, Placed, Refused, place_card, place_coin};

const SIZE: (u32, u32) = (4000, 3000);

/// 26 mm on a frame with a diagonal of 43.2666 mm; the picture's diagonal has 5000 pixels. Arithmetic.
const FOCAL: f64 = 26.0 / 43.266_615_305_567_87 * 5000.0;

fn camera(tilt: f64, distance: f64) -> Camera {
    Camera::over(SIZE, FOCAL, 0.0, [tilt.to_radians(), 0.7, 0.3], distance, Point::new(0.0, -20.0))
}

fn edges(card: &[Point; 4], shows: impl Fn(Point) -> Point) -> [[Point; 2]; 4] {
    core::array::from_fn(|i| [0.12, 0.88].map(|t| shows(card[i].towards(card[(i + 1) % 4], t))))
}

/// What is tapped without any error.
fn exactly(camera: &Camera, card: [f64; 2]) -> [[Point; 2]; 4] {
    edges(&corners(card), |p| camera.shows(flat(p, 0.0)))
}

fn place(camera: &Camera, edges: &[[Point; 2]; 4]) -> Result<Placed, Refused> {
    place_card(&camera.lens(Some(26)), edges, 1.0)
}

#[test]
fn without_error_the_camera_is_found() {
    // ISO/IEC 7810:2019, ID-1 (published): 85.60 x 53.98 mm.
    assert_eq!(CARD, [85.60, 53.98]);
    for tilt in [0.0, 8.0, 20.0, 35.0] {
        let camera = camera(tilt, 380.0);
        let placed = place(&camera, &exactly(&camera, CARD)).expect("a card");
        // By construction: the height above the table is the distance along the axis times the cosine.
        let high = 380.0 * libm::cos(tilt.to_radians());
        assert!((placed.distance() - high).abs() < 0.01, "{tilt}: {}", placed.distance());
        assert!((placed.upright() - libm::cos(tilt.to_radians())).abs() < 1e-4, "{tilt}");
        for height in [0.0, 20.0, 60.0] {
            let ends = [Point::new(-40.0, -70.0), Point::new(40.0, -62.0)];
            let seen = ends.map(|p| camera.shows(flat(p, height)));
            let found = [0, 1].map(|i| placed.on_plane(seen[i], height));
            assert!(
                (found[0].distance(found[1]) - ends[0].distance(ends[1])).abs() < 0.01,
                "{tilt} {height}"
            );
            let back = found.map(|p| placed.pixel(p, height));
            assert!(back[0].distance(seen[0]) < 1e-3 && back[1].distance(seen[1]) < 1e-3);
        }
    }
}

#[test]
fn a_height_of_forty_is_thirteen_percent() {
    // Height above the card's plane reads too large by h/(Z-h): 12.9 % for 40 mm at 350 mm (arithmetic).
    let camera = camera(0.0, 350.0);
    let placed = place(&camera, &exactly(&camera, CARD)).expect("a card");
    let ends = [Point::new(-40.0, -60.0), Point::new(40.0, -60.0)].map(|p| camera.shows(flat(p, 40.0)));
    let [naive, right] =
        [0.0, 40.0].map(|h| placed.length(ends, Height { from: h, to: h }, 1.0).expect("a length").mm);
    assert!((naive / 80.0 - 1.129).abs() < 0.003, "{naive}");
    assert!((right / 80.0 - 1.0).abs() < 0.003, "{right}");
}

#[test]
fn the_propagated_uncertainty_is_that_of_repeated_photographs() {
    let mut dice = Dice(3);
    for (tilt, distance, tap, high) in
        [(20.0, 300.0, 1.0, 0.0), (30.0, 350.0, 1.5, 40.0), (12.0, 260.0, 2.0, 20.0)]
    {
        let (mut errors, mut stated) = (Vec::new(), Vec::new());
        for _ in 0..400 {
            let normal = [dice.normal(), dice.normal()];
            // Everything that counts as unknown is drawn anew: the lens as `Lens` says it is known, the card within
            // ISO/IEC 7810 (from memory), every tap.
            let known = Lens::of(SIZE.0, SIZE.1, Some(26));
            let focal = FOCAL * (1.0 + known.focal_share * normal[0]);
            let pose = [f64::to_radians(tilt), 0.7, 0.3];
            let camera =
                Camera::over(SIZE, focal, known.bend * normal[1], pose, distance, Point::new(0.0, -20.0));
            let card = [dice.within(85.475, 85.725), dice.within(53.925, 54.035)];
            let mut tapped = |p: Point| Point::new(p.x + tap * dice.normal(), p.y + tap * dice.normal());
            let all = exactly(&camera, card).map(|edge| edge.map(&mut tapped));
            let ends = [Point::new(-38.0, -62.0), Point::new(40.0, -55.0)];
            let seen = ends.map(|p| tapped(camera.shows(flat(p, high))));
            let placed = place_card(&known, &all, tap).expect("a card");
            let found = placed.length(seen, Height { from: high, to: high }, tap).expect("a length");
            errors.push(found.mm - ends[0].distance(ends[1]));
            stated.push(found.u);
        }
        let n = errors.len() as f64;
        let spread = (errors.iter().map(|e| e * e).sum::<f64>() / n).sqrt();
        let mean = stated.iter().sum::<f64>() / n;
        println!(
            "figure: picture: tilt {tilt}, {distance} mm, tap {tap} px: stated u {mean:.3} mm, of 400 photographs {spread:.3}"
        );
        // A standard deviation of 400 is known to 3.5 %: three times that.
        assert!((mean / spread - 1.0).abs() < 0.11, "{mean} {spread}");
    }
}

#[test]
fn a_coin_is_the_lesser_way() {
    let mut dice = Dice(5);
    let (mut held, mut wide, mut all, mut refused) = (0, 0.0, 0, 0);
    for i in 0..300 {
        let (tilt, distance) = (dice.within(0.0, 35.0).to_radians(), dice.within(250.0, 400.0));
        let pose = [tilt, dice.within(0.0, TAU), dice.within(0.0, TAU)];
        let camera =
            Camera::over(SIZE, FOCAL, dice.within(-0.01, 0.01), pose, distance, Point::new(0.0, 0.0));
        // 2 euro: 25.75 mm, Council Regulation (EC) 975/98 (published).
        let r = 0.5 * 25.75;
        let mut tapped = |p: Point| Point::new(p.x + dice.normal(), p.y + dice.normal());
        let rim: Vec<Point> = (0..6 + i % 5)
            .map(|k| TAU * f64::from(k) / f64::from(6 + i % 5))
            .map(|a| tapped(camera.shows([r * libm::cos(a), r * libm::sin(a), 0.0])))
            .collect();
        let ends = [Point::new(-35.0, -40.0), Point::new(35.0, -38.0)];
        let seen = ends.map(|p| tapped(camera.shows(flat(p, 0.0))));
        let found = place_coin(&camera.lens(Some(26)), &rim, 25.75, 1.0)
            .and_then(|placed| placed.length(seen, Height::AT_CARD, 1.0));
        let Ok(found) = found else {
            refused += 1;
            continue;
        };
        all += 1;
        held += usize::from((found.low..=found.high).contains(&ends[0].distance(ends[1])));
        wide += 0.5 * (found.high - found.low) / 70.0;
    }
    let (share, wide) = (held as f64 / all as f64, 100.0 * wide / all as f64);
    println!(
        "figure: picture: by a coin: {all} lengths, {refused} refused, 95 % interval holds {:.1} %, +-{wide:.1} %",
        100.0 * share
    );
    assert!(all > 200 && share > 0.92, "{share}");
}

#[test]
fn what_is_no_card_is_refused() {
    let camera = camera(15.0, 350.0);
    let right = exactly(&camera, CARD);
    let turned = |mut e: [[Point; 2]; 4], by: usize| {
        e.rotate_left(by);
        e
    };
    // Any edge may come first, either way round.
    for by in 0..4 {
        let mut other = turned(right, by);
        assert!(place(&camera, &other).is_ok());
        other.reverse();
        assert!(place(&camera, &other).is_ok());
    }
    let refused = |edges: &[[Point; 2]; 4]| place(&camera, edges).err();
    let mut near = right;
    near[2][1] = Point::new(near[2][0].x + 1.0, near[2][0].y);
    assert_eq!(refused(&near), Some(Refused::TapsTooNear(2)));
    near[1][0].x = f64::NAN;
    assert_eq!(refused(&near), Some(Refused::TapsTooNear(1)));
    // Out of turn: two edges changed for each other.
    let mut crossed = right;
    crossed.swap(1, 2);
    assert_eq!(refused(&crossed), Some(Refused::NoFourCorners));
    // A visiting card of 90 x 50 mm, a square, a card with one corner bent up by 9 mm.
    assert_eq!(refused(&exactly(&camera, [90.0, 50.0])), Some(Refused::NotFlat));
    assert_eq!(refused(&exactly(&camera, [54.0, 54.0])), Some(Refused::NotFlat));
    let bent =
        edges(&corners(CARD), |p| camera.shows([p.x, p.y, if p.x > 30.0 && p.y > 15.0 { 9.0 } else { 0.0 }]));
    assert_eq!(refused(&bent), Some(Refused::NotFlat));
    let far = Camera::over(SIZE, FOCAL, 0.0, [0.2, 0.7, 0.3], 5000.0, Point::new(0.0, 0.0));
    assert_eq!(place(&far, &exactly(&far, CARD)).err(), Some(Refused::TooSmall));
    let low = Camera::over(SIZE, FOCAL, 0.0, [1.1, 0.7, 0.3], 350.0, Point::new(0.0, 0.0));
    assert_eq!(place(&low, &exactly(&low, CARD)).err(), Some(Refused::TooOblique));
    let off = Camera::over(SIZE, FOCAL, 0.0, [0.2, 0.7, 0.3], 350.0, Point::new(290.0, 0.0));
    assert_eq!(place(&off, &exactly(&off, CARD)).err(), Some(Refused::CutOff));
    let placed = place(&camera, &right).expect("a card");
    let ends = [Point::new(1000.0, 1000.0), Point::new(1700.0, 1000.0)];
    let length = |ends, height| placed.length(ends, height, 1.0).err();
    assert_eq!(length(ends, Height { from: 0.0, to: 300.0 }), Some(Refused::TooHigh));
    assert_eq!(length([ends[0], Point::new(-5.0, 3.0)], Height::AT_CARD), Some(Refused::OffThePlane));
    assert_eq!(length([ends[0], Point::new(1004.0, 1000.0)], Height::AT_CARD), Some(Refused::TooUncertain));
    let lens = camera.lens(Some(26));
    assert_eq!(place_coin(&lens, &ends, 25.75, 1.0).err(), Some(Refused::NotRound));
    let line: Vec<Point> = (0..7).map(|i| Point::new(1000.0 + 100.0 * f64::from(i), 900.0)).collect();
    assert_eq!(place_coin(&lens, &line, 25.75, 1.0).err(), Some(Refused::NotRound));
}
