//! The iron itself: from the side, from behind and from below, and the views that show several of these to one scale.

use crate::drawing::Drawing;
use crate::keys::{At, KEYS};
use crate::map::Map;
use crate::pen::{BARE, Pen, numbers};
use crate::scene::{headed, named, value};

/// Sole to the ground, tenths of a unit.
const GROUND: i32 = 900;
/// How long a body is from the side when its head does not say it; it stands in the middle of the frame.
const LONG: i32 = 1710;
const MIDDLE: i32 = 1015;
/// The deck of the body for which heels, walls and what is on the sides are drawn stands so high over the sole.
const HIGH: i32 = 300;
/// Half the breadth for which walls and bodies from behind are drawn.
const HALF: i32 = 410;

/// A body, with what its head says.
struct Body<'a> {
    head: &'a str,
    strokes: &'a str,
    /// Where the middle of the grip stands, and the deck.
    mid: i32,
    deck: i32,
    /// The size of the grip, per mille; 0 for a body that is its own grip.
    scale: i32,
    long: i32,
}

impl<'a> Body<'a> {
    fn of(pen: &mut Pen<'a>, d: &Drawing<'_>) -> Body<'a> {
        let mut name = d.get(At::Body);
        if d.said(At::Body).is_none() {
            // A height has a body of its own, and what is on the sides wants one with room for it.
            for at in [At::Height, At::Sides].into_iter().filter(|at| d.said(*at).is_some()) {
                name = named(headed(value(pen, d, at)).0, "body").unwrap_or(name);
            }
        }
        let (head, strokes) = headed(pen.get(KEYS[At::Body as usize].name, name));
        let [mid, deck, scale, long, ..] = numbers(head);
        let long = if long > 0 { long.clamp(100, 2000) } else { LONG };
        Body { head, strokes, mid, deck, scale, long }
    }

    /// What was said, else what is usual with this body, else what is usual.
    fn chosen(&self, pen: &mut Pen<'a>, d: &Drawing<'_>, at: At) -> &'a str {
        let key = &KEYS[at as usize];
        pen.get(key.name, self.name(d, at))
    }

    fn name<'b>(&'b self, d: &Drawing<'b>, at: At) -> &'b str {
        let key = &KEYS[at as usize];
        d.said(at).or(named(self.head, key.name)).unwrap_or(key.usual)
    }
}

/// Whether a body leaves room for a heel of choice.
pub(crate) fn takes_heel(body: &str) -> bool {
    body.contains('U')
}

/// From the side alone.
pub(crate) fn side(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let body = Body::of(pen, d);
    beside(pen, d, &body);
}

/// From below alone.
pub(crate) fn sole(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let body = Body::of(pen, d);
    let outline = Outline::of(pen, d, &body);
    pen.accent = d.asks(At::Outline) || d.asks(At::Sole);
    below(pen, d, &body, &outline, outline.from, 480, outline.long);
    if d.asks(At::Width) {
        let (_, measures) = headed(value(pen, d, At::Width));
        pen.with(Map::SAME, true, measures);
    }
}

/// From behind alone.
pub(crate) fn end(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let mut body = Body::of(pen, d);
    let mut broad = Outline::of(pen, d, &body).beside(&body);
    let high = (GROUND - body.deck).max(1);
    let mut tall = 1000;
    if body.scale > 0 && [At::Walls, At::Door, At::Cord].iter().any(|at| d.asks(*at)) {
        // The body fills the frame, and the grip only shows that it is one.
        tall = 570_000 / high;
        (body.deck, body.scale, broad) = (330, 600, if d.asks(At::Walls) { 2000 } else { 1366 });
    }
    pen.map = Map::new(1000, 0, 1000, 1000);
    behind(pen, d, &body, broad, tall);
}

