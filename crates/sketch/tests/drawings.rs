//! Every word of the vocabulary draws, inside its frame, differently from its neighbours, and always the same.

use proptest::prelude::*;
use sketch::{At, Drawing, Look, Scene, words};

/// Every line that asks for a key: one for each of its values in each view that draws it.
fn lines() -> Vec<(String, Drawing)> {
    let mut lines = Vec::new();
    for key in words() {
        let sizes = ["10", "33", "54", "86", "102", "120", "150", "158"];
        let names: Vec<&str> = if key.values.is_empty() {
            sizes.to_vec()
        } else {
            key.values.iter().map(|v| v.name).collect()
        };
        for view in key.views.split_whitespace() {
            for name in &names {
                let line = format!("view={view} {0}={name} ask={0}", key.name);
                let drawing = Drawing::parse(&line).expect("a line of the vocabulary");
                lines.push((line, drawing));
            }
        }
    }
    lines
}

/// Points along a path, tenths of a unit: corners and sixteen to a curve.
fn points(path: &str) -> Vec<(i32, i32)> {
    let mut along: Vec<(i32, i32)> = Vec::new();
    for step in path
        .replace('Z', "")
        .replace(['M', 'L'], "\nL")
        .replace('C', "\nC")
        .replace('Q', "\nQ")
        .lines()
        .skip(1)
    {
        let (command, rest) = step.split_at(1);
        let parted = rest.replace('-', " -");
        let n: Vec<i32> = parted
            .split_whitespace()
            .map(|n| n.parse().expect("a whole number"))
            .collect();
        let to: Vec<(i32, i32)> = n.chunks_exact(2).map(|p| (p[0], p[1])).collect();
        assert_eq!(
            (n.len(), to.len()),
            (
                to.len() * 2,
                match command {
                    "L" => 1,
                    "Q" => 2,
                    _ => 3,
                }
            ),
            "{step} in {path}"
        );
        let mut bend = vec![*along.last().unwrap_or(&to[0])];
        bend.extend(&to);
        for t in 1..=16 {
            let mut p = bend.clone();
            // de Casteljau: halfway points between halfway points.
            while p.len() > 1 {
                let mix = |a: i32, b: i32| a + (b - a) * t / 16;
                p = p
                    .windows(2)
                    .map(|w| (mix(w[0].0, w[1].0), mix(w[0].1, w[1].1)))
                    .collect();
            }
            along.push(p[0]);
        }
    }
    along
}

/// A point whose stroke would leave the frame.
fn outside(scene: &Scene) -> Option<(i32, i32)> {
    let (w, h) = scene.view_box;
    // Half of the widest stroke, 3.2 units.
    let inside = |p: &(i32, i32)| (16..=w - 16).contains(&p.0) && (16..=h - 16).contains(&p.1);
    scene
        .shapes
        .iter()
        .flat_map(|s| points(&s.path))
        .find(|p| !inside(p))
}

