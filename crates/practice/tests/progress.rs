//! Laws of the boxes, and of progress as a text.

use practice::{Card, DAYS, Item, Progress, Trial};
use proptest::prelude::*;

fn item() -> impl Strategy<Value = Item> {
    prop_oneof![
        (1_u16..9).prop_map(Item::Look),
        (1_u16..9).prop_map(Item::Kind),
        (1_u16..9, 10_u16..19).prop_map(|(a, b)| Item::pair(b, a)),
        (1_u16..9).prop_map(Item::Make),
        (1_u16..9).prop_map(Item::Proof),
    ]
}

/// Answers: what, right, days later (a clock may be turned back), taken for another.
fn answers() -> impl Strategy<Value = Vec<(Item, bool, i64, bool)>> {
    proptest::collection::vec((item(), any::<bool>(), -3_i64..9, any::<bool>()), 0..60)
}

fn practised(answers: &[(Item, bool, i64, bool)]) -> Progress {
    let mut progress = Progress::of("irons");
    let mut day = 20_000_i64;
    for (item, right, later, took) in answers {
        day += later;
        let took = (*took && !right).then_some((3, 7));
        progress.answer(*item, *right, took, u32::try_from(day).unwrap_or(0));
    }
    progress.tried(Trial { day: 20_001, right: 7, seed: 1 << 60 });
    progress.learned(2);
    progress
}

proptest! {
    #[test]
    fn a_box_moves_by_one_or_back_to_the_first(right in proptest::collection::vec((any::<bool>(), 0_u32..40), 1..60)) {
        let mut today = 20_000;
        let mut card = Card::begun(Item::Look(1), right[0].0, today);
        prop_assert_eq!((card.stands, card.due), (0, today + DAYS[0]));
        for (right, later) in right {
            today += later;
            let before = card;
            card = card.answered(right, today);
            let was_due = before.is_due(today);
            let stands = match (right, was_due) {
                (false, _) => 0,
                (true, true) => (before.stands + 1).min(4),
                (true, false) => before.stands,
            };
            prop_assert_eq!(card.stands, stands);
            // Never asked again the same day, never kept away for longer than its box.
            prop_assert!(card.due > today && card.due <= today + DAYS[card.stands]);
            if right && !was_due { prop_assert_eq!(card.due, before.due); }
            prop_assert_eq!(card.right + card.wrong, before.right + before.wrong + 1);
        }
    }

    #[test]
    fn the_clock_may_be_turned_back(back in 0_u32..5_000) {
        let card = Card::begun(Item::Kind(1), true, 20_000).answered(true, 20_001);
        let later = card.answered(true, 20_001 - back);
        prop_assert!(later.due <= 20_001 - back + DAYS[later.stands]);
    }

    #[test]
    fn a_text_reads_back(answers in answers(), other in "[a-z]{1,8} [0-9a-z ]{0,20}") {
        let mut progress = practised(&answers);
        prop_assert_eq!(Progress::read(&progress.text(), "irons"), Ok(progress.clone()));
        // What a later program wrote stays, and stays once.
        let more = format!("{}{other}\r\n{other}\n", progress.text());
        let read = Progress::read(&more, "irons").expect("a text");
        let known = read.others.is_empty();
        prop_assert!(known || read.others == [other.trim_end().to_string()], "{:?}", read.others);
        prop_assert_eq!(Progress::read(&read.text(), "irons"), Ok(read.clone()));
        progress.others.clone_from(&read.others);
        if !known { prop_assert_eq!(progress, read); }
    }

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,200}", lines in proptest::collection::vec("(look|took|pair|trial|asked) [0-9 a-z]{0,30}", 0..9)) {
        let _ = Progress::read(&text, "irons");
        let text = format!("pressmark practice 1\n{}", lines.join("\n"));
        let read = Progress::read(&text, "irons").expect("lines that are not known are kept");
        prop_assert_eq!(Progress::read(&read.text(), "irons"), Ok(read));
    }

    #[test]
    fn merging_knows_no_order(a in answers(), b in answers(), c in answers()) {
        let (a, b, c) = (practised(&a), practised(&b), practised(&c));
        prop_assert_eq!(a.merged(&b), b.merged(&a));
        prop_assert_eq!(a.merged(&b).merged(&c), a.merged(&b.merged(&c)));
        prop_assert_eq!(a.merged(&b).merged(&b), a.merged(&b));
        prop_assert_eq!(a.merged(&a), a);
    }
}

#[test]
fn what_is_no_practice_is_refused() {
    for (text, says) in [
        ("", "This is no file of practice, or one of a later program."),
        ("pressmark practice 2\n", "This is no file of practice, or one of a later program."),
        ("pressmark practice 1\npack bells\n", "This practice belongs to the guide \u{201c}bells\u{201d}."),
    ] {
        assert_eq!(Progress::read(text, "irons"), Err(says.to_string()));
    }
    assert!(Progress::read(&format!("pressmark practice 1\n{}", "x\n".repeat(700_000)), "irons").is_err());
}

/// A sign that is not shown may part what is known from what is not: without it the line is read as what it then says, now and
/// not only the next time.
#[test]
fn what_is_kept_is_the_same_when_it_is_read_again() {
    for line in ["asked\u{0} 7", "look 5 box\u{7} 2 due 9 right 4 wrong 1", "gloves\u{0} \u{85}", "\u{1}"] {
        let read = Progress::read(&format!("pressmark practice 1\n{line}\n"), "irons").expect("a text");
        assert_eq!(Progress::read(&read.text(), "irons"), Ok(read), "{line:?}");
    }
    // Else it would be kept, and what was practised refused from then on.
    assert!(Progress::read("pressmark practice 1\npack\u{0} bells\n", "irons").is_err());
}

/// A pack whose kinds and questions are others than those that were practised: codes stay, and nothing is lost.
#[test]
fn practice_outlives_an_edition() {
    let text = "pressmark practice 1\npack irons\nasked 3\nlook 65000 box 2 due 9 right 4 wrong 1\n\
                kind 64000 box 5 due 20030 right 9 wrong 0\npair 3 64000 box 1 due 9 right 0 wrong 2\n\
                took 64000 for 3 times 2\nlesson 500\ngloves 1 2 3\n";
    let read = Progress::read(text, "irons").expect("a text");
    assert_eq!(read.text(), text);
    assert_eq!(read.due(20_000), [Item::Look(65_000), Item::Pair(3, 64_000)]);
}