/// The iron from the side, under the pen's present map.
fn beside<'a>(pen: &mut Pen<'a>, d: &Drawing<'_>, body: &Body<'a>) {
    let map = pen.map;
    let &Body { head: _, strokes, mid, deck, scale, .. } = body;
    pen.accent = d.asks(At::Body) || d.asks(At::Height) || scale == 0 && d.asks(At::Grip);
    let mut forward = 0;
    if takes_heel(strokes) {
        let (moves, heel) = headed(value(pen, d, At::Heel));
        forward = numbers(moves)[0];
        pen.slot = (heel, (0, GROUND));
    }
    let over = skin(pen, d, &[At::Finish, At::Material]);
    pen.draw(strokes);
    pen.skin = BARE;
    if takes_heel(strokes) && d.asks(At::Heel) {
        // Once more, as a line in the accent.
        let (heel, map) = (pen.slot.0, pen.slot_map);
        pen.with(map, true, "a");
        pen.with(map, true, heel);
    }
    if d.asks(At::Height) {
        let (_, measures) = headed(value(pen, d, At::Height));
        pen.draw(measures);
    }
    for at in [At::Chimney, At::Vents, At::Cord, At::Door] {
        pen.accent = d.asks(at);
        let strokes = body.chosen(pen, d, at);
        // What comes after a bar is seen from behind.
        pen.draw(strokes.split_once('|').map_or(strokes, |(side, _)| side));
    }
    if scale == 0 {
        return;
    }
    // What is on the sides is drawn for a body 46 high.
    let on = map.of(Map::new(0, deck, 1000, (GROUND - deck) * 1000 / 460));
    pen.with(on, false, over);
    if d.said(At::Sides).is_some() {
        let (_, sides) = headed(value(pen, d, At::Sides));
        pen.with(on, d.asks(At::Sides), sides);
    }
    let place = map.of(Map::new(mid + forward, deck, scale, scale));
    let top = body.chosen(pen, d, At::Top);
    pen.with(place, d.asks(At::Top), top);
    if d.asks(At::Posts) || d.said(At::Posts).is_some() && d.said(At::Grip).is_none() {
        let posts = value(pen, d, At::Posts);
        return pen.with(place, d.asks(At::Posts), posts);
    }
    let grip = body.chosen(pen, d, At::Grip);
    skin(pen, d, &[At::Cover]);
    pen.with(place, d.asks(At::Grip), grip);
    pen.skin = BARE;
}

/// Puts on what the iron or its grip is covered with or made of, and gives the strokes that go with it. Where something
/// is asked nothing else shall catch the eye.
fn skin<'a>(pen: &mut Pen<'a>, d: &Drawing<'_>, keys: &[At]) -> &'a str {
    for at in keys.iter().filter(|_| d.plain()) {
        let file = ["skin-", KEYS[*at as usize].name].concat();
        let found = d.said(*at).and_then(|value| pen.find(&file, value));
        if let Some(strokes) = found {
            let (head, over) = headed(strokes);
            let fill = named(head, "look").and_then(|look| look.bytes().next());
            let pattern = named(head, "pattern").map_or(-1, |n| numbers(n)[0] / 10);
            pen.skin = (fill.unwrap_or_default(), pattern);
            return over;
        }
    }
    ""
}

/// The iron from behind, its middle at the x of the present map; `broad` is its breadth beside that for which walls are
/// drawn, `tall` its height beside its own, per mille.
fn behind<'a>(pen: &mut Pen<'a>, d: &Drawing<'_>, body: &Body<'a>, broad: i32, tall: i32) {
    let map = pen.map;
    let high = GROUND - body.deck;
    let own = named(body.head, "end").filter(|_| !d.asks(At::Walls));
    let walls = own.is_none();
    let (strokes, place) = match own {
        Some(name) if body.scale > 0 => {
            (pen.get("end-body", name), Map::new(0, GROUND - GROUND * tall / 1000, broad, tall))
        }
        Some(name) => (pen.get("end-body", name), Map::SAME),
        None => {
            let fit = Map::new(0, GROUND, broad, high * 1000 / HIGH);
            (body.chosen(pen, d, At::Walls), fit)
        }
    };
    skin(pen, d, &[At::Finish, At::Material]);
    pen.with(map.of(place), d.asks(At::Body) || d.asks(At::Walls) && walls, strokes);
    pen.skin = BARE;
    if body.scale == 0 {
        return;
    }
    let top = body.chosen(pen, d, At::Top);
    pen.with(map.of(Map::new(0, body.deck, broad * 6 / 10, 1000)), d.asks(At::Top), top);
    let place = map.of(Map::new(0, body.deck, body.scale, body.scale));
    let grip = body.name(d, At::Grip);
    let grip = pen.get("end-grip", grip);
    skin(pen, d, &[At::Cover]);
    pen.with(place, d.asks(At::Grip), grip);
    pen.skin = BARE;
    // Doors and cords are drawn on a back 112 broad and 60 high.
    let fit = |sx: i32, sy: i32| map.of(Map::new(-sx, GROUND - sy * 9 / 10, sx, sy));
    let back = fit(broad * 82 / 112, high * 1000 / 600);
    for at in [At::Door, At::Cord] {
        let strokes = headed(body.chosen(pen, d, at)).1;
        pen.with(back, d.asks(at), strokes);
    }
}

