//! Sheets: sums that are right, hazards first, nothing shown that should not be. All figures invented.

use crate::common::Random;
use crate::common::make::{money, sound};
use cabinet::record::{Date, Deal, Profile, Record, Standing, Valuation, Value, Worth};
use cabinet::sheets::{Block, Heirs, Sheet, annual, heirs, one, sale_text, schedule, second_opinion, totals};
use proptest::prelude::*;
use std::collections::BTreeMap;
use units::Money;

const TODAY: Date = Date { year: 2026, month: 11, day: 29 };

/// All words of a sheet.
fn words(sheet: &Sheet) -> String {
    let mut out = vec![sheet.title.clone()];
    for block in &sheet.blocks {
        match block {
            Block::Heading(t) | Block::Says(t) | Block::Care(t) | Block::Blank(t, _) => out.push(t.clone()),
            Block::Facts(list) | Block::Photos(list) => {
                out.extend(list.iter().map(|(a, b)| format!("{a}: {b}")))
            }
            Block::Table(heads, rows) => {
                assert!(rows.iter().all(|r| r.len() == heads.len()), "{heads:?}");
                out.push(heads.join("|"));
                out.extend(rows.iter().map(|r| r.join("|")));
            }
        }
    }
    out.join("\n")
}

fn amount(text: &str) -> Option<Money> {
    Money::read(text).ok()
}

fn valued(title: &str, low: &str, high: &str, basis: Worth, date: &str) -> Record {
    let valuation = Valuation {
        low: amount(low),
        high: amount(high),
        basis: Some(basis),
        date: Date::read(date).ok(),
        source: "sales seen".to_string(),
        ..Valuation::default()
    };
    Record { title: title.to_string(), valuations: vec![valuation], ..Record::default() }
}

proptest! {
    #[test]
    fn sums_by_another_way(seed: u64, count in 0_usize..12) {
        let mut random = Random(seed);
        let records: Vec<Record> = (0..count).map(|_| sound(&mut random)).collect();
        let all: Vec<&Record> = records.iter().collect();
        let mut by: BTreeMap<(String, Worth), (usize, i64, i64)> = BTreeMap::new();
        for record in &records {
            // The latest day wins; of one day the last that was written.
            let Some(v) = record.valuations.iter().rev().max_by(|a, b| {
                a.date.map(Date::end).cmp(&b.date.map(Date::end)).then(std::cmp::Ordering::Greater)
            }) else { continue };
            let (Some(low), Some(basis)) = (v.low, v.basis) else { continue };
            let sum = by.entry((low.currency.code().to_string(), basis)).or_default();
            *sum = (sum.0 + 1, sum.1 + low.minor, sum.2 + v.high.unwrap_or(low).minor);
        }
        let found: Vec<_> = totals(&all)
            .into_iter()
            .map(|t| ((t.currency.code().to_string(), t.basis), (t.pieces, t.low, t.high)))
            .collect();
        prop_assert_eq!(found, by.into_iter().collect::<Vec<_>>());
    }

    #[test]
    fn any_records_make_sheets(seed: u64, count in 0_usize..6) {
        let mut random = Random(seed);
        let mut records: Vec<Record> = (0..count).map(|_| sound(&mut random)).collect();
        for record in &mut records {
            record.acquired = Some(Deal { with: "SecretSeller".to_string(), price: money(&mut random), ..Deal::default() });
            record.location = "SecretPlace".to_string();
            record.valuations.iter_mut().for_each(|v| v.source = "SecretSource".to_string());
        }
        let all: Vec<&Record> = records.iter().collect();
        for sheet in [schedule(&all, TODAY), heirs(&all, &Heirs::default()), annual(&all, 2026, TODAY)] {
            prop_assert!(words(&sheet).contains("not an appraisal"), "{}", words(&sheet));
        }
        for record in &records {
            let id = random.uuid();
            prop_assert!(words(&one(id, record, Profile::Insurance, TODAY)).contains("SecretSeller"));
            for sheet in [
                one(id, record, Profile::Public, TODAY),
                one(id, record, Profile::Sale, TODAY),
                sale_text(record),
                second_opinion(id, record, "", TODAY),
            ] {
                let words = words(&sheet);
                prop_assert!(!words.contains("Secret"), "{}", words);
                // A price may be the same figure as something else; its sentence is not there.
                prop_assert!(!words.contains("rests on"));
            }
        }
    }
}

