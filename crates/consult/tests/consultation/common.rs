//! Packs, random taps, and the states they lead to.

use compile::{Files, compile};
use consult::marks::Mark;
use consult::measures::{Field, Measure, Part};
use consult::sale::{self, Act, Desk};
use consult::{Aim, Guide, LengthUnit, Manner, Msg, Screen, State, Theme, update};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

/// The year of the tests, so that a finding does not change with the calendar.
pub(crate) const YEAR: i16 = 2026;
/// The seed of everything drawn here.
pub(crate) const SEED: u64 = 20_261_124;

type Halves = (Vec<u8>, Vec<u8>);

static IRONS: LazyLock<Halves> = LazyLock::new(|| compiled("data/packs/irons"));
static MARKS: LazyLock<Vec<u8>> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut files = texts(&root.join("data/reference"), "");
    files.retain(|(name, _)| !name.starts_with("prices/"));
    compile::reference(&Files::new(files)).expect("sound tables").bytes
});
static METALS: LazyLock<Vec<u8>> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let text = fs::read_to_string(root.join("data/reference/metals.toml")).expect("the table of metals");
    let files = Files::new(vec![("metals.toml".to_string(), text)]);
    compile::Reference::metals(&files).expect("a sound table").bytes
});
static COINS: LazyLock<Vec<u8>> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let text = fs::read_to_string(root.join("data/reference/coins.toml")).expect("the table of coins");
    let files = Files::new(vec![("coins.toml".to_string(), text)]);
    compile::Reference::coins(&files).expect("a sound table").bytes
});
/// Bytes of the tables of prices and of the invented sales.
static PRICES: LazyLock<Halves> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let prices = compile::Reference::prices(&Files::new(texts(&root.join("data/reference/prices"), "")));
    let prices = prices.expect("sound tables of prices");
    let mut pack = texts(&root.join("data/packs/irons"), "");
    pack.extend(texts(&root.join("data/art"), "art/"));
    let sales = Files::new(texts(&root.join("data/packs/demo"), ""));
    let demo = compile::Reference::ledger(&sales, &Files::new(pack), &prices.made).expect("a sound ledger");
    (prices.bytes, demo.bytes)
});
static TINY: LazyLock<Halves> = LazyLock::new(|| compiled("crates/compile/tests/cases/good"));

fn texts(folder: &Path, inside: &str) -> Vec<(String, String)> {
    let mut texts = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder of the project") {
        let entry = entry.expect("an entry of a folder of the project");
        let name = format!("{inside}{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            texts.extend(self::texts(&entry.path(), &format!("{name}/")));
        } else if name.ends_with(".toml") || name.ends_with(".csv") {
            texts.push((name, fs::read_to_string(entry.path()).expect("a text file of the project")));
        }
    }
    texts
}

fn compiled(folder: &str) -> Halves {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut files = texts(&root.join(folder), "");
    files.extend(texts(&root.join("data/art"), "art/"));
    let c = compile(&Files::new(files)).expect("a sound pack");
    (c.core_bytes, c.book_bytes)
}

fn ready((core, book): &Halves, year: i16) -> Guide {
    Guide::from_bytes(core, book, year).expect("the pack can be read")
}

/// The bundled pack, book included, with the tables of marks.
pub(crate) fn irons() -> Guide {
    let guide = irons_unread();
    guide.learn(consult::Table::Marks, &MARKS).expect("the tables can be read");
    guide.learn(consult::Table::Prices, &PRICES.0).expect("the tables of prices can be read");
    guide.learn(consult::Table::Demo, &PRICES.1).expect("the invented sales can be read");
    guide.learn(consult::Table::Metals, &METALS).expect("the table of metals can be read");
    guide.learn(consult::Table::Coins, &COINS).expect("the table of coins can be read");
    guide
}

/// The bundled pack, book included, before the tables of marks have come.
pub(crate) fn irons_unread() -> Guide {
    ready(&IRONS, YEAR)
}

