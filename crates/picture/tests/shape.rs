//! What outlines measure, on figures whose measures are known, and what they are compared by.

use core::f64::consts::{PI, TAU};
use picture::Point;
use picture::outline::{Contour, Descriptors, Shape};
use proptest::prelude::*;

fn turned(points: &[Point], by: f64, scale: f64, to: Point) -> Vec<Point> {
    let (s, c) = (libm::sin(by) * scale, libm::cos(by) * scale);
    points.iter().map(|p| Point::new(p.x * c - p.y * s + to.x, p.x * s + p.y * c + to.y)).collect()
}

fn round(half: [f64; 2], n: u32) -> Vec<Point> {
    let at = |i: u32| TAU * f64::from(i) / f64::from(n);
    (0..n).map(|i| Point::new(half[0] * libm::cos(at(i)), half[1] * libm::sin(at(i)))).collect()
}

fn polygon(corners: &[(f64, f64)]) -> Vec<Point> {
    corners.iter().map(|(x, y)| Point::new(*x, *y)).collect()
}

/// A triangular toe of 40 mm on a square heel: 100 x 50 mm.
fn iron() -> Vec<Point> {
    polygon(&[(0.0, 25.0), (40.0, 0.0), (100.0, 0.0), (100.0, 50.0), (40.0, 50.0)])
}

fn shape(points: &[Point]) -> Shape {
    Shape::of(&Contour::of(points).expect("an outline"))
}

fn near(found: f64, wanted: f64, by: f64) {
    assert!((found - wanted).abs() <= by, "{found} is not {wanted}");
}

#[test]
fn known_figures() {
    // All by geometry.
    for by in [0.0, 0.4, 1.7, 3.0] {
        let at = |points: &[Point]| shape(&turned(points, by, 1.0, Point::new(30.0, -20.0)));
        let iron = at(&iron());
        near(iron.length, 100.0, 0.7);
        near(iron.width, 50.0, 0.5);
        near(iron.area, 60.0 * 50.0 + 0.5 * 40.0 * 50.0, 15.0);
        near(iron.widest, 0.7, 0.02);
        near(iron.symmetry, 1.0, 0.01);
        near(iron.convexity, 1.0, 0.005);
        assert_eq!(iron.points, 1);
        // The toe first.
        let toe = turned(&[Point::new(0.0, 25.0)], by, 1.0, Point::new(30.0, -20.0))[0];
        assert!(iron.ends[0].distance(toe) < 1.5, "{:?} {toe:?}", iron.ends);
        let oval = at(&round([50.0, 20.0], 300));
        near(oval.length, 100.0, 0.1);
        near(oval.width, 40.0, 0.1);
        near(oval.area, PI * 1000.0, 2.0);
        near(oval.widest, 0.5, 0.01);
        assert_eq!(oval.points, 0);
        let box_iron = at(&polygon(&[(0.0, 0.0), (80.0, 0.0), (80.0, 45.0), (0.0, 45.0)]));
        near(box_iron.length, 80.0, 0.5);
        near(box_iron.width, 45.0, 0.5);
        assert_eq!(box_iron.points, 0);
        // Two points, as a spindle has.
        let both =
            at(&polygon(&[(0.0, 20.0), (35.0, 0.0), (65.0, 0.0), (100.0, 20.0), (65.0, 40.0), (35.0, 40.0)]));
        assert_eq!(both.points, 2);
        // A notch of a fifth of the area in one long side.
        let notched = at(&polygon(&[
            (0.0, 0.0),
            (100.0, 0.0),
            (100.0, 50.0),
            (60.0, 50.0),
            (60.0, 25.0),
            (20.0, 25.0),
            (20.0, 50.0),
            (0.0, 50.0),
        ]));
        near(notched.convexity, 0.8, 0.01);
        assert!(notched.symmetry < 0.9, "{}", notched.symmetry);
    }
}

