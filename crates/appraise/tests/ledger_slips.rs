//! Every slip in a ledger is told with its place, and strange bytes are answered.

use crate::common::{irons, lines, prices, texts};
use appraise::comparables;
use compile::{Files, Reference};
use pack::prices::{read_ledger, write_ledger};

fn demo() -> Vec<(String, String)> {
    texts("data/packs/demo", &[""])
}

/// One slip: the file, what stands there, what is put in its place, and the fault that must be told.
const SLIPS: &[(&str, &str, &str, &str)] = &[
    (
        "ledger.toml",
        "notice = \"Invented sales of an invented club, for demonstration only.\"",
        "",
        "ledger.toml: notice: Rows are invented, but nothing says so. Write: notice = \"Invented sales, for demonstration only.\"",
    ),
    (
        "ledger.toml",
        "pack = \"irons\"",
        "pack = \"iron\"",
        "ledger.toml:9: pack: The ledger goes with \"iron\", but this pack is \"irons\". Name the pack whose kinds the rows are of.",
    ),
    (
        "ledger.toml",
        "id = \"demo\"",
        "id = \"demo\"\nclub = 1",
        "ledger.toml:5: There is no field \"club\" here. Known here: edition, id, licence, name, notice, pack, sources.",
    ),
    (
        "sales.csv",
        "2016-04-02,glass",
        "2016-02-30,glass",
        "sales.csv:3: date: \"2016-02-30\" is not a date. Write year, month and day, \"2019-05-14\", or a year, \"2019\".",
    ),
    (
        "sales.csv",
        "2016-04-02,glass",
        "2017,glass",
        "sales.csv:4: date: The row is older than the one above it. Rows stand in order of date; a year alone comes before its days.",
    ),
    (
        "sales.csv",
        "2016-04-02,glass",
        "2016-04-02,glas",
        "sales.csv:3: kind: The pack has no kind \"glas\". Did you mean \"glass\"?",
    ),
    (
        "sales.csv",
        "glass,period,16,USD,15",
        "glass,antique,16,USD,15",
        "sales.csv:3: make: The pack has no make \"antique\". Makes: period, later, recast.",
    ),
    (
        "sales.csv",
        "period,16,USD,15",
        "period,16.005,USD,15",
        "sales.csv:3: price: \"16.005\" is no number that can stand here. Write digits with a point before at most 2 more, such as 12 or 12.5.",
    ),
    (
        "sales.csv",
        "period,16,USD,15",
        "period,16,usd,15",
        "sales.csv:3: currency: \"usd\" is no currency. Write three capitals, such as USD.",
    ),
    (
        "sales.csv",
        "period,16,USD,15",
        "period,16,USD,151",
        "sales.csv:3: premium: \"151\" is no number that can stand here.",
    ),
    (
        "sales.csv",
        "15,sold,,,",
        "15,gone,,,",
        "sales.csv:3: sort: \"gone\" cannot stand here. Write one of: sold, paid, asking.",
    ),
    (
        "sales.csv",
        "15,sold,,,",
        "15,sold,crack hairline,,",
        "sales.csv:3: condition: \"crack\" and \"hairline\" cannot both hold. Keep one of them.",
    ),
    (
        "sales.csv",
        "15,sold,,,",
        "15,sold,hairlin,,",
        "sales.csv:3: condition: There is no condition \"hairlin\". Did you mean \"hairline\"?",
    ),
    (
        "sales.csv",
        "15,sold,,,",
        "15,sold,,6000,",
        "sales.csv:3: likeness: \"6000\" is no number from 0 to 1000. Write digits only, without commas or spaces.",
    ),
    (
        "sales.csv",
        "15,sold,,,invented,,spring meeting",
        "15,sold,,,practice,,spring meeting",
        "sales.csv:3: basis: One price is no common practice. Write published and a source, or memory.",
    ),
    (
        "sales.csv",
        "15,sold,,,invented,,spring meeting",
        "15,sold,,,published,,spring meeting",
        "sales.csv:3: source: What is published has a source.",
    ),
    (
        "sales.csv",
        "15,sold,,,invented,,spring meeting",
        "15,sold,,,invented,somewhere,spring meeting",
        "sales.csv:3: basis: Nothing here may be invented.",
    ),
];

#[test]
fn every_slip_is_told_with_its_place() {
    let prices = prices();
    for (file, from, to, told) in SLIPS {
        let mut files = demo();
        let text = &mut files.iter_mut().find(|(p, _)| p == file).expect("the file").1;
        assert!(text.contains(from), "{file} has no {from}");
        *text = text.replacen(from, to, 1);
        let faults = Reference::ledger(&Files::new(files), &irons(), &prices).expect_err(told);
        let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
        assert!(lines.iter().any(|l| l.starts_with(told)), "{told}\nis not among\n{}", lines.join("\n"));
    }
}

#[test]
fn files_that_do_not_belong() {
    let prices = prices();
    let told = |files: Vec<(String, String)>, pack: &Files| {
        lines(&Reference::ledger(&Files::new(files), pack, &prices).expect_err("faults"))
    };
    assert!(told(Vec::new(), &irons()).contains("sales.csv: The file is missing."));
    let mut files = demo();
    files.push(("more.csv".to_string(), String::new()));
    assert!(told(files, &irons()).contains("more.csv: No file of this name belongs here."));
    let broken = Files::new(vec![("pack.toml".to_string(), "[[".to_string())]);
    assert!(told(demo(), &broken).contains("The pack that it goes with has faults of its own."));
}

/// The bytes of the ledger, changed bit by bit and cut: refused with a sentence, or sales that hold together.
#[test]
fn hostile_bytes_are_answered() {
    let prices = prices();
    let made = Reference::ledger(&Files::new(demo()), &irons(), &prices).map_err(|f| lines(&f));
    let whole = write_ledger(&made.expect("a ledger without faults").made).expect("a sound ledger");
    let (mut read, mut refused) = (0, 0);
    let mut answered = |bytes: &[u8]| match read_ledger(bytes) {
        Ok(ledger) => {
            assert!(write_ledger(&ledger).is_ok(), "what was let in cannot be written");
            let found = comparables(&ledger, &prices, &|kind, _| (kind != "swan").then_some((1, 0)));
            assert_eq!(found.sales.len() + found.left_out, ledger.sales.len());
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
    println!("figure: hostile ledgers: {refused} refused, {read} read");
    assert!(read > 0 && refused > whole.len(), "{read} {refused}");
}
