//! Puts the figures together, view by view.

use crate::drawing::Drawing;
use crate::keys::{At, KEYS};
use crate::map::Map;
use crate::pen::{Pen, numbers};
use crate::piece;

/// Draws and gives the view box.
pub(crate) fn draw(pen: &mut Pen<'_>, d: &Drawing<'_>) -> (i32, i32) {
    match d.get(At::View) {
        "side" => piece::side(pen, d),
        "sole" => piece::sole(pen, d),
        "end" => piece::end(pen, d),
        "card" => piece::card(pen, d),
        "both" => {
            piece::both(pen, d);
            return (3280, 1040);
        }
        "three" => {
            piece::three(pen, d);
            return (3280, 1980);
        }
        "surface" => upon(pen, d, "patch", At::Surface),
        "cut" => {
            let grip = pen.get("grip", KEYS[At::Grip as usize].usual);
            pen.with(Map::new(760, 440, 760, 760), false, grip);
            one(pen, d, At::Inside);
        }
        "magnet" => magnet(pen, d),
        "heft" => heft(pen, d),
        "material" => sample(pen, d),
        "grip" => grip(pen, d),
        "company" => company(pen, d),
        _ => alone(pen, d),
    }
    (2000, 960)
}

/// One key by itself: the asked one, else the first that was said, else the first that the view draws. Before it comes
/// the ground of the view, unless the figure begins with a bar: what the bar is followed by stands on no ground, what
/// it comes after names one of its own.
fn alone(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let at = d.shown(At::View);
    pen.missing |= at == At::View as usize;
    let strokes = pen.get(KEYS[at].name, d.value(at));
    match strokes.split_once('|') {
        None => pen.part("view", d.get(At::View)),
        Some((head, _)) => {
            if let Some(part) = named(head, "part") {
                pen.part("part", part);
            }
        }
    }
    pen.with(Map::SAME, d.asks_place(at), headed(strokes).1);
}

pub(crate) fn value<'a>(pen: &mut Pen<'a>, d: &Drawing<'_>, at: At) -> &'a str {
    pen.get(KEYS[at as usize].name, d.get(at))
}

fn one(pen: &mut Pen<'_>, d: &Drawing<'_>, at: At) {
    pen.accent = d.asks(at);
    let strokes = value(pen, d, at);
    pen.draw(strokes);
}

/// A part that is left open for patterns, and what goes on with it. Before a bar the figure may give the part another
/// look.
fn upon(pen: &mut Pen<'_>, d: &Drawing<'_>, part: &str, at: At) {
    pen.accent = d.asks(at);
    let open = pen.get("part", part);
    pen.add(open);
    let (head, strokes) = headed(value(pen, d, at));
    if let Some(look) = named(head, "look").and_then(|look| look.bytes().next()) {
        pen.relook(look);
    }
    pen.draw(strokes);
}

/// What stands before the bar, and the strokes.
pub(crate) fn headed(strokes: &str) -> (&str, &str) {
    strokes.split_once('|').unwrap_or(("", strokes))
}

/// The value of a key that is named in a head.
pub(crate) fn named<'a>(head: &'a str, key: &str) -> Option<&'a str> {
    head.split_ascii_whitespace()
        .filter_map(|word| word.split_once('='))
        .find(|(k, _)| *k == key)
        .map(|(_, v)| v)
}

/// The grip alone, or what else the view of the grip draws.
fn grip(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let shown = d.shown(At::Grip);
    if shown != At::Grip as usize && shown != At::Cover as usize {
        return alone(pen, d);
    }
    pen.part("view", "grip");
    pen.accent = d.asks(At::Grip) || d.asks(At::Cover);
    let map = Map::new(1000, 920, 1640, 1640);
    if shown == At::Grip as usize {
        let grip = value(pen, d, At::Grip);
        return pen.with(map, pen.accent, grip);
    }
    // A cover names the grip that it is on, and goes on with it.
    let (head, cover) = headed(value(pen, d, At::Cover));
    let grip = pen.get("grip", named(head, "grip").unwrap_or(KEYS[At::Grip as usize].usual));
    pen.map = map;
    pen.add(grip);
    pen.map = Map::SAME;
    pen.draw(cover);
}

/// An iron and what came with it.
fn company(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let (head, strokes) = headed(value(pen, d, At::Company));
    // Where the iron stands and how large it is; 0 where the figure shows one of its own.
    let [x, ground, scale, ..] = numbers(head);
    if scale > 0 {
        small_iron(pen, Map::new(x, ground - scale * 9 / 10, scale, scale));
    }
    pen.with(Map::SAME, d.asks(At::Company), strokes);
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
    if wanted(At::Colour) && !value(pen, d, At::Colour).starts_with('|') {
        pen.part("part", "skin");
        return upon(pen, d, "scratch", At::Colour);
    }
    let keys = [At::Finish, At::Colour];
    let at = keys.into_iter().find(|at| wanted(*at)).unwrap_or(At::Material);
    if value(pen, d, at).starts_with('|') {
        // It stands by itself.
        return one(pen, d, at);
    }
    pen.part("view", "material");
    upon(pen, d, "bar", at);
}
