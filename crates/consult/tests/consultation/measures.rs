//! The measuring room: whatever is typed is answered, the order of lengths changes nothing, a ruler proves nothing, and
//! worked examples come out as published.

use crate::common::{YEAR, for_all_walks, irons, irons_unread, legal, metals_bytes, walked};
use consult::measures::{
    Field, LONGEST, MOST_PAIRS, Measure, MeasuresView, MetalView, Part, RecastView, SaysView,
};
use consult::{
    Body, Effect, Guide, Msg, Screen, State, Table, fragment, likelihood_word, read_fragment, update, view,
};
use proptest::prelude::*;

fn room(guide: &Guide, state: &State) -> MeasuresView {
    match view(guide, &update(guide, state.clone(), Msg::Show(Screen::Measures)).0).body {
        Body::Measures(m) => *m,
        other => unreachable!("the measuring room was asked for: {other:?}"),
    }
}

fn recast(guide: &Guide, state: &State) -> RecastView {
    room(guide, state).recast.expect("the table is there")
}

fn says(guide: &Guide, state: &State) -> SaysView {
    recast(guide, state).says.expect("everything was told")
}

fn metal(guide: &Guide, state: &State) -> MetalView {
    room(guide, state).metal.expect("the table is there")
}

fn put(guide: &Guide, state: State, fields: &[(Field, &str)]) -> State {
    let one = |state, (at, text): &(Field, &str)| {
        update(guide, state, Msg::Measure(Measure::Put(*at, (*text).to_string()))).0
    };
    fields.iter().fold(state, one)
}

/// A piece with these lengths, in mm: its own, that of the known piece, what that is from, and whether it runs along the
/// draw.
fn compared(
    guide: &Guide,
    start: State,
    with: &str,
    of: &str,
    lengths: &[(&str, &str, &str, bool)],
) -> State {
    let mut state = put(guide, start, &[(Field::With, with), (Field::Metal, of)]);
    for (at, (piece, known, by, along)) in lengths.iter().enumerate() {
        let at = at as u8;
        if at > 0 {
            state = update(guide, state, Msg::Measure(Measure::More)).0;
        }
        let field = |part| Field::Pair(at, part);
        let along = if *along { "yes" } else { "" };
        let fields = [(Part::Piece, *piece), (Part::Known, *known), (Part::By, *by), (Part::Along, along)];
        state = put(guide, state, &fields.map(|(part, text)| (field(part), text)));
    }
    state
}

const CALIPERS: &str = "calipers";

/// Worked examples, in the words of the room. Bases: those of `tests/cases/measure/recast.csv`.
#[test]
fn worked_lengths() {
    let guide = irons();
    let start = State::default;
    // Published: 3/32 inch to the foot is 0.78 per cent, 1/8 is 1.04 (the table's sources); 0.94 lies between.
    let shrunk = [("99.06", "100", CALIPERS, true), ("49,53", "50.00", CALIPERS, true)];
    let found = says(&guide, &compared(&guide, start(), CALIPERS, "cast-iron", &shrunk));
    assert_eq!(found.title, "Leans towards a recast: weak");
    assert!(found.because.iter().any(|l| l.contains("0.9 % shorter, give or take")), "{found:?}");
    assert!(found.because.iter().any(|l| l.contains("times as likely on a recast")), "{found:?}");
    // Published: castings of one model should be nearly of one size (Getty guidelines, II.4); along the draw nothing makes
    // up for shrinkage (A Text Book of Mechanical Engineering, page 63).
    let same = [("75", "75", CALIPERS, true), ("40", "40", CALIPERS, true)];
    let found = says(&guide, &compared(&guide, start(), CALIPERS, "cast-iron", &same));
    assert!(found.title.starts_with("Leans towards a casting of the old pattern: "), "{found:?}");
    assert!(found.because.iter().any(|l| l.contains("equally long, give or take")), "{found:?}");
    // Published: up to six inches rapping makes up for the shrinkage (the same book, page 62): across the draw equal lengths
    // do not acquit.
    let across = [("75", "75", CALIPERS, false), ("40", "40", CALIPERS, false)];
    let found = says(&guide, &compared(&guide, start(), CALIPERS, "cast-iron", &across));
    assert!(found.title.starts_with("Leans neither way"), "{found:?}");
    // Arithmetic: half the size is no shrinkage, and neither is a tenth more.
    for (piece, way) in [("50", "smaller"), ("110", "larger")] {
        let other = [(piece, "100", CALIPERS, true)];
        let found = says(&guide, &compared(&guide, start(), CALIPERS, "cast-iron", &other));
        assert_eq!(found.title, "Another size or pattern");
        assert!(found.because[0].contains(way), "{found:?}");
    }
    // By definition: a length whose doubt is larger than the shrinkage, and one without a shrinkage.
    let short = [("5", "5", CALIPERS, true)];
    for (of, why) in [("cast-iron", "too short"), ("silver", "No shrinkage of silver")] {
        let found = says(&guide, &compared(&guide, start(), CALIPERS, of, &short));
        assert!(found.title == "It proves nothing" && found.because[0].contains(why), "{found:?}");
    }
}

