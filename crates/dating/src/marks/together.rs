//! Marks of one piece together: what belongs to one patent is one source, sources of like sort are tempered, hard bounds
//! are not, and what cannot both be right is said.

use super::reading::{Flag, Kind, Mark, Reading};
use super::tables::Tables;
use crate::calendar::Day;
use crate::curve::{Curve, FIRST_YEAR};
use pack::marks::Proof;
use units::Year;

/// Two sources contradict each other when no more than this is left of the narrower one. Basis: practice.
pub const CLASH: f64 = 1e-3;
/// A mark that is none of its readings with more than this chance is too weak to be tempered with others. It must stay
/// under 20^(2^-0.7 - 1) = 0.32: then no mark can raise the odds of a year outside its hard bounds by tempering others.
const WEAK: f64 = 0.301;
/// The chance that a number and a date on one piece are of one patent, before they are compared. Basis: memory.
const ONE_PATENT: f64 = 0.5;
/// Tables may be a week out at the ends of their steps: how far, and how likely. Basis: memory.
const SLOP: Day = 7;
const SLOPPY: f64 = 0.1;
/// The share of later castings with lettering of their own instead of their pattern's. Basis: memory.
const OWN_LETTERING: f64 = 0.3;

/// What the marks of a piece say together.
#[derive(Debug, Clone, PartialEq)]
pub struct Together {
    /// Indices of the marks of each source.
    pub sources: Vec<Vec<usize>>,
    /// By year from [`FIRST_YEAR`]: the likelihood for a piece of its time.
    pub period: Vec<f64>,
    /// The same for later makes.
    pub later: Vec<f64>,
    /// How usual the marks were in each year, for lettering of the year itself.
    pub usual: Vec<f64>,
    /// Pairs that cannot both be right.
    pub clashes: Vec<Clash>,
}

/// Two marks that cannot both be right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clash {
    /// Indices of the two.
    pub marks: (usize, usize),
    /// How much is left of the narrower one when both hold.
    pub left: f64,
}

/// What marks do to a kind whose years are known.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// The factor for the odds of a period piece.
    pub period: f64,
    /// The factor for later makes. An old date gives both the same.
    pub later: f64,
    /// Years of a period piece.
    pub period_years: Curve,
    /// Years of a later make.
    pub later_years: Curve,
    /// The marks and the years of a period piece cannot both be right.
    pub clash: bool,
}

/// Lets number and date of one patent speak to each other, and marks the two as one source.
pub(crate) fn pair(tables: &Tables, marks: &mut [Mark]) {
    let Some(dated) = tables.dated() else { return };
    let of = |marks: &[Mark], number: bool| -> Vec<usize> {
        let fits = |r: &Reading| match r.kind {
            Kind::Number(s) => number && s == dated,
            Kind::Dated(s) => !number && s == dated,
            _ => false,
        };
        let chance = |m: &Mark| m.readings.iter().filter(|r| fits(r)).map(|r| r.chance).sum::<f64>();
        (0..marks.len()).filter(|i| chance(&marks[*i]) > 1e-4).collect()
    };
    let (numbers, dates) = (of(marks, true), of(marks, false));
    let prior = ONE_PATENT / numbers.len().max(dates.len()).max(1) as f64;
    let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
    for n in &numbers {
        for d in dates.iter().filter(|d| *d != n) {
            let odds = prior * Bearing::of(tables, dated, &marks[*n], &marks[*d]).sum / (1.0 - prior);
            let one = odds / (1.0 + odds);
            if one > 0.01 {
                pairs.push((one, *n, *d));
            }
        }
    }
    // The best pair first; each mark is of one pair at most.
    let order = units::order(pairs.len(), &|a, b| pairs[b].0.total_cmp(&pairs[a].0));
    let mut paired = vec![false; marks.len()];
    for (one, n, d) in order.into_iter().map(|i| pairs[i]) {
        if !paired[n] && !paired[d] {
            let bearing = Bearing::of(tables, dated, &marks[n], &marks[d]);
            bearing.shift(marks, dated, n, d, one);
            (paired[n], paired[d]) = (true, true);
        }
    }
}

/// How well each issue of a number goes with each reading of a date.
struct Bearing {
    /// Sum over all pairs of their chances times how much likelier the date is, given the number.
    sum: f64,
    /// The part of it in which no character need be misread.
    told: f64,
    /// By reading and issue of the number.
    numbers: Vec<Vec<f64>>,
    /// By reading of the date.
    dates: Vec<f64>,
}

