//! Cases as folders: a ledger, and `expect.txt` with what must hold of the band of one kind and make in 2026.
//!
//! A line is one of `of swan period` (first), `middle between 8 and 40`, `quarter above 3`, `three quarters
//! below 99`, `nine tenths below 150` (in units of the currency), `drift below -80`, `family drift below -60` (per mille a year), `sales 3` (pooled), `apart 2`.
//! `#` begins a remark.

use crate::common::{at, irons, lines, market, prices, texts};
use appraise::{Estimate, Of, comparables};
use compile::{Compiled, Files, Reference};
use pack::prices::Prices;
use std::fs;
use std::path::Path;

/// What a case is held against.
struct Answer {
    estimate: Estimate,
    family: i32,
    apart: usize,
}

fn answer(case: &str, head: &str, pack: &Compiled, prices: &Prices) -> Answer {
    let made = Reference::ledger(&Files::new(texts(case, &[""])), &irons(), prices);
    let ledger = made.map_err(|f| lines(&f)).expect("a ledger without faults").made;
    let core = &pack.core;
    let find = |kind: &str, make: &str| {
        let kind = core.kinds.iter().position(|k| k.id == kind)?;
        let make = core.makes.iter().position(|m| m.id == make)?;
        Some((u16::try_from(kind).ok()?, u16::try_from(make).ok()?))
    };
    let found = comparables(&ledger, prices, &find);
    let (kind, make) = head.split_once(' ').and_then(|(k, m)| find(k, m)).expect("a kind and a make");
    let worth = |kind: u16| core.kinds[usize::from(kind)].makes[usize::from(make)].as_ref()?.worth.clone();
    // In the pack the kinds of a case are of one family; the ledger knows its number.
    let of = Of { kind, make, family: found.sales[0].of.family };
    let market = market(prices);
    let drift = market.drift(of, &found.sales, &worth);
    let estimate = market.estimate(of, &worth(kind).expect("a band"), drift, &found.sales).expect("dollars");
    let apart = market.apart(of, &found.sales).iter().map(|a| a.sales.len()).sum();
    Answer { estimate, family: drift.per_mille().0, apart }
}

/// Whether a line holds; else what stands instead.
fn check(line: &str, answer: &Answer) -> Result<(), String> {
    let words: Vec<&str> = line.split_whitespace().collect();
    let cents =
        |text: &str| text.parse::<f64>().map(|n| (n * 100.0).round() as i64).map_err(|e| e.to_string());
    let whole = |text: &str| text.parse::<i32>().map_err(|e| e.to_string());
    let q = answer.estimate.quantiles.map(|q| q.money.minor);
    let drift = answer.estimate.drift.per_mille().0;
    let (holds, is) = match words[..] {
        ["middle", "between", low, "and", high] => {
            ((cents(low)?..=cents(high)?).contains(&q[2]), q[2].to_string())
        }
        ["nine", "tenths", "below", high] => (q[4] < cents(high)?, q[4].to_string()),
        ["quarter", "above", low] => (q[1] > cents(low)?, q[1].to_string()),
        ["three", "quarters", "below", high] => (q[3] < cents(high)?, q[3].to_string()),
        ["drift", "below", most] => (drift < whole(most)?, drift.to_string()),
        ["family", "drift", "below", most] => (answer.family < whole(most)?, answer.family.to_string()),
        ["sales", n] => {
            let pooled = answer.estimate.sales.len();
            (Some(pooled) == usize::try_from(whole(n)?).ok(), pooled.to_string())
        }
        ["apart", n] => (Some(answer.apart) == usize::try_from(whole(n)?).ok(), answer.apart.to_string()),
        _ => return Err("this line says nothing".to_string()),
    };
    if holds { Ok(()) } else { Err(format!("it is {is}")) }
}

#[test]
fn prices_as_cases() {
    let pack = compile::compile(&irons()).map_err(|f| lines(&f)).expect("a pack without faults");
    let prices = prices();
    let mut folders: Vec<String> = fs::read_dir(at("tests/cases/appraise"))
        .expect("the cases")
        .map(|e| e.expect("an entry").path())
        .filter(|p| p.is_dir())
        .filter_map(|p| p.file_name().map(|n| n.to_string_lossy().into_owned()))
        .collect();
    folders.sort();
    assert!(folders.len() >= 10, "cases are missing");
    let mut broken = Vec::new();
    for name in &folders {
        let case = format!("tests/cases/appraise/{name}");
        let text = fs::read_to_string(at(&case).join(Path::new("expect.txt"))).expect("what is expected");
        let mut all =
            text.lines().map(|l| l.split('#').next().unwrap_or_default().trim()).filter(|l| !l.is_empty());
        let head = all.next().and_then(|l| l.strip_prefix("of ")).expect("`of`, a kind and a make");
        let answer = answer(&case, head, &pack, &prices);
        let q = answer.estimate.quantiles.map(|q| q.money.minor);
        println!(
            "figure: case {name}: {q:?}, drift {:?}, family {}",
            answer.estimate.drift.per_mille(),
            answer.family
        );
        broken.extend(all.filter_map(|l| check(l, &answer).err().map(|is| format!("{name}: {l}: {is}"))));
    }
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}
