//! The photo room: from the file to an answer, in whatever order and with whatever answers about the picture.

use crate::common::{irons, irons_unread};
use consult::photo::{Act, Develop, Outline, PhotoView, Spot, Stage, Valued};
use consult::{
    Body, Effect, Guide, Instrument, Length, Msg, Screen, State, What, fragment, read_fragment, update, view,
};
use picture::ask::{Asked, Told};
use picture::outline::Uncut;
use picture::photo::Refused;
use proptest::prelude::*;

fn act(guide: &Guide, state: State, act: Act) -> (State, Vec<Effect>) {
    update(guide, state, Msg::Photo(act))
}

fn told(guide: &Guide, state: State, told: &Told) -> (State, Vec<Effect>) {
    act(guide, state, Act::Told(told.words()))
}

fn room(guide: &Guide, state: &State) -> PhotoView {
    match view(guide, state).body {
        Body::Photo(v) => *v,
        other => unreachable!("the photo room was asked for: {other:?}"),
    }
}

fn asked(effects: &[Effect]) -> Vec<Asked> {
    let one = |e: &Effect| match e {
        Effect::Photo(Develop::Ask(words)) => Some(Asked::of(words).expect("a sound message")),
        _ => None,
    };
    effects.iter().filter_map(one).collect()
}

const EDGES: [Spot; 8] = {
    let mut edges = [Spot { x: 100, y: 100 }; 8];
    edges[3].x = 900;
    edges
};
const FOUND: Valued = Valued { length: 643, low: 629, high: 658, u: 8, by_height: 3 };

fn opened(guide: &Guide) -> State {
    let state = update(guide, State::default(), Msg::Show(Screen::Photo)).0;
    let (state, effects) = act(guide, state, Act::Chosen("photo-file".to_string()));
    assert!(effects.contains(&Effect::Photo(Develop::Take("photo-file".to_string()))));
    assert_eq!(room(guide, &state).stage, Stage::Opening);
    let state = act(guide, state, Act::Shown("blob:it".to_string())).0;
    let opened = Told::Opened { width: 2600, height: 1950, equivalent: 26, place: true };
    let (state, effects) = told(guide, state, &opened);
    assert_eq!(asked(&effects), [Asked::Propose]);
    state
}

fn placed(guide: &Guide) -> State {
    let state = told(guide, opened(guide), &Told::Proposed(Some(EDGES))).0;
    assert_eq!(room(guide, &state).heading, "Is this the card?");
    let (state, effects) = act(guide, state, Act::Agree);
    assert!(matches!(asked(&effects)[..], [Asked::Card { edges: EDGES, tap: 150 }]), "{effects:?}");
    told(guide, state, &Told::Placed { above: 3800, leans: 52 }).0
}

fn measured(guide: &Guide) -> State {
    let state = act(guide, placed(guide), Act::Lies(0)).0;
    assert_eq!(room(guide, &state).stage, Stage::Ends);
    let state = act(guide, state, Act::Tap(Spot::new(500, 500))).0;
    let (state, effects) = act(guide, state, Act::Tap(Spot::new(1500, 500)));
    let length =
        Asked::Length { ends: [Spot::new(500, 500), Spot::new(1500, 500)], height: [0, 10], tap: 150 };
    assert_eq!(asked(&effects), [length]);
    told(guide, state, &Told::Length(FOUND)).0
}

#[test]
fn from_the_file_to_the_answer() {
    let guide = irons();
    let state = measured(&guide);
    let shown = room(&guide, &state);
    assert_eq!(shown.found[0].0, "Length 64.3 mm");
    assert!(shown.found[0].1[0].contains("between 62.9 mm and 65.8 mm"), "{:?}", shown.found);
    assert!(shown.found[0].1.iter().any(|l| l.contains("never speaks for or against a recast")));
    assert!(state.given.is_empty(), "nothing counts before it is agreed to");
    let state = act(&guide, state, Act::Use).0;
    // 0.8 mm of standard uncertainty, as told.
    assert_eq!(state.given[0].what, What::Length(Length(643), Instrument::Photo(8)));
    let reason::Told::Measured { value, uncertainty } = state.answers()[0].told else {
        unreachable!("a measurement")
    };
    assert!((value - 64.3).abs() < 1e-9 && (uncertainty - 0.8).abs() < 1e-9);
    // It travels in the link, and one step takes it back.
    let link = fragment(&guide, &state);
    assert_eq!(read_fragment(&guide, &State::default(), &link).expect("a link").given, state.given);
    assert!(update(&guide, state, Msg::Undo).0.given.is_empty());
}

