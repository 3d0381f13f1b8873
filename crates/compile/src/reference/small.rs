//! The small files: assumptions, sizes, issue days, likenesses.

use super::Context;
use super::marks::small;
use super::rows::rows;
use crate::cursor::Table;
use crate::fault::{meant, quote};
use crate::text::Limit;
use dating::calendar::WEEKDAYS;
use pack::marks::{Alike, Day, Diamond, Fits, Irons, IssueKind, IssueRule, Marks, Reading, Size};
use units::{Basis, Period, Year};

/// `reference.toml`, and the rest still empty.
pub(crate) fn top(top: &Table<'_>, context: &Context<'_>) -> Marks {
    let edition = top.need("edition", "edition = \"2026-01-31\"").and_then(|v| v.date()).unwrap_or_default();
    let licence = top.need_text("licence", Limit::NAME, "licence = \"CC0-1.0\"");
    let mut reading = Reading {
        misread: 0,
        misread_lost: 0,
        junk: 40,
        no_issue_day: 0,
        met: Period { earliest: 1600, likely_from: 1600, likely_to: 2200, latest: 2200 },
        tempered: 0,
        basis: Basis::Memory,
        source: None,
    };
    match top.table("reading") {
        Some(t) => {
            reading.misread = small(&t, "misread", 10, 999);
            reading.misread_lost = small(&t, "misread_lost", 10, 199);
            reading.junk = small(&t, "junk", 40, 1000).max(2);
            reading.no_issue_day = small(&t, "no_issue_day", 20, 999);
            reading.basis = context.rests_of(&t).basis;
            t.done();
        }
        None => context.faults.add(&top.spot_of("reading"), "The table [reading] is missing.", ""),
    }
    match top.table("met") {
        Some(t) => {
            let years =
                t.need("years", "years = [1836, 1865, 1925, 1990]").map(|v| v.list()).unwrap_or_default();
            let years: Vec<Year> = years
                .iter()
                .filter_map(|v| v.whole(800, 2200))
                .filter_map(|y| Year::try_from(y).ok())
                .collect();
            let met = match years[..] {
                [earliest, likely_from, likely_to, latest] => {
                    Some(Period { earliest, likely_from, likely_to, latest })
                }
                _ => None,
            };
            match met.filter(|p| p.is_sound()) {
                Some(met) => reading.met = met,
                None => {
                    let hint = "Write for example: years = [1836, 1865, 1925, 1990]";
                    context.faults.add(&t.spot_of("years"), "These must be four years in order.", hint);
                }
            }
            context.rests_of(&t);
            t.done();
        }
        None => context.faults.add(&top.spot_of("met"), "The table [met] is missing.", ""),
    }
    match top.table("combined") {
        Some(t) => {
            let power = t.need("tempered", "tempered = -700").and_then(|v| v.whole(-1000, 0));
            reading.tempered = power.and_then(|p| i16::try_from(p).ok()).unwrap_or(0);
            reading.source = context.rests_of(&t).source;
            t.done();
        }
        None => context.faults.add(&top.spot_of("combined"), "The table [combined] is missing.", ""),
    }
    top.done();
    Marks {
        edition,
        licence,
        sources: Vec::new(),
        reading,
        series: Vec::new(),
        issues: Vec::new(),
        marks: Vec::new(),
        words: Vec::new(),
        diamond: Diamond {
            name: String::new(),
            says: String::new(),
            caution: String::new(),
            from: 0,
            to: 0,
            bounds_basis: Basis::Memory,
            term: 0,
            fades: 0,
            basis: Basis::Memory,
            source: None,
            layouts: Vec::new(),
            years: Vec::new(),
            months: String::new(),
            instead: Vec::new(),
            classes: Vec::new(),
        },
        sizes: Vec::new(),
        irons: Irons { length: 0, length_spread: 0, heft: 0, heft_spread: 0, basis: Basis::Memory },
        alike: Vec::new(),
    }
}

const FITS: [(&str, Fits); 3] = [("none", Fits::Free), ("mass", Fits::Mass), ("length", Fits::Length)];