#[test]
fn a_schedule() {
    let mut records = [
        valued("Swan", "40.00 USD", "60.00 USD", Worth::Replacement, "2026-10-03"),
        valued("Wire grip", "20.00 USD", "20.00 USD", Worth::Replacement, "2022-01-01"),
        valued("Trivet", "15.00 EUR", "25.00 EUR", Worth::Replacement, "2026"),
        valued("Box iron", "900.00 USD", "900.00 USD", Worth::Paid, "2026"),
        Record { title: "Bare".to_string(), ..Record::default() },
        valued("Gone", "5.00 USD", "5.00 USD", Worth::Replacement, "2026"),
    ];
    records[5].standing = Standing::Sold;
    let all: Vec<&Record> = records.iter().collect();
    let sheet = schedule(&all, TODAY);
    let sums = sheet.blocks.iter().find_map(|b| match b {
        Block::Table(heads, rows) if heads[0] == "basis" => Some(rows.clone()),
        _ => None,
    });
    // 40 + 20 to 60 + 20; a sold piece and other sorts of figures stay out. Arithmetic.
    let row = |cells: [&str; 4]| cells.map(String::from).to_vec();
    let want = vec![
        row(["replacement", "1", "15.00 EUR", "25.00 EUR"]),
        row(["replacement", "2", "60.00 USD", "80.00 USD"]),
        row(["paid", "1", "900.00 USD", "900.00 USD"]),
    ];
    assert_eq!(sums, Some(want));
    let words = words(&sheet);
    assert!(words.contains("are not added together") && words.contains("what was paid"));
    let at = |text: &str| words.find(text).unwrap_or(usize::MAX);
    assert!(at("in no sum\n(no number), Bare.") < at("ask again\n(no number), Wire grip."), "{words}");
    assert!(!words.contains("Gone"));
}

#[test]
fn the_heirs_read_of_danger_first() {
    let mut records: Vec<Record> = (0..6)
        .map(|n| valued(&format!("Piece {n}"), "10.00 USD", "20.00 USD", Worth::FairMarket, "2026"))
        .collect();
    records[1].cautions = "The lining may hold asbestos.".to_string();
    records[2].cautions = "The lining may hold asbestos.\nThe cord has no earth.".to_string();
    records[3].valuations[0].high = amount("60.00 USD");
    records[4].singly = true;
    records[4].ask = "Invented Friend".to_string();
    let all: Vec<&Record> = records.iter().collect();
    let keeper = Heirs { photographs: "In the blue folder.".to_string(), ..Heirs::default() };
    let words = words(&heirs(&all, &keeper));
    let at = |text: &str| words.find(text).unwrap_or(usize::MAX);
    let order = [
        "Do not heat",
        "asbestos. This holds of: (no number), Piece 1; (no number), Piece 2",
        "no earth",
        "In the blue folder.",
        "(no number), Piece 3|",
        "(no number), Piece 4|",
        "Invented Friend|about",
    ];
    let places: Vec<usize> = order.iter().map(|t| at(t)).collect();
    assert!(places.is_sorted() && places[6] < usize::MAX, "{places:?} in {words}");
    // Three times the middle value of 20 is 60; two times is not named.
    assert!(!words.contains("Piece 5|") && !words.contains("Piece 0|"));
}

#[test]
fn a_year() {
    let deal = |date: &str, price: &str| {
        Some(Deal { date: Date::read(date).ok(), price: amount(price), ..Deal::default() })
    };
    let records = [
        Record { acquired: deal("2026-02-01", "12.50 USD"), ..Record::default() },
        Record { acquired: deal("2026", "7.50 USD"), ..Record::default() },
        Record {
            acquired: deal("2026-03", "3.00 EUR"),
            parted: deal("2026-08-09", "9.00 EUR"),
            standing: Standing::Sold,
            ..Record::default()
        },
        Record { acquired: deal("2025-12-31", "99.00 USD"), ..Record::default() },
        Record { acquired: deal("2026-05-05", ""), ..Record::default() },
        Record { acquired: deal("2027-01-01", "99.00 USD"), standing: Standing::Wanted, ..Record::default() },
    ];
    let all: Vec<&Record> = records.iter().collect();
    let words = words(&annual(&all, 2026, TODAY));
    for told in [
        "Owned: 4",
        "Sold: 1",
        "4 pieces.",
        "Paid: 20.00 USD.",
        "Paid: 3.00 EUR.",
        "Received: 9.00 EUR.",
        "1 piece without a price",
    ] {
        assert!(words.contains(told), "{told} is not in {words}");
    }
    assert!(!words.contains("99.00"));
}

#[test]
fn an_opinion_is_not_led() {
    let record = Record {
        title: "Guess of a title".to_string(),
        kind: "Guess of a kind".to_string(),
        maker: "Guess of a maker".to_string(),
        condition: "A chip.".to_string(),
        ..Record::default()
    };
    let sheet = second_opinion(Random(1).uuid(), &record, "Is the grip right?", TODAY);
    let words = words(&sheet);
    let last = words.find("read this last").unwrap_or_default();
    assert!(
        words.starts_with("A second opinion")
            && words.contains("Is the grip right?")
            && words.contains("A chip.")
    );
    assert!(words.find("Guess").is_some_and(|at| at > last), "{words}");
    assert!(words[last..].contains("Guess of a kind") && words[last..].contains("Guess of a maker"));
}

#[test]
fn a_sale_text_says_what_is_not_known() {
    let words = words(&sale_text(&Record { title: "A small iron".to_string(), ..Record::default() }));
    for told in
        ["condition is not described", "not known", "No mark was found", "was not measured", "Do not heat"]
    {
        assert!(words.contains(told), "{told} is not in {words}");
    }
    assert!(!words.to_lowercase().contains("genuine"));
}
