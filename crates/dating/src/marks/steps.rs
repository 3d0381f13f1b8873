//! A row of numbers by date, ready for look-ups: which numbers belong to which days.

use super::evidence::Span;
use crate::calendar::{self, Day};
use crate::curve::FIRST_YEAR;
use pack::marks::Series;
use units::{Basis, Year};

/// A gap longer than this, in days, is parted into years along a straight line.
const LONG: Day = 400;

/// Numbers of a row that were granted between two days.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Step {
    /// The first number.
    pub(crate) number: u32,
    /// The first number behind.
    pub(crate) until: u32,
    /// The first day.
    pub(crate) from: Day,
    /// The last day.
    pub(crate) to: Day,
    /// The first day that is known for certain: earlier than `from` where a line was drawn.
    pub(crate) surely: Day,
    /// A line was drawn between two figures that are years apart.
    pub(crate) drawn: bool,
    /// What it rests on.
    pub(crate) basis: Basis,
    /// Index into the sources.
    pub(crate) source: Option<u16>,
    /// How likely one of its numbers is met, given the series.
    pub(crate) each: f64,
    /// What a right granted in it says of the years of a piece.
    pub(crate) span: Span,
}

/// The steps of a series, in order.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Steps {
    pub(crate) list: Vec<Step>,
    /// The first number of each step, and the first behind the last: steps follow each other without a gap.
    pub(crate) bounds: Vec<u32>,
}

impl Steps {
    /// Expands the differences; `met` is how likely a right of each year from [`FIRST_YEAR`] is met.
    pub(crate) fn new(series: &Series, met: &[f64], this_year: Year) -> Steps {
        let (mut day, mut number) = (series.first_day, series.first_number);
        let mut ends = vec![(day, number)];
        for (d, n) in series.days.iter().zip(&series.numbers) {
            day += Day::from(*d);
            number += n;
            ends.push((day, number));
        }
        let mut rests =
            series.runs.iter().flat_map(|r| core::iter::repeat_n((r.basis, r.source), r.steps.into()));
        let mut list: Vec<Step> = Vec::new();
        for pair in ends.windows(2) {
            let (basis, source) = rests.next().unwrap_or((Basis::Memory, None));
            let [(from, number), (behind, until)] = *pair else { continue };
            part(&mut list, (from, behind), (number, until), (basis, source));
        }
        if series.open {
            // Numbers went on; how fast is not known, so no year is told apart from the others.
            let (basis, source) = rests.next().unwrap_or((Basis::Memory, None));
            let to = calendar::new_year(this_year + 1) - 1;
            let (from, number) = (day, number);
            list.push(Step {
                number,
                until: 100_000_000,
                from,
                to: to.max(from),
                surely: from,
                drawn: true,
                basis,
                source,
                each: 0.0,
                span: Span::OPEN,
            });
        }
        let first = list.first().map(|s| s.number).into_iter();
        let bounds = first.chain(list.iter().map(|s| s.until)).collect();
        let mut steps = Steps { list, bounds };
        steps.share(met);
        steps.list.iter_mut().for_each(|step| step.span = span(series, step));
        steps
    }

    /// Gives each number its chance: each year by how often its rights are met, within it each number alike.
    fn share(&mut self, met: &[f64]) {
        let met = |year: Year| met.get((year - FIRST_YEAR).max(0) as usize).copied().unwrap_or(0.0);
        let year = |s: &Step| calendar::year_of(s.from);
        let mut total = 0.0;
        let mut at = 0;
        while at < self.list.len() {
            let of = year(&self.list[at]);
            let end = (at..self.list.len()).find(|i| year(&self.list[*i]) != of).unwrap_or(self.list.len());
            let numbers: f64 = self.list[at..end].iter().map(Step::numbers).sum();
            let last = self.list[end - 1].to;
            let weight: f64 = (of..=calendar::year_of(last)).map(met).sum();
            total += weight;
            self.list[at..end].iter_mut().for_each(|s| s.each = weight / numbers.max(1.0));
            at = end;
        }
        if total > 0.0 {
            self.list.iter_mut().for_each(|s| s.each /= total);
        }
    }