/// An outline of a sole and its measures, tenths of a unit.
struct Outline<'a> {
    strokes: &'a str,
    from: i32,
    long: i32,
    /// The breadth that has room for what is on the sole, against the first outline, per mille.
    broad: i32,
    /// The longest that fits on the view `card`, tenths of a mm.
    card: i32,
    /// The longest in the view `both`.
    both: i32,
    breadth: i32,
}

impl<'a> Outline<'a> {
    fn of(pen: &mut Pen<'a>, d: &Drawing<'_>, body: &Body<'a>) -> Outline<'a> {
        let mut name = body.name(d, At::Outline);
        if d.said(At::Outline).is_none() && d.said(At::Width).is_some() {
            name = named(headed(value(pen, d, At::Width)).0, KEYS[At::Outline as usize].name).unwrap_or(name);
        }
        let (head, strokes) = headed(pen.get(KEYS[At::Outline as usize].name, name));
        let [from, to, broad, card, both, breadth] = numbers(head);
        // The bounds hold off measures that no figure should have; a division by nothing would be one.
        let long = (to - from).clamp(100, 2000);
        Outline { strokes, from, long, broad, card, both, breadth }
    }

    /// Fits what is drawn for the first outline to the length and the breadth of this one.
    fn fit(&self) -> Map {
        let fit = self.long * 1000 / 1740;
        Map::new((self.from / 10 - 14 * fit / 1000) * 10, 48 * (1000 - self.broad) / 100, fit, self.broad)
    }

    /// The breadth beside a body so long, against that for which walls are drawn, per mille.
    fn beside(&self, body: &Body<'_>) -> i32 {
        (self.breadth.clamp(0, 1000) * 1000 / (2 * HALF) * body.long / self.long).clamp(0, 2200)
    }
}

/// The iron from below: heel at x, middle at y, `wide` tenths of a unit long.
fn below<'a>(
    pen: &mut Pen<'a>,
    d: &Drawing<'_>,
    body: &Body<'a>,
    outline: &Outline<'a>,
    x: i32,
    y: i32,
    wide: i32,
) {
    if let Some(name) = named(body.head, "under").filter(|_| !pen.accent) {
        // It has no sole: it is drawn from below as it is, as long as it is from the side.
        let scale = wide * 1000 / body.long;
        let heel = MIDDLE - body.long / 2;
        let strokes = pen.get("under-body", name);
        return pen.with(
            Map::new(x - heel * scale / 1000, y - 48 * scale / 100, scale, scale),
            false,
            strokes,
        );
    }
    let &Outline { strokes, from, long, .. } = outline;
    let scale = wide * 1000 / long;
    pen.map = Map::new(x - from * scale / 1000, y - 48 * scale / 100, scale, scale);
    let map = pen.map;
    pen.add("b");
    pen.add(strokes);
    // Outlines within it are smaller about the middle.
    pen.slot = (strokes, (from + long / 2, 480));
    let face = body.chosen(pen, d, At::Sole);
    let (open, over) = face.split_once('|').unwrap_or((face, ""));
    pen.draw(open);
    // The rest is drawn for the first outline.
    pen.map = map.of(outline.fit());
    pen.draw(over);
}

/// Side and sole to one scale, with a bar of 50 mm where the length is known.
pub(crate) fn both(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let body = Body::of(pen, d);
    let outline = Outline::of(pen, d, &body);
    // What is broad for its length has to be smaller to find room, and so has what would need a longer bar.
    let under = named(body.head, "under").is_some();
    let mut scale = (outline.both * 1000 / body.long).min(if under { 780 } else { 865 });
    if let Some(size) = d.size() {
        scale = scale.min(size * 23_000 / body.long);
    }
    let wide = body.long * scale / 1000;
    let (ground, middle) = if d.size().is_some() { (850, 460) } else { (940, 520) };
    pen.map = Map::new(40 - 40 * scale / 1000, ground - scale * GROUND / 1000, scale, scale);
    beside(pen, d, &body);
    pen.accent = d.asks(At::Outline) || d.asks(At::Sole);
    // What has no sole is as long as its whole frame.
    let heel = if under { (MIDDLE - body.long / 2 - 40) * scale / 1000 } else { 0 };
    below(pen, d, &body, &outline, 1740 + heel, middle, wide);
    // The outline is that of the top as well: where nothing is said of the sole it may bear the mark.
    if d.said(At::Sole).is_none() && marked(d, &body) {
        mark(pen, d);
    }
    if let Some(size) = d.size() {
        let bar = wide * 50 / size;
        bar_of(pen, d, 40 + 120 * scale / 1000, 950, bar, bar, "fifty");
    }
}

