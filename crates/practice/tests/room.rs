//! The practice room as a page would use it.

use crate::common::guide;
use practice::room::{
    ClassMsg, Effect, Msg, Page, RoomView, SeriesMsg, Standing, State, TaskView, TestView, update, view,
};
use practice::{Now, Paper, Progress, Sight, TWELVE, Trainer};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

fn begun(trainer: &Trainer<'_>, kept: Option<String>) -> State {
    update(trainer, State::default(), Msg::Begun { today: 20_000, seed: 5, kept }).0
}

fn task(trainer: &Trainer<'_>, state: &State) -> TaskView {
    match view(trainer, state) {
        RoomView::Task(task) => *task,
        other => unreachable!("no task is open: {other:?}"),
    }
}

fn kept(effects: &[Effect]) -> Option<&str> {
    effects.iter().find_map(|e| if let Effect::Keep(text) = e { Some(text.as_str()) } else { None })
}

#[test]
fn ten_minutes() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let mut state = begun(&trainer, None);
    let RoomView::Start(start) = view(&trainer, &state) else { unreachable!("the start") };
    assert_eq!(start.lessons.len(), 6);
    assert_eq!(
        start.kinds,
        "New: Solid cast grip; Imitated holes, cast screw; Pierced grip; Recent grainy casting."
    );
    let (next, effects) = update(&trainer, state, Msg::Go(Page::Task));
    assert_eq!(effects, [Effect::Heading]);
    state = next;
    let mut last = String::new();
    for n in 0..8 {
        let open = task(&trainer, &state);
        assert!(
            open.feedback.is_none()
                && open.offers.iter().all(|o| o.stands == Standing::Open && o.word.is_empty())
        );
        // Going on without an answer changes nothing.
        assert_eq!(update(&trainer, state.clone(), Msg::Next).0, state);
        let (answered, effects) = update(&trainer, state, Msg::Pick(n % open.offers.len()));
        last = kept(&effects).expect("an answer is kept").to_string();
        assert!(effects.contains(&Effect::Answered));
        let shown = task(&trainer, &answered);
        let feedback = shown.feedback.expect("something is said");
        assert_eq!(shown.offers.iter().filter(|o| o.stands == Standing::Right).count(), 1);
        assert_eq!(
            shown.offers.iter().filter(|o| o.stands == Standing::Wrong).count(),
            usize::from(!feedback.right)
        );
        // Answered once: a second tap changes nothing.
        let (again, effects) = update(&trainer, answered.clone(), Msg::Pick(0));
        assert!(again == answered && effects.is_empty());
        state = update(&trainer, answered, Msg::Next).0;
    }
    assert_eq!(state.progress.asked, 8);
    // The next day goes on from what was kept.
    let (next, _) =
        update(&trainer, State::default(), Msg::Begun { today: 20_001, seed: 6, kept: Some(last) });
    assert_eq!(next.progress, state.progress);
    let RoomView::Start(start) = view(&trainer, &next) else { unreachable!("the start") };
    assert!(start.due.ends_with("due today."), "{}", start.due);
}

#[test]
fn a_test_tells_nothing_before_its_end() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let mut state = update(&trainer, begun(&trainer, None), Msg::Go(Page::Test)).0;
    assert!(matches!(view(&trainer, &state), RoomView::Test(TestView::Before(_))));
    let mut effects;
    (state, effects) = update(&trainer, state, Msg::Test);
    assert!(matches!(view(&trainer, &state), RoomView::Test(TestView::Sought(_))));
    for n in 0..TWELVE {
        // Every second learner answers before the next piece is found.
        while effects.contains(&Effect::Then)
            && (n % 2 == 0 || !matches!(view(&trainer, &state), RoomView::Test(TestView::Piece(..))))
        {
            (state, effects) = update(&trainer, state, Msg::More);
        }
        let RoomView::Test(TestView::Piece(says, task)) = view(&trainer, &state) else {
            unreachable!("piece {n}")
        };
        assert_eq!(says, format!("Piece {} of 12", n + 1));
        assert!(task.feedback.is_none());
        let pending = effects.contains(&Effect::Then);
        (state, effects) = update(&trainer, state, Msg::Pick(0));
        assert_eq!(kept(&effects).is_some(), n + 1 == TWELVE);
        // What was asked for before the answer still comes.
        effects.extend((pending && !effects.contains(&Effect::Then)).then_some(Effect::Then));
    }
    let RoomView::Test(TestView::Done(says)) = view(&trainer, &state) else { unreachable!("the end") };
    let right = state.progress.trials[0].right;
    assert_eq!(says[..2], [format!("{right} of 12 right."), format!("The test: {right} of 12.")]);
    // It measures and does not teach: nothing moved in the boxes.
    assert!(state.progress.cards.is_empty() && state.progress.asked == 0);
}

