//! The sound pack in `cases/good`, every table and prior worked out by hand. All its figures are invented; what is
//! checked here is arithmetic and the order in which tables are looked for.

use compile::{Compiled, Files, compile};
use pack::{Row, Says, Standing};
use units::Basis;

fn good() -> Compiled {
    compile(&Files::new(crate::common::good())).expect("the sound pack is sound")
}

/// The row of a candidate for a question.
fn row(c: &Compiled, candidate: usize, question: usize) -> &Row {
    let at = c.core.candidates[candidate].rows[question];
    &c.core.questions[question].rows[usize::from(at)]
}

const LENGTH: usize = 0;
const HEFT: usize = 1;
const GRIP: usize = 2;
const HOLES: usize = 3;
const SKIN: usize = 4;

#[test]
fn candidates_are_kinds_by_makes_by_forms_in_the_order_of_the_files() {
    let c = good();
    let found: Vec<_> = c.core.candidates.iter().map(|c| (c.kind, c.make, c.form)).collect();
    assert_eq!(found, [(0, 0, 0), (0, 1, 0), (1, 0, 0), (1, 0, 1), (2, 0, 0), (2, 1, 0)]);
    let kinds: Vec<_> = c.core.kinds.iter().map(|k| (k.id.as_str(), k.code, k.standing)).collect();
    assert_eq!(
        kinds,
        [
            ("bar-toy", 1, Standing::Inside),
            ("wire-iron", 2, Standing::Inside),
            ("unknown", 3, Standing::Unknown)
        ]
    );
}

#[test]
fn tables_come_from_the_most_special_place() {
    let c = good();
    for (candidate, question, shares, basis) in [
        // "bar always" is 900 : 20 : 20, .957 .021 .021; .93 is the most, the other two share .07.
        (0, GRIP, vec![930, 35, 35], Basis::Memory),
        // The kind's own line for later castings; the choice with nothing gets .02, the others half of .98.
        (1, GRIP, vec![490, 490, 20], Basis::Memory),
        // By definition.
        (2, GRIP, vec![0, 0, 1000], Basis::Invented),
        (3, GRIP, vec![0, 0, 1000], Basis::Invented),
        // Half the mean of 930 35 35 and 0 0 1000, half a third each: 399.17 175.42 425.42.
        (4, GRIP, vec![399, 176, 425], Basis::Invented),
        // Only one kind has later castings: 245 245 10 and 166.67 each, the last to the first of equals.
        (5, GRIP, vec![412, 412, 176], Basis::Memory),
        // Published per cents stand as they are, whatever the kind rests on.
        (0, HOLES, vec![250, 750], Basis::Published),
        (2, HOLES, vec![500, 500], Basis::Invented),
        // Half the mean of 250 750 and 500 500, half of 500 500: 437.5 562.5.
        (4, HOLES, vec![438, 562], Basis::Invented),
        // A question about the make is answered by the make ...
        (0, SKIN, vec![800, 200], Basis::Invented),
        // ... "bright usually, dark sometimes" is 600 : 150 ...
        (1, SKIN, vec![200, 800], Basis::Invented),
        (2, SKIN, vec![800, 200], Basis::Invented),
        // ... unless a form says otherwise; the unknown kind too is read there.
        (3, SKIN, vec![600, 400], Basis::Invented),
        (5, SKIN, vec![200, 800], Basis::Invented),
    ] {
        let row = row(&c, candidate, question);
        assert_eq!(row.says, Says::Shares(shares), "candidate {candidate}, question {question}");
        assert_eq!(row.basis, basis, "candidate {candidate}, question {question}");
        assert_eq!(row.source, (basis == Basis::Published).then_some(0));
    }
}

#[test]
fn spreads_come_from_the_most_special_place() {
    let c = good();
    for (candidate, question, mean, sd) in [
        // 38 to 100 mm: mean 69, sd 62 / 3.92 = 15.8 mm. 60 to 62 mm: the floor, .06 of 61 mm = 3.66 mm.
        (0, LENGTH, 690, 158),
        (1, LENGTH, 690, 158),
        (2, LENGTH, 610, 37),
        // The form's own: 40 to 60 mm, sd 20 / 3.92 = 5.1 mm.
        (3, LENGTH, 500, 51),
        // The widest of them, 69 -+ 1.96 * 15.8 mm, holds the others: twice as wide.
        (4, LENGTH, 690, 316),
        // ln .40 and ln .65 are -.9163 and -.4308. Unsaid: ln .1 and ln 3 are -2.3026 and 1.0986.
        (0, HEFT, -674, 124),
        (2, HEFT, -602, 868),
        (4, HEFT, -602, 1736),
        (5, HEFT, -674, 248),
    ] {
        let says = &row(&c, candidate, question).says;
        assert_eq!(*says, Says::Spread { mean, sd }, "candidate {candidate}, question {question}");
    }
    assert_eq!(row(&c, 2, HEFT).basis, Basis::Practice);
}

#[test]
fn roles_come_from_the_make_first() {
    let c = good();
    let roles = |candidate: usize| {
        let at = c.core.candidates[candidate].roles;
        c.core.role_rows[usize::from(at)].shares.clone()
    };
    assert_eq!(roles(0), [850, 150, 0]);
    // makes.toml: what later castings were made as, whatever the kind.
    assert_eq!(roles(1), [100, 0, 900]);
    assert_eq!(roles(2), [0, 1000, 0]);
    assert_eq!(roles(3), [1000, 0, 0]);
    // The mean of 850 150 0 and of 250 750 0, which is a quarter of the last and three of the one before.
    assert_eq!(roles(4), [550, 450, 0]);
    assert_eq!(roles(5), [100, 0, 900]);
}

