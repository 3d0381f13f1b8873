//! What must hold in the tables before anybody computes with them: counts, indices, sums, order. Texts are checked as they
//! are read.

use super::{Corner, Day, Diamond, Fits, Mark, Marks, Series, Size};
use crate::check::{count, must};
use crate::frame::Fault;
use alloc::string::String;

const MOST_SERIES: usize = 40;
const MOST_STEPS: usize = 4_000;
const MOST_MARKS: usize = 600;
const MOST_SPELLINGS: usize = 40;
const LONGEST_SPELLING: usize = 48;
const MOST_ROWS: usize = 400;
/// 1 January 1600 to 31 December 2299.
const LAST_DAY: Day = 255_669;

/// Checks the tables.
///
/// # Errors
/// A sentence about the first thing that does not hold.
pub fn check_marks(m: &Marks) -> Result<(), Fault> {
    count("sources", m.sources.len(), 0, MOST_ROWS)?;
    let cited = |source: Option<u16>| source.is_none_or(|s| usize::from(s) < m.sources.len());
    let r = &m.reading;
    must(
        r.misread < 1000 && r.misread_lost < 200 && (2..=1000).contains(&r.junk),
        "the chances of misreading",
    )?;
    must(r.no_issue_day < 1000 && r.met.is_sound(), "the chances of dates")?;
    must((-1000..=0).contains(&r.tempered) && cited(r.source), "how sources are joined")?;
    count("series", m.series.len(), 0, MOST_SERIES)?;
    for s in &m.series {
        series(s)?;
        must(usize::from(s.alone) < m.marks.len(), "the mark of a series")?;
        must(s.runs.iter().all(|r| cited(r.source)), "the source of a number")?;
    }
    must(m.series.iter().filter(|s| s.dated).count() <= 1, "the dated series")?;
    count("rules of issue days", m.issues.len(), 0, MOST_ROWS)?;
    for i in &m.issues {
        must(day(i.from) && i.to.is_none_or(|t| day(t) && t >= i.from) && cited(i.source), "an issue day")?;
        must(i.weekday.is_none_or(|w| w < 7), "a weekday")?;
    }
    count("marks", m.marks.len(), 1, MOST_MARKS)?;
    for k in &m.marks {
        mark(k)?;
        must(cited(k.source), "the source of a mark")?;
    }
    count("words", m.words.len(), 0, MOST_ROWS)?;
    for w in &m.words {
        spellings(&w.writes)?;
        must(w.which <= 12 && w.weight < 1000, "a word")?;
    }
    diamond(&m.diamond)?;
    must(
        cited(m.diamond.source) && m.diamond.instead.iter().all(|i| cited(i.source)),
        "the source of the diamond",
    )?;
    count("sizes", m.sizes.len(), 0, MOST_ROWS)?;
    for s in &m.sizes {
        size(s)?;
        must(cited(s.source), "the source of a size")?;
    }
    let i = &m.irons;
    let spreads = [i.length_spread, i.heft_spread].iter().all(|s| (1..=3000).contains(s));
    must((1..=20_000).contains(&i.length) && (1..=20_000).contains(&i.heft) && spreads, "irons of any sort")?;
    count("likenesses", m.alike.len(), 0, MOST_ROWS)?;
    let one = |t: &String| t.chars().count() == 1;
    must(
        m.alike.iter().all(|a| one(&a.one) && one(&a.other) && a.one != a.other && a.share <= 200),
        "a likeness",
    )
}

fn day(d: Day) -> bool {
    (0..=LAST_DAY).contains(&d)
}

/// Spellings are matched letter by letter: few and short.
fn spellings(all: &[String]) -> Result<(), Fault> {
    count("spellings", all.len(), 0, MOST_SPELLINGS)?;
    must(all.iter().all(|t| !t.trim().is_empty() && t.len() <= LONGEST_SPELLING), "a spelling")
}

