//! What is written comes back as it was: the packs of the project, and sound cores of every shape.

use pack::*;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;
use units::{Basis, Currency, Money, Period};

#[test]
fn packs_of_the_project_come_back() {
    for c in [crate::common::irons(), crate::common::tiny()] {
        let mut core = read_core(&c.core_bytes).expect("a sound core");
        assert_eq!(write_core(&core).as_ref(), Ok(&c.core_bytes));
        let book = read_book(&c.book_bytes).expect("a sound book");
        assert_eq!(book, c.book);
        assert_eq!(write_book(&book), c.book_bytes);
        assert_ne!(core, c.core, "something waits for the book");
        assert_eq!(join(&mut core, book.late), Ok(()));
        assert_eq!(core, c.core);
    }
}

fn text() -> impl Strategy<Value = String> {
    "[a-zA-Z0-9 .,?&<>\"'\n\u{e9}\u{bd}\u{30a2}\u{1f9f2}]{0,12}"
}

fn basis() -> impl Strategy<Value = Basis> {
    select(Basis::ALL.to_vec())
}

/// Shares that sum to 1000, by cutting at random places.
fn shares(n: usize) -> impl Strategy<Value = Vec<u16>> {
    vec(0..=1000_u16, n - 1).prop_map(|mut cuts| {
        cuts.sort_unstable();
        cuts.insert(0, 0);
        cuts.push(1000);
        cuts.windows(2).map(|w| w[1] - w[0]).collect()
    })
}

fn named(least: usize) -> impl Strategy<Value = Vec<Named>> {
    vec((any::<u16>(), text(), text()), least..4).prop_map(|list| {
        let list = list.into_iter().enumerate();
        list.map(|(i, (code, id, name))| Named { code: code / 8 * 8 + i as u16 % 8, id, name }).collect()
    })
}

fn choices(form: Form, n: usize) -> impl Strategy<Value = Vec<Choice>> {
    let one = (any::<u16>(), text(), text(), text(), vec(1..n, 0..2), 1..8000_u32);
    vec(one, n).prop_map(move |list| {
        let mut upper = 0;
        let list = list.into_iter().enumerate();
        list.map(|(i, (code, id, label, clue, others, step))| {
            upper += step;
            Choice {
                code: code / 8 * 8 + i as u16,
                draw: label.clone(),
                id,
                label,
                clue,
                confused: others.iter().map(|o| ((i + o) % n) as u16).collect(),
                upper: (form != Form::Choice && i + 1 < n).then_some(upper),
            }
        })
        .collect()
    })
}

fn rows(form: Form, n: usize) -> impl Strategy<Value = Vec<Row>> {
    let spread = (-999_999..1_000_000_i32, 1..1_000_000_u32);
    vec((shares(n), spread, basis(), any::<Option<u16>>()), 1..4).prop_map(move |list| {
        list.into_iter()
            .map(|(shares, (mean, sd), basis, source)| {
                let says =
                    if form == Form::Choice { Says::Shares(shares) } else { Says::Spread { mean, sd } };
                Row { says, basis, source }
            })
            .collect()
    })
}

/// A question; indices of lists that come to be elsewhere are drawn as shares of their length.
fn question() -> impl Strategy<Value = (Question, [usize; 5])> {
    (select(vec![Form::Choice, Form::Length, Form::Heft]), 2..6_usize).prop_flat_map(|(form, n)| {
        let texts = (text(), text(), text());
        let numbers = (any::<u16>(), 1..=u16::MAX, 0..=1000_u16, 0..1000_u16, 0..1000_u16);
        (texts, numbers, choices(form, n), rows(form, n), any::<bool>(), any::<[u8; 5]>()).prop_map(
            move |((id, ask, look), (code, seconds, tellable, sure, unsure), choices, rows, picture, at)| {
                let question = Question {
                    code,
                    id,
                    ask,
                    look,
                    part: 0,
                    tool: None,
                    seconds,
                    by_picture: picture,
                    tellable,
                    misread_sure: sure,
                    misread_unsure: unsure,
                    group: None,
                    gate: None,
                    form,
                    choices,
                    rows,
                };
                (question, at.map(usize::from))
            },
        )
    })
}

fn facts() -> impl Strategy<Value = MakeFacts> {
    let worth = (1..1_000_000_i64, 1..1_000_000_i64, 1900..2100_i16, basis(), any::<Option<u16>>());
    (vec(800..=2200_i16, 4), basis(), any::<Option<u16>>(), proptest::option::of(worth)).prop_map(
        |(mut years, period_basis, period_source, worth)| {
            years.sort_unstable();
            let currency = Currency::new("XTS").expect("the code that ISO 4217 keeps for tests");
            MakeFacts {
                period: Period {
                    earliest: years[0],
                    likely_from: years[1],
                    likely_to: years[2],
                    latest: years[3],
                },
                period_basis,
                period_source,
                worth: worth.map(|(low, more, year, basis, source)| Worth {
                    low: Money { minor: low, currency },
                    high: Money { minor: low + more, currency },
                    year,
                    basis,
                    source,
                }),
            }
        },
    )
}

type Lists = (Vec<Named>, Vec<Named>, Vec<Named>, Vec<Named>, Vec<Named>);

