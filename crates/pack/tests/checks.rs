//! Whatever a core must hold to, one case spoils it, and the refusal names what was spoilt.

use crate::common::{sentence, tiny};
use pack::{
    Book, Core, Form, Gate, Late, Named, RoleRow, Row, Says, Standing, check_core, join, part, read_book,
    write_book, write_core,
};
use units::{Basis, Currency};

type Spoil = fn(&mut Core);
type SpoilBook = fn(&mut Book);

// Indices in the small pack, in the order of its files.
const LENGTH: usize = 0;
const HEFT: usize = 1;
const GRIP: usize = 2;
const HOLES: usize = 3;

fn worth(core: &mut Core) -> &mut pack::Worth {
    let facts = core.kinds[0].makes[0].as_mut().expect("the first kind has a period make");
    facts.worth.as_mut().expect("with a worth")
}

fn named(n: usize) -> Vec<Named> {
    (0..n).map(|i| Named { code: i as u16 + 100, id: format!("n{i}"), name: format!("N {i}") }).collect()
}

/// Counts: what is spoilt, and the words for it. The limits are those of the format; basis: practice.
const COUNTS: &[(&str, Spoil)] = &[
    ("1 kinds; between 2 and 20000", |c| drop(c.kinds.drain(1..))),
    ("20001 kinds; between 2 and 20000", |c| {
        let one = c.kinds[0].clone();
        c.kinds.resize(20_001, one);
    }),
    ("0 questions; between 1 and 400", |c| c.questions.clear()),
    ("401 questions; between 1 and 400", |c| {
        let one = c.questions[GRIP].clone();
        c.questions.resize(401, one);
    }),
    ("1 candidates; between 2 and 60000", |c| c.candidates.truncate(1)),
    ("60001 candidates; between 2 and 60000", |c| {
        let one = c.candidates[0].clone();
        c.candidates.resize(60_001, one);
    }),
    ("0 places; between 1 and 64", |c| c.places.clear()),
    ("65 places; between 1 and 64", |c| c.places = named(65)),
    ("0 parts; between 1 and 64", |c| c.parts.clear()),
    ("65 parts; between 1 and 64", |c| c.parts = named(65)),
    ("0 roles; between 1 and 64", |c| c.roles.clear()),
    ("65 roles; between 1 and 64", |c| c.roles = named(65)),
    ("0 makes; between 1 and 64", |c| c.makes.clear()),
    ("65 makes; between 1 and 64", |c| c.makes = named(65)),
    ("65 tools; between 0 and 64", |c| c.tools = named(65)),
    ("65 cautions; between 0 and 64", |c| {
        let one = c.cautions[0].clone();
        c.cautions.resize(65, one);
    }),
    ("65 groups; between 0 and 64", |c| c.groups = vec![0; 65]),
    ("0 fit limits; between 1 and 400", |c| c.fit_limits.clear()),
    ("401 fit limits; between 1 and 400", |c| c.fit_limits = vec![0; 401]),
    ("0 role tables; between 1 and 60000", |c| c.role_rows.clear()),
    ("60001 role tables; between 1 and 60000", |c| {
        c.role_rows.resize(60_001, RoleRow { shares: vec![1000, 0, 0], basis: Basis::Invented });
    }),
    ("1 choices; between 2 and 12", |c| c.questions[GRIP].choices.truncate(1)),
    ("13 choices; between 2 and 12", |c| {
        let one = c.questions[GRIP].choices[0].clone();
        c.questions[GRIP].choices.resize(13, one);
    }),
    ("0 tables of a question; between 1 and 60000", |c| c.questions[GRIP].rows.clear()),
    ("1001 figures; between 0 and 1000", |c| {
        let one = pack::Figure { name: "a.b".into(), strokes: String::new(), says: String::new() };
        c.art.resize(1001, one);
    }),
];