#[test]
fn every_value_draws_inside_its_frame() {
    let mut faults = Vec::new();
    for (line, drawing) in lines() {
        let scene = drawing.shapes();
        assert!(!scene.shapes.is_empty(), "{line} draws nothing");
        if let Some(p) = outside(&scene) {
            faults.push(format!("{line}: {p:?} is outside {:?}", scene.view_box));
        }
        for shape in &scene.shapes {
            assert!(
                shape.path.starts_with('M') && shape.path.len() > 6,
                "{line}: {}",
                shape.path
            );
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn what_is_asked_is_in_the_accent() {
    for (line, drawing) in lines() {
        let asked = |look: Look| matches!(look, Look::Asked | Look::AskedThin | Look::AskedBody);
        assert!(
            drawing.shapes().shapes.iter().any(|s| asked(s.look)),
            "{line} has no accent"
        );
        let plain: String = line
            .split(' ')
            .filter(|w| !w.starts_with("ask="))
            .collect::<Vec<_>>()
            .join(" ");
        let plain = Drawing::parse(&plain).expect("the same line without ask");
        assert!(
            !plain.shapes().shapes.iter().any(|s| asked(s.look)),
            "{line} has an accent unasked"
        );
    }
}

#[test]
fn values_differ_in_drawing_and_in_words() {
    let lines = lines();
    for (i, (a, da)) in lines.iter().enumerate() {
        for (b, db) in &lines[..i] {
            let same = |n| a.split([' ', '=']).nth(n) == b.split([' ', '=']).nth(n);
            // The same view and the same key.
            if same(1) && same(2) {
                assert_ne!(da.shapes(), db.shapes(), "{a} and {b} look the same");
                assert_ne!(da.alt(), db.alt(), "{a} and {b} read the same");
            }
        }
    }
}

#[test]
fn every_pair_of_body_and_grip_stays_inside() {
    let mut faults = Vec::new();
    for view in ["side", "both size=90"] {
        for body in words()[At::Body as usize].values {
            for grip in words()[At::Grip as usize].values {
                let line = format!("view={view} body={} grip={} top=plate", body.name, grip.name);
                let scene = Drawing::parse(&line).expect("known words").shapes();
                faults.extend(outside(&scene).map(|p| format!("{line}: {p:?}")));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn alt_says_what_is_drawn() {
    let alt = |line: &str| Drawing::parse(line).expect("known words").alt();
    assert_eq!(
        alt("view=side heel=round-up grip=wire ask=grip"),
        "Seen from the side, toe to the right: a bent wire, a heel rounded up for polishing."
    );
    assert_eq!(alt("size=54 ask=size"), "Laid on a bank card: 54 mm long.");
    assert_eq!(
        alt(""),
        "Seen from the side, toe to the right: a flat solid body."
    );
    // What this view does not draw is not said.
    assert_eq!(
        alt("view=sole grip=wire sole=ribbed"),
        "Seen from below: a sole with ribs across."
    );
}

#[test]
fn the_asked_key_finds_its_view() {
    let asked = Drawing::parse("magnet=falls ask=magnet").expect("known words");
    assert_eq!(
        asked,
        Drawing::parse("ask=magnet view=magnet magnet=falls").expect("known words")
    );
}

#[test]
fn faults_are_sentences_and_all_are_named() {
    let fault = Drawing::parse("view=side gip=bar grip=baar heel size=9 body=flat body=box ask=sole")
        .expect_err("six faults");
    for part in [
        "There is no key `gip`; known are: view, body,",
        "`grip=baar`: the values of grip are: bar, tube,",
        "`heel` has no `=`",
        "`size=9`: size is the length of the sole in mm, a whole number from 10 to 400.",
        "body is given twice.",
        "view=side does not draw sole; it is drawn in: sole both.",
    ] {
        assert!(fault.contains(part), "{part:?} is not in {fault:?}");
    }
}

#[test]
fn card_and_iron_are_to_one_scale() {
    // ISO/IEC 7810 ID-1: 85.60 x 53.98 mm (published); at 11 tenths to the mm the card is 942 x 594 tenths.
    let widths = |size: i32| {
        let line = format!("size={size} ask=size");
        let shapes = Drawing::parse(&line).expect("known words").shapes().shapes;
        let width = |look: Look| {
            let shape = shapes
                .iter()
                .find(|s| s.look == look)
                .expect("card and iron are drawn");
            let xs: Vec<i32> = points(&shape.path).iter().map(|p| p.0).collect();
            xs.iter().max().unwrap_or(&0) - xs.iter().min().unwrap_or(&0)
        };
        (width(Look::Line), width(Look::AskedBody))
    };
    for size in [54, 86, 102, 120, 150] {
        let (card, iron) = widths(size);
        // Within two per cent: the heel's curve is not quite where its chord is.
        let wanted = size * card * 100 / 8560;
        assert!(
            (iron - wanted).abs() * 50 <= wanted,
            "{size} mm: {iron} tenths, not {wanted}"
        );
    }
}

#[test]
fn nothing_has_changed_unseen() {
    // FNV-1a over paths and looks. Refresh with UPDATE=1 after looking at the sheet of examples/sheet.rs.
    let mut text = String::new();
    for (line, drawing) in lines() {
        let mut digest = 0xcbf2_9ce4_8422_2325_u64;
        for shape in drawing.shapes().shapes {
            for byte in shape.path.bytes().chain([shape.look as u8]) {
                digest = (digest ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
            }
        }
        text.push_str(&format!("{digest:016x} {line}\n"));
    }
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/sheet.txt");
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(path, &text).expect("tests/sheet.txt can be written");
    }
    let kept = std::fs::read_to_string(path).expect("tests/sheet.txt can be read");
    for (now, then) in text.lines().zip(kept.lines()) {
        assert_eq!(now, then, "look at the sheet, then refresh with UPDATE=1");
    }
    assert_eq!(
        text.lines().count(),
        kept.lines().count(),
        "drawings were added or taken away: UPDATE=1"
    );
}

fn word() -> impl Strategy<Value = String> {
    let keys = proptest::sample::select(words().iter().collect::<Vec<_>>());
    let known = keys.prop_flat_map(|key| {
        let values: Vec<String> = if key.values.is_empty() {
            (10..=400).map(|n| n.to_string()).collect()
        } else {
            key.values.iter().map(|v| v.name.to_string()).collect()
        };
        proptest::sample::select(values).prop_map(|v| format!("{}={v}", key.name))
    });
    prop_oneof![9 => known, 1 => "[a-z=]{0,12}", 1 => "\\PC{0,12}"]
}

proptest! {
    #[test]
    fn no_text_panics(text in "\\PC*") {
        if let Ok(drawing) = Drawing::parse(&text) {
            drawing.shapes();
        }
    }

    #[test]
    fn no_row_of_words_panics_and_order_is_free(row in proptest::collection::vec(word(), 0..8)) {
        let there = Drawing::parse(&row.join(" "));
        let back = Drawing::parse(&row.iter().rev().cloned().collect::<Vec<_>>().join("\t"));
        match (&there, &back) {
            (Ok(a), Ok(b)) => {
                prop_assert_eq!(a.shapes(), b.shapes());
                prop_assert_eq!(a.alt(), b.alt());
                prop_assert!(!a.shapes().shapes.is_empty());
            }
            (Err(a), Err(b)) => prop_assert!(!a.is_empty() && !b.is_empty()),
            _ => prop_assert!(false, "the order decides"),
        }
    }
}

#[test]
fn keys_and_their_places_agree() {
    let names: Vec<&str> = words().iter().map(|k| k.name).collect();
    let ask: Vec<&str> = words()[At::Ask as usize].values.iter().map(|v| v.name).collect();
    // `ask` holds the key's place in the table: `none` in the place of `view`, then every key but itself.
    assert_eq!(ask[0], "none");
    assert_eq!(ask[1..], names[1..names.len() - 1]);
    for (at, name) in [
        (At::View, "view"),
        (At::Grip, "grip"),
        (At::Magnet, "magnet"),
        (At::Ask, "ask"),
    ] {
        assert_eq!(names[at as usize], name);
    }
    for key in words() {
        for view in key.views.split_whitespace() {
            assert!(
                words()[0].values.iter().any(|v| v.name == view),
                "{}: no view {view}",
                key.name
            );
        }
        for (i, value) in key.values.iter().enumerate() {
            assert!(
                key.values[..i].iter().all(|v| v.name != value.name),
                "{}={} is there twice",
                key.name,
                value.name
            );
        }
    }
}
