//! The photo room: a picture that is tapped, a loupe, keys, and what was found.

use super::look::heading;
use super::node::{Node, el, key, several, text, toggle};
use crate::browser::page;
use consult::Msg;
use consult::photo::{Act, KeyOf, PhotoView, PictureView, RowView, RulerView, Spot, Stage};
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// Half the width and height of what the loupe shows, tenths of a pixel.
const LOUPE: [i32; 2] = [240, 150];

pub(crate) fn photo(view: &PhotoView, on: &Callback<Msg>) -> Html {
    let mut nodes: Vec<Html> = vec![heading(&view.heading).into()];
    let advice = view.stage == Stage::Pick;
    let said = view.says.iter().map(|line| text(if advice { "li" } else { "p" }, "", line));
    nodes.push(el(if advice { "ul" } else { "div" }, "advice").named("says").all(said).into());
    nodes.push(
        text("p", "fault", view.fault.as_deref().unwrap_or_default())
            .named("fault")
            .set("role", "status")
            .into(),
    );
    if let Some(mille) = view.busy.filter(|mille| *mille > 0 || view.stage == Stage::Opening) {
        nodes.push(progress(mille).into());
    }
    // The file is read from its field while it is being opened.
    if advice || view.stage == Stage::Opening {
        nodes.push(
            el("div", "row files")
                .named("files")
                .put(file("photo-take", "Take a photo", true, view.ready, on))
                .put(file("photo-file", "Choose a picture", false, view.ready, on))
                .into(),
        );
    }
    let mut rows = view.rows.iter();
    if let Some(picture) = &view.picture {
        nodes.push(
            el("div", "photo")
                .named("photo")
                .set("tabindex", "0")
                .set("role", "region")
                .set("aria-label", "Your picture")
                .flag("aria-busy", view.busy.is_some())
                .put(whole(picture, on))
                .into(),
        );
        // What is pressed most stands right below the picture.
        if view.stage == Stage::Card {
            nodes.extend(rows.next().map(|r| row(r, on).named("first").into()));
        }
        let larger = match picture.zoom {
            1 => "Twice as large",
            2 => "Four times as large",
            _ => "Whole picture",
        };
        let put = view.moves && picture.more;
        let put = put.then(|| key("key", "Point in the middle", on, Msg::Photo(Act::Middle)).into());
        let zoom = key("key", larger, on, Msg::Photo(Act::Zoom));
        nodes.push(el("div", "keyrow").named("zoom").put(zoom).maybe(put).into());
        if let Some(middle) = picture.loupe.filter(|_| view.moves) {
            nodes.push(
                el("div", "under-loupe")
                    .named("loupe")
                    .put(loupe(picture, middle, on))
                    .put(nudges(&view.step, on))
                    .into(),
            );
        }
    }
    if let Some(r) = &view.ruler {
        nodes.push(text("p", "", &r.says).named("ruler-says").set("role", "status").into());
        let frame = el("div", "wide").named("ruler").set("tabindex", "0");
        nodes.push(frame.set("role", "region").set("aria-label", "The ruler").put(ruler(r)).into());
    }
    if let Some((typed, fault)) = &view.high {
        nodes.push(high(typed, fault.as_deref(), on).named("high").into());
    }
    for (i, (title, lines)) in view.found.iter().enumerate() {
        let lines = lines.iter().map(|line| text("p", "", line));
        nodes.push(
            el("div", "card found")
                .named(&format!("found{i}"))
                .set("role", "status")
                .put(text("h2", "", title))
                .all(lines)
                .into(),
        );
    }
    // Every node has a name: one that comes must not take the place of the field whose file is being read.
    nodes.extend(rows.enumerate().map(|(i, r)| row(r, on).named(&format!("row{i}")).into()));
    if !view.basis.is_empty() {
        let lines = view.basis.iter().map(|line| text("p", "small", line));
        nodes.push(
            el("details", "basis")
                .named("basis")
                .put(text("summary", "", "What these figures rest on"))
                .all(lines)
                .into(),
        );
    }
    if let Some((wide, high, view_box, line, bar)) = &view.sheet {
        let sheet =
            el("svg", "sheet").named("sheet").set("width", wide).set("height", high).set("viewBox", view_box);
        let sheet = sheet
            .flag("aria-hidden", true)
            .put(el("path", "").set("d", line))
            .put(el("path", "").set("d", bar));
        nodes.push(sheet.into());
    }
    several(nodes)
}