impl Bearing {
    fn of(tables: &Tables, dated: usize, number: &Mark, date: &Mark) -> Bearing {
        let mut b =
            Bearing { sum: 0.0, told: 0.0, numbers: Vec::new(), dates: vec![0.0; date.readings.len()] };
        for r in &number.readings {
            let mut row = vec![0.0; r.issues.len()];
            if r.kind == Kind::Number(dated) {
                for (into, issue) in row.iter_mut().zip(&r.issues) {
                    for (j, q) in
                        date.readings.iter().enumerate().filter(|(_, q)| q.kind == Kind::Dated(dated))
                    {
                        let Some(day) = q.issues.first() else { continue };
                        let inside = issue.from <= day.to && day.from <= issue.to;
                        let near = issue.from - SLOP <= day.to && day.from <= issue.to + SLOP;
                        if !near {
                            continue;
                        }
                        // One day of issue a week: the date, given the number, against the date by itself.
                        let weeks = |from: Day, to: Day| f64::from(to - from) / 7.0 + 1.0;
                        let given = (weeks(day.from, day.to) / weeks(issue.from, issue.to)).min(1.0);
                        let year = crate::calendar::year_of(day.from);
                        let alone = tables.met(year) * (weeks(day.from, day.to) / 53.0).min(1.0);
                        let ratio = given / alone.max(1e-9) * if inside { 1.0 } else { SLOPPY };
                        *into += q.chance * ratio;
                        b.dates[j] += r.chance * issue.share * ratio;
                        let both = r.chance * issue.share * q.chance * ratio;
                        b.sum += both;
                        b.told += if issue.fit > 0 && q.as_told { both } else { 0.0 };
                    }
                }
            }
            b.numbers.push(row);
        }
        b
    }

    /// New chances for both marks; `one` is the chance that they are of one patent.
    fn shift(&self, marks: &mut [Mark], dated: usize, n: usize, d: usize, one: f64) {
        let apart = 1.0 - one;
        // What was told bears itself out, not what a misread character would make of it.
        let borne_out = one > 0.5 && self.told > 0.5 * self.sum;
        let factor = |bears: f64| apart + one * bears / self.sum.max(1e-300);
        for (r, row) in marks[n].readings.iter_mut().zip(&self.numbers) {
            if r.kind == Kind::Number(dated) {
                let mut sum = 0.0;
                for (issue, bears) in r.issues.iter_mut().zip(row) {
                    issue.share *= factor(*bears);
                    sum += issue.share;
                }
                r.chance *= sum;
                r.issues.retain(|i| i.share > sum * 1e-5);
                r.settle();
            } else {
                r.chance *= apart;
            }
        }
        for (q, bears) in marks[d].readings.iter_mut().zip(&self.dates) {
            q.chance *= factor(if q.kind == Kind::Dated(dated) { *bears } else { 0.0 });
        }
        for mark in [n, d] {
            marks[mark].misread *= apart;
            if let Some(rest) = &mut marks[mark].rest {
                rest.0 *= apart;
            }
            marks[mark].arrange();
            if one > 0.5
                && let Some(first) = marks[mark].readings.first_mut()
            {
                first.flags.push(Flag::BorneOut);
            }
        }
        if borne_out {
            marks[n].same_as = Some(d);
            marks[d].same_as = Some(n);
        }
    }
}

/// What a source says by year, hard and soft, and how it is joined with others.
struct Soft {
    parts: Vec<(f64, f64)>,
    tempered: bool,
    sort: usize,
}

/// Marks of a right are of one sort, wordings of another.
fn right(mark: &Mark) -> bool {
    mark.readings.first().is_some_and(|r| !matches!(r.kind, Kind::Words(_) | Kind::Size(_)))
}

