//! Rendered photographs: does the outline have its true length and width?

mod common;

use common::scene::{Ground, Scene, scene};
use common::{Dice, corners, deep};
use picture::outline::{Contour, Cutting, Descriptors, Shape, Uncut, Window};
use picture::photo::{card_corners, place_card};
use picture::propose::Proposing;
use picture::{Pixels, Point};

const SIZE: (u32, u32) = (1000, 750);

fn edges(scene: &Scene) -> [[Point; 2]; 4] {
    let card = corners(scene.card);
    core::array::from_fn(|i| {
        [0.15, 0.85].map(|t| {
            let p = card[i].towards(card[(i + 1) % 4], t);
            scene.camera.shows([p.x, p.y, 0.0])
        })
    })
}

/// How far the proposed edges are from the true ones at most, pixels, where there are any.
fn proposed(pixels: Pixels, scene: &Scene) -> Option<f64> {
    let mut proposing = Proposing::new(pixels, scene.camera.lens(Some(26)));
    let found = loop {
        if let Some(found) = proposing.step() {
            break found?;
        }
    };
    // Each true corner beside the nearest of those where the proposed edges meet.
    let meet = card_corners(&found, 1.0).ok()?;
    let off = |c: Point| {
        let shown = scene.camera.shows([c.x, c.y, 0.0]);
        meet.iter().map(|m| m.distance(shown)).fold(f64::MAX, f64::min)
    };
    Some(corners(scene.card).into_iter().map(off).fold(0.0, f64::max))
}

fn cut(pixels: Pixels, scene: &Scene, edges: &[[Point; 2]; 4]) -> Result<Contour, Uncut> {
    let placed = place_card(&scene.camera.lens(Some(26)), edges, 0.7).expect("a card");
    let taps = [(0.0, 0.0), (1.0, 0.0), (scene.sole.nose, 0.5), (scene.sole.nose, -0.5)];
    let shown = |(t, v): (f64, f64)| {
        let p = scene.sole.table(t, v * scene.sole.width);
        placed.on_plane(scene.camera.shows([p.x, p.y, 0.0]), 0.0)
    };
    let window = Window::around(&taps.map(shown));
    let mut cutting = Cutting::new(pixels, &placed, 0.0, window, &[]);
    let mut last = 0;
    loop {
        if let Some(found) = cutting.step() {
            return found;
        }
        assert!(cutting.done() >= last && cutting.done() < 1000);
        last = cutting.done();
    }
}

fn outlines_have_their_true_size(ground: Ground) {
    let mut dice = Dice(21 + ground as u64);
    let each = if deep() { 40 } else { 10 };
    let (mut good, mut all, mut near) = (0, 0, 0);
    {
        let (mut long, mut wide, mut far, mut none) = (0.0_f64, 0.0_f64, 0.0_f64, 0);
        for i in 0..each {
            let scene = scene(&mut dice, ground, 350.0, SIZE);
            let rgba = scene.render();
            if std::env::var_os("SHOW").is_some() {
                let mut ppm = format!("P6 {} {} 255\n", SIZE.0, SIZE.1).into_bytes();
                ppm.extend(rgba.chunks(4).flat_map(|c| c[..3].to_vec()));
                std::fs::write(format!("/tmp/photo-scratch/{ground:?}{i}.ppm"), ppm).unwrap();
            }
            let pixels = Pixels::of(SIZE.0 as usize, SIZE.1 as usize, &rgba).expect("pixels");
            all += 1;
            let off = proposed(pixels, &scene);
            println!("proposal {off:?}");
            near += usize::from(off.is_some_and(|off| off <= 3.0));
            let found = match cut(pixels, &scene, &edges(&scene)) {
                Ok(contour) => contour,
                Err(why) => {
                    println!("{ground:?} {i}: {why:?}");
                    none += 1;
                    continue;
                }
            };
            let shape = Shape::of(&found);
            let (l, w) = (shape.length / scene.sole.length - 1.0, shape.width / scene.sole.width - 1.0);
            let truth = Contour::of(&scene.sole.outline()).expect("an outline");
            let apart = Descriptors::of(found.points()).distance(&Descriptors::of(truth.points()));
            println!(
                "{ground:?} {i}: {:.2} {:.2} sym {:.3} pts {} widest {:.2} conv {:.3} apart {apart:.4} iron {:?}",
                100.0 * l,
                100.0 * w,
                shape.symmetry,
                shape.points,
                shape.widest,
                shape.convexity,
                scene.iron
            );
            (long, wide, far) = (long.max(l.abs()), wide.max(w.abs()), far.max(apart));
            good += usize::from(l.abs() <= 0.01 && w.abs() <= 0.02);
        }
        println!(
            "figure: picture: outlines on {ground:?}: length within {:.2} %, width within {:.2} %, apart {far:.3}, {none} not found",
            100.0 * long,
            100.0 * wide
        );
    }
    println!("figure: picture: edges proposed within 3 px on {ground:?}: {near} of {all}");
    assert_eq!(good, all);
    assert!(10 * near >= 7 * all, "{near} of {all}");
}

#[test]
fn on_a_plain_ground() {
    outlines_have_their_true_size(Ground::Plain);
}

#[test]
fn on_wood() {
    outlines_have_their_true_size(Ground::Wood);
}

#[test]
fn on_cloth() {
    outlines_have_their_true_size(Ground::Cloth);
}

#[test]
fn with_shadows() {
    outlines_have_their_true_size(Ground::Shadow);
}