/// The ruler with the bar for a card's short side below it, in pixels of the screen.
fn ruler(view: &RulerView) -> Node {
    let bar = format!("M60 520V680M60 600H{}M{} 520V680", 60 + view.bar, 60 + view.bar);
    let number = |(x, mm): &(i32, i32)| {
        text("text", "", &mm.to_string()).number("x", *x - 40).number("y", 420).set("font-size", "110")
    };
    el("svg", "ruler")
        .set("viewBox", &format!("0 0 {} 720", view.wide.max(view.bar + 120)))
        .number("width", view.wide.max(view.bar + 120) / 10)
        .set("role", "img")
        .set("aria-label", "A ruler in millimetres, and a bar for the short side of a card")
        .put(el("path", "").set("d", &view.marks))
        .put(el("path", "").set("d", &bar))
        .all(view.numbers.iter().map(number))
}

fn progress(mille: i32) -> Node {
    let bar = el("progress", "")
        .set("max", "1000")
        .number("value", mille)
        .set("aria-label", "Working on the picture");
    el("p", "working").named("busy").put(bar)
}

/// A field for a file, dressed as a key.
fn file(id: &'static str, label: &str, camera: bool, ready: bool, on: &Callback<Msg>) -> Node {
    let chosen = on.reform(move |_: Event| Msg::Photo(Act::Chosen(id.to_string())));
    let field = el("input", "").set("id", id).set("type", "file").set("accept", "image/*").changed(chosen);
    let field = if camera { field.set("capture", "environment") } else { field };
    // A picture that is chosen too early would be lost.
    let field = if ready { field } else { field.set("disabled", "") };
    el("label", if camera { "key strong file" } else { "key file" }).set("for", id).say(label).put(field)
}

/// The picture with what lies over it.
fn whole(view: &PictureView, on: &Callback<Msg>) -> Node {
    let [w, h] = view.size.map(|n| n * 10);
    // One that is higher than wide is fitted by its height: the drawing's frame is always that of the picture.
    let class = match (view.zoom, h > w) {
        (1, false) => "picture",
        (2, false) => "picture twice",
        (_, false) => "picture four",
        (1, true) => "picture high",
        (2, true) => "picture high twice",
        (_, true) => "picture high four",
    };
    over(el("svg", class).set("viewBox", &format!("0 0 {w} {h}")), view, w / 90 / i32::from(view.zoom.max(1)))
        .set("role", "img")
        .set("aria-label", &view.alt)
        .clicked(tapped([0, 0, w, h], Act::Tap, on))
}

/// What stands round the point that is moved, with a cross on it.
fn loupe(view: &PictureView, (x, y): (i32, i32), on: &Callback<Msg>) -> Node {
    let [w, h] = LOUPE;
    let cross = format!(
        "M{} {y}H{}M{} {y}H{}M{x} {}V{}M{x} {}V{}",
        x - w,
        x - 30,
        x + 30,
        x + w,
        y - h,
        y - 30,
        y + 30,
        y + h
    );
    let plain = PictureView { marks: Vec::new(), ..view.clone() };
    over(el("svg", "loupe").set("viewBox", &format!("{} {} {} {}", x - w, y - h, 2 * w, 2 * h)), &plain, 1)
        .put(el("path", "over cross under").set("d", &cross))
        .put(el("path", "over cross").set("d", &cross))
        .set("role", "img")
        .set("aria-label", "The loupe: the point that is moved")
        .clicked(tapped([x - w, y - h, 2 * w, 2 * h], Act::Move, on))
}