#[test]
fn practice_travels() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let state = begun(&trainer, Some("not ours".to_string()));
    assert_eq!(state.notice.as_deref(), Some("This is no file of practice, or one of a later program."));
    let text = "pressmark practice 1\npack irons\nasked 9\nlook 5 box 3 due 20007 right 4 wrong 0\ntook 1 for 2 times 3\n";
    let (state, effects) = update(&trainer, state, Msg::Import(text.to_string()));
    assert_eq!(kept(&effects), Some(text));
    let (state, effects) = update(&trainer, state, Msg::Export);
    assert_eq!(effects, [Effect::Save("irons-practice.txt".to_string(), text.to_string())]);
    let (state, _) = update(&trainer, state, Msg::Go(Page::Mixed));
    let RoomView::Mixed(mixed) = view(&trainer, &state) else { unreachable!("what was confused") };
    assert_eq!(mixed.matrix.cells, [[0, 3], [0, 0]]);
    assert!(mixed.matrix.mixed[0].says.ends_with(", 3 times.") && !mixed.matrix.mixed[0].check.is_empty());
    // The confusion can be practised at once.
    let (state, _) = update(&trainer, state, Msg::Practise(mixed.matrix.mixed[0].item));
    assert!(["Look-alikes", "What next"].contains(&task(&trainer, &state).sort));
}

#[test]
fn a_teacher_puts_a_piece() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let mut state = update(&trainer, begun(&trainer, None), Msg::Go(Page::Class)).0;
    let mut tell = |msg: ClassMsg| {
        state = update(&trainer, state.clone(), Msg::Class(msg)).0;
        match view(&trainer, &state) {
            RoomView::Class(view) => (view, state.notice.clone()),
            other => unreachable!("{other:?}"),
        }
    };
    let (_, notice) = tell(ClassMsg::Add("7".into(), "grip = spoon".into(), None));
    assert!(notice.is_some_and(|n| n.starts_with("No. 7: line 1: ")));
    tell(ClassMsg::Add("7".into(), "grip = pierced\ndepth = blind".into(), None));
    let (table, _) = tell(ClassMsg::Put(0, 1));
    assert_eq!(table.says, "1 piece on the table");
    assert_eq!(table.round.map(|r| r.ask).as_deref(), Some("No. 7: do the holes go right through?"));
    for answer in [0, 0, 1, 9] {
        tell(ClassMsg::Vote(answer, true));
    }
    let (table, _) = tell(ClassMsg::Finding(true));
    // Hidden until wanted, and what is being asked is never told by the finding.
    assert_eq!(
        (table.votes.as_slice(), table.right, table.tally.as_str(), table.finding),
        (&[2, 1, 0][..], None, "", None)
    );
    let (table, _) = tell(ClassMsg::Reveal);
    assert_eq!(table.right, Some(1));
    assert!(
        table.tally.starts_with("1 of 3 votes")
            && table.finding.is_some_and(|f| f.starts_with("After the grip"))
    );
    assert_eq!(table.hard, ["No. 7, do the holes go right through? 1 of 3 saw it."]);
}

