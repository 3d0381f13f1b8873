//! Rendered photographs: does the outline have its true length and width, and are the edges of the card found?

use crate::common::scene::{GROUNDS, Ground, Scene, scene};
use crate::common::{Dice, corners, deep};
use picture::outline::{Contour, Cutting, Descriptors, Mend, Shape, Uncut, Window};
use picture::photo::{card_corners, place_card};
use picture::propose::Proposing;
use picture::{Pixels, Point};

const SIZE: (u32, u32) = (800, 600);

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
        if let Some(found) = proposing.step(pixels) {
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
    cut_mended(pixels, scene, edges, &|_| Vec::new())
}

/// Where a point of the table lies for the crate, mm from the middle of the card.
type Own<'a> = &'a dyn Fn(Point) -> Point;

/// `mends` are told where a point of the table lies for the crate, which has its own axes.
fn cut_mended(
    pixels: Pixels,
    scene: &Scene,
    edges: &[[Point; 2]; 4],
    mends: &dyn Fn(Own) -> Vec<Mend>,
) -> Result<Contour, Uncut> {
    let placed = place_card(&scene.camera.lens(Some(26)), edges, 0.7).expect("a card");
    let taps = [(0.0, 0.0), (1.0, 0.0), (scene.sole.nose, 0.5), (scene.sole.nose, -0.5)];
    let own = |p: Point| placed.on_plane(scene.camera.shows([p.x, p.y, 0.0]), 0.0);
    let window = Window::around(&taps.map(|(t, v)| own(scene.sole.table(t, v * scene.sole.width))));
    let mends = mends(&own);
    let mut cutting = Cutting::new(placed.clone(), 0.0, window, mends);
    let mut last = 0;
    loop {
        if let Some(found) = cutting.step(pixels) {
            return found;
        }
        assert!(cutting.done() >= last && cutting.done() < 1000);
        last = cutting.done();
    }
}

/// How many edges were proposed near enough, of how many pictures; every outline must have its true size.
fn on(ground: Ground) -> [usize; 2] {
    let mut dice = Dice(21 + ground as u64);
    let each = if deep() { 40 } else { 10 };
    let (mut good, mut all, mut near) = (0, 0, 0);
    let (mut long, mut wide, mut far, mut none) = (0.0_f64, 0.0_f64, 0.0_f64, 0);
    for _ in 0..each {
        let scene = scene(&mut dice, ground, 350.0, SIZE);
        let rgba = scene.render();
        let pixels = Pixels::of(SIZE.0 as usize, SIZE.1 as usize, &rgba).expect("pixels");
        all += 1;
        let off = proposed(pixels, &scene);
        near += usize::from(off.is_some_and(|off| off <= 3.0));
        let found = match cut(pixels, &scene, &edges(&scene)) {
            Ok(contour) => contour,
            Err(_) => {
                none += 1;
                continue;
            }
        };
        let shape = Shape::of(&found);
        let (l, w) = (shape.length / scene.sole.length - 1.0, shape.width / scene.sole.width - 1.0);
        let truth = Contour::of(&scene.sole.outline()).expect("an outline");
        let apart = Descriptors::of(found.points()).distance(&Descriptors::of(truth.points()));
        (long, wide, far) = (long.max(l.abs()), wide.max(w.abs()), far.max(apart));
        good += usize::from(l.abs() <= 0.01 && w.abs() <= 0.02);
    }
    println!(
        "figure: picture: outlines on {ground:?}: length within {:.2} %, width within {:.2} %, apart {far:.3}, {none} not found",
        100.0 * long,
        100.0 * wide
    );
    println!("figure: picture: edges proposed within 3 px on {ground:?}: {near} of {all}");
    assert_eq!(good, all);
    [near, all]
}

#[test]
fn outlines_have_their_true_size_and_cards_are_proposed() {
    let found = std::thread::scope(|scope| {
        let under_way = GROUNDS.map(|ground| scope.spawn(move || on(ground)));
        under_way.map(|one| one.join().expect("every outline of its true size"))
    });
    let [near, all] = [0, 1].map(|i| found.iter().map(|f| f[i]).sum::<usize>());
    println!("figure: picture: edges proposed within 3 px in {near} of {all} rendered photographs");
    assert!(all >= 40 && 10 * near >= 7 * all, "{near} of {all}");
}

