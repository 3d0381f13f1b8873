//! The British diamond mark, described corner by corner: `diamond class I top E left E right 31 bottom 2`, or clockwise
//! from the circle, `diamond I E 31 2 E`.

use super::evidence::{Evidence, Span};
use super::glyph::Glyph;

use super::phrase::Target;
use super::reading::{Flag, Issue, Kind, Reading};
use super::tables::Tables;
use crate::calendar::{self, Day, MONTHS};
use pack::marks::{Corner, Instead, Layout, Proof, Role};
use units::Year;

/// A lost character of a day that was no digit. Basis: memory.
const NO_DIGIT: f64 = 0.25;

/// What stands where, as glyphs; empty where nothing was told.
#[derive(Debug, Default)]
pub(crate) struct Described<'a> {
    class: Vec<&'a Glyph>,
    /// Clockwise from the top.
    corners: [Vec<&'a Glyph>; 4],
    /// The glyph behind the last one that belongs to it.
    pub(crate) to: usize,
}

/// Finds the word for the mark: where it begins and what is described behind it.
pub(crate) fn find<'a>(tables: &Tables, glyphs: &'a [Glyph]) -> Option<(usize, Described<'a>)> {
    let runs = runs(glyphs);
    let at = runs.iter().position(|r| role(tables, glyphs, *r) == Some(Role::Diamond))?;
    let mut described = Described { to: runs[at].1, ..Described::default() };
    let mut place: Option<usize> = None;
    let mut named = false;
    let mut next = 0;
    for run in &runs[at + 1..] {
        // A semicolon or a new line of words ends the description.
        if glyphs[run.0].gap.contains(';') {
            break;
        }
        let value: Vec<&Glyph> = glyphs[run.0..run.1].iter().collect();
        let corner = match role(tables, glyphs, *run) {
            Some(Role::Class) => Some(0),
            Some(Role::Top) => Some(1),
            Some(Role::Right) => Some(2),
            Some(Role::Bottom) => Some(3),
            Some(Role::Left) => Some(4),
            _ => None,
        };
        if let Some(corner) = corner {
            (place, named) = (Some(corner), true);
            described.to = run.1;
            continue;
        }
        let here = if named { place.take() } else { (next < 5).then_some(next) };
        let fits = value.len() <= if here == Some(0) { 5 } else { 3 };
        let (Some(here), true) = (here, fits) else { break };
        next += 1;
        match here {
            0 => described.class = value,
            n => described.corners[n - 1] = value,
        }
        described.to = run.1;
    }
    Some((runs[at].0, described))
}

/// Runs of glyphs without a gap.
fn runs(glyphs: &[Glyph]) -> Vec<(usize, usize)> {
    let mut list: Vec<(usize, usize)> = Vec::new();
    for (i, glyph) in glyphs.iter().enumerate() {
        match list.last_mut() {
            Some(last) if !glyph.apart() => last.1 = i + 1,
            _ => list.push((i, i + 1)),
        }
    }
    list
}

/// What a whole run is as a word of the notation.
fn role(tables: &Tables, glyphs: &[Glyph], run: (usize, usize)) -> Option<Role> {
    let wanted = [Role::Diamond, Role::Class, Role::Top, Role::Right, Role::Bottom, Role::Left];
    let told = glyphs[run.0..run.1].iter().filter(|g| !g.one_of.is_empty()).count();
    if run.1 - run.0 < 3 || told * 2 < run.1 - run.0 {
        return None;
    }
    let mut out = Vec::new();
    for phrase in &tables.phrases {
        let Target::Word(w) = phrase.target else { continue };
        let role = tables.marks.words[w].role;
        if wanted.contains(&role) {
            out.clear();
            phrase.find(&glyphs[..run.1], run.0, &tables.alike, tables.junk, &mut out);
            if out.iter().any(|f| f.to == run.1 && f.gain > 0.0) {
                return Some(role);
            }
        }
    }
    None
}

/// A month of a year that the mark may be of.
struct Month {
    year: Year,
    month: u8,
    /// By day, the weight, and whether all holds as told.
    days: Vec<(Day, f64, bool)>,
    exception: Option<usize>,
}

/// All readings of a described mark, by month; with the day where it is certain.
pub(crate) fn readings(tables: &Tables, described: &Described<'_>) -> Vec<Reading> {
    let d = &tables.marks.diamond;
    let mut months: Vec<Month> = Vec::new();
    for year in calendar::year_of(d.from)..=calendar::year_of(d.to) {
        for month in 1..=12 {
            for exception in core::iter::once(None).chain((0..d.instead.len()).map(Some)) {
                if let Some(found) = of_month(tables, described, year, month, exception) {
                    months.push(found);
                }
            }
        }
    }
    let class = class(tables, described);
    // Where nothing is left of the month, a year is all that can be told.
    let layout = |year: Year| {
        let first = calendar::new_year(year);
        d.layouts.iter().find(|l| l.from <= first + 364 && first <= l.to)
    };
    let lost = |year: Year| {
        let at = layout(year).and_then(|l| l.corners.iter().position(|c| *c == Corner::Month));
        at.is_none_or(|at| described.corners[at].iter().all(|g| g.one_of.is_empty()))
    };
    let mut list: Vec<Reading> = Vec::new();
    let mut at = 0;
    while at < months.len() {
        let year = months[at].year;
        let end = (at..months.len()).find(|i| months[*i].year != year).unwrap_or(months.len());
        if lost(year) {
            list.push(reading(tables, &months[at..end], class));
        } else {
            list.extend((at..end).map(|i| reading(tables, &months[i..=i], class)));
        }
        at = end;
    }
    list
}

