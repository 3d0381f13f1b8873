//! `series.toml` and the files in `numbers/`: rights that are numbered in one row.

use super::Context;
use super::marks::{is_spelling, small, spellings};
use super::rows::rows;
use crate::cursor::Table;
use crate::fault::{Spot, quote};
use crate::text::Limit;
use dating::calendar;
use pack::marks::{Day, Mark, Run, Series};

const COLUMNS: &[&str] = &["date", "number", "basis", "source", "note"];
const EXAMPLE: &str = "terms = [[\"1836-07-13\", 14]]";

/// A step as it stands in a file.
struct Step {
    day: Day,
    number: u32,
    run: Run,
}

/// Reads all series.
pub(crate) fn read(top: &Table<'_>, context: &Context<'_>, marks: &[Mark]) -> Vec<Series> {
    let mut list: Vec<Series> = Vec::new();
    let mut files: Vec<String> = Vec::new();
    for table in top.tables("series") {
        let found = series(&table, context, marks, &mut files);
        if let Some(series) = found {
            if list.iter().any(|s| s.id == series.id) {
                let says = format!("The series {} is described twice.", quote(&series.id));
                context.faults.add(&table.spot_of("id"), says, "Remove one, or give it another id.");
            }
            if series.dated && list.iter().any(|s| s.dated) {
                let hint = "Only one series can have its dates marked as well as its numbers.";
                context.faults.add(&table.spot_of("dated"), "Two series are dated.", hint);
            }
            list.push(series);
        }
    }
    for (path, _) in context.files.iter().filter(|(p, _)| p.starts_with("numbers/")) {
        if !files.iter().any(|f| f == path) {
            let hint = "Name it as the file of a series in series.toml.";
            context.faults.add(&Spot::file(path), "No series uses this file.", hint);
        }
    }
    top.done();
    list
}

fn series(
    table: &Table<'_>,
    context: &Context<'_>,
    marks: &[Mark],
    files: &mut Vec<String>,
) -> Option<Series> {
    let id = table.id("us-patent");
    let rests = context.rests_of(table);
    let alone = table.need_text("alone", Limit::NAME, "alone = \"patented\"");
    let at = marks.iter().position(|m| m.id == alone);
    if at.is_none() && !alone.is_empty() {
        let hint = context.faults.meant(&alone, marks.iter().map(|m| m.id.as_str()), "Marks");
        let says = format!("There is no mark {}.", quote(&alone));
        context.faults.add_unknown(&table.spot_of("alone"), says, hint);
    }
    let counts = table.need_text("counts", Limit::NAME, "counts = \"first\"");
    if !["first", "last", ""].contains(&counts.as_str()) {
        let hint = "Write \"first\" or \"last\": which numbers of their date the file holds.";
        context.faults.add(&table.spot_of("counts"), format!("{} cannot stand here.", quote(&counts)), hint);
    }
    let path = format!("numbers/{}", table.need_text("file", Limit::NAME, "file = \"us-patent.csv\""));
    if context.files.get(&path).is_none() {
        context.faults.add(&table.spot_of("file"), format!("There is no file {}.", quote(&path)), "");
    }
    let steps = steps(&path, counts == "last", context);
    files.push(path);
    let (days, numbers): (Vec<u16>, Vec<u32>) = steps
        .windows(2)
        .map(|w| (u16::try_from(w[1].day - w[0].day).unwrap_or(u16::MAX), w[1].number - w[0].number))
        .unzip();
    let found = Series {
        id: id.clone().unwrap_or_default(),
        name: table.need_text("name", Limit::NAME, "name = \"United States patent\""),
        done: table.need_text("done", Limit::NAME, "done = \"granted\""),
        alone: at.and_then(|a| u16::try_from(a).ok()).unwrap_or(0),
        writes: spellings(table, "words", is_spelling),
        dated: table.get("dated").and_then(|v| v.flag()).unwrap_or(false),
        weight: small(table, "weight", 4, 999),
        opens: small(table, "opens", 4, 999),
        slack: small(table, "slack", 0, 20),
        memory_slack: small(table, "memory_slack", 0, 20),
        terms: terms(table, context),
        fades: small(table, "fades", 0, 200),
        says: table.need_text("says", Limit::SENTENCES, "says = \"What it proves.\""),
        caution: table.text("caution", Limit::SENTENCES).unwrap_or_default(),
        basis: rests.basis,
        first_day: steps.first().map_or(0, |s| s.day),
        first_number: steps.first().map_or(1, |s| s.number),
        days,
        numbers,
        open: counts != "last",
        runs: runs(&steps),
    };
    table.done();
    id.filter(|_| !steps.is_empty()).map(|_| found)
}

/// The steps of a file, each later and higher than the one before. Last numbers become the first of the next year.
fn steps(path: &str, last: bool, context: &Context<'_>) -> Vec<Step> {
    let mut list: Vec<Step> = Vec::new();
    for row in rows(path, COLUMNS, context) {
        let rests = context.rests(row.get("basis"), row.get("source"), &row.spot, 1);
        let day = context.day(row.get("date"), &row.at("date"));
        let number = row.whole("number", 1, 99_999_998, context);
        let (Some(day), Some(number)) = (day, number) else { continue };
        let run = Run { steps: 1, basis: rests.basis, source: rests.source };
        let year = calendar::year_of(day);
        let before = list.last().map(|s| (s.day, s.number));
        if last && list.is_empty() {
            list.push(Step { day: calendar::new_year(year), number: 1, run: run.clone() });
        }
        let step = if last {
            // What is known of a year's last number bounds that year, so its run is that of the step before.
            if let Some(before) = list.last_mut() {
                before.run = run.clone();
            }
            Step { day: calendar::new_year(year + 1), number: number + 1, run }
        } else {
            Step { day, number, run }
        };
        if before.is_some_and(|(d, n)| step.day <= d || step.number <= n) {
            let hint = "Rows stand in order of date, and numbers rise with them.";
            context.faults.add(&row.spot, "The row does not come after the one above it.", hint);
            continue;
        }
        list.push(step);
    }
    list
}

/// Steps that rest on the same, as runs.
fn runs(steps: &[Step]) -> Vec<Run> {
    let mut list: Vec<Run> = Vec::new();
    for step in steps {
        match list.last_mut() {
            Some(run) if run.basis == step.run.basis && run.source == step.run.source => run.steps += 1,
            _ => list.push(step.run.clone()),
        }
    }
    list
}

/// `terms = [["1836-07-13", 14], ["1861-03-02", 17]]`.
fn terms(table: &Table<'_>, context: &Context<'_>) -> Vec<(Day, u16)> {
    let mut list: Vec<(Day, u16)> = Vec::new();
    for value in table.need("terms", EXAMPLE).map(|v| v.list()).unwrap_or_default() {
        let pair = value.list();
        let [day, years] = &pair[..] else {
            value.fault("A term is a date and a number of years.", format!("Write: {EXAMPLE}"));
            continue;
        };
        let day = day.text(Limit::NAME).and_then(|t| context.day(&t, &value.spot));
        let years = years.whole(0, 100).and_then(|n| u16::try_from(n).ok());
        let (Some(day), Some(years)) = (day, years) else { continue };
        if list.last().is_some_and(|(before, _)| *before >= day) {
            value.fault("The terms stand out of order.", "Write the earlier date first.");
        }
        list.push((day, years));
    }
    if list.is_empty() {
        context.faults.add(&table.spot_of("terms"), "There is no term.", format!("Write: {EXAMPLE}"));
    }
    list
}
