//! Puts the figures together, view by view.

use crate::drawing::Drawing;
use crate::keys::{At, KEYS};
use crate::pen::{Map, Pen, numbers};

/// Sole to the ground, tenths of a unit.
const GROUND: i32 = 900;

/// Draws and gives the view box.
pub(crate) fn draw(pen: &mut Pen<'_>, d: &Drawing<'_>) -> (i32, i32) {
    let view = d.get(At::View);
    match view {
        "side" => side(pen, d),
        "sole" => {
            let outline = Outline::of(pen, d);
            pen.accent = d.asks(At::Outline) || d.asks(At::Sole);
            sole(pen, d, &outline, outline.from, 480, outline.long);
        }
        "both" => {
            both(pen, d);
            return (3280, 1040);
        }
        "grip" => grip(pen, d),
        "joint" => one(pen, d, At::Fixing),
        "end" => {
            pen.part("view", view);
            one(pen, d, At::Door);
            pen.accent = d.asks(At::Cord);
            let cord = value(pen, d, At::Cord);
            pen.draw(cord.split_once('|').unwrap_or_default().1);
        }
        "card" => card(pen, d),
        "mark" => {
            pen.accent = d.asks(At::Mark) || d.asks(At::Letters);
            let letters = d.shows(At::Letters, At::Mark);
            let (key, ground, at) =
                if letters { ("part", "patch", At::Letters) } else { ("view", view, At::Mark) };
            pen.part(key, ground);
            let strokes = value(pen, d, at);
            pen.draw(strokes);
        }
        "surface" => upon(pen, d, "patch", At::Surface),
        "edge" => one(pen, d, At::Wear),
        "cut" => {
            let grip = pen.get("grip", KEYS[At::Grip as usize].usual);
            pen.with(Map::new(760, 440, 760, 760), false, grip);
            one(pen, d, At::Inside);
        }
        "seam" => one(pen, d, At::Seam),
        "screw" => {
            pen.part("part", "patch");
            one(pen, d, At::Screw);
        }
        "magnet" => magnet(pen, d),
        "heft" => heft(pen, d),
        "material" => sample(pen, d),
        _ => pen.missing = true,
    }
    (2000, 960)
}

/// Whether a body leaves room for a heel of choice.
pub(crate) fn takes_heel(body: &str) -> bool {
    body.contains('U')
}

fn value<'a>(pen: &mut Pen<'a>, d: &Drawing<'_>, at: At) -> &'a str {
    pen.get(KEYS[at as usize].name, d.get(at))
}

fn one(pen: &mut Pen<'_>, d: &Drawing<'_>, at: At) {
    pen.accent = d.asks(at);
    let strokes = value(pen, d, at);
    pen.draw(strokes);
}

/// A part that is left open for patterns, and what goes on with it.
fn upon(pen: &mut Pen<'_>, d: &Drawing<'_>, part: &str, at: At) {
    pen.accent = d.asks(at);
    let open = pen.get("part", part);
    pen.add(open);
    one(pen, d, at);
}

/// What stands before the bar, and the strokes.
fn headed(strokes: &str) -> (&str, &str) {
    strokes.split_once('|').unwrap_or(("", strokes))
}

/// The value of a key that is named in a head.
fn named<'a>(head: &'a str, key: &str) -> Option<&'a str> {
    head.split_ascii_whitespace()
        .filter_map(|word| word.split_once('='))
        .find(|(k, _)| *k == key)
        .map(|(_, v)| v)
}