/// Each figure of the shrinkage is shown with the source that it is from.
#[test]
fn the_shrinkage_has_its_sources() {
    let guide = irons();
    let state = put(&guide, State::default(), &[(Field::Metal, "cast-iron")]);
    let basis = recast(&guide, &state).basis;
    // Published: the sources of the table; 3/32 and 1/8 inch to the foot.
    assert!(basis[0].contains("0.78 to 1.04 %"), "{basis:?}");
    assert!(basis.iter().any(|l| l.starts_with("0.78 %, from a published source: ")), "{basis:?}");
    assert!(basis.iter().any(|l| l.contains("from memory, not checked")), "{basis:?}");
}

/// Whatever the numbers are.
#[test]
fn a_ruler_proves_nothing() {
    let guide = irons();
    let config = ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() };
    let lengths = proptest::collection::vec((1_u32..200_000, 1_u32..200_000, any::<bool>()), 1..5);
    proptest!(config, |(lengths in lengths, rough in 0..4_usize)| {
        // The piece or the known one by ruler or from a photo.
        let (with, by) = [("ruler", CALIPERS), ("photo", CALIPERS), (CALIPERS, "ruler"), (CALIPERS, "photo")][rough];
        let mm = |n: u32| format!("{}.{:02}", n / 100, n % 100);
        let texts: Vec<_> = lengths.iter().map(|(a, b, along)| (mm(*a), mm(*b), *along)).collect();
        let pairs: Vec<_> = texts.iter().map(|(a, b, along)| (a.as_str(), b.as_str(), by, *along)).collect();
        let state = compared(&guide, State::default(), with, "cast-iron", &pairs);
        let found = recast(&guide, &state);
        let said = found.says.as_ref().expect("everything was told");
        prop_assert_eq!(&said.title, "It proves nothing");
        prop_assert!(said.because[0].contains("A ruler or a photo proves nothing here"), "{:?}", said);
        prop_assert!(said.because.len() == 1 && said.finding.is_none());
        prop_assert!(found.pairs.iter().all(|p| p.note.is_some()), "each is passed over");
    });
}

/// The finding depends on the set of lengths, however they were added, and one that is removed leaves nothing behind.
#[test]
fn the_order_of_lengths_changes_nothing() {
    let guide = irons();
    let config = ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() };
    let lengths = proptest::collection::vec((9_000_u32..10_200, any::<bool>()), 2..6);
    proptest!(config, |(lengths in lengths, gone in 0..6_u8)| {
        let mm = |n: u32| format!("{}.{:02}", n / 100, n % 100);
        let texts: Vec<_> = lengths.iter().map(|(n, along)| (mm(*n), *along)).collect();
        let mut pairs: Vec<_> = texts.iter().map(|(n, along)| (n.as_str(), "100", CALIPERS, *along)).collect();
        let whole = compared(&guide, State::default(), CALIPERS, "brass", &pairs);
        let there = says(&guide, &whole);
        pairs.reverse();
        let back = says(&guide, &compared(&guide, State::default(), CALIPERS, "brass", &pairs));
        prop_assert_eq!(there, back);
        pairs.reverse();
        let gone = gone % pairs.len() as u8;
        pairs.remove(usize::from(gone));
        let less = update(&guide, whole, Msg::Measure(Measure::Less(gone))).0;
        let never = compared(&guide, State::default(), CALIPERS, "brass", &pairs);
        prop_assert_eq!(recast(&guide, &less), recast(&guide, &never));
    });
}