#[test]
fn without_a_card_none_is_proposed() {
    let mut dice = Dice(77);
    for ground in GROUNDS {
        let mut scene = scene(&mut dice, ground, 350.0, SIZE);
        scene.card = [-20.0, -20.0];
        let rgba = scene.render();
        let pixels = Pixels::of(SIZE.0 as usize, SIZE.1 as usize, &rgba).expect("pixels");
        let mut proposing = Proposing::new(pixels, scene.camera.lens(Some(26)));
        let found = loop {
            if let Some(found) = proposing.step(pixels) {
                break found;
            }
        };
        assert!(found.is_none(), "{ground:?}: {found:?}");
    }
}

#[test]
fn a_wrong_cut_is_mended_and_none_is_said_so() {
    let mut dice = Dice(5);
    let mut scene = scene(&mut dice, Ground::Plain, 350.0, SIZE);
    let (sole, edges) = (scene.sole, edges(&scene));
    let rgba = scene.render();
    let (w, h) = (SIZE.0 as usize, SIZE.1 as usize);
    let whole = cut(Pixels::of(w, h, &rgba).expect("pixels"), &scene, &edges).expect("an outline");
    // A blot of ground over the middle of one long side, as a glaring light makes one.
    let side = sole.table(0.8, 0.5 * sole.width);
    let mut blotted = rgba.clone();
    let ground = [196, 192, 182];
    for y in 0..h {
        for x in 0..w {
            let p = scene.camera.table(Point::new(x as f64 + 0.5, y as f64 + 0.5), 0.0);
            if p.distance(side) < 8.0 {
                blotted[4 * (y * w + x)..][..3].copy_from_slice(&ground);
            }
        }
    }
    let blotted = Pixels::of(w, h, &blotted).expect("pixels");
    let bitten = cut(blotted, &scene, &edges).expect("an outline");
    // Half a disc of 8 mm is missing, about: 100 mm2.
    assert!(bitten.area() < whole.area() - 60.0, "{} {}", bitten.area(), whole.area());
    let mended = cut_mended(blotted, &scene, &edges, &|own| {
        let at = |v: f64| own(sole.table(0.8, v * sole.width));
        vec![Mend { at: at(0.38), radius: 0.12 * sole.width, piece: true }]
    });
    let mended = mended.expect("an outline");
    assert!(mended.area() > bitten.area() + 20.0, "{} {}", mended.area(), bitten.area());
    // What the person says is ground is ground.
    let cut_away = cut_mended(Pixels::of(w, h, &rgba).expect("pixels"), &scene, &edges, &|own| {
        vec![Mend { at: own(sole.table(1.0, 0.0)), radius: 0.2 * sole.length, piece: false }]
    });
    assert!(cut_away.expect("an outline").area() < 0.9 * whole.area());
    // Nothing lies there.
    scene.sole.middle = Point::new(1000.0, 1000.0);
    let bare = scene.render();
    scene.sole = sole;
    let bare = Pixels::of(w, h, &bare).expect("pixels");
    assert_eq!(cut(bare, &scene, &edges), Err(Uncut::NoPiece));
    let placed = place_card(&scene.camera.lens(Some(26)), &edges, 0.7).expect("a card");
    let told = |from: Point, to: Point| {
        let mut cutting = Cutting::new(placed.clone(), 0.0, Window { from, to }, Vec::new());
        loop {
            if let Some(found) = cutting.step(bare) {
                break found;
            }
        }
    };
    let zero = Point::default();
    assert_eq!(told(zero, zero), Err(Uncut::NoWindow));
    assert_eq!(told(zero, Point::new(f64::NAN, 4.0)), Err(Uncut::NoWindow));
    assert_eq!(told(Point::new(500.0, 500.0), Point::new(600.0, 600.0)), Err(Uncut::NoGround));
    assert_eq!(told(Point::new(-20.0, -10.0), Point::new(20.0, 10.0)), Err(Uncut::NoGround));
}
