//! Puts the parts together, view by view.

use crate::Shape;
use crate::bodies::{BODIES, CHIMNEYS, CORDS, HEELS, TOPS, VENTS};
use crate::details::{
    CORD_ENDS, DOORS, EDGES, END, INSIDES, LETTERS, MAGNET, MAGNET_DOWN, MAGNET_UP, MARKS, OUTLINES, SCREWS,
    SEAMS, SOLES, SPANS, TOP,
};
use crate::drawing::Drawing;
use crate::grips::{GRIPS, HOLES, JOINTS};
use crate::patches::{BAR, COLOURS, FINISHES, MATERIALS, PATCH, SCRATCH, SURFACES};
use crate::pen::{Map, Pen};
use crate::words::At;

/// Sole to the ground, tenths of a unit.
const GROUND: i32 = 900;

/// View box and shapes of a drawing.
pub(crate) fn scene(d: &Drawing) -> ((i32, i32), Vec<Shape>) {
    let mut pen = Pen::new();
    let one = |pen: &mut Pen, at: At, table: &[&str]| {
        pen.accent = d.asks(at);
        pen.draw(pick(table, d.get(at)));
    };
    let mut view_box = (2000, 960);
    match d.get(At::View) {
        0 => side(&mut pen, d),
        1 => {
            let (from, to) = pick(&SPANS, d.get(At::Outline));
            pen.accent = d.asks(At::Outline) || d.asks(At::Sole);
            sole(&mut pen, d, from * 10, 480, (to - from) * 10);
        }
        2 => {
            view_box = (3280, 1040);
            both(&mut pen, d);
        }
        3 => grip(&mut pen, d),
        4 => one(&mut pen, At::Fixing, &JOINTS),
        5 => {
            pen.draw(END);
            one(&mut pen, At::Door, &DOORS);
            one(&mut pen, At::Cord, &CORD_ENDS);
        }
        6 => card(&mut pen, d),
        7 => {
            pen.accent = d.asks(At::Mark) || d.asks(At::Letters);
            if d.shows(At::Letters, At::Mark) {
                pen.draw(PATCH);
                pen.draw(pick(&LETTERS, d.get(At::Letters)));
            } else {
                pen.draw(TOP);
                pen.draw(pick(&MARKS, d.get(At::Mark)));
            }
        }
        8 => pair(&mut pen, d, At::Surface, PATCH, &SURFACES),
        9 => one(&mut pen, At::Wear, &EDGES),
        10 => {
            pen.with(Map::new(760, 440, 760, 760), false, GRIPS[0]);
            one(&mut pen, At::Inside, &INSIDES);
        }
        11 => one(&mut pen, At::Seam, &SEAMS),
        12 => {
            pen.draw(PATCH);
            one(&mut pen, At::Screw, &SCREWS);
        }
        13 => magnet(&mut pen, d),
        14 => heft(&mut pen, d),
        _ => sample(&mut pen, d),
    }
    (view_box, pen.shapes)
}

fn pick<T: Copy + Default>(table: &[T], at: u16) -> T {
    table.get(usize::from(at)).copied().unwrap_or_default()
}

/// Art that is left open for patterns, the patterns, and what goes over them.
fn pair(pen: &mut Pen, d: &Drawing, at: At, open: &str, table: &[(&str, &str)]) {
    let (patterns, over) = pick(table, d.get(at));
    pen.accent = d.asks(at);
    pen.add(open);
    pen.draw(patterns);
    pen.draw(over);
}

