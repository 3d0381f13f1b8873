//! Marks made from the tables: a true reading, how a foundry wrote it, and what wear and a person's eye left of it.

use super::YEAR;
use dating::{Curve, FIRST_YEAR, Kind, Read, Tables, calendar};
use pack::marks::{Marks, Role};
use std::collections::BTreeMap;

/// Uniform 64 bits by `SplitMix64` (published: Steele, Lea and Flood, OOPSLA 2014, figure 17).
#[derive(Debug, Clone)]
pub struct Random(pub u64);

impl Random {
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub fn below(&mut self, n: usize) -> usize {
        (self.bits() % n.max(1) as u64) as usize
    }

    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn pick<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[self.below(list.len())]
    }
}

/// What a mark truly says.
#[derive(Debug, Clone, PartialEq)]
pub enum Truth {
    /// A date in words; whether patents were granted on it.
    Date(String, bool),
    /// A number of a series, granted in a year.
    Number(usize, i16),
    /// A wording, by index into the marks.
    Words(usize),
    /// A diamond mark of a day.
    Diamond(i32),
    /// A bare number of a sort, by index into the sizes.
    Size(usize, u32),
}

/// A mark as it was cast, and what it says.
#[derive(Debug, Clone)]
pub struct Made {
    pub text: String,
    pub truths: Vec<Truth>,
    /// A number without a word that says of what: much of what it may be cannot be told from its digits.
    pub bare: bool,
}

impl Made {
    pub fn new(text: String, truths: Vec<Truth>) -> Made {
        Made { text, truths, bare: false }
    }
}

/// Where the truth stands among what was read: the chance given to it, and its rank within its mark from 0.
pub fn found(read: &Read, truth: &Truth) -> Option<(f64, usize)> {
    let mut best: Option<(f64, usize)> = None;
    for m in &read.marks {
        for (rank, r) in m.readings.iter().enumerate() {
            if is_true(r, truth) && best.is_none_or(|(c, _)| r.chance > c) {
                best = Some((r.chance, rank));
            }
        }
    }
    best
}

/// Whether a reading is the truth.
pub fn is_true(r: &dating::Reading, truth: &Truth) -> bool {
    match (truth, r.kind) {
        (Truth::Date(reads, _), Kind::Dated(_) | Kind::Date) => r.reads == *reads,
        (Truth::Number(s, year), Kind::Number(t)) => *s == t && r.years().iter().any(|(y, _)| y == year),
        (Truth::Words(m), Kind::Words(n)) => *m == n,
        (Truth::Diamond(day), Kind::Diamond) => {
            // By the day where that is certain, else by the month, or by the year where no month is left.
            r.issues.iter().any(|i| i.from <= *day && *day <= i.to)
        }
        (Truth::Size(s, n), Kind::Size(t)) => {
            // By the number, or as the row of digits where many numbers are told as one.
            *s == t && (r.reads == n.to_string() || r.reads.contains(['?', '*', '/']))
        }
        _ => false,
    }
}

/// The maker of marks.
pub struct Maker<'a> {
    pub marks: &'a Marks,
    /// By series and year, the first number and the first behind.
    numbers: Vec<BTreeMap<i16, (u32, u32)>>,
    met: Vec<f64>,
    alike: Vec<(char, char, f64)>,
}