#[test]
fn a_series_is_the_same_on_paper_and_before_the_class() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let mut state = update(&trainer, begun(&trainer, None), Msg::Go(Page::Sheets)).0;
    let mut tell = |msg: Msg| {
        let (next, effects) = update(&trainer, state.clone(), msg);
        state = next;
        (view(&trainer, &state), effects)
    };
    for (typed, sound) in [("0", false), ("12a", false), ("", false), ("99999", false), (" 12 ", true)] {
        let RoomView::Sheets(view) = tell(Msg::Series(SeriesMsg::Number(typed.into()))).0 else {
            unreachable!()
        };
        assert_eq!(view.fault.is_none(), sound, "{typed:?}");
        let begun = tell(Msg::Series(SeriesMsg::Make)).1;
        assert_eq!(begun == [Effect::Then], sound, "{typed:?}");
    }
    tell(Msg::Series(SeriesMsg::Paper(Paper::Letter)));
    let mut effects = tell(Msg::Series(SeriesMsg::Make)).1;
    let mut steps = 0;
    while let [Effect::Then] = effects[..] {
        effects = tell(Msg::More).1;
        steps += 1;
    }
    // A piece at a time, and then they are laid out.
    assert_eq!(steps, 7);
    let RoomView::Sheets(made) = tell(Msg::Read).0 else { unreachable!() };
    let sheets = made.sheets.expect("all are made");
    assert_eq!(*sheets, trainer.sheets(12, 6, &[], Paper::Letter));
    // The same pieces, one by one.
    tell(Msg::Go(Page::Board));
    for place in sheets.pages.iter().flat_map(|p| &p.places) {
        let RoomView::Board(board) = tell(Msg::Read).0 else { unreachable!() };
        assert_eq!(
            (&board.task.ask, board.says),
            (&place.ask, format!("Piece {} of series 12", place.number))
        );
        assert!(board.task.feedback.is_none() && board.tally.is_empty());
        for _ in 0..3 {
            tell(Msg::Series(SeriesMsg::Vote(0, true)));
        }
        let RoomView::Board(board) = tell(Msg::Series(SeriesMsg::Reveal)).0 else { unreachable!() };
        assert_eq!(board.votes[0], 3);
        assert!(
            board.task.feedback.is_some_and(|f| !f.says.starts_with("Yes") && !f.says.starts_with("No."))
        );
        let of_all = if board.task.offers[0].stands == Standing::Right { "3 of 3" } else { "0 of 3" };
        assert!(board.tally.starts_with(of_all), "{}", board.tally);
        assert_eq!(
            board.hard.iter().any(|h| h.starts_with(&format!("Piece {},", place.number))),
            of_all == "0 of 3"
        );
        assert_eq!(tell(Msg::Series(SeriesMsg::On)).1, [Effect::Heading]);
    }
    // Nothing of it is a learner's practice.
    assert_eq!(state.progress, Progress::of("irons"));
}

#[test]
fn pages_have_addresses() {
    let pages = [
        Page::Start,
        Page::Lesson(0),
        Page::Lesson(5),
        Page::Task,
        Page::Mixed,
        Page::Test,
        Page::Talk,
        Page::Teach,
        Page::Board,
        Page::Sheets,
        Page::Class,
    ];
    for page in pages {
        assert_eq!(Page::read(&format!("#{}", page.fragment())), page);
    }
    assert_eq!(Page::read("#lesson/x"), Page::Start);
}

#[test]
fn lessons_and_the_talk_go_on() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let mut state = update(&trainer, begun(&trainer, None), Msg::Go(Page::Lesson(0))).0;
    for _ in 0..9 {
        state = update(&trainer, state, Msg::Next).0;
    }
    assert!(matches!(view(&trainer, &state), RoomView::Lesson(l) if matches!(l.now, Now::End(..))));
    assert_eq!(state.progress.lessons, [1]);
    state = update(&trainer, state, Msg::Go(Page::Talk)).0;
    let mut before = 0;
    loop {
        let RoomView::Talk(talk) = view(&trainer, &state) else { unreachable!("the talk") };
        assert_eq!(talk.turns.len(), before + 1);
        before += 1;
        if !talk.more {
            break;
        }
        state = update(&trainer, state, Msg::Next).0;
    }
    assert!(before > 2);
}