/// The weight of each day of a month, when the letters of the month fit.
fn of_month(
    tables: &Tables,
    described: &Described<'_>,
    year: Year,
    month: u8,
    exception: Option<usize>,
) -> Option<Month> {
    let d = &tables.marks.diamond;
    let instead = exception.map(|e| &d.instead[e]);
    // An exception is of its month and year only.
    if instead.is_some_and(|i| !of(i, year, month)) {
        return None;
    }
    let first = calendar::day(year, month, 1)?;
    let layout = d.layouts.iter().find(|l| l.from <= first + 30 && first <= l.to)?;
    let usual_year = d.years.iter().rev().find(|y| y.from <= year);
    let usual_year = usual_year.and_then(|y| y.letters.chars().nth((year - y.from) as usize));
    let year_letter =
        instead.and_then(|i| i.year.as_ref()).and_then(|(l, _)| l.chars().next()).or(usual_year)?;
    let usual_month = d.months.chars().nth(usize::from(month) - 1);
    let month_letter =
        instead.and_then(|i| i.month.as_ref()).and_then(|(l, _)| l.chars().next()).or(usual_month)?;
    let corner = |c: Corner| -> &[&Glyph] {
        let at = layout.corners.iter().position(|k| *k == c);
        at.map_or(&[], |at| &described.corners[at])
    };
    let letters = letter(tables, corner(Corner::Year), year_letter)
        * letter(tables, corner(Corner::Month), month_letter)
        * parcel(tables, corner(Corner::Parcel));
    if letters <= 0.0 {
        return None;
    }
    let letters_told =
        is_told(corner(Corner::Year), year_letter) && is_told(corner(Corner::Month), month_letter);
    let share = |day: Day| share(&d.instead, exception, year, month, day);
    let each = 1.0 / f64::from(365);
    let mut days = Vec::new();
    for date in 1..=calendar::month_length(year, month) {
        let Some(day) = calendar::day(year, month, date) else { continue };
        let weight =
            letters * day_weight(tables, corner(Corner::Day), date) * share(day) * tables.met(year) * each;
        if weight > 0.0 && within(layout, day) && d.from <= day && day <= d.to {
            days.push((day, weight, letters_told && day_told(corner(Corner::Day), date)));
        }
    }
    (!days.is_empty()).then_some(Month { year, month, days, exception })
}

fn within(layout: &Layout, day: Day) -> bool {
    layout.from <= day && day <= layout.to
}

/// Whether an exception changes the letters of a month of a year.
fn of(i: &Instead, year: Year, month: u8) -> bool {
    i.year.as_ref().is_none_or(|(_, y)| *y == year)
        && i.month.as_ref().is_none_or(|(_, m)| *m == month)
        && calendar::year_of(i.from) <= year
        && year <= calendar::year_of(i.to)
}

/// Of the marks of a day, those with the letters of this exception, or with the usual ones.
fn share(all: &[Instead], exception: Option<usize>, year: Year, month: u8, day: Day) -> f64 {
    let on = |i: &Instead| i.from <= day && day <= i.to && of(i, year, month);
    match exception {
        Some(e) => {
            if on(&all[e]) {
                f64::from(all[e].share) / 1000.0
            } else {
                0.0
            }
        }
        None => {
            let taken: f64 = all.iter().filter(|i| on(i)).map(|i| f64::from(i.share) / 1000.0).sum();
            (1.0 - taken).max(0.02)
        }
    }
}

/// The weight of a letter in a corner; a corner that was not told says nothing, but costs a little.
fn letter(tables: &Tables, corner: &[&Glyph], letter: char) -> f64 {
    match corner {
        [] => 1.0,
        [one] if one.many => 1.0,
        [one] => tables.alike.p(letter, one),
        // Two characters where one belongs: one of them may be a lost flourish.
        [a, b] if a.lost() => 0.1 * tables.alike.p(letter, b),
        [a, b] if b.lost() => 0.1 * tables.alike.p(letter, a),
        _ => 0.0,
    }
}

/// A letter that is told, or lost.
fn is_told(corner: &[&Glyph], letter: char) -> bool {
    corner.iter().all(|g| g.one_of.is_empty() || g.one_of.contains(&letter))
}