/// It does not move the finding: that is said, with what it would do.
#[test]
fn the_finding_stays_and_is_told_what_would_move() {
    let guide = irons();
    let length = guide.core.questions.iter().position(|q| q.id == "length").expect("the length");
    let start = update(&guide, State::default(), Msg::Choose { question: length, choice: 0 }).0;
    let shrunk = [("98.00", "100", CALIPERS, true), ("49.00", "50.00", CALIPERS, true)];
    let state = compared(&guide, start.clone(), CALIPERS, "cast-iron", &shrunk);
    assert_eq!(consult::shares(&guide, &start), consult::shares(&guide, &state));
    let line = says(&guide, &state).finding.expect("it leans");
    assert!(line.starts_with("It does not change the finding by itself. "), "{line}");
    assert!(line.contains("a recast would go from "), "{line}");
}

/// Two weighings, in the words of the room. Bases: those of `tests/cases/measure/density.csv`.
#[test]
fn worked_weighings() {
    let guide = irons();
    let weighed = |way, step, air, second, warmth| {
        let fields = [
            (Field::Way, way),
            (Field::Step, step),
            (Field::Air, air),
            (Field::Second, second),
            (Field::Warmth, warmth),
        ];
        metal(&guide, &put(&guide, State::default(), &fields))
    };
    // Published: cast brass 8.4 g/cm3 (Applied Science for Metal Workers). The gain by arithmetic: 200 g (0.9982 - 0.0012) /
    // (8.4 - 0.0012), with the published densities of water at 20 degrees and of air.
    let brass = weighed("displaced", "10", "200", "23.74", "20");
    assert!(brass.density.as_ref().is_some_and(|d| d.contains("8.40 g")), "{brass:?}");
    assert!(brass.left[0].name == "Brass" && brass.left[0].likely.contains(" in 10"), "{brass:?}");
    assert!(brass.basis.iter().any(|l| l.contains("from a published source: ")), "{brass:?}");
    // Published: an alloy in a university's course, 7.90 from 44.82 g and 39.16 g in water of 21.8 degrees. The
    // course leaves the air out, which takes 0.01 by arithmetic: 0.0012 + (0.9978 - 0.0012) x 44.82 / 5.66.
    let alloy = weighed("hanging", "1", "44,82", "39,16", "21.8");
    assert!(alloy.density.as_ref().is_some_and(|d| d.contains(" 7.89 g")), "{alloy:?}");
    // By definition: what gives no density says why, in the place of one.
    for (second, step, why) in
        [("20", "1", "do not fit"), ("30", "1", "do not fit"), ("17", "100", "too coarse")]
    {
        let none = weighed("hanging", step, "20", second, "");
        assert!(none.density.is_none() && none.fault.as_ref().is_some_and(|f| f.contains(why)), "{none:?}");
    }
    let hot = weighed("hanging", "1", "44.82", "39.16", "68");
    assert!(hot.density.is_none() && hot.fields[2].fault.is_some(), "{hot:?}");
}