impl<'a> Maker<'a> {
    pub fn new(tables: &'a Tables) -> Maker<'a> {
        let marks = tables.marks();
        let numbers = marks.series.iter().map(numbers).collect();
        let met = Curve::of_periods(&[(1.0, marks.reading.met)], YEAR).p;
        let alike = marks.alike.iter().flat_map(|a| {
            let c = |t: &str| t.chars().next().expect("a letter");
            let share = f64::from(a.share) / 1000.0;
            [(c(&a.one), c(&a.other), share), (c(&a.other), c(&a.one), share)]
        });
        Maker { marks, numbers, met, alike: alike.collect() }
    }

    /// A year of those given, by how often its rights are met.
    fn year(&self, random: &mut Random, years: &[i16]) -> i16 {
        let weight = |y: &i16| self.met.get((*y - FIRST_YEAR) as usize).copied().unwrap_or(0.0);
        let total: f64 = years.iter().map(weight).sum();
        let mut left = random.share() * total;
        for year in years {
            left -= weight(year);
            if left <= 0.0 {
                return *year;
            }
        }
        years[years.len() - 1]
    }

    /// Whether numbers of a series are known by year.
    pub fn has_numbers(&self, series: usize) -> bool {
        !self.numbers[series].is_empty()
    }

    fn series(&self, id: &str) -> usize {
        self.marks.series.iter().position(|s| s.id == id).expect(id)
    }

    /// A number of a series and its year.
    pub fn number(&self, random: &mut Random, series: usize, year: Option<i16>) -> (u32, i16) {
        let years: Vec<i16> = self.numbers[series].keys().copied().collect();
        let year = year.unwrap_or_else(|| self.year(random, &years));
        let (from, to) = self.numbers[series][&year];
        (from + random.below((to - from) as usize) as u32, year)
    }

    /// A day of issue of a year, or seldom another day.
    fn day(&self, random: &mut Random, year: i16) -> (i32, bool) {
        let odd = random.share() < f64::from(self.marks.reading.no_issue_day) / 1000.0 && year > 1848;
        loop {
            let length = calendar::new_year(year + 1) - calendar::new_year(year);
            let day = calendar::new_year(year) + random.below(length as usize) as i32;
            let tuesday = calendar::weekday(day) == 1;
            if year < 1848 && calendar::day(1836, 7, 13).is_some_and(|first| day >= first)
                || year >= 1848 && tuesday != odd
            {
                return (day, !odd);
            }
        }
    }

    fn month(&self, random: &mut Random, month: u8) -> String {
        let of = |w: &&pack::marks::Word| w.role == Role::Month && w.which == month;
        let word = self.marks.words.iter().find(of).expect("a month");
        random.pick(&word.writes).clone()
    }

    /// The word of a patent.
    fn patent(&self, random: &mut Random) -> &'static str {
        const WORDS: [&str; 8] =
            ["PAT.", "PAT'D", "PATENTED", "Pat'd", "PATENT", "PAT", "PATD.", "PATENTED IN U.S.A."];
        WORDS[random.below(WORDS.len())]
    }

    fn date_text(&self, random: &mut Random, day: i32) -> String {
        let (year, month, date) = calendar::date(day);
        let month = self.month(random, month);
        let short = format!("'{:02}", year % 100);
        // Two digits of a year could be of any century: foundries shortened the years of their own time.
        let shown =
            if random.below(6) == 0 && (1850..1950).contains(&year) { short } else { year.to_string() };
        match random.below(6) {
            0 | 1 => format!("{month} {date}, {shown}"),
            2 => format!("{month}. {date}. {shown}"),
            3 => format!("{date} {month} {shown}"),
            4 => format!("{month} {date} {shown}"),
            _ => format!("{year} {month} {date}"),
        }
    }

    fn digits(&self, random: &mut Random, n: u32) -> String {
        let plain = n.to_string();
        if plain.len() < 5 || random.below(2) == 0 {
            return plain;
        }
        let mark = *random.pick(&[",", ",", " ", "."]);
        let mut text = String::new();
        for (i, c) in plain.chars().enumerate() {
            if i > 0 && (plain.len() - i).is_multiple_of(3) {
                text.push_str(mark);
            }
            text.push(c);
        }
        text
    }

