//! Puts the parts together, view by view.

use crate::Shape;
use crate::bodies::{BODIES, CHIMNEYS, CORDS, HEELS, TOPS, VENTS};
use crate::details::{
    CORD_ENDS, DOORS, EDGES, END, INSIDES, LETTERS, MAGNET, MAGNET_DOWN, MAGNET_UP, MARKS, OUTLINES, SCREWS,
    SEAMS, SOLES, TOP,
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
        1 => sole(&mut pen, d),
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
            if d.asks(At::Door) && d.get(At::Door) == 0 || d.asks(At::Cord) && d.get(At::Cord) == 0 {
                pen.with(Map::SAME, true, "nM64 40H136V82H64Z");
            }
        }
        6 => card(&mut pen, d),
        7 => {
            pen.accent = d.asks(At::Mark) || d.asks(At::Letters);
            if d.said(At::Letters).is_some() || d.asks(At::Letters) {
                pen.draw(PATCH);
                pen.draw(pick(&LETTERS, d.get(At::Letters)));
            } else {
                pen.draw(TOP);
                pen.draw(pick(&MARKS, d.get(At::Mark)));
            }
        }
        8 => pair(&mut pen, d, At::Surface, PATCH, &SURFACES),
        9 => one(&mut pen, At::Wear, &EDGES),
        10 => one(&mut pen, At::Inside, &INSIDES),
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
    pen.accent = d.asks(At::Body);
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
        let place = or_usual(at, i);
        pen.accent = d.asks(at);
        pen.draw(pick(table, place));
        if pen.accent && place == 0 {
            pen.draw(["nM140 40H176V24", "nM34 72H150", "nM6 64H14"][i - 1]);
        }
    }
    let place = Map::new(body.mid * 10, body.deck * 10, body.scale, body.scale);
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

/// The iron from below, under the pen's present map.
fn sole(pen: &mut Pen, d: &Drawing) {
    let (patterns, over) = pick(&SOLES, d.get(At::Sole));
    pen.accent = d.asks(At::Outline);
    pen.add("b");
    pen.add(pick(&OUTLINES, d.get(At::Outline)));
    pen.accent = d.asks(At::Sole);
    pen.draw(patterns);
    pen.draw(over);
}

/// Side and sole to one scale, with a bar of 50 mm where the length is known.
fn both(pen: &mut Pen, d: &Drawing) {
    // Width of the iron and of the bar, tenths of a unit; the side drawing is 171 units long, the sole 174.
    let (mut wide, mut bar) = (1480, 0);
    if let Some(size) = d.said(At::Size) {
        let size = i32::from(size);
        bar = 500 * 148 / size;
        if bar > 1150 {
            bar = 1150;
            wide = size * 1150 / 50;
        }
    }
    let scale = wide * 1000 / 1710;
    let ground = if bar > 0 { 850 } else { 960 };
    pen.map = Map::new(
        90 - scale * 160 / 1000,
        ground - scale * GROUND / 1000,
        scale,
        scale,
    );
    side(pen, d);
    pen.map = Map::new(
        1720 - scale * 140 / 1000,
        ground - scale * 880 / 1000,
        scale,
        scale,
    );
    sole(pen, d);
    if bar > 0 {
        pen.map = Map::SAME;
        pen.accent = d.asks(At::Size);
        let end = 9 + bar / 10;
        pen.map = Map::new(90, 950, 1000, 1000);
        pen.draw("tM0 -4V4");
        pen.map.sx = bar;
        pen.draw("tM0 0H100");
        pen.map = Map::new(end * 10, 950, 1000, 1000);
        pen.draw("tM0 -4V4G7 5 10'50'G27 5 10'mm'");
    }
}

/// The grip alone, or a rod in the hole of a cut grip.
fn grip(pen: &mut Pen, d: &Drawing) {
    if d.asks(At::Holes) || d.said(At::Holes).is_some() {
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
    let size = d.said(At::Size).map_or(86, i32::from);
    // What is longer than the frame runs on, with an arrow.
    let shown = size.min(158);
    let scale = shown * 1100 / 174;
    pen.draw("iR14 18 94.2 59.4 3.5");
    let map = Map::new(140 - scale * 140 / 1000, 480 - scale * 480 / 1000, scale, scale);
    pen.map = map;
    pen.accent = d.asks(At::Size) || d.asks(At::Outline);
    pen.add("b");
    pen.draw(pick(&OUTLINES, d.get(At::Outline)));
    pen.map = Map::SAME;
    pen.draw("iR14 18 94.2 59.4 3.5fR24 40 14 11 2M24 45.5H38M86 66H98");
    if size > shown {
        pen.draw("aM150 48H178M168 40L178 48L168 56");
    }
}

fn magnet(pen: &mut Pen, d: &Drawing) {
    let asked = d.asks(At::Magnet);
    let value = d.get(At::Magnet);
    // The iron is small here; it stands higher where the magnet comes from below.
    let ground = if value == 2 { 560 } else { 880 };
    let scale = 760;
    pen.map = Map::new(560, ground - scale * GROUND / 1000, scale, scale);
    small_iron(pen, pen.map);
    pen.map = Map::SAME;
    pen.accent = asked;
    match value {
        0 => {
            pen.map = Map::new(670, 770, 1000, 1000);
            pen.draw(MAGNET);
        }
        1 => {
            pen.map = Map::new(430, 700, 1000, 1000);
            pen.draw(MAGNET);
            pen.draw("aM10 -28L20 -12M20 -28L10 -12M-22 -30V-44M-30 -38L-22 -28L-14 -38");
        }
        2 => {
            pen.map = Map::new(1160, 570, 1000, 1000);
            pen.draw(MAGNET_UP);
        }
        3 => {
            pen.map = Map::new(1160, 310, 1000, 1000);
            pen.draw(MAGNET_DOWN);
        }
        _ => {
            pen.map = Map::new(560, 770, 1000, 1000);
            pen.draw(MAGNET);
            pen.draw("tM5 -18V18M8 -10V10");
        }
    }
}

/// A balance: the iron left, the weight right.
fn heft(pen: &mut Pen, d: &Drawing) {
    // How far the pan of the iron sinks, tenths.
    let dip = (i32::from(d.get(At::Heft)) - 2) * 70;
    let asked = d.asks(At::Heft);
    pen.draw("bM70 92Q72 84 86 84H114Q128 84 130 92ZM97 84V22H103V84Z");
    pen.map = Map::new(1480, 200 - dip, 1000, 1000);
    pen.draw("lM0 0L-32 44H32ZbM-13 43V30Q-13 27 -6 27V22H6V27Q13 27 13 30V43Z");
    pen.accent = asked;
    pen.map = Map::new(520, 200 + dip, 1000, 1000);
    pen.draw("lM0 0L-36 44H36Z");
    small_iron(pen, Map::new(180, 630 + dip - 378, 420, 420));
    // The ends of the beam move up and down by the dip.
    pen.map = Map::new(1000, 200, 1000, dip * 10);
    pen.draw("lM-48 10L48 -10");
    pen.map = Map::new(1000, 200, 1000, 1000);
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
