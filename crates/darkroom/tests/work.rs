//! The whole way through the messages: a picture drawn here by a known camera goes in by rows, the card is placed, a length
//! and an outline come out.

use darkroom::Work;
use picture::ask::{Asked, Patch, Spot, Told};

const SIZE: [usize; 2] = [1200, 900];
/// Focal length in pixels: 26 mm on a diagonal of 43.2666 mm; the picture's diagonal has 1500 pixels. Arithmetic.
const FOCAL: f64 = 26.0 / 43.266_615_305_567_87 * 1500.0;
/// Straight above, mm.
const FAR: f64 = 400.0;

fn pixel(mm: [f64; 2]) -> [f64; 2] {
    [600.0 + FOCAL * mm[0] / FAR, 450.0 + FOCAL * mm[1] / FAR]
}

fn spot(mm: [f64; 2]) -> Spot {
    let [x, y] = pixel(mm);
    Spot::new((x * 10.0) as i32, (y * 10.0) as i32)
}

/// A blue card of 85.60 x 53.98 mm (ISO/IEC 7810, published) round (0, -40), a dark block of 90 x 40 mm round (0, 40).
fn picture() -> Vec<u8> {
    let mut rgba = Vec::with_capacity(4 * SIZE[0] * SIZE[1]);
    for y in 0..SIZE[1] {
        for x in 0..SIZE[0] {
            let mm = [(x as f64 + 0.5 - 600.0) * FAR / FOCAL, (y as f64 + 0.5 - 450.0) * FAR / FOCAL];
            let within =
                |middle: f64, w: f64, h: f64| mm[0].abs() < w / 2.0 && (mm[1] - middle).abs() < h / 2.0;
            let colour = if within(-40.0, 85.6, 53.98) {
                [40, 72, 124]
            } else if within(40.0, 90.0, 40.0) {
                [58, 54, 52]
            } else {
                [201, 191, 174]
            };
            rgba.extend(colour.iter().chain(&[255]));
        }
    }
    rgba
}

fn opened() -> Work {
    let mut work = Work::default();
    work.head(b"no JPEG");
    assert!(work.begin(SIZE[0], SIZE[1]));
    let rgba = picture();
    let mut told = None;
    for rows in rgba.chunks(4 * SIZE[0] * 64) {
        assert!(told.is_none());
        told = work.rows(rows);
    }
    assert_eq!(told, Some(Told::Opened { width: 1200, height: 900, equivalent: 0, place: false }));
    work
}

fn answer(work: &mut Work, asked: &Asked) -> Told {
    work.ask(&asked.words());
    let mut last = 0;
    for _ in 0..100_000 {
        if let Some(told) = work.step() {
            // What the page reads is what was told.
            assert_eq!(Told::of(&told.words()), Some(told.clone()));
            return told;
        }
        assert!(work.done() >= last && work.done() <= 1000);
        last = work.done();
    }
    unreachable!("no answer")
}

#[test]
fn from_a_picture_to_its_figures() {
    let mut work = opened();
    let Told::Proposed(Some(edges)) = answer(&mut work, &Asked::Propose) else { unreachable!("a card") };
    let Told::Placed { above, leans } = answer(&mut work, &Asked::Card { edges, tap: 150 }) else {
        unreachable!("a place")
    };
    // By construction, within what a lens that is not stated leaves open.
    assert!((3000..5200).contains(&above) && leans < 120, "{above} {leans}");
    let ends = [spot([-45.0, 40.0]), spot([45.0, 40.0])];
    let Told::Length(found) = answer(&mut work, &Asked::Length { ends, height: [0, 10], tap: 150 }) else {
        unreachable!("a length")
    };
    assert!(found.low <= 900 && 900 <= found.high && (found.length - 900).abs() < 20, "{found:?}");
    let cut = |patches| Asked::Cut { around: ends.to_vec(), height: 0, patches };
    let Told::Cut(outline) = answer(&mut work, &cut(Vec::new())) else { unreachable!("an outline") };
    assert!((outline.length - 900).abs() < 15 && (outline.width - 400).abs() < 15, "{outline:?}");
    // The drawn block of the same proportions is nearer than a square.
    let block = |w: i32, h: i32| vec![Spot::new(0, 0), Spot::new(w, 0), Spot::new(w, h), Spot::new(0, h)];
    let asked = Asked::Compare(vec![block(900, 400), block(500, 500)]);
    let Told::Compared(far) = answer(&mut work, &asked) else { unreachable!("distances") };
    assert!(far[0][0] < 40 && far[0][0] < far[1][0], "{far:?}");
    assert!((far[0][1] - 444).abs() < 15, "{far:?}");
    let away = Patch { at: spot([40.0, 40.0]), radius: 220, piece: false };
    let Told::Cut(bitten) = answer(&mut work, &cut(vec![away])) else { unreachable!("an outline") };
    assert!(bitten.area < outline.area - 300, "{} {}", bitten.area, outline.area);
}

#[test]
fn what_makes_no_sense_is_told_so() {
    let mut work = Work::default();
    work.ask(&Asked::Propose.words());
    assert_eq!(work.step(), Some(Told::Nonsense));
    assert_eq!(work.step(), None);
    for size in [[0, 10], [darkroom::LONGEST + 1, 100], [15, 15]] {
        assert!(!work.begin(size[0], size[1]));
        assert_eq!(work.rows(&[0; 64]), Some(Told::Nonsense));
    }
    assert!(work.begin(16, 16));
    assert_eq!(work.rows(&[0; 63]), Some(Told::Nonsense));
    assert_eq!(work.rows(&vec![0; 4 * 16 * 17]), Some(Told::Nonsense));
    let mut work = opened();
    for asked in [
        Asked::Length { ends: [spot([0.0, 0.0]), spot([9.0, 9.0])], height: [0, 0], tap: 100 },
        Asked::Cut { around: vec![spot([0.0, 0.0]), spot([9.0, 9.0])], height: 0, patches: Vec::new() },
        Asked::Compare(Vec::new()),
    ] {
        // Before a card is placed.
        assert_eq!(answer(&mut work, &asked), Told::Nonsense);
    }
    work.ask(&[77, 1, 2]);
    assert_eq!(work.step(), Some(Told::Nonsense));
}
