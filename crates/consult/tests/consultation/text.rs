//! Answers from a text file: each sort of line, and every fault with the number of its line.

use crate::common::tiny;
use consult::{Instrument, Length, Mass, What, from_text};

#[test]
fn each_sort_of_line() {
    let guide = tiny();
    for (line, question, what, sure) in [
        ("grip = wire", 2, What::OneOf(vec![2]), true),
        ("  grip=wire  # a remark", 2, What::OneOf(vec![2]), true),
        ("grip = bar | pierced", 2, What::OneOf(vec![0, 1]), true),
        ("grip = wire ?", 2, What::OneOf(vec![2]), false),
        ("grip = bar|wire?", 2, What::OneOf(vec![0, 2]), false),
        ("skin = can't tell", 4, What::Cannot, true),
        ("skin = cannot tell", 4, What::Cannot, true),
        ("length = short", 0, What::OneOf(vec![0]), true),
        // 1 inch is 25.4 mm: published, international yard and pound agreement, 1959.
        ("length = 64 mm", 0, What::Length(Length(640), Instrument::Ruler), true),
        ("length = 64.5 calipers", 0, What::Length(Length(645), Instrument::Calipers), true),
        ("length = 64 mm eye ?", 0, What::Length(Length(640), Instrument::ByEye), false),
        ("length = 2 5/8 in ruler", 0, What::Length(Length(667), Instrument::Ruler), true),
        ("heft = 120 g", 1, What::Mass(Mass(1200), Instrument::Scales), true),
        ("heft = 48.5 scales", 1, What::Mass(Mass(485), Instrument::Scales), true),
    ] {
        let state = from_text(&guide, line).unwrap_or_else(|faults| unreachable!("{line}: {faults:?}"));
        let given = &state.given[0];
        assert_eq!((state.given.len(), given.question, given.sure), (1, question, sure), "{line}");
        assert_eq!(given.what, what, "{line}");
    }
    let state = from_text(&guide, "# nothing\n\nplace = dug\r\ngrip = pierced\nholes = blind\n").unwrap();
    assert_eq!((state.place, state.place_asked, state.given.len()), (1, true, 2));
    assert_eq!(state.tools, [0, 1], "whoever writes a file has everything at hand");
    assert_eq!(from_text(&guide, "").map(|s| (s.given, s.place_asked)), Ok((Vec::new(), false)));
}

#[test]
fn each_fault_with_its_line() {
    let guide = tiny();
    for (line, says) in [
        ("grip", "\u{201c}grip\u{201d} has no \u{201c}=\u{201d}."),
        (
            "gripp = wire",
            "\u{201c}gripp\u{201d} is no question of this pack. Known: length, heft, grip, holes, skin, place.",
        ),
        ("grip = wired", "\u{201c}wired\u{201d} is no choice of this pack. Known: bar, pierced, wire."),
        ("grip =", "\u{201c}\u{201d} is no choice of this pack. Known: bar, pierced, wire."),
        ("grip = bar | barr", "\u{201c}barr\u{201d} is no choice of this pack. Known: bar, pierced, wire."),
        ("grip = bar | bar", "\u{201c}bar\u{201d} is named twice."),
        ("place = moon", "\u{201c}moon\u{201d} is no place of this pack. Known: anywhere, dug."),
        ("length = long road", "\u{201c}long\u{201d} is no unit and no instrument."),
        ("length = 64 scales", "This instrument does not measure that."),
        ("heft = 120 g ruler", "This instrument does not measure that."),
        ("length = 64 g", "\u{201c}g\u{201d} is no unit for that."),
        ("heft = 120 mm", "\u{201c}mm\u{201d} is no unit for that."),
        ("heft = 4 in", "\u{201c}in\u{201d} is no unit for that."),
        ("length = 0", "A length of nothing cannot be right."),
        ("length = 9000", "9000 is too long for anything here. Check the unit."),
        ("heft = 40000", "40000 g is too heavy for anything here. Check the unit."),
        ("length = mm", "\u{201c}\u{201d} is not a number. Write 64, 64.5 or 2 5/8."),
    ] {
        // Behind two lines that are well: the fault is in the third, and the others are not to blame.
        let text = format!("# a remark\nskin = dark\n{line}\n");
        assert_eq!(from_text(&guide, &text), Err(vec![format!("line 3: {says}")]), "{line}");
    }
}

#[test]
fn all_faults_at_once() {
    let faults =
        from_text(&tiny(), "grip = wire\ngrip = bar\nx = y\nplace = moon").expect_err("three faults");
    assert_eq!(faults.len(), 3, "{faults:?}");
    for (fault, line) in faults.iter().zip(["line 2: grip is answered twice.", "line 3: ", "line 4: "]) {
        assert!(fault.starts_with(line), "{fault}");
    }
}

#[test]
fn an_answer_behind_a_closed_gate_is_a_fault() {
    for text in ["holes = blind", "grip = bar\nholes = blind", "holes = blind\ngrip = wire | pierced"] {
        let faults = from_text(&tiny(), text).expect_err("the gate is closed");
        assert_eq!(faults.len(), 1, "{text}: {faults:?}");
        let line = 1 + text.lines().position(|l| l.starts_with("holes")).unwrap_or_default();
        let says = format!(
            "line {line}: holes is asked only after \u{201c}grip = pierced\u{201d}. Mend the answer to grip, or strike out this line."
        );
        assert_eq!(faults, [says]);
    }
    // The order of the lines is the writer's.
    assert!(from_text(&tiny(), "holes = blind\ngrip = pierced").is_ok());
}
