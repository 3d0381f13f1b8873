//! What published sources say of marks, as tables in `tests/cases/marks`: the source stands beside each row. No row is
//! of the tables that the reader loads.

use crate::common::{root, tables};
use dating::{Flag, Kind, Mark, Measured, Reading, Tables, Verdict, calendar};
use std::fs;
use units::{Length, Mass};

/// The cells of a row, without its quotes.
type Row = Vec<String>;

fn rows(file: &str) -> Vec<Row> {
    let text = fs::read_to_string(root().join("tests/cases/marks").join(file)).expect(file);
    let mut lines = text.lines().filter(|l| !l.starts_with('#') && !l.trim().is_empty());
    lines.next();
    lines.map(cells).collect()
}

fn cells(line: &str) -> Row {
    let (mut all, mut cell, mut quoted) = (Vec::new(), String::new(), false);
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => all.push(std::mem::take(&mut cell)),
            c => cell.push(c),
        }
    }
    all.push(cell);
    all
}

/// A date as `1871-05-23`, `1871-05` or `1871`: its first and last day.
fn days(text: &str) -> (i32, i32) {
    let parts: Vec<i16> = text.split('-').map(|p| p.parse().expect(text)).collect();
    let day = |y: i16, m: i16, d: i16| calendar::day(y, m as u8, d as u8).expect(text);
    match parts[..] {
        [y, m, d] => (day(y, m, d), day(y, m, d)),
        [y, m] => (day(y, m, 1), day(y, m, 28)),
        _ => (day(parts[0], 1, 1), day(parts[0], 12, 31)),
    }
}

fn series(t: &Tables, id: &str) -> usize {
    t.marks().series.iter().position(|s| s.id == id).expect(id)
}

/// The first reading that is a number of the series.
fn number(marks: &[Mark], of: usize) -> Option<&Reading> {
    marks.iter().filter_map(|m| m.readings.first()).find(|r| r.kind == Kind::Number(of))
}

/// When a legible number was granted, as the tables have it.
fn granted(r: &Reading) -> Option<(i32, i32)> {
    r.issues.iter().find(|i| i.fit > 0).map(|i| (i.from, i.to))
}

/// One check for every table: what is wrong with a row, or nothing.
fn check(t: &Tables, file: &str, row: &Row) -> Result<(), String> {
    let cell = |i: usize| row.get(i).map_or("", String::as_str);
    match file {
        "us-patents.csv" => patent(t, cell(0), cell(1)),
        "diamonds.csv" => {
            let wanted = calendar::day_in_words(days(cell(1)).0);
            let read = t.read(cell(0), Measured::default());
            let first = read.marks.first().and_then(|m| m.readings.first()).ok_or("nothing was read")?;
            if first.kind != Kind::Diamond || first.reads != wanted || !first.as_told || first.chance < 0.9 {
                return Err(format!("{} ({:.2}) instead of {wanted}", first.reads, first.chance));
            }
            Ok(())
        }
        "anomalies.csv" => {
            let read = t.read(cell(0), Measured::default());
            // With 5 % of the chance each at least.
            let offered = |text: &str| {
                let all = read.marks.iter().flat_map(|m| &m.readings);
                all.filter(|r| r.chance >= 0.05).any(|r| r.reads == text)
            };
            for wanted in cell(1).split('|').map(str::trim).filter(|w| !w.is_empty()) {
                if !offered(wanted) {
                    return Err(format!("{wanted} is not offered"));
                }
            }
            match cell(2) {
                unwanted if !unwanted.is_empty() && offered(unwanted) => {
                    Err(format!("{unwanted} is offered"))
                }
                _ => Ok(()),
            }
        }
        "numbers.csv" => {
            let read = t.read(cell(0), Measured::default());
            let found = number(&read.marks, series(t, cell(1))).ok_or("it is not read as such a number")?;
            let (from, to) = granted(found).ok_or("the number is of no year")?;
            let ((first, last), lag) = (days(cell(2)), cell(3).parse::<i16>().expect("a lag"));
            let (early, late) = (calendar::year_of(first), calendar::year_of(last) + lag);
            let years = (calendar::year_of(from), calendar::year_of(to));
            if years.1 < early || years.0 > late {
                return Err(format!("{years:?} instead of {early} to {late}"));
            }
            Ok(())
        }
        "sizes.csv" => size(t, row),
        _ => words(t, row),
    }
}