/// The iron from the side, under the pen's present map.
fn side(pen: &mut Pen, d: &Drawing) {
    let map = pen.map;
    let Some(body) = BODIES.get(usize::from(d.get(At::Body))) else {
        return;
    };
    let or_usual = |at: At, i: usize| d.said(at).unwrap_or(u16::from(body.usual[i]));
    // The heel is drawn for a deck on 60: stretched to the deck of this body.
    let stretch = (900 - body.deck * 10) * 1000 / 300;
    let heel_map = map.of(Map::new(0, GROUND - GROUND * stretch / 1000, 1000, stretch));
    let heel = pick(&HEELS, d.get(At::Heel));
    pen.accent = d.asks(At::Body) || body.scale == 0 && d.asks(At::Grip);
    pen.draw("b");
    if body.heel {
        pen.map = heel_map;
        pen.add(heel);
        pen.map = map;
    }
    pen.draw(body.art);
    pen.draw(body.over);
    if body.heel && d.asks(At::Heel) {
        pen.with(heel_map, true, "a");
        pen.with(heel_map, true, heel);
    }
    for (at, i, table) in [
        (At::Chimney, 2, &CHIMNEYS[..]),
        (At::Vents, 1, &VENTS[..]),
        (At::Cord, 3, &CORDS[..]),
    ] {
        pen.accent = d.asks(at);
        pen.draw(pick(table, or_usual(at, i)));
    }
    if body.scale == 0 {
        return;
    }
    // Between two points the grip stands in the middle.
    let mid = body.mid + if body.heel && d.get(At::Heel) == 4 { 14 } else { 0 };
    let place = Map::new(mid * 10, body.deck * 10, body.scale, body.scale);
    let top = d.get(At::Top);
    if top > 0 || d.asks(At::Top) {
        pen.with(map.of(place), d.asks(At::Top), pick(&TOPS, top));
    }
    pen.with(
        map.of(place),
        d.asks(At::Grip),
        pick(&GRIPS, or_usual(At::Grip, 0)),
    );
}

/// The iron from below: heel at x, middle at y, `wide` tenths of a unit long.
fn sole(pen: &mut Pen, d: &Drawing, x: i32, y: i32, wide: i32) {
    let outline = d.get(At::Outline);
    let (from, to) = pick(&SPANS, outline);
    let scale = wide * 100 / (to - from).max(1);
    pen.map = Map::new(x - from * scale / 100, y - 48 * scale / 100, scale, scale);
    pen.add("b");
    pen.add(pick(&OUTLINES, outline));
    let Some((patterns, look, within, over)) = SOLES.get(usize::from(d.get(At::Sole))) else {
        return;
    };
    pen.draw(patterns);
    let map = pen.map;
    for inner in *within {
        // Smaller outlines about the middle.
        let middle = (from + to) / 2;
        pen.map = map.of(Map::new(
            middle * (1000 - inner) / 100,
            48 * (1000 - inner) / 100,
            *inner,
            *inner,
        ));
        pen.add(look);
        pen.draw(pick(&OUTLINES, outline));
    }
    // The rest is drawn for the first outline: fitted to the length and the breadth of this one.
    let wide = (to - from) * 1000 / 174;
    let high = pick(&[1000, 700, 800, 900, 400, 540, 760, 950], outline);
    pen.map = map.of(Map::new(
        (from - 14 * wide / 1000) * 10,
        48 * (1000 - high) / 100,
        wide,
        high,
    ));
    pen.draw(over);
}

/// Side and sole to one scale, with a bar of 50 mm where the length is known.
fn both(pen: &mut Pen, d: &Drawing) {
    // What is broad for its length has to be shorter to find room. Tenths of a unit.
    let mut wide = pick(
        &[1480, 1480, 1480, 860, 1480, 1480, 1480, 1320],
        d.get(At::Outline),
    );
    let size = d.said(At::Size).map(i32::from);
    if let Some(size) = size {
        wide = wide.min(size * 1150 / 50);
    }
    let scale = wide * 100 / 171;
    let (ground, middle) = if size.is_some() { (850, 460) } else { (940, 520) };
    pen.map = Map::new(
        40 - 40 * scale / 1000,
        ground - scale * GROUND / 1000,
        scale,
        scale,
    );
    side(pen, d);
    pen.accent = d.asks(At::Outline) || d.asks(At::Sole);
    sole(pen, d, 1740, middle, wide);
    if let Some(size) = size {
        let bar = wide * 50 / size;
        let heel = 40 + 120 * scale / 1000;
        pen.accent = d.asks(At::Size);
        pen.map = Map::new(heel, 950, bar, 1000);
        pen.draw("tM0 -4V4M0 0H100M100 -4V4");
        pen.map = Map::new(heel + bar, 950, 1000, 1000);
        pen.draw("tG7 5 10'50'G29 5 10'mm'");
    }
}

/// The grip alone, or a rod in the hole of a cut grip.
fn grip(pen: &mut Pen, d: &Drawing) {
    if d.shows(At::Holes, At::Grip) {
        pen.accent = d.asks(At::Holes);
        pen.draw(pick(&HOLES, d.get(At::Holes)));
        return;
    }
    pen.draw("lM6 92H194");
    pen.with(
        Map::new(1000, 920, 1640, 1640),
        d.asks(At::Grip),
        pick(&GRIPS, d.get(At::Grip)),
    );
}