/// Bytes of the tables of marks.
pub(crate) fn marks_bytes() -> &'static [u8] {
    &MARKS
}

/// Bytes of the table of metals.
pub(crate) fn metals_bytes() -> &'static [u8] {
    &METALS
}

/// The bundled pack before its book has come.
pub(crate) fn irons_early() -> Guide {
    Guide::of_core(&IRONS.0, YEAR).expect("the pack can be read")
}

/// Core and book of the bundled pack.
pub(crate) fn irons_bytes() -> &'static Halves {
    &IRONS
}

/// Core and book of the small pack.
pub(crate) fn tiny_bytes() -> &'static Halves {
    &TINY
}

/// The bundled pack in another year.
pub(crate) fn irons_in(year: i16) -> Guide {
    ready(&IRONS, year)
}

/// The small sound pack of the compiler's tests: two kinds, five questions, one gate. All its figures are invented.
pub(crate) fn tiny() -> Guide {
    ready(&TINY, YEAR)
}

/// The small pack with the tables of prices: what is reckoned from what is typed needs no finding.
pub(crate) fn tiny_priced() -> Guide {
    let guide = tiny();
    guide.learn(consult::Table::Prices, &PRICES.0).expect("the tables of prices can be read");
    guide
}

/// Whether full counts are asked for.
pub(crate) fn deep() -> bool {
    std::env::var_os("PRESSMARK_DEEP").is_some()
}

/// A user's tap, for any pack: what sort, and three numbers that choose among what the pack has.
pub(crate) type Tap = (u8, u16, u16, u16);

/// Runs a property over consultations of up to `longest` taps: always the same ones, unless full counts are asked for.
pub(crate) fn for_all_walks(
    cases: u32,
    longest: usize,
    holds: impl Fn(Vec<Tap>) -> Result<(), TestCaseError>,
) {
    let config = ProptestConfig {
        cases: if deep() { cases * 10 } else { cases },
        rng_seed: if deep() { RngSeed::Random } else { RngSeed::Fixed(SEED) },
        failure_persistence: None,
        ..ProptestConfig::default()
    };
    let taps = vec((0..20_u8, any::<u16>(), any::<u16>(), any::<u16>()), 0..=longest);
    let outcome = TestRunner::new(config).run(&taps, holds);
    assert!(outcome.is_ok(), "{}", outcome.unwrap_err());
}

/// What the taps come to in messages. Every one could be sent by the page.
pub(crate) fn messages(guide: &Guide, (sort, a, b, c): Tap) -> Vec<Msg> {
    let core = &guide.core;
    let of = |n: u16, many: usize| usize::from(n) % many;
    let question = of(a, core.questions.len());
    let choices = core.questions[question].choices.len();
    let choose = |choice| Msg::Choose { question, choice };
    let (one, other) = (of(b, choices), of(c, choices));
    match sort {
        0 => vec![Msg::Cannot(question)],
        1 => vec![Msg::Either, choose(one), choose(other)],
        2 => vec![choose(one), Msg::Unsure(question)],
        3 => vec![
            Msg::Unit(if c % 2 == 0 { LengthUnit::Millimetre } else { LengthUnit::Inch }),
            Msg::Calipers(c % 3 == 0),
            Msg::Type(typed(b)),
            Msg::Enter(measured(guide, a)),
        ],
        4 => vec![Msg::TakeBack(question)],
        5 => vec![Msg::Undo],
        6 => vec![Msg::Place(of(a, core.places.len()))],
        7 => vec![Msg::SkipPlace],
        8 => vec![Msg::Picture(a % 2 == 0)],
        9 => vec![Msg::Tool(of(a, core.tools.len()))],
        10 => vec![Msg::Aim(Aim::ALL[of(a, 4)])],
        11 => vec![Msg::Manner(if a % 2 == 0 { Manner::Guided } else { Manner::Free })],
        12 => {
            let all = [
                Screen::Look,
                Screen::Finding,
                Screen::List,
                Screen::Setup,
                Screen::Marks,
                Screen::Measures,
                Screen::Sale,
            ];
            vec![Msg::Show(all[of(a, all.len())])]
        }
        13 => vec![Msg::Ask(question), choose(one)],
        14 => vec![Msg::LookOn],
        15 => vec![[Msg::Why, Msg::Money, Msg::Fresh, Msg::Theme(Theme::Sun)][of(a, 4)].clone()],
        16 => vec![Msg::Mark(lettering(a, b, c))],
        17 => vec![Msg::Sale(bidding(a, b, c))],
        18 => measuring(a, b, c).into_iter().map(Msg::Measure).collect(),
        _ => vec![choose(one)],
    }
}