#[test]
fn typed_heights_take_the_place_of_words() {
    let guide = irons();
    let high = |text: &str| act(&guide, placed(&guide), Act::High(text.to_string())).0;
    let state = high("40");
    let state = act(&guide, state, Act::Height).0;
    let state = act(&guide, state, Act::Tap(Spot::new(500, 500))).0;
    let effects = act(&guide, state, Act::Tap(Spot::new(1500, 500))).1;
    // Within a millimetre and a twentieth: practice, as said there.
    assert!(matches!(asked(&effects)[..], [Asked::Length { height: [370, 430], .. }]), "{effects:?}");
    let state = high("as high as a house");
    assert!(room(&guide, &state).high.is_some_and(|(_, fault)| fault.is_some()));
    assert_eq!(room(&guide, &act(&guide, state, Act::Height).0).stage, Stage::Height);
}

#[test]
fn every_refusal_is_a_sentence() {
    let guide = irons();
    let refusals = [
        Refused::TapsTooNear(2),
        Refused::NoFourCorners,
        Refused::CutOff,
        Refused::TooSmall,
        Refused::TooOblique,
        Refused::NotFlat,
        Refused::NotRound,
        Refused::Unclear,
        Refused::TooHigh,
        Refused::OffThePlane,
        Refused::TooUncertain,
    ];
    let uncut = [Uncut::NoWindow, Uncut::NoGround, Uncut::NoPiece, Uncut::Touches];
    let all = refusals.map(Told::Refused).into_iter().chain(uncut.map(Told::Uncut));
    let mut seen = Vec::new();
    for why in all {
        let state = told(&guide, placed(&guide), &why).0;
        let says = room(&guide, &state).fault.expect("a sentence");
        assert!(says.ends_with('.') && says.len() > 40 && !seen.contains(&says), "{says}");
        seen.push(says);
    }
}

#[test]
fn the_outline_proposes_and_never_answers_by_itself() {
    let guide = irons();
    let (state, effects) = act(&guide, measured(&guide), Act::Cut);
    assert!(matches!(asked(&effects)[..], [Asked::Cut { height: 5, .. }]), "{effects:?}");
    let square = vec![Spot::new(0, 0), Spot::new(920, 0), Spot::new(920, 440), Spot::new(0, 440)];
    let outline = Outline {
        seen: square.clone(),
        true_size: square,
        size: [920, 440],
        length: 920,
        width: 440,
        widest: 700,
        area: 3000,
        symmetry: 990,
        points: 1,
        convexity: 995,
    };
    let (state, effects) = told(&guide, state, &Told::Cut(Box::new(outline)));
    let drawings = effects.iter().find_map(|e| match e {
        Effect::Photo(Develop::Compare(drawings)) => Some(drawings.clone()),
        _ => None,
    });
    let drawings = drawings.expect("it is compared");
    // The first drawn sole is the nearest and the narrowest.
    let far = (0..drawings.len() as i32).map(|i| [20 + i, 300 + 20 * i]).collect();
    let state = told(&guide, state, &Told::Compared(far)).0;
    assert!(state.given.is_empty());
    let shown = room(&guide, &state);
    let keys = shown.rows.iter().find(|r| r.label == "If you agree, it answers").expect("proposals");
    assert!((1..=2).contains(&keys.keys.len()));
    assert!(shown.found.iter().any(|(title, lines)| title == "Nearest by shape"
        && lines.iter().any(|l| l.contains("not on measured pieces"))));
    let mut state = state;
    for key in &keys.keys {
        state = act(&guide, state, key.act.clone()).0;
    }
    assert_eq!(state.given.len(), keys.keys.len());
    // Another answer than those proposed is not taken from here.
    let Act::Answer(question, choice) = keys.keys[0].act else { unreachable!("an answer") };
    let other = usize::from(choice == 0);
    let same = act(&guide, state.clone(), Act::Answer(question, other)).0;
    assert_eq!(same.given, state.given);
    let saved = act(&guide, state.clone(), Act::Save).1;
    let drawing = saved.iter().find_map(|e| match e {
        Effect::Photo(Develop::Save(drawing)) => Some(drawing.clone()),
        _ => None,
    });
    let drawing = drawing.expect("a drawing");
    // 92 mm and 5 mm on either side: arithmetic.
    assert!(drawing.contains("width=\"102.0mm\"") && drawing.contains("50 mm"), "{drawing}");
    // The record has it too: 44 of 92 mm wide all along, arithmetic.
    let record = consult::record(&guide, &state);
    assert!(record.contains(&format!("\noutline: {}\n", ["478"; 20].join(" "))), "{record}");
    assert_eq!(consult::held(&guide, &state).expect("held").outline, [478; 20]);
}