/// What must be known before water is there before anything was typed, and typing moves none of it.
#[test]
fn cautions_come_first() {
    let guide = irons();
    let before = metal(&guide, &State::default()).cautions;
    assert!(before[0].contains("Never put a piece into water that has a cord"), "{before:?}");
    assert!(
        before.iter().any(|c| c.contains("dry it at once")) && before.iter().any(|c| c.contains("hollow"))
    );
    let fields = [(Field::Air, "200"), (Field::Second, "23.79"), (Field::Step, "10")];
    assert_eq!(metal(&guide, &put(&guide, State::default(), &fields)).cautions, before);
    // Published: a magnet does not hold on copper and its alloys, so what it lets go does not rust as iron does.
    let magnet = guide.core.questions.iter().position(|q| q.id == "magnet").expect("the magnet");
    let none = guide.core.questions[magnet].choices.iter().position(|c| c.id == "none").expect("a choice");
    let state = update(&guide, State::default(), Msg::Choose { question: magnet, choice: none }).0;
    let after = metal(&guide, &state);
    assert!(after.cautions.iter().all(|c| !c.contains("dry it at once")), "{after:?}");
    assert!(after.told[0].contains("does not hold") && after.left.iter().all(|m| m.name != "Cast iron"));
}

/// Whatever is typed and tapped: the room can be shown, nothing is kept that is too long, and it travels in no link.
#[test]
fn hostile_texts_are_answered() {
    let guide = irons();
    let config = ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() };
    let field = (0..8_usize, any::<u8>(), 0..5_usize).prop_map(|(which, pair, part)| {
        let part = [Part::Piece, Part::Known, Part::By, Part::Along, Part::Worked][part];
        [
            Field::With,
            Field::Metal,
            Field::Pair(pair % 14, part),
            Field::Pair(0, part),
            Field::Way,
            Field::Air,
            Field::Second,
            Field::Warmth,
        ][which]
    });
    let text = prop_oneof!["\\PC{0,40}", "[0-9.,]{0,12}", "(calipers|ruler|cast-iron|hanging|yes)"];
    let put = (field, text).prop_map(|(at, text)| Measure::Put(at, text));
    let any = prop_oneof![8 => put, 1 => Just(Measure::More), 1 => any::<u8>().prop_map(Measure::Less)];
    proptest!(config, |(all in proptest::collection::vec(any, 0..30))| {
        let mut state = State::default();
        for measure in all {
            let (next, effects) = update(&guide, state, Msg::Measure(measure));
            prop_assert!(effects.is_empty(), "{:?}", effects);
            state = next;
        }
        prop_assert!((1..=MOST_PAIRS).contains(&state.measures.pairs()));
        let shown = room(&guide, &state);
        let recast = shown.recast.expect("the table is there");
        let typed = recast.pairs.iter().flat_map(|p| [&p.piece, &p.known]);
        for field in typed.chain(&shown.metal.expect("the table is there").fields) {
            prop_assert!(field.text.chars().count() <= LONGEST);
            prop_assert!(field.fault.as_ref().is_none_or(|f| f.ends_with('.') && !field.text.trim().is_empty()));
        }
        prop_assert_eq!(fragment(&guide, &state), fragment(&guide, &State::default()));
    });
}

/// A link may name the room, the browser's Back keeps what was typed, and a new piece begins with empty fields.
#[test]
fn the_room_in_the_address() {
    let guide = irons_unread();
    let (state, effects) = update(&guide, State::default(), Msg::Show(Screen::Measures));
    assert!(effects.contains(&Effect::Tables(Table::Metals)) && room(&guide, &state).recast.is_none());
    let link = fragment(&guide, &state);
    assert!(link.contains("/n~"), "{link}");
    assert_eq!(read_fragment(&guide, &State::default(), &link).map(|s| s.screen), Ok(Screen::Measures));
    guide.learn(Table::Metals, metals_bytes()).expect("the table can be read");
    let state = put(&guide, state, &[(Field::Air, "120")]);
    let (state, effects) = update(&guide, state, Msg::Tables);
    assert!(!effects.contains(&Effect::Tables(Table::Metals)) && room(&guide, &state).recast.is_some());
    let there = fragment(&guide, &update(&guide, State::default(), Msg::Show(Screen::Finding)).0);
    let back = update(&guide, state, Msg::Went(there)).0;
    assert_eq!(back.measures.text(Field::Air), "120");
    assert_eq!(update(&guide, back, Msg::Fresh).0.measures, State::default().measures);
    assert!(guide.this_year == YEAR && guide.learn(Table::Metals, &[1, 2, 3]).is_err());
}

