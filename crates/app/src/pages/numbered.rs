//! A piece with numbers on its parts. Where a part is comes from the drawing itself: asked for the part, the sketch
//! tells which of its paths show it.

use super::block::lined;
use crate::ui::drawing::class;
use crate::ui::node::{Node, el, text};
use consult::book::{Part, Piece};
use sketch::{Art, Drawing, Look, Scene};

/// Room above and below the drawing for numbers, and how far apart they stand at least; tenths of a unit.
const MARGIN: i32 = 190;
const APART: i32 = 190;

/// A place on the drawing.
type Spot = (i32, i32);

pub(super) fn numbered(piece: &Piece, parts: &[Part], art: &Art) -> Node {
    let plain: Vec<&str> = piece.draw.split_ascii_whitespace().filter(|w| !w.starts_with("view=")).collect();
    let line = format!("{} view=three", plain.join(" "));
    let drawn = |line: &str| Drawing::parse(line).ok()?.shapes(art);
    let Some(scene) = drawn(&line) else { return el("div", "") };
    let found: Vec<(&Part, Vec<Spot>)> = parts
        .iter()
        .filter_map(|part| {
            let asked = drawn(&format!("{line} ask={}", part.key))?;
            Some((part, asked_spots(&asked)))
        })
        .filter(|(_, spots)| !spots.is_empty())
        .collect();
    let marks = placed(&scene, &found.iter().map(|(_, spots)| spots.as_slice()).collect::<Vec<_>>());
    let (width, height) = scene.view_box;
    let mut svg = el("svg", "draw numbered")
        .set("viewBox", &format!("0 {} {width} {}", -MARGIN, height + 2 * MARGIN))
        .set("role", "img")
        .set("aria-label", "The parts with their numbers; the list beneath names them.")
        .all(scene.shapes.iter().map(|s| el("path", class(s.look)).set("d", &s.path)));
    for (i, (x, y, to)) in marks.iter().enumerate() {
        svg = svg
            .put(el("path", "lead").set("d", &format!("M{x} {y}L{} {}", to.0, to.1)))
            .put(el("circle", "").number("cx", *x).number("cy", *y).set("r", "80"))
            .put(
                text("text", "", &(i + 1).to_string())
                    .number("x", *x)
                    .number("y", y + 42)
                    .set("text-anchor", "middle"),
            );
    }
    let list = found.iter().map(|(part, _)| {
        let item = text("li", "", &part.says);
        if part.words.is_empty() { item } else { item.put(lined(&part.words)) }
    });
    el("div", "numbers").put(svg).put(el("ol", "").all(list))
}

/// The corners of the first shape that is drawn as asked for, a part before a line: a part is seen from several sides,
/// and one number points to one of them.
fn asked_spots(scene: &Scene) -> Vec<Spot> {
    let first = |looks: &[Look]| scene.shapes.iter().find(|s| looks.contains(&s.look));
    let asked = first(&[Look::AskedBody]).or_else(|| first(&[Look::Asked, Look::AskedThin]));
    asked.map_or(Vec::new(), |shape| corners(&shape.path))
}

/// The pairs of numbers in a path.
fn corners(path: &str) -> Vec<Spot> {
    let mut numbers = path.split(|c: char| c != '-' && !c.is_ascii_digit()).filter_map(|n| n.parse().ok());
    let mut spots = Vec::new();
    while let (Some(x), Some(y)) = (numbers.next(), numbers.next()) {
        spots.push((x, y));
    }
    spots
}

/// For each part where its number stands, above or below the drawing, and the corner that it points to.
fn placed(scene: &Scene, parts: &[&[Spot]]) -> Vec<(i32, i32, Spot)> {
    let (width, height) = scene.view_box;
    let mut marks: Vec<(i32, i32, Spot)> = parts
        .iter()
        .map(|spots| {
            let middle = |of: fn(&Spot) -> i32| {
                let (low, high) =
                    spots.iter().map(of).fold((i32::MAX, i32::MIN), |(l, h), v| (l.min(v), h.max(v)));
                (low + high) / 2
            };
            let (x, above) = (middle(|s| s.0), middle(|s| s.1) * 2 < height);
            let y = if above { -MARGIN / 2 } else { height + MARGIN / 2 };
            (x, y, (x, y))
        })
        .collect();
    for y in [-MARGIN / 2, height + MARGIN / 2] {
        spread(&mut marks, y, width);
    }
    for (mark, spots) in marks.iter_mut().zip(parts) {
        let far = |s: &&Spot| (s.0 - mark.0).abs() + (s.1 - mark.1).abs();
        mark.2 = spots.iter().min_by_key(far).copied().unwrap_or(mark.2);
    }
    marks
}

/// Moves the numbers of one line apart.
fn spread(marks: &mut [(i32, i32, Spot)], y: i32, width: i32) {
    let mut line: Vec<&mut (i32, i32, Spot)> = marks.iter_mut().filter(|m| m.1 == y).collect();
    let xs: Vec<i32> = line.iter().map(|m| m.0).collect();
    let order = units::order(xs.len(), &|a, b| xs[a].cmp(&xs[b]));
    let mut least = MARGIN / 2;
    for at in &order {
        line[*at].0 = line[*at].0.max(least);
        least = line[*at].0 + APART;
    }
    let mut most = width - MARGIN / 2;
    for at in order.iter().rev() {
        line[*at].0 = line[*at].0.min(most);
        most = line[*at].0 - APART;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_of_a_path() {
        assert_eq!(corners("M10 -20L30 40Q1 2 3 4Z"), [(10, -20), (30, 40), (1, 2), (3, 4)]);
        assert_eq!(corners(""), []);
    }

    #[test]
    fn numbers_stand_apart_inside_the_frame_and_point_to_their_parts() {
        let scene = Scene { view_box: (3280, 1980), shapes: Vec::new() };
        // Six parts at one place, one at the right edge, one below.
        let crowd: Vec<Spot> = vec![(100, 100), (200, 300)];
        let edge: Vec<Spot> = vec![(3270, 400)];
        let below: Vec<Spot> = vec![(1600, 1800), (1700, 1900)];
        let mut parts: Vec<&[Spot]> = vec![&crowd; 6];
        parts.extend([&edge[..], &below[..]]);
        let marks = placed(&scene, &parts);
        for (i, (x, y, to)) in marks.iter().enumerate() {
            assert!((MARGIN / 2..=3280 - MARGIN / 2).contains(x), "{x}");
            assert!(parts[i].contains(to), "{to:?}");
            for (a, b, _) in &marks[i + 1..] {
                assert!(b != y || (a - x).abs() >= APART, "{a} and {x}");
            }
        }
        assert_eq!((marks[6].1, marks[7].1), (-MARGIN / 2, 1980 + MARGIN / 2));
    }
}