fn series(s: &Series) -> Result<(), Fault> {
    spellings(&s.writes)?;
    count("steps of a series", s.days.len() + 1, 1, MOST_STEPS)?;
    must(s.days.len() == s.numbers.len() && s.weight < 1000 && s.opens < 1000, "the steps of a series")?;
    must(s.open || !s.days.is_empty(), "the end of a series")?;
    must(s.slack <= 20 && s.memory_slack <= 20 && s.fades <= 200, "the slack of a series")?;
    must(day(s.first_day), "the days of a series")?;
    let rising = s.days.iter().all(|d| *d > 0) && s.numbers.iter().all(|n| *n > 0);
    let last = s.days.iter().map(|d| Day::from(*d)).sum::<Day>() + s.first_day;
    let most = s.numbers.iter().try_fold(s.first_number, |sum, n| sum.checked_add(*n));
    must(rising && day(last), "the days of a series")?;
    must(s.first_number > 0 && most.is_some_and(|m| m < 100_000_000), "the numbers of a series")?;
    let covered: usize = s.runs.iter().map(|r| usize::from(r.steps)).sum();
    must(covered == s.days.len() + 1, "what a series rests on")?;
    must(!s.terms.is_empty() && s.terms.len() <= 20, "the terms of a series")?;
    must(s.terms.iter().all(|(d, years)| day(*d) && *years <= 100), "the terms of a series")?;
    must(s.terms.windows(2).all(|w| w[0].0 < w[1].0), "the terms of a series")
}

fn mark(k: &Mark) -> Result<(), Fault> {
    spellings(&k.writes)?;
    spellings(&k.shapes)?;
    let (from, to) = (k.legal_from, k.legal_to);
    must([from, to].into_iter().flatten().all(day) && k.weight < 1000 && k.fades <= 200, "a mark")?;
    must(from.zip(to).is_none_or(|(a, b)| a <= b), "the bounds of a mark")?;
    let sound = |y: i16| (1600..=2299).contains(&y);
    must([k.habit_from, k.habit_to].into_iter().flatten().all(sound), "the habit of a mark")?;
    must(k.habit_from.zip(k.habit_to).is_none_or(|(a, b)| a <= b), "the habit of a mark")?;
    must((!k.hard_from || from.is_some()) && (!k.hard_to || to.is_some()), "a hard bound of a mark")
}

fn diamond(d: &Diamond) -> Result<(), Fault> {
    let letters = |t: &str| t.bytes().all(|b| b.is_ascii_uppercase());
    must(day(d.from) && day(d.to) && d.from <= d.to && d.to - d.from < 40_000, "the days of the diamond")?;
    must(d.fades <= 200 && d.term <= 100, "the term of the diamond")?;
    count("layouts", d.layouts.len(), 0, 8)?;
    for l in &d.layouts {
        let all = [Corner::Year, Corner::Month, Corner::Day, Corner::Parcel];
        let each = all.iter().all(|c| l.corners.contains(c)) && l.corners.len() == 4;
        must(day(l.from) && day(l.to) && l.from <= l.to && each, "a layout of the diamond")?;
    }
    count("letters of years", d.years.len(), 0, 8)?;
    must(d.years.iter().all(|y| letters(&y.letters) && y.letters.len() <= 60), "the letters of years")?;
    must(d.years.iter().all(|y| (1600..=2200).contains(&y.from)), "the letters of years")?;
    must(letters(&d.months) && d.months.len() == 12, "the letters of months")?;
    count("exceptions of the diamond", d.instead.len(), 0, 40)?;
    for i in &d.instead {
        let year =
            i.year.as_ref().is_none_or(|(l, y)| letters(l) && l.len() == 1 && (1600..=2200).contains(y));
        let month = i.month.as_ref().is_none_or(|(l, m)| letters(l) && l.len() == 1 && (1..=12).contains(m));
        must(day(i.from) && day(i.to) && i.from <= i.to && i.share <= 1000 && year && month, "an exception")?;
    }
    count("classes", d.classes.len(), 0, 40)?;
    must(d.classes.iter().all(|(n, _)| letters(n) && (1..=8).contains(&n.len())), "a class of the diamond")
}

fn size(s: &Size) -> Result<(), Fault> {
    must(s.from <= s.to && s.to < 100_000_000 && s.weight < 1000, "a size")?;
    must(
        s.per < 1_000_000 && s.plus.unsigned_abs() < 100_000 && s.spread < 100_000,
        "the measure of a size",
    )?;
    let held = match s.fits {
        Fits::Free => true,
        Fits::Mass | Fits::Length => s.per > 0 && s.spread > 0,
    };
    must(held, "the measure of a size")
}