/// What may stand behind a number of the room.
fn is_unit(after: &str) -> bool {
    let after = after.trim_start();
    let units = ["mm", "g", "%", "g/cm\u{b3}", "kg/m\u{b3}", "\u{b0}C", "times", "lengths", "in", "recasts"];
    let word: String = after.chars().take_while(|c| !c.is_whitespace() && !",.;:)".contains(*c)).collect();
    units.contains(&word.as_str())
        || after.strip_prefix("to ").is_some_and(|r| r.starts_with(|c: char| c.is_ascii_digit()))
}

/// Numbers without a unit, chances without a number, words that vouch.
fn careless(text: &str) -> Option<String> {
    let small = text.to_lowercase();
    if let Some(word) = ["genuine", "authentic", "guarantee", "definitely", "fake", "prove that"]
        .iter()
        .find(|w| small.contains(**w))
    {
        return Some(format!("it says {word}"));
    }
    let mut at = 0;
    while let Some(begin) = text[at..].find(|c: char| c.is_ascii_digit()).map(|i| at + i) {
        let end =
            text[begin..].find(|c: char| !(c.is_ascii_digit() || c == '.')).map_or(text.len(), |i| begin + i);
        let shown = text[begin..end].trim_end_matches('.');
        let year = shown.len() == 4 && !shown.contains('.');
        let whole = text[..begin].ends_with(" in ") || text[..begin].ends_with("OIML D ");
        if !year && !whole && !is_unit(&text[begin + shown.len()..]) {
            return Some(format!("{shown} has no unit"));
        }
        at = end;
    }
    // "As likely as" compares; "likely" alone is a word of the scale.
    let rest = text.replace("as likely on", "").replace("unlikely", "likely");
    let bare = rest.match_indices("likely").any(|(i, w)| {
        let after = &rest[i + w.len()..];
        !after.starts_with(", ")
            && !after.starts_with(" as not, ")
            && !rest[i..].starts_with("likely than not, ")
    });
    bare.then(|| "a chance has no number".to_string())
}

#[test]
fn what_would_be_noticed() {
    for bad in ["64", "0.9 shorter", "a genuine one", "It is likely.", "about 12 irons"] {
        assert!(careless(bad).is_some(), "{bad}");
    }
    for good in
        ["0.78 to 1.04 %", "unlikely, 2 in 10", "about 4 times as likely on a recast as", "7.21 g/cm\u{b3}."]
    {
        assert_eq!(careless(good), None, "{good}");
    }
    for p in 0..=100 {
        let p = f64::from(p) / 100.0;
        assert_eq!(careless(&consult::likely(p)), None, "{}", likelihood_word(p));
    }
}

/// Every sentence of the room, in whatever state.
#[test]
fn no_figure_without_its_unit() {
    let guide = irons();
    for_all_walks(150, 20, |taps| {
        let state = walked(&guide, &taps);
        legal(&guide, &state).map_err(TestCaseError::fail)?;
        let shown = room(&guide, &state);
        let (recast, metal) = (shown.recast.expect("a table"), shown.metal.expect("a table"));
        let mut said: Vec<String> = recast.asks.iter().cloned().collect();
        if let Some(says) = recast.says {
            said.push(says.title);
            said.extend(says.because);
            said.extend(says.finding);
        }
        said.extend(
            metal.cautions.iter().chain(&metal.told).chain(&metal.density).chain(&metal.fault).cloned(),
        );
        said.extend(metal.left.iter().map(|m| format!("{} {}", m.likely, m.density)));
        said.extend(metal.others.iter().chain(&metal.heft).cloned());
        for text in &said {
            prop_assert!(careless(text).is_none(), "{:?}: {}", careless(text), text);
        }
        Ok(())
    });
}
