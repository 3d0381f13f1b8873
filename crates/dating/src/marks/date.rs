//! Worn digits beside a month as a date: which days it may be, and on which of them patents were granted.

use super::evidence::{Evidence, Span};
use super::glyph::Glyph;
use super::reading::{Flag, Issue, Kind, LEAST_MISREAD, LEAST_TOLD, Reading};
use super::tables::{Issue as Granted, Tables};
use crate::calendar::{self, Day, MONTHS};
use crate::curve::FIRST_YEAR;
use pack::marks::Proof;
use units::{Basis, Year};

/// A lost character at the end of a day or year that was no digit. Basis: memory.
const NO_DIGIT: f64 = 0.25;
/// The most days that are gone through one by one; beyond it years are told, not days.
const MOST_DAYS: usize = 3_000;
/// The most days that are told as such.
const MOST_SINGLE: usize = 200;

/// What a date is made of: what may stand for the day, the month and the year, and how likely this make-up is.
pub(crate) struct Parts<'a> {
    pub(crate) day: Vec<&'a Glyph>,
    /// From 1, with chances.
    pub(crate) months: Vec<(u8, f64)>,
    pub(crate) year: Vec<&'a Glyph>,
    pub(crate) weight: f64,
}

/// By day of the month from 0, the weight; 0 is never one.
fn days(tables: &Tables, glyphs: &[&Glyph]) -> [f64; 32] {
    let mut all = [0.0; 32];
    each_way(
        glyphs,
        &mut |way, weight| {
            let digits: Vec<[f64; 10]> = way.iter().map(|g| tables.alike.digits(g)).collect();
            for day in 1_usize..=31 {
                let p = match digits.as_slice() {
                    [ones] if day < 10 => ones[day],
                    [tens, ones] => tens[day / 10] * ones[day % 10] * if day < 10 { 0.3 } else { 1.0 },
                    _ => 0.0,
                };
                all[day] += weight * p;
            }
        },
        2,
    );
    all
}

/// By year from [`FIRST_YEAR`], the weight of what is told.
fn years(tables: &Tables, glyphs: &[&Glyph]) -> Vec<f64> {
    let last = tables.this_year;
    let mut all = vec![0.0; (last - FIRST_YEAR + 1) as usize];
    each_way(
        glyphs,
        &mut |way, weight| {
            let digits: Vec<[f64; 10]> = way.iter().map(|g| tables.alike.digits(g)).collect();
            for year in FIRST_YEAR..=last {
                let of = |unit: Year| (year / unit % 10) as usize;
                let p = match digits.as_slice() {
                    // Two digits name a year of any century; which one is for the usual years to say.
                    [tens, ones] => 0.5 * tens[of(10)] * ones[of(1)],
                    [a, b, c, d] => a[of(1000)] * b[of(100)] * c[of(10)] * d[of(1)],
                    _ => 0.0,
                };
                all[(year - FIRST_YEAR) as usize] += weight * p;
            }
        },
        4,
    );
    all
}

/// The ways in which glyphs may be digits: as they stand, without a lost one at an end, and with `*` as up to `most`.
fn each_way(glyphs: &[&Glyph], take: &mut dyn FnMut(&[&Glyph], f64), most: usize) {
    let stars = glyphs.iter().filter(|g| g.many).count();
    if stars > 0 {
        let lost = Glyph { one_of: Vec::new(), many: false, gap: String::new(), at: (0, 0) };
        let known = glyphs.len() - stars;
        for length in known..=most {
            let mut free = length - known;
            let mut way: Vec<&Glyph> = Vec::new();
            for g in glyphs {
                if g.many {
                    way.extend(core::iter::repeat_n(&lost, free));
                    free = 0;
                } else {
                    way.push(g);
                }
            }
            take(&way, 0.5);
        }
        return;
    }
    take(glyphs, 1.0);
    if glyphs.len() > 1 {
        if glyphs.first().is_some_and(|g| g.lost()) {
            take(&glyphs[1..], NO_DIGIT);
        }
        if glyphs.last().is_some_and(|g| g.lost()) {
            take(&glyphs[..glyphs.len() - 1], NO_DIGIT);
        }
    }
}

