//! Packs made ready, and states and messages drawn at random, for the tests of a consultation.
#![allow(dead_code, reason = "each test file uses its part of this")]

use compile::{Compiled, Files, compile};
use consult::{
    Aim, Given, Guide, Instrument, Length, LengthUnit, Manner, Mass, Msg, Screen, State, Theme, What,
};
use pack::{Form, Gate};
use reason::Random;
use std::fs;
use std::path::Path;

/// The seed of everything drawn here.
pub(crate) const SEED: u64 = 20_261_124;
/// The year in which the tests take place.
pub(crate) const YEAR: i16 = 2026;

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

fn compiled(folder: &str) -> Compiled {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut files = texts(&root.join(folder), "");
    files.extend(texts(&root.join("data/art"), "art/"));
    compile(&Files::new(files)).expect("a sound pack")
}

fn ready(c: &Compiled, year: i16) -> Guide {
    let guide = Guide::from_bytes(&c.core_bytes, year).expect("the pack can be read");
    guide.take_book(&c.book_bytes).expect("the book belongs to it");
    guide
}

/// The bundled pack, book included.
pub(crate) fn irons() -> Guide {
    irons_in(YEAR)
}

/// The bundled pack in another year.
pub(crate) fn irons_in(year: i16) -> Guide {
    ready(&compiled("data/packs/irons"), year)
}

/// The small sound pack of the compiler's tests, book included. All its figures are invented.
pub(crate) fn tiny() -> Guide {
    ready(&compiled("crates/compile/tests/cases/good"), YEAR)
}

/// A state with these answers, on the finding, every tool at hand, the place passed by.
pub(crate) fn with(guide: &Guide, given: Vec<Given>) -> State {
    let mut state = State::default();
    state.tools = (0..guide.core.tools.len()).collect();
    state.place_asked = true;
    state.given = given;
    state
}

/// Whether a gate is open after these answers.
pub(crate) fn opens(given: &[Given], gate: &Gate) -> bool {
    given.iter().find(|g| g.question == usize::from(gate.question)).is_some_and(|g| match &g.what {
        What::OneOf(set) => set.iter().all(|c| gate.choices.contains(&(*c as u16))),
        _ => false,
    })
}

/// Any answer that a person could give to a question.
pub(crate) fn given(guide: &Guide, question: usize, random: &mut Random) -> Given {
    let q = &guide.core.questions[question];
    let n = q.choices.len();
    let what = match (random.below(8), q.form) {
        (0, _) => What::Cannot,
        (1 | 2, _) => {
            let (one, other) = (random.below(n), random.below(n));
            if one == other {
                What::OneOf(vec![one])
            } else {
                What::OneOf(vec![one.min(other), one.max(other)])
            }
        }
        (3..=5, Form::Length) => {
            let by = [Instrument::Ruler, Instrument::Calipers, Instrument::ByEye][random.below(3)];
            What::Length(Length(1 + random.below(20_000) as u32), by)
        }
        (3..=5, Form::Heft) => What::Mass(Mass(1 + random.below(200_000) as u32), Instrument::Scales),
        _ => What::OneOf(vec![random.below(n)]),
    };
    Given { question, what, sure: random.below(4) > 0 }
}

/// Answers that can stand together, in the order in which they may have been given.
pub(crate) fn answers(guide: &Guide, random: &mut Random) -> Vec<Given> {
    let often = random.below(5);
    let mut all: Vec<Given> = Vec::new();
    for (i, q) in guide.core.questions.iter().enumerate() {
        if random.below(4) < often && q.gate.as_ref().is_none_or(|gate| opens(&all, gate)) {
            all.push(given(guide, i, random));
        }
    }
    for i in (1..all.len()).rev() {
        all.swap(i, random.below(i + 1));
    }
    all
}

