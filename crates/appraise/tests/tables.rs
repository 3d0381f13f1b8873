//! The tables of prices compile, stay small, and every slip in them is told with its place.

use crate::common::{folder, lines, prices, texts};
use compile::{Files, Reference};
use pack::prices::{Meaning, Prices, read_prices, write_prices};
use units::Basis;

#[test]
fn the_tables_compile_and_stay_small() {
    let made =
        Reference::prices(&Files::new(folder())).map_err(|f| lines(&f)).expect("tables without faults");
    assert_eq!(read_prices(&made.bytes).as_ref(), Ok(&made.made));
    let p = &made.made;
    println!(
        "figure: tables of prices: {} bytes; {} years, {} conditions, {} meanings, {} steps, sha {}",
        made.bytes.len(),
        p.indices[0].values.len(),
        p.conditions.len(),
        p.meanings.len(),
        p.steps.len(),
        &made.digest[..12],
    );
    for (basis, n) in made.counts {
        println!("figure: tables of prices: {n} figures {}", basis.phrase());
    }
    // Basis of the bound: practice, what the tables may cost a page that has to load them.
    assert!(made.bytes.len() <= 12_000, "{} bytes", made.bytes.len());
}

#[test]
fn definitions_are_cited() {
    let prices = prices();
    let of = |meaning: Meaning| prices.meanings.iter().find(|d| d.meaning == meaning).expect("a definition");
    // Published: the estate tax regulation for fair market value and forced sales, an insurance code for replacement.
    for (meaning, cites) in [
        (Meaning::FairMarket, "20.2031-1(b)"),
        (Meaning::Forced, "20.2031-1(b)"),
        (Meaning::Replacement, "2051.5"),
        (Meaning::Hammer, "TSB-A-24(48)S"),
        (Meaning::Paid, "T.C. Memo. 1994-211"),
    ] {
        let definition = of(meaning);
        let source = definition.source.map(|s| prices.sources[usize::from(s)].text.as_str());
        assert!(
            definition.basis == Basis::Published && source.is_some_and(|s| s.contains(cites)),
            "{meaning:?}"
        );
    }
    for word in ["willing", "neither has to", "both know", "forced"] {
        assert!(of(Meaning::FairMarket).says.contains(word), "{word}");
    }
    assert!(prices.sources.iter().enumerate().all(|(at, _)| cited(&prices, at)), "a source is cited nowhere");
}

fn cited(prices: &Prices, at: usize) -> bool {
    let here = |source: Option<u16>| source.map(usize::from) == Some(at);
    prices.meanings.iter().any(|d| here(d.source))
        || prices.indices.iter().any(|i| here(i.source))
        || prices.conditions.iter().any(|c| here(c.source))
}

#[test]
fn parts_are_those_of_the_pack() {
    let pack = texts("data/packs/irons", &[""]);
    let pack = &pack.iter().find(|(p, _)| p == "pack.toml").expect("the pack").1;
    let parts: Vec<&str> = pack
        .split("[[part]]")
        .skip(1)
        .filter_map(|p| p.lines().find_map(|l| l.strip_prefix("id = ")).map(|id| id.trim_matches('"')))
        .collect();
    for c in prices().conditions {
        assert!(parts.contains(&c.part.as_str()), "{} is about {}, no part of the pack", c.id, c.part);
    }
}