/// Questions and the lists that they point into, tied together.
fn tied(mut drawn: Vec<(Question, [usize; 5])>, lists: &Lists, groups: &[u16]) -> Vec<Question> {
    let (_, tools, parts, ..) = lists;
    let mut questions: Vec<Question> = Vec::new();
    for (i, (mut q, at)) in drawn.drain(..).enumerate() {
        q.code = q.code / 8 * 8 + i as u16;
        q.part = (at[0] % parts.len()) as u16;
        q.tool = (!tools.is_empty() && at[1] % 2 == 0).then(|| (at[1] % tools.len()) as u16);
        q.group = (!groups.is_empty() && at[2] % 2 == 0).then(|| (at[2] % groups.len()) as u16);
        let gate = questions.get(at[3] % (i + 1)).filter(|g| g.form == Form::Choice);
        q.gate = gate.map(|g| Gate {
            question: (at[3] % (i + 1)) as u16,
            choices: vec![(at[4] % g.choices.len()) as u16],
        });
        questions.push(q);
    }
    questions
}

fn core() -> impl Strategy<Value = Core> {
    let lists = (named(1), named(0), named(1), named(1), named(1));
    let head = ("[a-z0-9]{1,40}", text(), text(), text(), text(), text());
    (lists, head, vec(0..1000_u16, 0..3), vec(question(), 1..6)).prop_flat_map(
        |(lists, head, groups, drawn)| {
            let questions = tied(drawn, &lists, &groups);
            let (n_places, n_roles, n_makes) = (lists.0.len(), lists.3.len(), lists.4.len());
            let kind = (text(), text(), vec((facts(), any::<bool>()), n_makes), any::<bool>(), any::<u16>());
            let candidate =
                (any::<[u16; 4]>(), vec(1..=1_000_000_000_u32, n_places), vec(any::<u16>(), questions.len()));
            let caution = (text(), text(), any::<bool>(), vec(any::<[u16; 2]>(), 0..3));
            let more =
                (vec(any::<i32>(), 1..5), vec((text(), text(), text()), 0..3), vec(any::<u16>(), 0..4));
            let roles = vec((shares(n_roles), basis()), 1..4);
            (vec(kind, 2..5), vec(candidate, 2..8), vec(caution, 0..3), roles, more).prop_map(
                move |(kinds, candidates, cautions, roles, (fit_limits, art, opening))| {
                    let n = kinds.len();
                    let kinds =
                        kinds.into_iter().enumerate().map(|(i, (id, name, makes, outside, code))| Kind {
                            code,
                            short: name.clone(),
                            id,
                            name,
                            standing: match outside {
                                _ if i + 1 == n => Standing::Unknown,
                                true => Standing::Outside,
                                false => Standing::Inside,
                            },
                            serves: vec![code % n_roles as u16],
                            // The first make always occurs, so that every candidate has one.
                            makes: (makes.into_iter().enumerate())
                                .map(|(m, (f, on))| (m == 0 || on).then_some(f))
                                .collect(),
                            either: vec![code % n as u16],
                            cautions: (0..cautions.len() as u16).filter(|c| c % 2 == code % 2).collect(),
                        });
                    let raised = |[q, c]: [u16; 2]| {
                        let q = q % questions.len() as u16;
                        (q, c % questions[usize::from(q)].choices.len() as u16)
                    };
                    let row_of = |(r, q): (u16, &Question)| r % q.rows.len() as u16;
                    Core {
                        head: Head {
                            id: head.0.clone(),
                            name: head.1.clone(),
                            edition: head.2.clone(),
                            licence: head.3.clone(),
                            language: head.4.clone(),
                            notice: head.5.clone(),
                        },
                        places: lists.0.clone(),
                        tools: lists.1.clone(),
                        parts: lists.2.clone(),
                        roles: lists.3.clone(),
                        makes: lists.4.clone(),
                        mixed: 50,
                        groups: groups.clone(),
                        kinds: kinds.collect(),
                        candidates: (candidates.iter())
                            .map(|([kind, form, roles_at, _], prior, rows)| Candidate {
                                kind: kind % n as u16,
                                make: 0,
                                form: *form,
                                prior: prior.clone(),
                                roles: roles_at % roles.len() as u16,
                                rows: rows.iter().copied().zip(&questions).map(row_of).collect(),
                            })
                            .collect(),
                        role_rows: roles
                            .into_iter()
                            .map(|(shares, basis)| RoleRow { shares, basis })
                            .collect(),
                        opening: opening.into_iter().map(|q| q % questions.len() as u16).collect(),
                        cautions: (cautions.into_iter().enumerate())
                            .map(|(i, (id, text, grave, by))| Caution {
                                code: i as u16,
                                id,
                                text,
                                grave,
                                raised_by: by.into_iter().map(raised).collect(),
                            })
                            .collect(),
                        fit_limits,
                        art: art
                            .into_iter()
                            .map(|(name, strokes, says)| Figure { name, strokes, says })
                            .collect(),
                        questions: questions.clone(),
                    }
                },
            )
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(crate::common::SEED), ..ProptestConfig::default() })]

    #[test]
    fn sound_cores_come_back(core in core()) {
        prop_assert_eq!(check_core(&core), Ok(()));
        let bytes = write_core(&core).expect("a sound core is written");
        let read = read_core(&bytes);
        prop_assert_eq!(read.as_ref(), Ok(&core));
        // Parted, each half is sound alone, and joined they are the whole again.
        let mut early = core.clone();
        let late = part(&mut early);
        let outside = (0..core.questions.len()).filter(|q| !core.opening.contains(&(*q as u16)));
        prop_assert_eq!(late.questions.len(), outside.count());
        let early_bytes = write_core(&early).expect("a sound core is written");
        let mut back = read_core(&early_bytes).expect("a sound core");
        prop_assert_eq!(join(&mut back, late), Ok(()));
        prop_assert_eq!(&back, &core);
        // And not one byte less is enough.
        prop_assert!(read_core(&bytes[..bytes.len() - 1]).is_err());
    }
}