    /// The step of a number.
    #[cfg(test)]
    pub(crate) fn of(&self, number: u32) -> Option<&Step> {
        self.list.iter().find(|s| s.number <= number && number < s.until)
    }
}

impl Step {
    /// How many numbers it holds; of an open one, as many as would keep a usual pace for its years.
    fn numbers(&self) -> f64 {
        f64::from((self.until - self.number).min(4_000_000))
    }
}

/// Years of protection of a right granted on a day.
pub(crate) fn term(series: &Series, day: Day) -> u16 {
    let since = series.terms.iter().rev().find(|(from, _)| *from <= day).or(series.terms.first());
    since.map_or(0, |(_, years)| *years)
}

/// What a right granted in a step says of the years of a piece.
fn span(series: &Series, step: &Step) -> Span {
    let published = step.basis == Basis::Published;
    let slack = if published { series.slack } else { series.slack.max(series.memory_slack) };
    let back = |y: Year, n: u16| y.saturating_sub(Year::try_from(n).unwrap_or(0));
    let term = Year::try_from(term(series, step.from)).unwrap_or(0);
    Span {
        hard_from: Some(back(calendar::year_of(step.surely), slack)),
        from: Some(calendar::year_of(step.from)),
        to: Some(calendar::year_of(step.to).saturating_add(term)),
        hard_to: None,
        fades: series.fades,
    }
}

/// One step, or several where it is long.
fn part(list: &mut Vec<Step>, days: (Day, Day), numbers: (u32, u32), rests: (Basis, Option<u16>)) {
    let (from, behind) = days;
    let step = |from: Day, to: Day, number: u32, until: u32, drawn: bool| Step {
        number,
        until,
        from,
        to,
        surely: days.0,
        drawn,
        basis: rests.0,
        source: rests.1,
        each: 0.0,
        span: Span::OPEN,
    };
    if behind - from <= LONG {
        list.push(step(from, behind - 1, numbers.0, numbers.1, false));
        return;
    }
    let along = |day: Day| {
        let share = f64::from(day - from) / f64::from(behind - from);
        numbers.0 + (f64::from(numbers.1 - numbers.0) * share) as u32
    };
    let (mut start, mut number) = (from, numbers.0);
    while start < behind {
        let end = calendar::new_year(calendar::year_of(start) + 1).min(behind);
        let until = if end == behind { numbers.1 } else { along(end) };
        if until > number {
            list.push(step(start, end - 1, number, until, true));
            number = until;
        }
        start = end;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pack::marks::Run;

    #[test]
    fn years_and_a_long_gap() {
        let year = |y: Year| calendar::new_year(y);
        let days = [(1900, 1901), (1901, 1905)].map(|(a, b)| (year(b) - year(a)) as u16);
        let series = Series {
            id: String::new(),
            name: String::new(),
            done: String::new(),
            alone: 0,
            writes: Vec::new(),
            dated: false,
            weight: 1,
            opens: 1,
            slack: 0,
            memory_slack: 0,
            terms: Vec::new(),
            fades: 0,
            says: String::new(),
            caution: String::new(),
            basis: Basis::Memory,
            first_day: year(1900),
            first_number: 1,
            days: days.to_vec(),
            numbers: vec![100, 400],
            open: false,
            runs: vec![Run { steps: 3, basis: Basis::Published, source: None }],
        };
        let met = vec![1.0; 427];
        let steps = Steps::new(&series, &met, 2026);
        let told =
            |n: u32| steps.of(n).map(|s| (calendar::year_of(s.from), calendar::year_of(s.surely), s.drawn));
        // Arithmetic: 1 to 100 in 1900; 400 more over four years along a line, so the last hundred in 1904.
        assert_eq!(told(1), Some((1900, 1900, false)));
        assert_eq!(told(100), Some((1900, 1900, false)));
        assert_eq!(told(101), Some((1901, 1901, true)));
        assert_eq!(told(480), Some((1904, 1901, true)));
        assert_eq!(told(501), None);
        // Every number has its chance, and together they have them all: five years alike.
        let sum: f64 = steps.list.iter().map(|s| s.each * f64::from(s.until - s.number)).sum();
        assert!((sum - 1.0).abs() < 1e-9, "{sum}");
    }
}