/// One slip: the file, what stands there, what is put in its place, and the fault that must be told.
const SLIPS: &[(&str, &str, &str, &str)] = &[
    (
        "prices.toml",
        "edition = \"2026-11-28\"",
        "edition = \"soon\"",
        "prices.toml:2: edition: This is not a date.",
    ),
    ("prices.toml", "[cap]", "[cup]", "prices.toml: cap: The table [cap] is missing."),
    (
        "prices.toml",
        "sales = 2",
        "sales = 0",
        "prices.toml:6: update.sales: The number must lie between 1 and 100.",
    ),
    (
        "prices.toml",
        "halves = 15",
        "",
        "prices.toml:5: update.halves: The field is missing. Add a line such as: halves = 1",
    ),
    (
        "prices.toml",
        "margin = 150",
        "margin = 1.5",
        "prices.toml:19: limit.margin: This must be a whole number",
    ),
    (
        "prices.toml",
        "currency = \"USD\"",
        "currency = \"Dollar\"",
        "prices.toml:24: currency: \"Dollar\" is no currency.",
    ),
    (
        "prices.toml",
        "file = \"cpi-us.csv\"",
        "file = \"cpi.csv\"",
        "prices.toml:26: file: There is no file \"cpi.csv\".",
    ),
    (
        "prices.toml",
        "source = \"bls-cpi\"",
        "source = \"bls\"",
        "prices.toml:23: source: sources.toml has no source \"bls\".",
    ),
    (
        "cpi-us.csv",
        "year,value",
        "year;value",
        "cpi-us.csv:3: The first line must name the columns. Write: year,value",
    ),
    (
        "cpi-us.csv",
        "1915,10.1",
        "1916,10.1",
        "cpi-us.csv:6: year: The year does not follow the one above it.",
    ),
    ("cpi-us.csv", "1915,10.1", "1915,ten", "cpi-us.csv:6: value: \"ten\" is no number that can stand here."),
    ("cpi-us.csv", "1915,10.1", "1915,0", "cpi-us.csv:6: value: \"0\" is no number that can stand here."),
    ("conditions.toml", "low = 1500", "low = 2500", "conditions.toml:9: mid: The factors are not in order."),
    (
        "conditions.toml",
        "id = \"hairline\"",
        "id = \"crack\"",
        "conditions.toml:134: id: The condition \"crack\" is described twice.",
    ),
    (
        "conditions.toml",
        "not_with = [\"hairline\"]",
        "not_with = [\"hairlin\"]",
        "conditions.toml:129: not_with: There is no condition \"hairlin\".",
    ),
    (
        "conditions.toml",
        "not_with = [\"hairline\"]",
        "not_with = [\"crack\"]",
        "conditions.toml:129: not_with: A condition cannot rule itself out.",
    ),
    (
        "conditions.toml",
        "part = \"skin\"",
        "port = \"skin\"",
        "conditions.toml:4: part: The field is missing.",
    ),
    (
        "conditions.toml",
        "basis = \"memory\"",
        "basis = \"invented\"",
        "conditions.toml:4: basis: Nothing here may be invented.",
    ),
    ("meanings.toml", "id = \"forced\"", "id = \"fast\"", "meanings.toml:18: id: \"fast\" is no meaning."),
    (
        "meanings.toml",
        "id = \"forced\"",
        "id = \"paid\"",
        "meanings.toml:3: meaning: The meaning \"forced\" is missing.",
    ),
    ("steps.csv", "50,5,practice", "51,5,practice", "steps.csv:5: from: No bid falls on this amount."),
    ("steps.csv", "0,1,practice", "1,1,practice", "steps.csv:3: from: No bid falls on this amount."),
    (
        "steps.csv",
        "50,5,practice",
        "50,0,practice",
        "steps.csv:5: by: \"0\" is no number that can stand here.",
    ),
    (
        "sources.toml",
        "bls-cpi = ",
        "bls = ",
        "prices.toml:23: source: sources.toml has no source \"bls-cpi\".",
    ),
    ("steps.csv", "50,5,practice", "50,5,habit", "steps.csv:5: basis: \"habit\" is no basis."),
];

#[test]
fn every_slip_is_told_with_its_place() {
    for (file, from, to, told) in SLIPS {
        let mut files = folder();
        let text = &mut files.iter_mut().find(|(p, _)| p == file).expect("the file").1;
        assert!(text.contains(from), "{file} has no {from}");
        *text = text.replacen(from, to, 1);
        let faults = Reference::prices(&Files::new(files)).expect_err(told);
        let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
        assert!(lines.iter().any(|l| l.starts_with(told)), "{told}\nis not among\n{}", lines.join("\n"));
    }
}

#[test]
fn files_that_do_not_belong() {
    let told = |files| lines(&Reference::prices(&Files::new(files)).expect_err("faults"));
    assert!(told(Vec::new()).contains("prices.toml: The file is missing."));
    let mut files = folder();
    files.push(("cpi-uk.csv".to_string(), "year,value\n".to_string()));
    assert!(told(files).contains("cpi-uk.csv: No file of this name belongs here."));
    let mut files = folder();
    files[0].1.push_str("\n[[\n");
    assert!(told(files).contains("The line cannot be read"));
    let mut files = folder();
    files.push(("long.csv".to_string(), "x".repeat(600_000)));
    assert!(told(files).contains("long.csv: The file is longer than 512 kB."));
}

/// The bytes of the tables, changed bit by bit and cut: refused with a sentence, or tables that hold together.
#[test]
fn hostile_bytes_are_answered() {
    let whole = write_prices(&prices()).expect("sound tables");
    let (mut read, mut refused) = (0, 0);
    let mut answered = |bytes: &[u8]| match read_prices(bytes) {
        Ok(tables) => {
            assert!(write_prices(&tables).is_ok(), "what was let in cannot be written");
            let market = crate::common::market(&tables);
            let found = market.estimate(
                crate::common::KIND,
                &crate::common::worth(5_000, 11_000, 2020),
                appraise::Drift::unknown(&tables),
                &[crate::common::sale(1990, 70_000), crate::common::sale(2020, 7_000)],
            );
            let q = found.expect("a band in dollars").quantiles.map(|q| q.money.minor);
            assert!(q.windows(2).all(|w| w[0] <= w[1]) && q[0] >= 0, "{q:?}");
            read += 1;
        }
        Err(fault) => {
            assert!(fault.0.ends_with('.') && fault.0.len() > 20, "{}", fault.0);
            refused += 1;
        }
    };
    for at in 0..whole.len() {
        let mut bytes = whole.clone();
        bytes[at] ^= 1 << (at % 8);
        answered(&bytes);
        bytes[at] = 0xff;
        answered(&bytes);
        answered(&whole[..at]);
    }
    println!("figure: hostile tables of prices: {refused} refused, {read} read");
    assert!(read > 0 && refused > whole.len(), "{read} {refused}");
}