/// Number alone, date alone, and the two together.
fn patent(t: &Tables, n: &str, date: &str) -> Result<(), String> {
    let (day, _) = days(date);
    let words = calendar::day_in_words(day);
    let us = series(t, "us-patent");
    let read = t.read(&format!("PAT. NO. {n}"), Measured::default());
    let found = number(&read.marks, us).ok_or("the number is not read as a patent's")?;
    let (from, to) = granted(found).ok_or("the number is of no year")?;
    // A volume's first or last issue may be catalogued a week out.
    if day < from - 7 || day > to + 7 {
        let range = [from, to].map(calendar::day_in_words).join(" to ");
        return Err(format!("number: {range}"));
    }
    let read = t.read(&format!("PAT'D {words}"), Measured::default());
    let first = read.marks.first().and_then(|m| m.readings.first()).ok_or("the date is not read")?;
    if first.kind != Kind::Dated(us) || first.reads != words || first.flags.contains(&Flag::NoIssue) {
        return Err(format!("date: {} {:?}", first.reads, first.flags));
    }
    let read = t.read(&format!("No {n} PAT'D {words}"), Measured::default());
    let one = read.marks.iter().filter(|m| m.same_as.is_some());
    let borne = one.filter(|m| m.readings.first().is_some_and(|r| r.flags.contains(&Flag::BorneOut)));
    if borne.count() != 2 || t.together(&read.marks).sources.len() != 1 {
        return Err("number and date are not one source".to_string());
    }
    Ok(())
}

/// What a measure says of one meaning of a number.
fn size(t: &Tables, row: &Row) -> Result<(), String> {
    let cell = |i: usize| row.get(i).map_or("", String::as_str);
    let tenths = |i: usize| cell(i).parse::<u32>().ok().map(|n| n * 10);
    let measured = Measured { length: tenths(1).map(Length), mass: tenths(2).map(Mass) };
    let of = t.marks().sizes.iter().position(|s| s.id == cell(3)).ok_or("there is no such size")?;
    let read = t.read(cell(0), measured);
    let found = read.marks.iter().flat_map(|m| &m.readings).find(|r| r.kind == Kind::Size(of));
    let found = found.ok_or("it is not among the readings")?;
    let held = found.flags.iter().find_map(|f| match f {
        Flag::Held(held) => Some(held),
        _ => None,
    });
    let verdict = match held.map(|h| h.verdict) {
        Some(Verdict::For) => "for",
        Some(Verdict::Open) => "open",
        Some(Verdict::Against) => "against",
        Some(Verdict::NotMeasured) => "not measured",
        None => "free",
    };
    let told = found.in_words(t);
    let as_it_must = verdict == cell(4) && told.contains(cell(5)) && !cell(5).is_empty();
    if as_it_must { Ok(()) } else { Err(format!("{verdict}: {told}")) }
}

fn words(t: &Tables, row: &Row) -> Result<(), String> {
    let cell = |i: usize| row.get(i).map_or("", String::as_str);
    let read = t.read(cell(0), Measured::default());
    let (sort, what) = cell(1).split_once(' ').ok_or("the row says nothing")?;
    let fits = |r: &Reading| match (sort, r.kind) {
        ("date", Kind::Dated(_) | Kind::Date) => r.reads == what,
        ("number", Kind::Number(s)) => t.marks().series[s].id == what,
        ("words", Kind::Words(m)) => t.marks().marks[m].id == what,
        ("size", Kind::Size(s)) => t.marks().sizes[s].id == what,
        _ => false,
    };
    let firsts: Vec<&Reading> = read.marks.iter().filter_map(|m| m.readings.first()).collect();
    let Some(found) = firsts.iter().find(|r| fits(r)) else {
        let all: Vec<String> = firsts.iter().map(|r| format!("{} {}", r.name, r.reads)).collect();
        return Err(format!("read as {all:?}, unread {:?}", read.unread));
    };
    let told = found.in_words(t);
    if told.contains(cell(2)) { Ok(()) } else { Err(format!("it says: {told}")) }
}

#[test]
fn every_row_holds() {
    let t = tables();
    let mut broken = Vec::new();
    // How many rows each table must have at least, so that none is lost unseen.
    for (file, least) in [
        ("us-patents.csv", 40),
        ("diamonds.csv", 10),
        ("anomalies.csv", 15),
        ("numbers.csv", 20),
        ("words.csv", 35),
        ("sizes.csv", 15),
    ] {
        let rows = rows(file);
        assert!(rows.len() >= least, "{file} has {} rows", rows.len());
        println!("figure: marks: {} rows in {file}", rows.len());
        for row in &rows {
            if let Err(says) = check(&t, file, row) {
                broken.push(format!("{file}: {}: {says}", row[0]));
            }
        }
    }
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}