/// The iron from the side, under the pen's present map.
fn side(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let map = pen.map;
    let body = value(pen, d, At::Body);
    let (head, strokes) = headed(body);
    // A body without a place for a grip is its own grip.
    let [mid, deck, scale, ..] = numbers(head);
    pen.accent = d.asks(At::Body) || scale == 0 && d.asks(At::Grip);
    let mut forward = 0;
    if takes_heel(strokes) {
        let heel = value(pen, d, At::Heel);
        let (moves, heel) = headed(heel);
        forward = numbers(moves)[0];
        pen.slot = (heel, (0, GROUND));
    }
    pen.draw(strokes);
    if takes_heel(strokes) && d.asks(At::Heel) {
        // Once more, as a line in the accent.
        let (heel, map) = (pen.slot.0, pen.slot_map);
        pen.with(map, true, "a");
        pen.with(map, true, heel);
    }
    for at in [At::Chimney, At::Vents, At::Cord] {
        pen.accent = d.asks(at);
        let strokes = chosen(pen, d, at, head);
        pen.draw(strokes.split_once('|').map_or(strokes, |(side, _)| side));
    }
    if scale == 0 {
        return;
    }
    let place = map.of(Map::new(mid + forward, deck, scale, scale));
    let top = value(pen, d, At::Top);
    pen.with(place, d.asks(At::Top), top);
    let grip = chosen(pen, d, At::Grip, head);
    pen.with(place, d.asks(At::Grip), grip);
}

/// What was said, else what is usual with this body, else what is usual.
fn chosen<'a>(pen: &mut Pen<'a>, d: &Drawing<'_>, at: At, head: &str) -> &'a str {
    let key = &KEYS[at as usize];
    let value = d.said(at).or(named(head, key.name)).unwrap_or(key.usual);
    pen.get(key.name, value)
}

/// An outline of a sole and its measures, tenths of a unit.
struct Outline<'a> {
    strokes: &'a str,
    from: i32,
    long: i32,
    /// Breadth against the first outline, per mille.
    broad: i32,
    /// The longest that fits on the view `card`, tenths of a mm.
    card: i32,
    /// The longest in the view `both`.
    both: i32,
}

impl<'a> Outline<'a> {
    fn of(pen: &mut Pen<'a>, d: &Drawing<'_>) -> Outline<'a> {
        let (head, strokes) = headed(value(pen, d, At::Outline));
        let [from, to, broad, card, both] = numbers(head);
        // The bounds hold off measures that no figure should have; a division by nothing would be one.
        let long = (to - from).clamp(100, 2000);
        Outline { strokes, from, long, broad, card, both }
    }
}

/// The iron from below: heel at x, middle at y, `wide` tenths of a unit long.
fn sole<'a>(pen: &mut Pen<'a>, d: &Drawing<'_>, outline: &Outline<'a>, x: i32, y: i32, wide: i32) {
    let &Outline { strokes, from, long, .. } = outline;
    let scale = wide * 1000 / long;
    pen.map = Map::new(x - from * scale / 1000, y - 48 * scale / 100, scale, scale);
    let map = pen.map;
    pen.add("b");
    pen.add(strokes);
    // Outlines within it are smaller about the middle.
    pen.slot = (strokes, (from + long / 2, 480));
    let face = value(pen, d, At::Sole);
    let (open, over) = face.split_once('|').unwrap_or((face, ""));
    pen.draw(open);
    // The rest is drawn for the first outline: fitted to the length and the breadth of this one.
    let fit = long * 1000 / 1740;
    pen.map = map.of(Map::new(
        (from / 10 - 14 * fit / 1000) * 10,
        48 * (1000 - outline.broad) / 100,
        fit,
        outline.broad,
    ));
    pen.draw(over);
}

/// Side and sole to one scale, with a bar of 50 mm where the length is known.
fn both(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let outline = Outline::of(pen, d);
    // What is broad for its length has to be shorter to find room.
    let mut wide = outline.both;
    if let Some(size) = d.size() {
        wide = wide.min(size * 1150 / 50);
    }
    let scale = wide * 100 / 171;
    let (ground, middle) = if d.size().is_some() { (850, 460) } else { (940, 520) };
    pen.map = Map::new(40 - 40 * scale / 1000, ground - scale * GROUND / 1000, scale, scale);
    side(pen, d);
    pen.accent = d.asks(At::Outline) || d.asks(At::Sole);
    sole(pen, d, &outline, 1740, middle, wide);
    if let Some(size) = d.size() {
        let bar = wide * 50 / size;
        let heel = 40 + 120 * scale / 1000;
        pen.accent = d.asks(At::Size);
        pen.map = Map::new(heel, 950, bar, 1000);
        pen.part("part", "scale");
        pen.map = Map::new(heel + bar, 950, 1000, 1000);
        pen.part("part", "fifty");
    }
}