#[test]
fn priors_by_hand() {
    let c = good();
    // Of 200 000. Not said: weights 100 x .8, 100 x .2, 10 x .75, 10 x .25 of 110, all of .96; the unknown kind half of .04 each.
    // Dug up: 100 x 1.5 as .8 x 2 : .2 x .5 = 16 : 1, so 141.1765 and 8.8235; the second kind takes its own factor 1,
    // so 7.5 and 2.5, of 160 together; the unknown kind as .5 x 2 : .5 x .5 = 4 : 1.
    let by_hand = [
        [139_636, 169_412],
        [34_909, 10_588],
        [13_091, 9_000],
        [4_364, 3_000],
        [4_000, 6_400],
        [4_000, 1_600],
    ];
    let found: Vec<_> = c.core.candidates.iter().map(|c| c.prior.clone()).collect();
    assert_eq!(found, by_hand);
}

#[test]
fn everything_else_arrives() {
    let c = good();
    let core = &c.core;
    assert_eq!((core.head.id.as_str(), core.head.edition.as_str()), ("tiny", "2026-01-31"));
    assert_eq!(core.opening, [0, 2]);
    assert_eq!(core.groups, [200]);
    let q = &core.questions;
    assert_eq!((q[LENGTH].choices[0].upper, q[LENGTH].choices[1].upper), (Some(600), None));
    assert_eq!((q[HEFT].choices[0].upper, q[HEFT].tellable), (Some(450), 905));
    assert_eq!((q[HEFT].misread_sure, q[HEFT].misread_unsure), (20, 100));
    assert_eq!((q[GRIP].misread_sure, q[GRIP].misread_unsure), (40, 200));
    assert_eq!((q[GRIP].tool, q[HEFT].tool, q[GRIP].part), (None, Some(1), 1));
    assert_eq!(q[GRIP].choices[0].confused, [1]);
    let gate = q[HOLES].gate.as_ref().expect("a gate");
    assert_eq!((gate.question, gate.choices.as_slice()), (2, [1].as_slice()));
    let (toy, text) = (&core.kinds[0], &c.book.kinds[0]);
    assert_eq!((toy.serves.as_slice(), toy.cautions.as_slice()), ([0].as_slice(), [0].as_slice()));
    assert_eq!((text.confusions.len(), text.confusions[0].kind), (1, 1));
    let facts = toy.makes[0].as_ref().expect("a period piece");
    let worth = facts.worth.as_ref().expect("a worth");
    assert_eq!((worth.low.minor, worth.high.minor, worth.basis), (1000, 3550, Basis::Invented));
    assert_eq!((facts.period.likely_from, facts.period_basis), (1880, Basis::Memory));
    // The years of later castings are the family's; a make without a share is left out.
    assert_eq!(toy.makes[1].as_ref().map(|f| f.period.earliest), Some(1960));
    assert_eq!(core.kinds[1].makes[1], None);
    assert_eq!(core.cautions[0].raised_by, [(4, 1)]);
    assert_eq!(text.notes, ["First paragraph, two lines.", "Second paragraph."]);
    assert_eq!(c.book.questions[GRIP].newcomers, "They take gaps between wire for holes.");
    assert_eq!(c.book.questions[SKIN].altered, ["", "Bare metal may have been scrubbed."]);
    assert!(c.book.questions[GRIP].altered.is_empty());
    assert_eq!((c.book.sources.len(), c.book.terms.len()), (1, 1));
    // Counted in the files by hand.
    let counts = [(Basis::Published, 1), (Basis::Practice, 0), (Basis::Memory, 6), (Basis::Invented, 16)];
    assert_eq!(c.counts, counts);
    assert_eq!(c.notes, []);
}

#[test]
fn bytes_come_back_and_are_named_by_their_digest() {
    let c = good();
    let mut core = pack::read_core(&c.core_bytes).expect("a sound core");
    assert_eq!(pack::join(&mut core, c.book.late.clone()), Ok(()));
    assert_eq!(core, c.core);
    assert_eq!(pack::read_book(&c.book_bytes), Ok(c.book.clone()));
    let first: String = c.book.core.iter().map(|b| format!("{b:02x}")).collect();
    assert_eq!((c.core_digest.len(), &c.core_digest[..16]), (64, first.as_str()));
    assert_eq!(c.core.fit_limits.len(), c.core.questions.len());
}

#[test]
fn the_order_in_which_files_are_listed_does_not_matter() {
    let mut files = crate::common::good();
    files.reverse();
    assert_eq!(compile(&Files::new(files)), Ok(good()));
}

#[test]
fn equal_rows_are_stored_once() {
    let c = good();
    for q in &c.core.questions {
        for (i, row) in q.rows.iter().enumerate() {
            assert!(!q.rows[..i].contains(row), "{}: row {i} is there twice", q.id);
        }
    }
    // skin: 800 200 of the period make, 200 800 of the later one, 600 400 of the form.
    assert_eq!(c.core.questions[SKIN].rows.len(), 3);
}