/// `sizes.toml`: what numbers may mean, and what is measured on irons of any sort.
pub(crate) fn sizes(top: &Table<'_>, context: &Context<'_>) -> (Vec<Size>, Irons) {
    let mut list = Vec::new();
    for t in top.tables("size") {
        let id = t.id("set-number");
        let rests = context.rests_of(&t);
        let bound = |name: &str, example: &str| {
            let found = t.need(name, example).and_then(|v| v.whole(0, 99_999_998));
            found.and_then(|n| u32::try_from(n).ok()).unwrap_or(0)
        };
        let (from, to) = (bound("from", "from = 1"), bound("to", "to = 30"));
        if from > to {
            context.faults.add(&t.spot_of("from"), "The smallest is above the greatest.", "");
        }
        let word = t.need_text("fits", Limit::NAME, "fits = \"none\"");
        let fits = FITS.iter().find(|(w, _)| *w == word).map(|(_, f)| *f);
        if fits.is_none() && !word.is_empty() {
            let hint = meant(&word, FITS.iter().map(|(w, _)| *w), "Write one of");
            context.faults.add(&t.spot_of("fits"), format!("{} cannot stand here.", quote(&word)), hint);
        }
        // Tenths of the unit in the file.
        let tenths = |name: &str, least: f64| {
            let found = t.get(name).and_then(|v| v.number(least, 9_999.0));
            found.map_or(0, |n| libm::round(n * 10.0) as i32)
        };
        let (grams, mm, plus) = (tenths("grams", 0.0), tenths("mm", 0.0), tenths("plus", -9_999.0));
        // Of a mass the spread is a share of it, in thousandths as it stands.
        let spread = match fits {
            Some(Fits::Mass) => t.get("spread").and_then(|v| v.whole(1, 999)).map_or(0, |n| n as i32),
            _ => tenths("spread", 0.0),
        };
        let per = if fits == Some(Fits::Mass) { grams } else { mm };
        let lacks = match fits {
            Some(Fits::Mass) if grams == 0 => "grams",
            Some(Fits::Length) if mm == 0 => "mm",
            Some(Fits::Mass | Fits::Length) if spread == 0 => "spread",
            _ => "",
        };
        if !lacks.is_empty() {
            context.faults.add(
                &t.spot_of(lacks),
                "The field is missing.",
                format!("Add a line such as: {lacks} = 10"),
            );
        }
        let size = Size {
            id: id.clone().unwrap_or_default(),
            name: t.need_text("name", Limit::NAME, "name = \"place in a set\""),
            from,
            to,
            weight: small(&t, "weight", 100, 999),
            fits: fits.unwrap_or(Fits::Free),
            per: per.unsigned_abs(),
            plus,
            spread: spread.unsigned_abs(),
            units: t.get("units").and_then(|v| v.flag()).unwrap_or(false),
            is_year: t.get("is_year").and_then(|v| v.flag()).unwrap_or(false),
            says: t.need_text("says", Limit::SENTENCES, "says = \"What it means.\""),
            basis: rests.basis,
            source: rests.source,
        };
        t.done();
        list.extend(id.map(|_| size));
    }
    let mut irons = Irons { length: 0, length_spread: 0, heft: 0, heft_spread: 0, basis: Basis::Memory };
    match top.table("irons") {
        Some(t) => {
            let figure = |name: &str, example: &str, most: i64| {
                let found = t.need(name, example).and_then(|v| v.whole(1, most));
                found.and_then(|n| u16::try_from(n).ok()).unwrap_or(1)
            };
            irons.length = u32::from(figure("length", "length = 120", 2_000)) * 10;
            irons.length_spread = figure("length_spread", "length_spread = 450", 3_000);
            irons.heft = figure("heft", "heft = 550", 20_000);
            irons.heft_spread = figure("heft_spread", "heft_spread = 280", 3_000);
            irons.basis = context.rests_of(&t).basis;
            t.done();
        }
        None => context.faults.add(&top.spot_of("irons"), "The table [irons] is missing.", ""),
    }
    top.done();
    (list, irons)
}

const KINDS: [(&str, IssueKind); 3] =
    [("rule", IssueKind::Rule), ("extra", IssueKind::Extra), ("missed", IssueKind::Missed)];

/// `issue-days.csv`.
pub(crate) fn issues(context: &Context<'_>) -> Vec<IssueRule> {
    const COLUMNS: &[&str] = &["kind", "from", "to", "weekday", "basis", "source", "note"];
    let mut list = Vec::new();
    for row in rows("issue-days.csv", COLUMNS, context) {
        let rests = context.rests(row.get("basis"), row.get("source"), &row.spot, 1);
        let kind = KINDS.iter().find(|(w, _)| *w == row.get("kind")).map(|(_, k)| *k);
        if kind.is_none() {
            let hint = meant(row.get("kind"), KINDS.iter().map(|(w, _)| *w), "Write one of");
            context.faults.add(&row.at("kind"), format!("{} is no kind.", quote(row.get("kind"))), hint);
        }
        let from = context.day(row.get("from"), &row.at("from"));
        let to = row.get("to");
        let to: Option<Option<Day>> =
            if to.is_empty() { Some(None) } else { context.day(to, &row.at("to")).map(Some) };
        let name = row.get("weekday");
        let weekday = WEEKDAYS.iter().position(|w| *w == name);
        if weekday.is_none() && !["", "any"].contains(&name) {
            let hint = meant(name, WEEKDAYS.into_iter(), "Write one of");
            context.faults.add(&row.at("weekday"), format!("{} is no weekday.", quote(name)), hint);
        }
        let (Some(kind), Some(from), Some(to)) = (kind, from, to) else { continue };
        if to.is_some_and(|to| to < from) {
            context.faults.add(&row.at("to"), "The end lies before the start.", "");
        }
        let weekday = weekday.and_then(|w| u8::try_from(w).ok());
        list.push(IssueRule {
            kind,
            from,
            to,
            weekday,
            note: row.get("note").to_string(),
            basis: rests.basis,
            source: rests.source,
        });
    }
    list
}

/// `likeness.csv`.
pub(crate) fn alike(context: &Context<'_>) -> Vec<Alike> {
    const COLUMNS: &[&str] = &["one", "other", "of_1000", "basis"];
    let mut list: Vec<Alike> = Vec::new();
    for row in rows("likeness.csv", COLUMNS, context) {
        context.rests(row.get("basis"), "", &row.spot, 1);
        for column in ["one", "other"] {
            let cell = row.get(column);
            let sound = cell.len() == 1 && cell.bytes().all(|b| b.is_ascii_uppercase() || b.is_ascii_digit());
            if !sound {
                let says = format!("{} is not one capital or digit.", quote(cell));
                context.faults.add(&row.at(column), says, "");
            }
        }
        let Some(share) = row.whole("of_1000", 1, 200, context) else { continue };
        let (one, other) = (row.get("one").to_string(), row.get("other").to_string());
        let twice =
            list.iter().any(|a| (&a.one, &a.other) == (&one, &other) || (&a.one, &a.other) == (&other, &one));
        if twice || one == other {
            let hint = "Each pair stands once; it counts either way.";
            context.faults.add(&row.spot, "This pair is no new one.", hint);
            continue;
        }
        list.push(Alike { one, other, share: u16::try_from(share).unwrap_or(0) });
    }
    list
}