/// Indices, sums, orders: what is spoilt, and what the refusal says does not hold together.
const HOLDS: &[(&str, Spoil)] = &[
    ("the pack id", |c| c.head.id.clear()),
    ("the pack id", |c| c.head.id = "Tiny".into()),
    ("the pack id", |c| c.head.id = "ti/ny".into()),
    ("the pack id", |c| c.head.id = "a".repeat(41)),
    ("the codes of places", |c| c.places[1].code = c.places[0].code),
    ("the codes of questions", |c| c.questions[HOLES].code = c.questions[LENGTH].code),
    ("the codes of choices", |c| c.questions[GRIP].choices[2].code = c.questions[GRIP].choices[0].code),
    ("a group's overlap", |c| c.groups[0] = 1000),
    ("a role table", |c| c.role_rows[0].shares[0] += 1),
    ("a role table", |c| c.role_rows[0].shares = vec![500, 500]),
    // 1000 in all, but only past the end of sixteen bits.
    ("a role table", |c| c.role_rows[0].shares = vec![u16::MAX, 1001, 0]),
    ("the part of a question", |c| c.questions[GRIP].part = c.parts.len() as u16),
    ("the tool of a question", |c| c.questions[LENGTH].tool = Some(c.tools.len() as u16)),
    ("the group of a question", |c| c.questions[GRIP].group = Some(1)),
    ("the cost of a question", |c| c.questions[GRIP].seconds = 0),
    ("the cost of a question", |c| c.questions[GRIP].tellable = 1001),
    ("the misreading of a question", |c| c.questions[GRIP].misread_sure = 1000),
    ("the misreading of a question", |c| c.questions[GRIP].misread_unsure = 1000),
    ("the gate of a question", |c| c.questions[HOLES].gate = Some(Gate { question: 3, choices: vec![0] })),
    ("the gate of a question", |c| c.questions[HOLES].gate = Some(Gate { question: 4, choices: vec![0] })),
    ("the gate of a question", |c| c.questions[HOLES].gate = Some(Gate { question: 999, choices: vec![0] })),
    ("the gate of a question", |c| c.questions[HOLES].gate = Some(Gate { question: 2, choices: vec![] })),
    ("the gate of a question", |c| c.questions[HOLES].gate = Some(Gate { question: 2, choices: vec![3] })),
    ("the gate of a question", |c| c.questions[HOLES].gate = Some(Gate { question: 0, choices: vec![0] })),
    ("the confusions of a choice", |c| c.questions[GRIP].choices[0].confused = vec![3]),
    ("the confusions of a choice", |c| c.questions[GRIP].choices[0].confused = vec![0]),
    ("the classes of a measured question", |c| c.questions[GRIP].choices[0].upper = Some(5)),
    ("the classes of a measured question", |c| c.questions[LENGTH].choices[0].upper = None),
    ("the classes of a measured question", |c| c.questions[LENGTH].choices[0].upper = Some(0)),
    ("the classes of a measured question", |c| c.questions[LENGTH].choices[0].upper = Some(100_000)),
    ("the classes of a measured question", |c| c.questions[LENGTH].choices[1].upper = Some(900)),
    ("the classes of a measured question", |c| {
        let mut between = c.questions[LENGTH].choices[0].clone();
        between.code = 77;
        c.questions[LENGTH].choices.insert(1, between);
    }),
    ("a table of a question", |c| c.questions[GRIP].rows[0].says = Says::Shares(vec![500, 500])),
    ("a table of a question", |c| c.questions[GRIP].rows[0].says = Says::Shares(vec![333, 333, 333])),
    ("a spread of a question", |c| c.questions[LENGTH].rows[0].says = Says::Spread { mean: 600, sd: 0 }),
    ("a spread of a question", |c| {
        c.questions[LENGTH].rows[0].says = Says::Spread { mean: 600, sd: 1_000_000 }
    }),
    ("a spread of a question", |c| c.questions[LENGTH].rows[0].says = Says::Spread { mean: i32::MIN, sd: 5 }),
    ("the sort of a table", |c| c.questions[GRIP].rows[0].says = Says::Spread { mean: 600, sd: 5 }),
    ("the sort of a table", |c| c.questions[LENGTH].rows[0].says = Says::Shares(vec![500, 500])),
    ("the classes of a measured question", |c| c.questions[GRIP].form = Form::Length),
    ("the opening list", |c| c.opening.push(c.questions.len() as u16)),
    ("the makes of a kind", |c| c.kinds[0].makes.truncate(1)),
    ("the uses of a kind", |c| c.kinds[0].serves = vec![c.roles.len() as u16]),
    ("the cautions of a kind", |c| c.kinds[0].cautions = vec![c.cautions.len() as u16]),
    ("the years of a kind", |c| {
        c.kinds[0].makes[0].as_mut().expect("a make").period.latest = 2201;
    }),
    ("the years of a kind", |c| {
        c.kinds[0].makes[0].as_mut().expect("a make").period.likely_to = 1600;
    }),
    ("the worth of a kind", |c| worth(c).low.minor = 0),
    ("the worth of a kind", |c| worth(c).low.minor = worth(c).high.minor),
    ("the worth of a kind", |c| worth(c).high.minor = 1_000_000_000_000),
    ("the worth of a kind", |c| worth(c).high.currency = Currency::new("EUR").expect("a code")),
    ("the kind for pieces outside the guide", |c| c.kinds[2].standing = Standing::Inside),
    ("the kind for pieces outside the guide", |c| c.kinds[0].standing = Standing::Unknown),
    ("the kind for pieces outside the guide", |c| c.kinds.swap(1, 2)),
    ("a caution", |c| c.cautions[0].raised_by = vec![(c.questions.len() as u16, 0)]),
    ("a caution", |c| c.cautions[0].raised_by = vec![(2, 3)]),
    ("the kind of a candidate", |c| c.candidates[0].kind = c.kinds.len() as u16),
    ("the make of a candidate", |c| c.candidates[0].make = c.makes.len() as u16),
    // The second kind has no later castings.
    ("the make of a candidate", |c| c.candidates[2].make = 1),
    ("the roles of a candidate", |c| c.candidates[0].roles = c.role_rows.len() as u16),
    ("the prior of a candidate", |c| c.candidates[0].prior.truncate(1)),
    ("the prior of a candidate", |c| c.candidates[0].prior[1] = 1_000_000_001),
    ("the share of mixed looks", |c| c.mixed = 1000),
    ("the twins of a kind", |c| c.kinds[0].either = vec![99]),
    // While a question waits for the book, nobody refers to its tables.
    ("the tables of a candidate", |c| {
        c.questions[HEFT].rows.clear();
        c.candidates[0].rows[HEFT] = 1;
    }),
    ("the tables of a candidate", |c| c.candidates[0].rows.truncate(4)),
    ("the tables of a candidate", |c| c.candidates[0].rows[GRIP] = c.questions[GRIP].rows.len() as u16),
    ("the prior of a place", |c| c.candidates.iter_mut().for_each(|c| c.prior[1] = 0)),
];