    /// A mark of the sort; 0 to 99.
    pub fn make(&self, random: &mut Random) -> Made {
        let us = self.series("us-patent");
        let years: Vec<i16> = (1836..YEAR).collect();
        match random.below(100) {
            0..=24 => {
                let year = self.year(random, &years);
                let (day, issued) = self.day(random, year);
                let (date, word) = (self.date_text(random, day), self.patent(random));
                let text =
                    if random.below(4) == 0 { format!("{date} {word}") } else { format!("{word} {date}") };
                Made::new(text, vec![Truth::Date(calendar::day_in_words(day), issued)])
            }
            25..=38 => {
                let (n, year) = self.number(random, us, None);
                let digits = self.digits(random, n);
                let text = match random.below(4) {
                    0 => format!("PAT. NO. {digits}"),
                    1 => format!("PATENT NO {digits}"),
                    2 => format!("Pat. {digits}"),
                    _ => format!("U.S. PAT. {digits}"),
                };
                Made::new(text, vec![Truth::Number(us, year)])
            }
            39..=48 => {
                // Number and date of one patent.
                let year = self.year(random, &years[12..164]);
                let (n, year) = self.number(random, us, Some(year));
                let day = self.day_of(random, us, n, year);
                let (date, digits, word) =
                    (self.date_text(random, day), self.digits(random, n), self.patent(random));
                let text = match random.below(3) {
                    0 => format!("{word} {date} No. {digits}"),
                    1 => format!("No. {digits} {word} {date}"),
                    _ => format!("PAT. NO. {digits} {date}"),
                };
                let date = Truth::Date(calendar::day_in_words(day), true);
                Made::new(text, vec![date, Truth::Number(us, year)])
            }
            49..=60 => self.numbered(random, "uk-registered"),
            61..=66 => self.numbered(random, "de-patent"),
            67..=73 => self.numbered(random, "de-utility"),
            74..=77 => self.numbered(random, "us-design"),
            78..=79 => self.numbered(random, "us-reissue"),
            80..=85 => self.diamond(random),
            _ => self.words(random),
        }
    }

    /// A day of issue on which the number may have been granted: along a line through the year.
    fn day_of(&self, random: &mut Random, series: usize, n: u32, year: i16) -> i32 {
        let s = &self.marks.series[series];
        let (mut day, mut number) = (s.first_day, s.first_number);
        let mut from = (day, day);
        for (d, k) in s.days.iter().zip(&s.numbers) {
            let (next_day, next) = (day + i32::from(*d), number + k);
            if number <= n && n < next {
                from = (day, next_day - 1);
            }
            (day, number) = (next_day, next);
        }
        let (a, b) = (from.0.max(calendar::new_year(year)), from.1.min(calendar::new_year(year + 1) - 1));
        let issue: Vec<i32> = (a..=b).filter(|d| calendar::weekday(*d) == 1).collect();
        *random.pick(&issue)
    }

    fn numbered(&self, random: &mut Random, id: &str) -> Made {
        let series = self.series(id);
        let (n, year) = self.number(random, series, None);
        let digits = self.digits(random, n);
        let text = match id {
            "uk-registered" => match random.below(4) {
                0 => format!("Rd No {digits}"),
                1 => format!("REGD. NO. {digits}"),
                2 => format!("Rd. {digits}"),
                _ => format!("REGISTERED DESIGN {digits}"),
            },
            "de-patent" => {
                format!("{} {digits}", random.pick(&["D.R.P.", "DRP", "D. R. P. Nr.", "D.R.P. No."]))
            }
            "de-utility" => {
                format!("{} {digits}", random.pick(&["D.R.G.M.", "DRGM", "D. R. G. M.", "D.R.G.M. Nr."]))
            }
            "us-design" => format!("{} {digits}", random.pick(&["DES. PAT.", "DESIGN PATENT", "DES."])),
            _ => format!("{} {digits}", random.pick(&["REISSUE", "RE.", "REISSUED"])),
        };
        Made::new(text, vec![Truth::Number(series, year)])
    }