impl Tables {
    /// What marks of one piece say together.
    #[must_use]
    pub fn together(&self, marks: &[Mark]) -> Together {
        let power = f64::from(self.marks().reading.tempered) / 1000.0;
        let sources = sources(marks);
        let years: Vec<Year> = (FIRST_YEAR..=self.this_year()).collect();
        let mut whole = Together {
            period: vec![1.0; years.len()],
            later: vec![1.0; years.len()],
            usual: vec![1.0; years.len()],
            clashes: clashes(marks, &sources, &years),
            sources,
        };
        let strong = |s: &Vec<usize>| s.iter().any(|m| marks[*m].misread < WEAK);
        // How many sources of each sort say something soft.
        let mut counts = [0_u32; 2];
        let all: Vec<Soft> = whole
            .sources
            .iter()
            .map(|s| {
                let of = |y: Year| {
                    let each = s.iter().map(|m| marks[*m].parts(y));
                    each.reduce(|a, b| (a.0.min(b.0), a.1.min(b.1))).unwrap_or((1.0, 1.0))
                };
                let parts: Vec<(f64, f64)> = years.iter().map(|y| of(*y)).collect();
                let sort = usize::from(s.first().is_some_and(|m| right(&marks[*m])));
                let soft = parts.iter().any(|(_, s)| *s < 1.0 - 1e-9);
                if soft && strong(s) {
                    counts[sort] += 1;
                }
                Soft { parts, tempered: soft && strong(s), sort }
            })
            .collect();
        let power = counts.map(|n| libm::pow(f64::from(n.max(1)), power));
        for source in &all {
            for (i, (hard, soft)) in source.parts.iter().enumerate() {
                let soft = if source.tempered { libm::pow(*soft, power[source.sort]) } else { *soft };
                whole.period[i] *= hard * soft;
                whole.usual[i] *= soft;
            }
        }
        for s in &whole.sources {
            for (l, y) in whole.later.iter_mut().zip(&years) {
                *l *= s.iter().map(|m| marks[*m].later(*y)).fold(1.0, f64::min);
            }
        }
        // Finite and never all zero, whatever the number of marks.
        for list in [&mut whole.period, &mut whole.later, &mut whole.usual] {
            list.iter_mut().for_each(|l| *l = l.clamp(1e-300, 1.0));
        }
        whole
    }
}

fn sources(marks: &[Mark]) -> Vec<Vec<usize>> {
    let mut list: Vec<Vec<usize>> = Vec::new();
    for (i, mark) in marks.iter().enumerate().filter(|(_, m)| m.dates()) {
        match mark.same_as.filter(|other| *other < i) {
            Some(other) => match list.iter_mut().find(|s| s.contains(&other)) {
                Some(source) => source.push(i),
                None => list.push(vec![i]),
            },
            None => list.push(vec![i]),
        }
    }
    list
}

/// Pairs of sources of which hardly anything is left when both hold as read.
fn clashes(marks: &[Mark], sources: &[Vec<usize>], years: &[Year]) -> Vec<Clash> {
    let mut list = Vec::new();
    let read: Vec<Option<(usize, Vec<f64>)>> = sources
        .iter()
        .map(|s| {
            let m = *s.first()?;
            let strong = marks[m].misread < WEAK;
            strong.then(|| (m, years.iter().map(|y| marks[m].as_read(*y)).collect()))
        })
        .collect();
    for (i, a) in read.iter().enumerate() {
        for b in &read[i + 1..] {
            let (Some((m, a)), Some((n, b))) = (a, b) else { continue };
            let both: f64 = a.iter().zip(b).map(|(a, b)| a * b).sum();
            let narrower = a.iter().sum::<f64>().min(b.iter().sum());
            let left = both / narrower.max(1e-300);
            if left < CLASH {
                list.push(Clash { marks: (*m, *n), left });
            }
        }
    }
    list
}

impl Together {
    /// Years as the marks alone tell them, for a piece of its time.
    #[must_use]
    pub fn curve(&self) -> Curve {
        let sum: f64 = self.period.iter().sum();
        Curve { p: self.period.iter().map(|l| l / sum).collect() }
    }

    /// What the marks do to a kind with these years. A recast carries its pattern's lettering and a later casting
    /// copies it: their mark is as likely as on the pattern, which was a period piece. Only lettering of their own, which
    /// must be usual in their own time, can speak for them.
    #[must_use]
    pub fn weigh(&self, period: &Curve, later: &Curve) -> Weighed {
        let weigh = |curve: &Curve, l: &dyn Fn(usize) -> f64| -> (f64, Curve) {
            let p: Vec<f64> =
                curve.p.iter().take(self.period.len()).enumerate().map(|(i, p)| p * l(i)).collect();
            let sum: f64 = p.iter().sum();
            (sum, Curve { p: p.iter().map(|x| if sum > 0.0 { x / sum } else { *x }).collect() })
        };
        let (factor, period_years) = weigh(period, &|i| self.period[i]);
        let carried = |i: usize| factor.max(OWN_LETTERING * self.usual[i]);
        let (late, later_years) = weigh(later, &|i| self.later[i] * carried(i));
        Weighed { period: factor, later: late, period_years, later_years, clash: factor < CLASH }
    }
}

/// Whether a mark proves anything at all by its likeliest reading.
#[must_use]
pub fn proves(mark: &Mark) -> bool {
    mark.readings.first().is_some_and(|r| r.evidence.proof != Proof::Nothing)
}