/// One text of each sort.
const TEXTS: &[fn(&mut Core) -> &mut String] = &[
    |c| &mut c.head.name,
    |c| &mut c.head.edition,
    |c| &mut c.head.licence,
    |c| &mut c.head.language,
    |c| &mut c.head.notice,
    |c| &mut c.places[1].name,
    |c| &mut c.places[1].id,
    |c| &mut c.tools[0].name,
    |c| &mut c.parts[0].name,
    |c| &mut c.roles[0].name,
    |c| &mut c.makes[0].name,
    |c| &mut c.questions[GRIP].id,
    |c| &mut c.questions[GRIP].ask,
    |c| &mut c.questions[GRIP].look,
    |c| &mut c.questions[GRIP].choices[0].id,
    |c| &mut c.questions[GRIP].choices[0].label,
    |c| &mut c.questions[GRIP].choices[0].clue,
    |c| &mut c.questions[GRIP].choices[0].draw,
    |c| &mut c.kinds[0].id,
    |c| &mut c.kinds[0].name,
    |c| &mut c.kinds[0].short,
    |c| &mut c.cautions[0].id,
    |c| &mut c.cautions[0].text,
    |c| &mut c.art[0].name,
    |c| &mut c.art[0].strokes,
    |c| &mut c.art[0].says,
];

const BOOK_TEXTS: &[fn(&mut Book) -> &mut String] = &[
    |b| &mut b.id,
    |b| &mut b.sources[0].key,
    |b| &mut b.sources[0].text,
    |b| &mut b.kinds[0].purpose,
    |b| &mut b.kinds[0].draw,
    |b| &mut b.kinds[0].notes[1],
    |b| &mut b.kinds[0].confusions[0].check,
    |b| &mut b.questions[GRIP].seller,
    |b| &mut b.questions[GRIP].newcomers,
    |b| &mut b.art[0].name,
    |b| &mut b.art[0].strokes,
    |b| &mut b.art[0].says,
    |b| &mut b.terms[0].word,
    |b| &mut b.terms[0].means,
];

/// Unseen or direction-changing; and one byte too many.
fn bad_texts() -> Vec<(String, &'static str)> {
    let hidden = "This pack holds text with hidden control characters.";
    let mut bad: Vec<(String, &str)> = [
        "a\u{0}",
        "\u{7f}",
        "a\rb",
        "\u{202e}b",
        "\u{2066}",
        "\u{200f}",
        "\u{200b}",
        "\u{2028}",
        "\u{feff}",
        "\u{85}",
    ]
    .map(|t| (t.to_string(), hidden))
    .to_vec();
    bad.push(("a".repeat(4001), "This pack holds a text of more than 4000 bytes."));
    bad
}

fn refused(core: &Core) -> String {
    // What cannot be read is not written.
    let fault = write_core(core).expect_err("refused");
    assert_eq!(sentence(&fault.0), Ok(()));
    fault.0
}

fn book_refused(book: &Book) -> String {
    let fault = read_book(&write_book(book)).expect_err("refused");
    assert_eq!(sentence(&fault.0), Ok(()));
    fault.0
}

#[test]
fn every_count_is_held_to() {
    for (words, spoil) in COUNTS {
        let mut core = tiny().core;
        spoil(&mut core);
        let says = refused(&core);
        assert_eq!(says, format!("This pack has {words} can be read."));
    }
}