/// Whatever is tapped, in whatever order, something is shown, and what is kept can be read again.
#[test]
fn any_taps() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let page = prop_oneof![
        Just(Page::Start),
        Just(Page::Task),
        (0_usize..8).prop_map(Page::Lesson),
        Just(Page::Mixed),
        Just(Page::Test),
        Just(Page::Talk),
        Just(Page::Class),
        Just(Page::Board),
        Just(Page::Sheets)
    ];
    let tap = prop_oneof![
        2 => page.prop_map(Msg::Go),
        4 => (0_usize..6).prop_map(Msg::Pick),
        4 => Just(Msg::Next),
        2 => (0_usize..9).prop_map(Msg::Walk),
        1 => (0_usize..9).prop_map(Msg::Turn),
        1 => any::<bool>().prop_map(Msg::ByWords),
        1 => Just(Msg::Export),
        1 => Just(Msg::Test),
        4 => Just(Msg::More),
        1 => (0_usize..3, 0_usize..3).prop_map(|(a, b)| Msg::Class(ClassMsg::Put(a, b))),
        1 => (0_usize..70).prop_map(|a| Msg::Class(ClassMsg::Vote(a, true))),
        1 => Just(Msg::Class(ClassMsg::Reveal)),
        1 => (0_usize..5).prop_map(|a| Msg::Series(SeriesMsg::Vote(a, true))),
        1 => prop_oneof![Just(SeriesMsg::Make), Just(SeriesMsg::Reveal), Just(SeriesMsg::On)]
            .prop_map(Msg::Series),
        1 => "\\PC{0,40}".prop_map(Msg::Import),
    ];
    let mut runner = TestRunner::new(Config {
        cases: if crate::common::deep() { 200 } else { 8 },
        failure_persistence: None,
        ..Config::default()
    });
    let walked = runner.run(&proptest::collection::vec(tap, 1..25), |taps| {
        let mut state = begun(&trainer, None);
        for tap in taps {
            let (next, effects) = update(&trainer, state, tap);
            state = next;
            let _ = view(&trainer, &state);
            if let Some(text) = kept(&effects) {
                prop_assert_eq!(Progress::read(text, "irons"), Ok(state.progress.clone()));
            }
        }
        Ok(())
    });
    assert_eq!(walked, Ok(()));
}

/// A club's pack without a lesson has all but first steps and statements about marks.
#[test]
fn a_pack_without_lessons_has_a_room() {
    let mut guide = crate::common::guide_of(crate::common::compiled());
    let lessons = &mut guide.book.as_mut().expect("a book").lessons;
    lessons.steps.clear();
    lessons.blocks.clear();
    lessons.proofs.clear();
    let sight = Sight::new(&guide);
    let trainer = Trainer::new(&guide, &sight);
    let mut state = begun(&trainer, None);
    let RoomView::Start(start) = view(&trainer, &state) else { unreachable!("the start") };
    assert!(start.lessons.is_empty() && start.kinds.starts_with("New: "));
    for page in [Page::Lesson(0), Page::Mixed, Page::Test, Page::Talk, Page::Teach, Page::Sheets, Page::Class]
    {
        state = update(&trainer, state, Msg::Go(page)).0;
        assert_eq!(
            matches!(view(&trainer, &state), RoomView::Nothing(_)),
            page == Page::Lesson(0),
            "{page:?}"
        );
    }
    state = update(&trainer, state, Msg::Go(Page::Task)).0;
    for n in 0..12 {
        assert_ne!(task(&trainer, &state).sort, "A mark");
        state = update(&trainer, state, Msg::Pick(n % 2)).0;
        state = update(&trainer, state, Msg::Next).0;
    }
    assert_eq!(state.progress.asked, 12);
    state = update(&trainer, state, Msg::Go(Page::Board)).0;
    assert!(matches!(view(&trainer, &state), RoomView::Board(_)));
}