/// A state as a link can hold it, over preferences drawn too.
pub(crate) fn state(guide: &Guide, random: &mut Random) -> State {
    let mut state = preferences(guide, random);
    state.given = answers(guide, random);
    state.place_asked = random.below(2) == 0;
    state.place = if state.place_asked { random.below(guide.core.places.len()) } else { 0 };
    state.picture = random.below(3) == 0;
    state.aim = Aim::ALL[random.below(4)];
    state.screen = [Screen::Look, Screen::Finding, Screen::List, Screen::Setup][random.below(4)];
    state
}

/// A state without answers whose preferences are drawn.
pub(crate) fn preferences(guide: &Guide, random: &mut Random) -> State {
    let mut state = State::default();
    state.tools = (0..guide.core.tools.len()).filter(|_| random.below(2) == 0).collect();
    state.manner = [Manner::Guided, Manner::Free][random.below(2)];
    state.unit = [LengthUnit::Millimetre, LengthUnit::Inch][random.below(2)];
    state.calipers = random.below(2) == 0;
    state.theme = [Theme::Phone, Theme::Light, Theme::Dark, Theme::Sun][random.below(4)];
    state
}

/// An index: mostly one of `n`, sometimes one that is not.
fn index(n: usize, random: &mut Random) -> usize {
    match random.below(12) {
        0 => n,
        1 => [99, 999, usize::MAX, usize::MAX / 2][random.below(4)],
        _ => random.below(n.max(1)),
    }
}

const TYPED: [&str; 12] =
    ["64", "2 5/8", "", "0", "1/0", "abc", "99999999999", "64,5", "\u{bd}", "-3", "1e9", "\u{202e}\u{0}64"];
const KEPT: [&str; 8] = [
    "tools=ruler,scales;unit=in;manner=free;theme=sun",
    "tools=;unit=mm",
    "",
    ";;;===",
    "tools=nothing,of,the,sort;theme=dark",
    "unit=ell",
    "theme=light;theme=dark",
    "\u{1f9f2}=\u{1f9f2};tools",
];

/// Any message, indices out of range among them.
pub(crate) fn message(guide: &Guide, random: &mut Random) -> Msg {
    let question = index(guide.core.questions.len(), random);
    let choices = guide.core.questions.get(question).map_or(3, |q| q.choices.len());
    match random.below(48) {
        0..=13 => Msg::Choose { question, choice: index(choices, random) },
        14 | 15 => Msg::Cannot(question),
        16..=18 => Msg::Either,
        19 | 20 => Msg::Unsure(question),
        21 => Msg::TakeBack(question),
        22 | 23 => Msg::Ask(question),
        24 => Msg::LookOn,
        25 | 26 => Msg::Type(TYPED[random.below(TYPED.len())].to_string()),
        27 => Msg::Unit([LengthUnit::Millimetre, LengthUnit::Inch][random.below(2)]),
        28 => Msg::Calipers(random.below(2) == 0),
        29 | 30 => Msg::Enter(question),
        31 => Msg::Place(index(guide.core.places.len(), random)),
        32 => Msg::SkipPlace,
        33 => Msg::Picture(random.below(2) == 0),
        34 => Msg::Tool(index(guide.core.tools.len(), random)),
        35 => Msg::Aim(Aim::ALL[random.below(4)]),
        36 => Msg::Manner([Manner::Guided, Manner::Free][random.below(2)]),
        37 => Msg::Theme([Theme::Phone, Theme::Light, Theme::Dark, Theme::Sun][random.below(4)]),
        38 | 39 => Msg::Show([Screen::Look, Screen::Finding, Screen::List, Screen::Setup][random.below(4)]),
        40 => [Msg::Money, Msg::Why, Msg::CopyLink, Msg::AcceptUpdate][random.below(4)].clone(),
        41 => Msg::CopySeller,
        42 | 43 => Msg::Undo,
        44 => Msg::Fresh,
        45 => {
            let mut link = consult::fragment(guide, &state(guide, random));
            if random.below(2) == 0 {
                link.truncate(random.below(link.len()));
            }
            Msg::Went(link)
        }
        46 => Msg::Preferences(KEPT[random.below(KEPT.len())].to_string()),
        _ => Msg::Notice((random.below(2) == 0).then(|| "A new edition is there.".to_string())),
    }
}