#[test]
fn everything_holds_together_or_is_refused() {
    let sound = tiny().core;
    for (at, (what, spoil)) in HOLDS.iter().enumerate() {
        let mut core = sound.clone();
        spoil(&mut core);
        let says = refused(&core);
        let expected = format!(
            "This pack is damaged or was made by another program. This does not hold together: {what}."
        );
        assert_eq!(says, expected, "case {at}");
    }
}

#[test]
fn no_text_can_be_disguised() {
    let sound = tiny();
    for (bad, words) in bad_texts() {
        for (at, text) in TEXTS.iter().enumerate() {
            let mut core = sound.core.clone();
            *text(&mut core) = bad.clone();
            assert_eq!(refused(&core), words, "text {at} as {:?}", bad.get(..8));
        }
        for (at, text) in BOOK_TEXTS.iter().enumerate() {
            let mut book = sound.book.clone();
            *text(&mut book) = bad.clone();
            assert_eq!(book_refused(&book), words, "text {at} of the book as {:?}", bad.get(..8));
        }
    }
    // Lines may end, and other scripts are at home.
    for good in ["two\nlines", "caf\u{e9} \u{bd} \u{30a2}\u{30a4}\u{30ed}\u{30f3}", &"a".repeat(4000)] {
        for text in TEXTS {
            let mut core = sound.core.clone();
            *text(&mut core) = good.to_string();
            assert_eq!(check_core(&core), Ok(()), "{good:.20}");
        }
    }
}

#[test]
fn a_book_holds_together_or_is_refused() {
    let cases: &[(&str, SpoilBook)] = &[
        ("This pack has 1 kinds; between 2 and 20000 can be read.", |b| b.kinds.truncate(1)),
        ("This pack has 0 questions; between 1 and 400 can be read.", |b| b.questions.clear()),
        ("This pack has 1001 figures; between 0 and 1000 can be read.", |b| {
            let one = b.art[0].clone();
            b.art.resize(1001, one);
        }),
        (
            "This pack is damaged or was made by another program. This does not hold together: a confusion of a kind.",
            |b| b.kinds[0].confusions[0].kind = 3,
        ),
    ];
    for (words, spoil) in cases {
        let mut book = tiny().book;
        spoil(&mut book);
        assert_eq!(book_refused(&book), *words);
    }
}

#[test]
fn halves_of_two_editions_are_refused() {
    let other = "The two halves of this pack belong to different editions.";
    type Spoil = fn(&mut Late);
    let spoil: &[(&str, Spoil)] = &[
        (other, |l| l.questions.truncate(1)),
        (other, |l| l.questions[0].choices.truncate(1)),
        (other, |l| l.questions[0].of.truncate(1)),
        (other, |l| l.questions[0].rows.clear()),
        (other, |l| l.priors.truncate(1)),
        (other, |l| l.kinds.truncate(1)),
        (
            "This pack is damaged or was made by another program. This does not hold together: the tables of a candidate.",
            |l| l.questions[0].of[0] = 99,
        ),
    ];
    for (words, spoil) in spoil {
        let mut core = tiny().core;
        let mut late = part(&mut core);
        spoil(&mut late);
        assert_eq!(join(&mut core, late).map_err(|f| f.0), Err((*words).to_string()));
    }
}

#[test]
fn at_the_limits_a_core_is_sound() {
    let fine: &[Spoil] = &[
        |c| c.groups = vec![999; 64],
        |c| c.tools = named(64),
        |c| c.questions[GRIP].seconds = 1,
        |c| c.questions[GRIP].tellable = 1000,
        |c| c.questions[GRIP].misread_sure = 999,
        |c| c.questions[LENGTH].choices[0].upper = Some(99_999),
        |c| {
            c.questions[LENGTH].rows[0] = Row {
                says: Says::Spread { mean: -999_999, sd: 999_999 },
                basis: Basis::Invented,
                source: None,
            }
        },
        |c| c.candidates[0].prior[1] = 1_000_000_000,
        |c| worth(c).high.minor = 999_999_999_999,
        |c| c.kinds[0].makes[0].as_mut().expect("a make").period.earliest = 800,
        |c| c.kinds[0].makes[0].as_mut().expect("a make").period.latest = 2200,
        |c| c.opening.clear(),
        |c| c.kinds[0].either = vec![1],
        // A question outside the opening may wait for the book.
        |c| {
            c.questions[HEFT].rows.clear();
            c.candidates.iter_mut().for_each(|c| c.rows[HEFT] = 0);
        },
    ];
    for (at, change) in fine.iter().enumerate() {
        let mut core = tiny().core;
        change(&mut core);
        assert_eq!(check_core(&core), Ok(()), "case {at}");
        let bytes = write_core(&core).expect("bytes");
        assert_eq!(pack::read_core(&bytes), Ok(core), "case {at}");
    }
}