/// Something done in the room for a sale.
fn bidding(a: u16, b: u16, c: u16) -> Act {
    let at = usize::from(b);
    let figures = ["45", "12.50", "0", "iron", "17,5", "9999999", ""];
    let fields = [
        sale::Field::Limit,
        sale::Field::Premium,
        sale::Field::Tax,
        sale::Field::Shipping,
        sale::Field::Hammer,
        sale::Field::Budget,
        sale::Field::LotLimit,
    ];
    match a % 16 {
        0 | 1 => Act::Desk(Desk::ALL[at % 4]),
        2..=4 => Act::Type(fields[at % 7], figures[usize::from(c) % 7].to_string()),
        5 => Act::Type(sale::Field::Label, ["Two irons", "", " "][at % 3].to_string()),
        6 => Act::Condition(at % 30),
        7 => [Act::TaxOn(at % 6), Act::Margin(at % 5)][usize::from(c) % 2].clone(),
        8 => [Act::Gap, Act::Suggested, Act::Highest][at % 3].clone(),
        9 => Act::Step(b.is_multiple_of(2)),
        10 => Act::Invented,
        11 => [Act::PutPiece, Act::PutLot, Act::PutInto(at % 3)][usize::from(c) % 3].clone(),
        12 => Act::Open(at % 3),
        13 => [Act::Won(at % 3), Act::Lost(at % 3), Act::Passed(at % 3)][usize::from(c) % 3].clone(),
        14 => [Act::Again(at % 3), Act::LotGap(at % 3)][usize::from(c) % 2].clone(),
        _ => [Act::Drop(at % 3), Act::NewSheet][usize::from(c) % 2].clone(),
    }
}

/// Something done to the lettering.
fn lettering(a: u16, b: u16, c: u16) -> Mark {
    let texts = ["PAT. MAY ?3 18?1", "MADE IN JAPAN", "Rd No 5?2300", "", "D.R.G.M. 1\u{e9}/~_$ 24", " "];
    let press = Mark::Press(["X", "3", "?", "IV", "nonsense"][usize::from(b) % 5].to_string());
    match a % 9 {
        0..=2 => Mark::Type(texts[usize::from(b) % texts.len()].to_string()),
        3 => Mark::Open(usize::from(b), usize::from(c) % 30),
        4 => Mark::All(usize::from(b) % 3),
        5 => Mark::Diamond,
        6 => Mark::Corner(usize::from(b) % 7),
        7 => [press, Mark::Rub][usize::from(c) % 2].clone(),
        _ => Mark::UseDiamond,
    }
}