    fn diamond(&self, random: &mut Random) -> Made {
        let d = &self.marks.diamond;
        let years: Vec<i16> = (calendar::year_of(d.from)..=calendar::year_of(d.to)).collect();
        let day = loop {
            let year = self.year(random, &years);
            let day = calendar::new_year(year) + random.below(365) as i32;
            // Days with letters of their own are left to the cases.
            let plain = d.instead.iter().skip(1).all(|i| day < i.from || day > i.to);
            if d.from <= day && day <= d.to && plain {
                break day;
            }
        };
        let (year, month, date) = calendar::date(day);
        let letters = d.years.iter().rev().find(|y| y.from <= year).expect("letters");
        let year = letters.letters.as_bytes()[(year - letters.from) as usize] as char;
        let month = d.months.as_bytes()[usize::from(month) - 1] as char;
        let parcel = 1 + random.below(12);
        let layout = d.layouts.iter().find(|l| l.from <= day && day <= l.to).expect("a layout");
        let named: Vec<String> = ["top", "right", "bottom", "left"]
            .iter()
            .zip(&layout.corners)
            .map(|(name, corner)| {
                let what = match corner {
                    pack::marks::Corner::Year => year.to_string(),
                    pack::marks::Corner::Month => month.to_string(),
                    pack::marks::Corner::Day => date.to_string(),
                    pack::marks::Corner::Parcel => parcel.to_string(),
                };
                format!("{name} {what}")
            })
            .collect();
        let mut order: Vec<usize> = (0..4).collect();
        for i in (1..4).rev() {
            order.swap(i, random.below(i + 1));
        }
        let shuffled: Vec<&str> = order.iter().map(|i| named[*i].as_str()).collect();
        Made::new(format!("diamond class I {}", shuffled.join(" ")), vec![Truth::Diamond(day)])
    }

    fn words(&self, random: &mut Random) -> Made {
        loop {
            let m = random.below(self.marks.marks.len());
            let mark = &self.marks.marks[m];
            // A mark of two letters is hardly one when one of them is lost.
            let writes: Vec<&String> = mark.writes.iter().filter(|w| w.len() >= 5).collect();
            if mark.id != "and-co" && !writes.is_empty() {
                return Made::new((*random.pick(&writes)).clone(), vec![Truth::Words(m)]);
            }
        }
    }

    /// The text as it may be typed: other case, some characters misread at the rates of the tables, so many lost.
    pub fn worn(&self, random: &mut Random, text: &str, lost: usize, misread: bool) -> String {
        // The words of the notation for a diamond are the person's own, not worn lettering.
        let diamond = text.starts_with("diamond ");
        let case = if diamond { 2 } else { random.below(3) };
        let mut out: Vec<String> = Vec::new();
        for word in text.split(' ') {
            let own = diamond && word.len() > 2;
            for c in word.chars() {
                let c = match case {
                    0 => c.to_ascii_lowercase(),
                    1 => c.to_ascii_uppercase(),
                    _ => c,
                };
                let up = c.to_ascii_uppercase();
                let mut seen = c.to_string();
                if misread && !own && up.is_ascii_alphanumeric() {
                    let mut left = random.share();
                    for (truly, other, share) in &self.alike {
                        if *truly == up {
                            left -= share;
                            if left < 0.0 {
                                seen = other.to_string();
                                break;
                            }
                        }
                    }
                }
                out.push(if own { format!("\u{1}{seen}") } else { seen });
            }
            out.push(" ".to_string());
        }
        out.pop();
        let places: Vec<usize> = (0..out.len())
            .filter(|i| out[*i].len() == 1 && out[*i].chars().all(|c| c.is_ascii_alphanumeric()))
            .collect();
        let mut left = lost.min(places.len().saturating_sub(1));
        while left > 0 {
            let at = *random.pick(&places);
            if out[at] != "?" {
                out[at] = "?".to_string();
                left -= 1;
            }
        }
        let text: String = out.concat().replace('\u{1}', "");
        // Some write a run of lost characters as one star.
        if text.contains("??") && random.below(3) == 0 {
            text.replacen("???", "*", 1).replacen("??", "*", 1)
        } else {
            text
        }
    }
}

/// By year, the numbers of a series; years that are only bounded are left out.
fn numbers(s: &pack::marks::Series) -> BTreeMap<i16, (u32, u32)> {
    let (mut day, mut number) = (s.first_day, s.first_number);
    let mut list: BTreeMap<i16, (u32, u32)> = BTreeMap::new();
    for (d, n) in s.days.iter().zip(&s.numbers) {
        let year = calendar::year_of(day);
        // A long gap tells nothing of its single years.
        if i32::from(*d) <= 400 {
            let entry = list.entry(year).or_insert((number, number));
            entry.1 = number + n;
        }
        day += i32::from(*d);
        number += n;
    }
    list
}