/// A day whose digits are told, or lost.
fn day_told(corner: &[&Glyph], date: u8) -> bool {
    let digits = [b'0' + date / 10, b'0' + date % 10].map(char::from);
    let last = digits.iter().rev();
    // From the last digit: what is told must be there.
    corner
        .iter()
        .rev()
        .zip(last.chain(core::iter::repeat(&'0')))
        .all(|(g, c)| g.one_of.is_empty() || g.one_of.contains(c))
}

/// A parcel is a number, of one or two digits as a rule; it dates nothing.
fn parcel(tables: &Tables, corner: &[&Glyph]) -> f64 {
    let one = |g: &&Glyph| if g.many { 1.0 } else { tables.alike.digits(g).iter().sum::<f64>() / 10.0 };
    if corner.is_empty() { 1.0 } else { corner.iter().map(one).product::<f64>() }
}

fn day_weight(tables: &Tables, corner: &[&Glyph], date: u8) -> f64 {
    let ten = usize::from(date / 10);
    let one = usize::from(date % 10);
    let p = |g: &Glyph, d: usize| if g.many { 1.0 } else { tables.alike.digits(g)[d] };
    match corner {
        [] => 1.0,
        [a] if a.many => 1.0,
        [a] if ten == 0 => p(a, one),
        [a, b] if ten == 0 => {
            let front = if a.lost() || a.many { NO_DIGIT * p(b, one) } else { 0.3 * p(a, 0) * p(b, one) };
            front.max(if b.lost() || b.many { NO_DIGIT * p(a, one) } else { 0.0 })
        }
        [a, b] => p(a, ten) * p(b, one),
        [a, b, c] if a.lost() && ten > 0 => NO_DIGIT * p(b, ten) * p(c, one),
        [a, b, c] if c.lost() && ten > 0 => NO_DIGIT * p(a, ten) * p(b, one),
        _ => 0.0,
    }
}

/// The class that the circle most likely shows.
fn class(tables: &Tables, described: &Described<'_>) -> Option<usize> {
    if described.class.is_empty() {
        return None;
    }
    let weight = |numeral: &str| -> f64 {
        if numeral.len() != described.class.len() {
            return 0.0;
        }
        numeral.chars().zip(&described.class).map(|(c, g)| tables.alike.p(c, g)).product()
    };
    let weights: Vec<f64> = tables.marks.diamond.classes.iter().map(|(n, _)| weight(n)).collect();
    units::descending(&weights).first().copied().filter(|c| weights[*c] > 0.0)
}

/// One month, or all months of a year.
fn reading(tables: &Tables, months: &[Month], class: Option<usize>) -> Reading {
    let d = &tables.marks.diamond;
    let term = Year::try_from(d.term).unwrap_or(0);
    let mut total = 0.0;
    let mut reads = String::new();
    let mut issues: Vec<Issue> = Vec::new();
    for m in months {
        let weight: f64 = m.days.iter().map(|(_, w, _)| w).sum();
        let most =
            m.days.iter().fold((0, 0.0), |best, (day, w, _)| if *w > best.1 { (*day, *w) } else { best });
        let told = m.days.iter().any(|(_, _, told)| *told);
        let surely = most.1 > 0.8 * weight;
        let (from, to) = if surely { (most.0, most.0) } else { (m.days[0].0, m.days[m.days.len() - 1].0) };
        reads = match (months.len() > 1, surely) {
            (true, _) => m.year.to_string(),
            (false, true) => calendar::day_in_words(most.0),
            (false, false) => format!("{} {}", MONTHS[usize::from(m.month) - 1], m.year),
        };
        let span = Span {
            hard_from: Some(m.year),
            from: Some(m.year),
            to: Some(m.year.saturating_add(term)),
            hard_to: None,
            fades: d.fades,
        };
        let rests = m.exception.map_or((d.basis, d.source), |e| (d.instead[e].basis, d.instead[e].source));
        total += weight;
        issues.push(Issue {
            share: weight,
            from,
            to,
            fit: u64::from(told),
            example: 0,
            basis: rests.0,
            drawn: false,
            source: rests.1,
            span,
        });
    }
    let exception = months.first().filter(|_| months.len() == 1).and_then(|m| m.exception);
    let (basis, source) =
        exception.map_or((d.basis, d.source), |e| (d.instead[e].basis, d.instead[e].source));
    let mut flags: Vec<Flag> = exception.map(Flag::Exception).into_iter().collect();
    // The first class is metal; a metal iron of another class is odd.
    flags.extend(class.filter(|c| *c > 0).map(Flag::Class));
    let mut reading = Reading {
        chance: total,
        kind: Kind::Diamond,
        reads,
        name: d.name.clone(),
        as_told: issues.iter().any(|i| i.fit > 0),
        issues,
        evidence: Evidence { spans: Vec::new(), proof: Proof::Habit },
        says: d.says.clone(),
        caution: d.caution.clone(),
        basis,
        habit_basis: d.bounds_basis,
        source,
        flags,
    };
    reading.settle();
    reading
}