/// Side, end and sole as a draughtsman lays them out, all to one scale, with bars in mm and inches.
pub(crate) fn three(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let body = Body::of(pen, d);
    let outline = Outline::of(pen, d, &body);
    let broad = outline.beside(&body);
    let mut scale = (outline.long * 1000 / body.long).min(1000).min(540 * 1_000_000 / (broad * HALF).max(1));
    if let Some(size) = d.size() {
        // An inch finds room.
        scale = scale.min(size * ROOM * 100 / 254 * 100 / body.long);
    }
    let to = |x: i32, y: i32| Map::new(x, y - scale * GROUND / 1000, scale, scale);
    pen.map = to(1000 - scale, 920);
    beside(pen, d, &body);
    pen.map = to(BEHIND, 920);
    behind(pen, d, &body, broad, 1000);
    let wide = body.long * scale / 1000;
    pen.accent = d.asks(At::Outline) || d.asks(At::Sole);
    below(pen, d, &body, &outline, 1000 + (MIDDLE - 1000) * scale / 1000 - wide / 2, 1490, wide);
    if marked(d, &body) {
        above(pen, d, &outline);
    }
    let Some(size) = d.size() else { return };
    let long = |tenths: i32| wide * tenths / (size * 10);
    for (y, rulers) in [(1590, &MM[..]), (1840, &INCHES[..])] {
        let fits = rulers.iter().find(|(tenths, _)| long(*tenths) <= ROOM).or(rulers.last());
        if let Some((tenths, label)) = fits {
            bar_of(pen, d, BEHIND - ROOM / 2, y, long(*tenths), 0, label);
        }
    }
}

/// The top with its mark, small, where there is room for it.
fn above(pen: &mut Pen<'_>, d: &Drawing<'_>, outline: &Outline<'_>) {
    // Not to scale: 84 units long, or 38 broad.
    let scale = (840_000 / outline.long).min(380_000 / outline.breadth.max(1));
    let left = BEHIND - outline.long * scale / 2000;
    pen.map = Map::new(left - outline.from * scale / 1000, 1165 - 48 * scale / 100, scale, scale);
    pen.add("b");
    pen.draw(outline.strokes);
    pen.map = pen.map.of(outline.fit());
    mark(pen, d);
}

/// Whether there is a mark to show, on a body that has a top.
fn marked(d: &Drawing<'_>, body: &Body<'_>) -> bool {
    d.said(At::Mark).is_some_and(|mark| mark != "none") && named(body.head, "under").is_none()
}

/// The mark, small.
fn mark(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    pen.fine = true;
    pen.accent = false;
    let mark = value(pen, d, At::Mark);
    pen.draw(mark);
    pen.fine = false;
}

/// The middle of what is seen from behind, and how long a bar may be below it, tenths of a unit.
const BEHIND: i32 = 2580;
const ROOM: i32 = 1100;
/// How long bars are, tenths of a mm, and their labels in `part.toml`.
static MM: [(i32, &str); 3] = [(1000, "mm-100"), (500, "mm-50"), (200, "mm-20")];
static INCHES: [(i32, &str); 3] = [(1016, "in-4"), (508, "in-2"), (254, "in-1")];

/// A bar at x and y, its label so far from its start.
fn bar_of(pen: &mut Pen<'_>, d: &Drawing<'_>, x: i32, y: i32, long: i32, apart: i32, label: &str) {
    pen.accent = d.asks(At::Size);
    pen.map = Map::new(x, y, long, 1000);
    pen.part("part", "scale");
    pen.map = Map::new(x + apart, y, 1000, 1000);
    pen.part("part", label);
}

/// The sole on a bank card of 85.60 x 53.98 mm, heel on the card's left edge, 1.1 units to the mm.
pub(crate) fn card(pen: &mut Pen<'_>, d: &Drawing<'_>) {
    let body = Body::of(pen, d);
    let outline = Outline::of(pen, d, &body);
    let size = d.size().unwrap_or(80);
    // What is longer than the frame, or broader than it, is cut short and gets an arrow.
    let shown = size.min(outline.card / 10);
    pen.part("view", "card");
    pen.accent = d.asks(At::Size) || d.asks(At::Outline);
    below(pen, d, &body, &outline, 140, 480, shown * 11);
    pen.map = Map::SAME;
    if size > 86 {
        // The card would be lost under the iron.
        pen.part("part", "card");
    }
    if size > shown {
        pen.part("part", "longer");
    }
}