/// The grip alone, or a rod in the hole of a cut grip.
fn grip(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    if d.shows(At::Holes, At::Grip) {
        return one(pen, d, At::Holes);
    }
    pen.part("view", "grip");
    let grip = value(pen, d, At::Grip);
    pen.with(Map::new(1000, 920, 1640, 1640), d.asks(At::Grip), grip);
}

/// The sole on a bank card of 85.60 x 53.98 mm, heel on the card's left edge, 1.1 units to the mm.
fn card(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let outline = Outline::of(pen, d);
    let size = d.size().unwrap_or(80);
    // What is longer than the frame, or broader than it, is cut short and gets an arrow.
    let shown = size.min(outline.card / 10);
    pen.part("view", "card");
    pen.accent = d.asks(At::Size) || d.asks(At::Outline);
    sole(pen, d, &outline, 140, 480, shown * 11);
    pen.map = Map::SAME;
    if size > 86 {
        // The card would be lost under the iron.
        pen.part("part", "card");
    }
    if size > shown {
        pen.part("part", "longer");
    }
}

/// A horseshoe magnet and a small iron.
fn magnet(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let (head, more) = headed(value(pen, d, At::Magnet));
    // Where the iron stands, where the poles are, and what else tells the story.
    let [ground, x, y, ..] = numbers(head);
    let asked = d.asks(At::Magnet);
    small_iron(pen, Map::new(700 - 99, ground - 558, 620, 620));
    let art = pen.get("part", named(head, "part").unwrap_or_default());
    pen.with(Map::new(x, y, 800, 800), asked, art);
    pen.with(Map::SAME, asked, more);
}

/// A beam: the iron hangs left, a fixed weight right.
fn heft(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    // How far the end with the iron sinks, tenths.
    let dip = numbers(value(pen, d, At::Heft))[0];
    pen.part("view", "heft");
    pen.map = Map::new(1500, 220 - dip, 1000, 1000);
    pen.part("part", "weight");
    pen.accent = d.asks(At::Heft);
    pen.map = Map::new(500, 220 + dip, 1000, 1000);
    pen.part("part", "hook");
    // The middle of the grip, 14 below the end of the beam.
    small_iron(pen, Map::new(500 - 288, 220 + dip + 140 - 50, 360, 360));
    // The ends of the beam move up and down by the dip.
    pen.map = Map::new(1000, 220, 1000, dip * 10);
    pen.part("part", "beam");
    pen.map = Map::new(1000, 220, 1000, 1000);
    pen.part("part", "pivot");
}

/// A flat iron with a bar for a grip.
fn small_iron(pen: &mut Pen<'_>, map: Map) {
    pen.map = map;
    pen.part("part", "iron");
    pen.map = map.of(Map::new(800, 600, 1000, 1000));
    pen.part("grip", KEYS[At::Grip as usize].usual);
}

/// A bar of a material or with a finish, or a scratch through its skin.
fn sample(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let wanted = |at: At| d.asks(at) || d.plain() && d.said(at).is_some();
    if wanted(At::Colour) {
        pen.part("part", "skin");
        return upon(pen, d, "scratch", At::Colour);
    }
    let finish = wanted(At::Finish);
    let at = if finish { At::Finish } else { At::Material };
    if value(pen, d, at).starts_with('|') {
        return one(pen, d, at);
    }
    pen.part("view", "material");
    upon(pen, d, "bar", at);
}