fn over(svg: Node, view: &PictureView, dot: i32) -> Node {
    let picture = el("image", "")
        .set("href", &view.address)
        .number("width", view.size[0] * 10)
        .number("height", view.size[1] * 10);
    let mut svg = svg.put(picture);
    for class in ["over under", "over"] {
        for line in [&view.lines, &view.contour] {
            if !line.is_empty() {
                svg = svg.put(el("path", class).set("d", line));
            }
        }
    }
    for (x, y, piece) in &view.patches {
        svg = svg.put(ring(*x, *y, dot * 2, if *piece { "over" } else { "over away" }));
    }
    for (x, y, label, moved) in &view.marks {
        svg = svg.put(ring(*x, *y, dot, "over under")).put(ring(
            *x,
            *y,
            dot,
            if *moved { "over moved" } else { "over" },
        ));
        let size = (dot * 3).to_string();
        svg = svg.put(
            text("text", "over-text", label)
                .number("x", x + dot)
                .number("y", y - dot)
                .set("font-size", &size),
        );
    }
    svg
}

fn ring(x: i32, y: i32, r: i32, class: &'static str) -> Node {
    el("circle", class).number("cx", x).number("cy", y).number("r", r)
}

/// A tap somewhere in a frame: its corner, width and height.
fn tapped(
    [left, top, wide, high]: [i32; 4],
    act: fn(Spot) -> Act,
    on: &Callback<Msg>,
) -> Callback<MouseEvent> {
    let on = on.clone();
    Callback::from(move |e: MouseEvent| {
        if let Some([x, y]) = page::within(&e) {
            on.emit(Msg::Photo(act(Spot::new(left + scaled(x, wide), top + scaled(y, high)))));
        }
    })
}

/// A hundred-thousandth of a side in tenths of a pixel.
fn scaled(share: i32, side: i32) -> i32 {
    (i64::from(share) * i64::from(side) / 100_000) as i32
}

fn nudges(step: &str, on: &Callback<Msg>) -> Node {
    let to = |label: &str, x: i32, y: i32| key("key", label, on, Msg::Photo(Act::Nudge(x, y)));
    el("div", "nudges")
        .set("role", "group")
        .set("aria-label", "Move the point")
        .put(to("Up", 0, -1))
        .put(to("Left", -1, 0))
        .put(key("key step", step, on, Msg::Photo(Act::Step)))
        .put(to("Right", 1, 0))
        .put(to("Down", 0, 1))
}

fn high(typed: &str, fault: Option<&str>, on: &Callback<Msg>) -> Node {
    let put = on
        .reform(|e: InputEvent| Msg::Photo(Act::High(e.target_unchecked_into::<HtmlInputElement>().value())));
    let input = el("input", "")
        .set("id", "high")
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set("aria-describedby", "high-fault")
        .flag("aria-invalid", fault.is_some())
        .value(typed)
        .typed(put);
    el("div", "typing")
        .put(text("label", "", "How much higher than the card, mm, if you measured it").set("for", "high"))
        .put(el("div", "row").put(input))
        .put(text("p", "fault", fault.unwrap_or_default()).set("id", "high-fault"))
}

fn row(view: &RowView, on: &Callback<Msg>) -> Node {
    let one = |k: &KeyOf| {
        let (class, msg) = (if k.strong { "key strong" } else { "key" }, Msg::Photo(k.act.clone()));
        match k.set {
            Some(set) => toggle(class, &k.label, set, on, msg),
            None => key(class, &k.label, on, msg),
        }
    };
    let keys = el("div", "keyrow").all(view.keys.iter().map(one));
    if view.label.is_empty() {
        return keys;
    }
    let keys = keys.set("role", "group").set("aria-label", &view.label);
    el("div", "").put(text("p", "hint", &view.label)).put(keys)
}
