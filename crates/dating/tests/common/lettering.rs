//! What stands on a piece beside marks that the tables know: bare numbers, and names of firms that nobody has listed.

use super::make::{Made, Maker, Random, Truth};

/// Of a hundred pieces so many bear a bare number instead of another mark, and so many a name beside what they bear.
/// Basis: memory; numbers and names are what most irons bear, and what users ask about is the rest.
const BARE: usize = 12;
const NAMED: usize = 25;
/// Of a hundred bare numbers so many have a word for a number before them. Basis: memory.
const NUMBERED: usize = 40;

impl Maker<'_> {
    /// The lettering of a piece: a mark of any sort or a bare number, with a name beside it now and then.
    pub fn lettering(&self, random: &mut Random) -> Made {
        let made = if random.below(100) < BARE { self.bare(random) } else { self.make(random) };
        if random.below(100) >= NAMED || made.text.starts_with("diamond") {
            return made;
        }
        let name = name(random);
        let text = match random.below(2) {
            0 => format!("{name} {}", made.text),
            _ => format!("{} {name}", made.text),
        };
        Made { text, ..made }
    }

    /// A bare number, by how often the tables say that one is of each sort.
    fn bare(&self, random: &mut Random) -> Made {
        let (sizes, series) = (&self.marks.sizes, &self.marks.series);
        let weight = |i: usize| match i.checked_sub(sizes.len()) {
            None => f64::from(sizes[i].weight),
            Some(s) if self.has_numbers(s) => f64::from(series[s].weight),
            Some(_) => 0.0,
        };
        let all = sizes.len() + series.len();
        let mut left = random.share() * (0..all).map(weight).sum::<f64>();
        let mut sort = 0;
        while sort + 1 < all && left >= weight(sort) {
            left -= weight(sort);
            sort += 1;
        }
        let (n, truth) = match sort.checked_sub(sizes.len()) {
            None => {
                let size = &sizes[sort];
                let to =
                    if size.is_year { size.to.min(i16::cast_unsigned(super::YEAR).into()) } else { size.to };
                let n = size.from + random.below((to - size.from + 1) as usize) as u32;
                (n, Truth::Size(sort, n))
            }
            Some(s) => {
                let (n, year) = self.number(random, s, None);
                (n, Truth::Number(s, year))
            }
        };
        let word = random.below(100) < NUMBERED;
        let text = if word { format!("No. {n}") } else { n.to_string() };
        Made { text, truths: vec![truth], bare: true }
    }
}

/// A name of no firm: syllables.
fn name(random: &mut Random) -> String {
    const FIRST: [&str; 12] =
        ["BRE", "TOL", "WAV", "KES", "MUR", "DAL", "FIN", "GOR", "HUB", "PEN", "SAL", "VIC"];
    const NEXT: [&str; 10] = ["LE", "TA", "MO", "RIN", "BU", "SE", "GO", "NI", "DO", "KA"];
    let mut name = String::from(*random.pick(&FIRST));
    for _ in 0..1 + random.below(2) {
        name.push_str(random.pick::<&str>(&NEXT));
    }
    name
}
