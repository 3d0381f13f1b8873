//! Plane maps, ellipses and Fourier descriptors beside OpenCV, scikit-image and pyefd: `tests/fixtures/picture`.

use picture::Point;
use picture::outline::{Descriptors, HARMONICS};
use picture::photo::{Ellipse, Homography};
use std::fs;

/// Rows of cells, each with numbers.
fn rows(name: &str, least: usize) -> Vec<Vec<Vec<f64>>> {
    let path = format!("{}/../../tests/fixtures/picture/{name}.csv", env!("CARGO_MANIFEST_DIR"));
    let text = fs::read_to_string(&path).expect(&path);
    let cell = |c: &str| c.split(' ').map(|n| n.parse().expect(n)).collect();
    let all: Vec<Vec<Vec<f64>>> = text.lines().map(|l| l.split(',').map(cell).collect()).collect();
    assert!(all.len() >= least, "{name} has {} rows", all.len());
    all
}

fn points(numbers: &[f64]) -> Vec<Point> {
    numbers.chunks(2).map(|p| Point::new(p[0], p[1])).collect()
}

fn four(numbers: &[f64]) -> [Point; 4] {
    points(numbers).try_into().expect("four points")
}

#[test]
fn plane_maps_as_opencv_finds_them() {
    for row in rows("plane_maps", 12) {
        let map = Homography::of_corners(&four(&row[0]), &four(&row[1])).expect("a map");
        let back = map.inverse().expect("a map back");
        for (p, to) in points(&row[2]).iter().zip(points(&row[3])) {
            // Far outside of the card the map may go to far places: as near as their size allows.
            let near = 1e-6 * (1.0 + to.distance(Point::default()));
            assert!(map.map(*p).distance(to) < near, "{p:?}: {:?} {to:?}", map.map(*p));
            assert!(back.map(map.map(*p)).distance(*p) < 1e-6);
        }
    }
    let line = [0.0, 1.0, 2.0, 3.0].map(|x| Point::new(x, x));
    assert!(Homography::of_corners(&line, &line).is_none());
}

#[test]
fn ellipses_as_scikit_image_finds_them() {
    for row in rows("ellipses", 12) {
        let found = Ellipse::of(&points(&row[1])).expect("an ellipse");
        let [x, y, a, b, cos, sin]: [f64; 6] = row[2].clone().try_into().expect("six numbers");
        // Two ways to fit points that lie on no ellipse exactly differ by about their error, few points on one side more.
        let near = if row[0][0] > 0.0 { 0.6 } else { 1e-4 };
        assert!(found.middle.distance(Point::new(x, y)) < near, "{found:?} {row:?}");
        assert!((found.half[0] - a).abs() < near && (found.half[1] - b).abs() < near, "{found:?} {row:?}");
        let across = (found.along.x * sin - found.along.y * cos).abs();
        assert!(across < near / (a - b), "{found:?} {row:?}");
    }
}

#[test]
fn descriptors_as_pyefd_finds_them() {
    for row in rows("outlines", 8) {
        let found = Descriptors::of(&points(&row[0]));
        let theirs: [[f64; 4]; HARMONICS] =
            core::array::from_fn(|n| core::array::from_fn(|i| row[1][4 * n + i]));
        // They are the same up to the other end of the long axis as a start, which the distance does not see.
        let far = found.distance(&Descriptors(theirs));
        assert!(far < 1e-9, "{far}: {found:?}");
        assert!(
            (found.0[0][0] - 1.0).abs() < 1e-9 && found.0[0][1].abs() < 1e-9 && found.0[0][2].abs() < 1e-9
        );
    }
}