/// Something done in the measuring room.
fn measuring(a: u16, b: u16, c: u16) -> Vec<Measure> {
    let word = |n: u16, of: &[&str]| of[usize::from(n) % of.len()].to_string();
    let figures = ["74.3", "75", "99.06", "100", "120", "17,2", "0", "iron", "9999999", "-4", ".", "21"];
    let pair = (a / 10 % 3) as u8;
    let put = |field, text| vec![Measure::Put(field, text)];
    match a % 10 {
        0 => vec![Measure::More],
        1 => vec![Measure::Less(pair)],
        2 => put(Field::With, word(b, &["calipers", "ruler", "photo", ""])),
        3 => put(Field::Metal, word(b, &["cast-iron", "brass", "silver", "nonsense"])),
        4 => put(Field::Way, word(b, &["hanging", "displaced"])),
        5 => put(Field::Step, word(b, &["100", "10", "1", "0"])),
        6 => [Field::Air, Field::Second, Field::Warmth]
            .into_iter()
            .flat_map(|f| put(f, word(b / 3 + c % 7, &figures)))
            .collect(),
        7 => put(Field::Pair(pair, Part::By), word(b, &["calipers", "ruler", "photo"])),
        8 => put(Field::Pair(pair, [Part::Along, Part::Worked][usize::from(c % 2)]), word(b, &["yes", ""])),
        _ => [(Part::Piece, b), (Part::Known, c)]
            .into_iter()
            .map(|(part, n)| Measure::Put(Field::Pair(pair, part), word(n, &figures)))
            .collect(),
    }
}

/// A measured question; the first question in a pack without one.
fn measured(guide: &Guide, n: u16) -> usize {
    let all: Vec<usize> = (0..guide.core.questions.len())
        .filter(|q| guide.core.questions[*q].form != pack::Form::Choice)
        .collect();
    all.get(usize::from(n) % all.len().max(1)).copied().unwrap_or(0)
}

fn typed(n: u16) -> String {
    match n % 5 {
        0 => format!("{}", n % 300),
        1 => format!("{}.{}", n % 200, n % 10),
        2 => format!("{} {}/8", n % 9, n % 8),
        3 => String::from(["", "iron", "-4", "9999999", "0"][usize::from(n / 5) % 5]),
        _ => format!("{},5", n % 150),
    }
}

/// The state after taps, from a fresh start.
pub(crate) fn walked(guide: &Guide, taps: &[Tap]) -> State {
    taps.iter().fold(State::default(), |state, tap| tapped(guide, state, *tap))
}

/// The state after one more tap.
pub(crate) fn tapped(guide: &Guide, state: State, tap: Tap) -> State {
    messages(guide, tap).into_iter().fold(state, |state, msg| update(guide, state, msg).0)
}

/// What must hold of any state.
pub(crate) fn legal(guide: &Guide, state: &State) -> Result<(), String> {
    let core = &guide.core;
    let must = |holds: bool, what: &str| if holds { Ok(()) } else { Err(what.to_string()) };
    must(state.place < core.places.len(), "the place")?;
    must(state.tools.iter().all(|t| *t < core.tools.len()), "a tool")?;
    must(state.marks.text.chars().count() <= consult::marks::LONGEST, "the lettering")?;
    must(state.condition.len() <= 20, "the condition")?;
    must(state.focus.is_none_or(|q| q < core.questions.len()), "the focus")?;
    for (i, given) in state.given.iter().enumerate() {
        must(given.question < core.questions.len(), "the question of an answer")?;
        must(state.given[..i].iter().all(|g| g.question != given.question), "a question answered twice")?;
        let q = &core.questions[given.question];
        match &given.what {
            consult::What::OneOf(set) => {
                must(!set.is_empty() && set.iter().all(|c| *c < q.choices.len()), "a choice")?;
                must((1..set.len()).all(|i| !set[..i].contains(&set[i])), "a choice named twice")?;
            }
            consult::What::Length(l, _) => must((1..=20_000).contains(&l.0), "a length")?,
            consult::What::Mass(m, _) => must((1..=200_000).contains(&m.0), "a mass")?,
            consult::What::Cannot => {}
        }
        if let Some(gate) = &q.gate {
            let open = match state.answer_to(usize::from(gate.question)).map(|g| &g.what) {
                Some(consult::What::OneOf(set)) => set.iter().all(|c| gate.choices.contains(&(*c as u16))),
                _ => false,
            };
            must(open, "an answer behind a closed gate")?;
        }
    }
    Ok(())
}