#[test]
fn paths_are_whole_tenths() {
    let square =
        Contour::of(&polygon(&[(5.0, 5.0), (15.0, 5.0), (15.0, 15.0), (5.0, 15.0)])).expect("a square");
    let path = square.path();
    assert!(path.starts_with("M0 0L2 0") && path.ends_with('Z'), "{path}");
    assert!(path.bytes().all(|b| b.is_ascii_digit() || b"MLZ -".contains(&b)));
    let [from, to] = square.bounds();
    assert!(from.distance(Point::new(5.0, 5.0)) < 1e-9 && to.distance(Point::new(15.0, 15.0)) < 1e-9);
    // Either way round, the same line.
    let back =
        Contour::of(&polygon(&[(5.0, 15.0), (15.0, 15.0), (15.0, 5.0), (5.0, 5.0)])).expect("a square");
    near(back.area(), square.area(), 1e-9);
    for none in [vec![], polygon(&[(0.0, 0.0), (1.0, 1.0)]), polygon(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)])] {
        assert!(Contour::of(&none).is_none());
    }
    assert!(Contour::of(&polygon(&[(0.0, 0.0), (1.0, f64::NAN), (2.0, 0.0)])).is_none());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn place_size_turning_and_start_change_nothing(
        by in 0.0..TAU, scale in 0.2..5.0_f64, x in -100.0..100.0_f64, start in 0_usize..200, waves in prop::collection::vec(-3.0..3.0_f64, 4),
    ) {
        // An oval with waves, so that no two parts are alike.
        let oval: Vec<Point> = round([50.0, 24.0], 200).into_iter().enumerate().map(|(i, p)| {
            let a = TAU * i as f64 / 200.0;
            let more: f64 = waves.iter().enumerate().map(|(k, w)| w * libm::cos((k as f64 + 2.0) * a)).sum();
            Point::new(p.x + more, p.y + 0.5 * more)
        }).collect();
        let mut other = turned(&oval, by, scale, Point::new(x, -x));
        other.rotate_left(start);
        let (one, two) = (Descriptors::of(&oval), Descriptors::of(&other));
        prop_assert!(one.distance(&two) < 1e-9, "{}", one.distance(&two));
        // Measures: lengths grow with the size, shares stay.
        let (small, large) = (shape(&oval), shape(&other));
        prop_assert!((large.length / scale - small.length).abs() < 0.01 * small.length);
        prop_assert!((large.area / (scale * scale) - small.area).abs() < 0.01 * small.area);
        prop_assert!((large.symmetry - small.symmetry).abs() < 0.02);
    }

    #[test]
    fn distances_are_distances(a in 1.2..3.0_f64, b in 1.2..3.0_f64, c in 1.2..3.0_f64) {
        let of = |r: f64| Descriptors::of(&round([r, 1.0], 120));
        let (x, y, z) = (of(a), of(b), of(c));
        prop_assert!(x.distance(&x) < 1e-12);
        prop_assert!((x.distance(&y) - y.distance(&x)).abs() < 1e-12);
        prop_assert!(x.distance(&z) <= x.distance(&y) + y.distance(&z) + 1e-12);
        // Of three ovals the two that differ most in their proportions are the farthest apart.
        let mut sorted = [a, b, c];
        sorted.sort_by(f64::total_cmp);
        let [x, y, z] = sorted.map(of);
        prop_assert!(x.distance(&z) >= x.distance(&y).max(y.distance(&z)) - 1e-9);
    }

    #[test]
    fn any_points_give_finite_measures(points in prop::collection::vec((-1e3..1e3_f64, -1e3..1e3_f64), 0..40)) {
        let points: Vec<Point> = points.into_iter().map(|(x, y)| Point::new(x, y)).collect();
        let found = Descriptors::of(&points);
        prop_assert!(found.0.iter().flatten().all(|v| v.is_finite()));
        if let Some(contour) = Contour::of(&points) {
            let shape = Shape::of(&contour);
            for v in [shape.length, shape.width, shape.widest, shape.area, shape.symmetry, shape.convexity] {
                prop_assert!(v.is_finite(), "{shape:?}");
            }
        }
    }
}