/// The sole on a bank card of 85.60 x 53.98 mm, heel on the card's left edge, 1.1 units to the mm.
fn card(pen: &mut Pen, d: &Drawing) {
    let size = d.said(At::Size).map_or(80, i32::from);
    // What is longer than the frame, or broader than it, is cut short and gets an arrow.
    let shown = size.min(pick(&[158, 158, 158, 80, 158, 158, 158, 110], d.get(At::Outline)));
    pen.draw("iR14 18 94.2 59.4 3.5fM14 23.5H108M14 31H108M90 70H100");
    pen.accent = d.asks(At::Size) || d.asks(At::Outline);
    sole(pen, d, 140, 480, shown * 11);
    pen.map = Map::SAME;
    if size > 86 {
        // The card would be lost under the iron.
        pen.draw("iR14 18 94.2 59.4 3.5");
    }
    if size > shown {
        pen.draw("aM150 48H178M168 40L178 48L168 56");
    }
}

/// A horseshoe magnet and a small iron.
fn magnet(pen: &mut Pen, d: &Drawing) {
    let asked = d.asks(At::Magnet);
    // Where the iron stands, where the poles are, and what else tells the story.
    let (ground, x, y, art, more) = match d.get(At::Magnet) {
        0 => (800, 690, 705, MAGNET, "aM48 46L52 52M60 43V50M72 46L68 52"),
        1 => (
            800,
            440,
            705,
            MAGNET,
            "aM28 18V42M20 33L28 42L36 33M51 65L62 76M62 65L51 76",
        ),
        2 => (560, 1130, 575, MAGNET_UP, "aM88 66L94 72M138 66L132 72"),
        3 => (890, 1130, 410, MAGNET_DOWN, "aM86 24L92 30M140 24L134 30"),
        _ => (800, 590, 705, MAGNET, "nM63.5 60V82M66.5 60V82"),
    };
    small_iron(pen, Map::new(700 - 99, ground - 558, 620, 620));
    pen.with(Map::new(x, y, 800, 800), asked, art);
    pen.with(Map::SAME, asked, more);
}

/// A beam: the iron hangs left, a fixed weight right.
fn heft(pen: &mut Pen, d: &Drawing) {
    // How far the end with the iron sinks, tenths.
    let dip = (i32::from(d.get(At::Heft)) - 2) * 75;
    let asked = d.asks(At::Heft);
    pen.draw("bM70 92Q72 84 86 84H114Q128 84 130 92ZM97 84V22H103V84Z");
    pen.map = Map::new(1500, 220 - dip, 1000, 1000);
    pen.draw("lM0 0V16bM-14 40V26Q-14 22 -7 22V16H7V22Q14 22 14 26V40Z");
    pen.accent = asked;
    pen.map = Map::new(500, 220 + dip, 1000, 1000);
    pen.draw("lM0 0V14");
    // The middle of the grip, 14 below the end of the beam.
    small_iron(pen, Map::new(500 - 288, 220 + dip + 140 - 50, 360, 360));
    // The ends of the beam move up and down by the dip.
    pen.map = Map::new(1000, 220, 1000, dip * 10);
    pen.draw("lM-50 10L50 -10");
    pen.map = Map::new(1000, 220, 1000, 1000);
    pen.draw("bO0 0 4");
}

/// A flat iron with a bar for a grip.
fn small_iron(pen: &mut Pen, map: Map) {
    pen.map = map;
    pen.add("b");
    pen.add(HEELS[0]);
    pen.draw(BODIES[0].art);
    pen.map = map.of(Map::new(800, 600, 1000, 1000));
    pen.draw(GRIPS[0]);
}

/// A bar of a material or with a finish, or a scratch through its skin.
fn sample(pen: &mut Pen, d: &Drawing) {
    let wanted = |at: At| d.asks(at) || d.get(At::Ask) == 0 && d.said(at).is_some();
    if wanted(At::Colour) {
        pen.accent = false;
        pen.add(PATCH);
        pen.draw("Y16Y17");
        pair(pen, d, At::Colour, SCRATCH, &COLOURS);
        return;
    }
    let finish = wanted(At::Finish);
    pen.draw(BAR.0);
    if finish {
        pair(pen, d, At::Finish, BAR.1, &FINISHES);
    } else {
        pair(pen, d, At::Material, BAR.1, &MATERIALS);
    }
}