/// Whether glyphs can be a year at all: two or four digits, give or take what is lost.
pub(crate) fn can_be_year(tables: &Tables, glyphs: &[&Glyph]) -> bool {
    let stars = glyphs.iter().any(|g| g.many);
    (stars || (2..=5).contains(&glyphs.len())) && years(tables, glyphs).iter().any(|w| *w > 0.0)
}

/// A date and its weight.
struct Found {
    day: Option<Day>,
    year: Year,
    month: Option<u8>,
    weight: f64,
    told: bool,
    granted: Granted,
}

/// All readings of a date. `patent`: the text speaks of a patent.
pub(crate) fn readings(tables: &Tables, parts: &[Parts<'_>], patent: bool) -> Vec<Reading> {
    let mut found: Vec<Found> = Vec::new();
    // Of a patent's date few are no day of issue; of any date one in seven is a Tuesday.
    let odd = f64::from(tables.marks.reading.no_issue_day) / 1000.0;
    let odd = if patent { odd } else { 0.4 };
    for part in parts {
        let years = years(tables, &part.year);
        let days = if part.day.is_empty() { None } else { Some(days(tables, &part.day)) };
        let sum: f64 = years.iter().sum();
        if sum <= 0.0 {
            continue;
        }
        let told = |w: f64, glyphs: usize| w > 0.5 * NO_DIGIT * if glyphs == 2 { 0.3 } else { 1.0 };
        let likely: Vec<(Year, f64)> =
            (FIRST_YEAR..).zip(&years).filter(|(_, w)| **w > 0.0).map(|(y, w)| (y, *w)).collect();
        let count = days.map_or(1, |d| d.iter().filter(|w| **w > 0.0).count());
        let by_day = days.filter(|_| likely.len() * part.months.len() * count <= MOST_DAYS);
        let order = units::order(part.months.len(), &|a, b| part.months[a].0.cmp(&part.months[b].0));
        let months = units::arranged(part.months.clone(), &order);
        for (year, year_weight) in &likely {
            let met = tables.met(*year);
            for (month, month_chance) in &months {
                let weight = part.weight * year_weight * month_chance * met;
                let year_told = told(*year_weight, part.year.len());
                let Some(days) = by_day else {
                    let month = (part.months.len() == 1 && *month > 0).then_some(*month);
                    // Before the first rule no patent of the series was granted at all.
                    let last = calendar::new_year(year + 1) - 1;
                    let granted = if tables.marks.issues.iter().any(|i| i.from <= last) {
                        Granted::Yes
                    } else {
                        Granted::No
                    };
                    let weight = if granted == Granted::No { weight * odd } else { weight };
                    found.push(Found { day: None, year: *year, month, weight, told: year_told, granted });
                    continue;
                };
                for (d, day_weight) in (0_u8..).zip(&days).filter(|(_, w)| **w > 0.0) {
                    let Some(day) = calendar::day(*year, *month, d) else { continue };
                    let granted = tables.issue(day);
                    // In a year there are about 52 days of issue, and 313 others.
                    let share = match granted {
                        Granted::Yes if every_day(tables, day) => 1.0 / 313.0,
                        Granted::Yes => (1.0 - odd) / 52.0,
                        Granted::Perhaps => (1.0 - odd) / 104.0,
                        Granted::No => odd / 313.0,
                    };
                    found.push(Found {
                        day: Some(day),
                        year: *year,
                        month: Some(*month),
                        weight: weight * day_weight * share,
                        told: year_told && told(*day_weight, part.day.len()) && *month_chance > 0.02,
                        granted,
                    });
                }
            }
        }
    }
    let mut found = merged(found);
    let total: f64 = found.iter().map(|f| f.weight).sum();
    found.retain(|f| f.weight > total * if f.told { LEAST_TOLD } else { LEAST_MISREAD });
    if found.len() > MOST_SINGLE {
        // So much is lost that a list of days would tell nobody anything: years are told.
        found = merged(found.into_iter().map(|f| Found { day: None, month: None, ..f }).collect());
    }
    found.iter().map(|f| reading(tables, f, patent)).collect()
}

/// Before the rule of one weekday patents were granted on any.
fn every_day(tables: &Tables, day: Day) -> bool {
    let rules = tables.marks.issues.iter();
    let rule = rules.filter(|i| i.from <= day && i.to.is_none_or(|to| day <= to));
    rule.filter(|i| i.kind == pack::marks::IssueKind::Rule).any(|i| i.weekday.is_none())
}

/// In order, and each date once.
fn merged(all: Vec<Found>) -> Vec<Found> {
    let key = |f: &Found| (f.year, f.month, f.day);
    let all = if all.is_sorted_by_key(key) {
        all
    } else {
        let order = units::order(all.len(), &|a, b| key(&all[a]).cmp(&key(&all[b])));
        units::arranged(all, &order)
    };
    let mut list: Vec<Found> = Vec::new();
    for found in all {
        match list.last_mut().filter(|last| key(last) == key(&found)) {
            Some(old) => {
                old.weight += found.weight;
                old.told |= found.told;
                if found.granted == Granted::Yes {
                    old.granted = Granted::Yes;
                }
            }
            None => list.push(found),
        }
    }
    list
}

fn reading(tables: &Tables, f: &Found, patent: bool) -> Reading {
    let dated = tables.dated();
    let reads = match (f.day, f.month) {
        (Some(day), _) => calendar::day_in_words(day),
        (None, Some(month)) => format!("{} {}", MONTHS[usize::from(month) - 1], f.year),
        (None, None) => f.year.to_string(),
    };
    let month_end = |m: u8| calendar::day(f.year, m, calendar::month_length(f.year, m));
    let from = f
        .day
        .or(f.month.and_then(|m| calendar::day(f.year, m, 1)))
        .unwrap_or_else(|| calendar::new_year(f.year));
    let to = f.day.or(f.month.and_then(month_end)).unwrap_or_else(|| calendar::new_year(f.year + 1) - 1);
    let is_patent = dated.filter(|_| f.granted != Granted::No);
    let (span, name, says, caution, basis, habit_basis, source) = match is_patent {
        Some(series) => {
            let s = &tables.marks.series[series];
            let term = Year::try_from(tables.term(series, from)).unwrap_or(0);
            let span = Span {
                hard_from: Some(f.year),
                from: Some(f.year),
                to: Some(f.year.saturating_add(term)),
                hard_to: None,
                fades: s.fades,
            };
            let rule = tables.marks.issues.iter().find(|i| i.from <= from && i.to.is_none_or(|t| from <= t));
            let rests = rule.map_or((Basis::Memory, None), |r| (r.basis, r.source));
            (span, s.name.clone(), s.says.clone(), s.caution.clone(), rests.0, s.basis, rests.1)
        }
        None => {
            let weekday = calendar::WEEKDAYS[calendar::weekday(from)];
            let says = if patent {
                format!("No patent was issued on that day, a {weekday}: misread, a foreign patent, or false.")
            } else {
                format!("A {weekday}, so no date of an American patent: of something else, or misread.")
            };
            let span = Span { from: Some(f.year), ..Span::OPEN };
            (span, String::from("A date"), says, String::new(), Basis::Memory, Basis::Memory, None)
        }
    };
    let mut flags = Vec::new();
    match f.granted {
        Granted::No => flags.push(Flag::NoIssue),
        Granted::Perhaps => flags.push(Flag::MissedWeeks),
        Granted::Yes => {}
    }
    let issue =
        Issue { share: 1.0, from, to, fit: u64::from(f.told), example: 0, basis, drawn: false, source, span };
    let mut reading = Reading {
        chance: f.weight,
        kind: is_patent.map_or(Kind::Date, Kind::Dated),
        reads,
        name,
        as_told: f.told,
        issues: vec![issue],
        evidence: Evidence { spans: Vec::new(), proof: Proof::Habit },
        says,
        caution,
        basis,
        habit_basis,
        source,
        flags,
    };
    reading.settle();
    reading
}