#[test]
fn the_numbers_of_an_outline_are_of_its_shape_alone() {
    let guide = irons();
    let of = |line: &[(i32, i32)], size: [i32; 2]| {
        let line: Vec<Spot> = line.iter().map(|(x, y)| Spot::new(*x, *y)).collect();
        let [length, width] = size;
        let outline =
            Outline { seen: line.clone(), true_size: line, size, length, width, ..Outline::default() };
        let cutting = act(&guide, measured(&guide), Act::Cut).0;
        told(&guide, cutting, &Told::Cut(Box::new(outline))).0.photo.profile()
    };
    // A triangle half as wide as long grows by 25 per mille from place to place: arithmetic.
    let triangle = of(&[(0, 250), (1000, 0), (1000, 500)], [1000, 500]);
    let grows: Vec<i32> = (0..20).map(|at| (25 * (2 * at + 1) + 1) / 2).collect();
    assert_eq!(triangle, grows);
    // Turned about, turned over, twice the size: the same.
    assert_eq!(of(&[(1000, 250), (0, 500), (0, 0)], [1000, 500]), triangle);
    assert_eq!(of(&[(0, 500), (2000, 1000), (2000, 0)], [2000, 1000]), triangle);
    assert!(of(&[], [0, 0]).is_empty());
}

#[test]
fn before_the_table_has_come_nothing_happens() {
    let guide = irons_unread();
    let state = update(&guide, State::default(), Msg::Show(Screen::Photo)).0;
    let (after, effects) = act(&guide, state.clone(), Act::Chosen("photo-file".to_string()));
    assert_eq!(after.photo, state.photo);
    assert!(!room(&guide, &state).ready, "no picture can be chosen before");
    assert!(!effects.iter().any(|e| matches!(e, Effect::Photo(_))));
}

/// Something done in the room, of all kinds.
fn any_act() -> impl Strategy<Value = Act> {
    let spot = (-50..30_000_i32, -50..30_000_i32).prop_map(|(x, y)| Spot::new(x, y));
    prop_oneof![
        4 => spot.prop_map(Act::Tap),
        1 => (0..9_usize).prop_map(Act::Point),
        2 => (-1..2_i32, -1..2_i32).prop_map(|(x, y)| Act::Nudge(x, y)),
        1 => prop::sample::select(vec![Act::Step, Act::Zoom, Act::Less, Act::Middle, Act::Agree, Act::Height, Act::Use,
            Act::Cut, Act::Unpatch, Act::Save, Act::Print, Act::Adds(false), Act::Failed("no".to_string()),
            Act::Shown("blob:x".to_string()), Act::Chosen("photo-file".to_string())]),
        1 => (0..20_usize).prop_map(|c| Act::By(Some(c))),
        1 => (0..7_usize).prop_map(Act::Lies),
        1 => "[0-9.,a ]{0,6}".prop_map(Act::High),
        1 => (0..60_usize, 0..8_usize).prop_map(|(q, c)| Act::Answer(q, c)),
        1 => prop::sample::select(vec![Stage::Pick, Stage::Card, Stage::Height, Stage::Ends, Stage::Outline])
            .prop_map(Act::Back),
        2 => prop::collection::vec(-3..3000_i32, 0..20).prop_map(Act::Told),
        2 => prop::sample::select(vec![Told::Placed { above: 3000, leans: 9 }, Told::Length(FOUND), Told::Proposed(None),
            Told::Opened { width: 900, height: 700, equivalent: 0, place: false }, Told::Refused(Refused::CutOff)])
            .prop_map(|t| Act::Told(t.words())),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_comes_is_answered(acts in prop::collection::vec(any_act(), 1..40)) {
        let guide = irons();
        let mut state = update(&guide, State::default(), Msg::Show(Screen::Photo)).0;
        for one in acts {
            let (next, effects) = act(&guide, state, one);
            // What is asked can be read at the other end.
            asked(&effects);
            let shown = room(&guide, &next);
            prop_assert!(shown.picture.is_none_or(|p| p.marks.len() <= 8));
            state = next;
        }
    }
}
