//! Numbers that a row of worn digits may be: how much of them lies in a range, without listing them.

use super::alike::Alike;
use super::glyph::Glyph;

/// The most digits of a number.
pub(crate) const MOST_DIGITS: usize = 8;

/// A number of a certain length: for each place the weight of each digit.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Pattern {
    places: Vec<Place>,
    /// By place, the weight of everything that may stand from there on.
    behind: Vec<f64>,
    /// The weight of this way to read the row at all.
    pub(crate) weight: f64,
}

/// What may stand in a place.
#[derive(Debug, Clone, PartialEq)]
struct Place {
    weights: [f64; 10],
    /// By digit, the weight of all digits below it.
    below: [f64; 11],
    /// The digits that may stand there, the likeliest first.
    likely: Vec<u8>,
}

impl Place {
    fn new(weights: [f64; 10]) -> Place {
        let mut below = [0.0; 11];
        for (i, w) in weights.iter().enumerate() {
            below[i + 1] = below[i] + w;
        }
        let likely = units::descending(&weights).into_iter().filter(|d| weights[*d] > 0.0);
        Place { below, likely: likely.map(|d| d as u8).collect(), weights }
    }
}

impl Pattern {
    /// From the glyphs of its digits; none when there are none, or too many.
    pub(crate) fn new(glyphs: &[&Glyph], alike: &Alike, weight: f64) -> Option<Pattern> {
        let sound = (1..=MOST_DIGITS).contains(&glyphs.len()) && !glyphs.iter().any(|g| g.many);
        sound.then(|| Pattern::of_places(glyphs.iter().map(|g| alike.digits(g)).collect(), weight))
    }

    fn of_places(mut weights: Vec<[f64; 10]>, weight: f64) -> Pattern {
        // A number does not begin with nought, but for nought itself.
        if let [first, _, ..] = weights.as_mut_slice() {
            first[0] = 0.0;
        }
        let places: Vec<Place> = weights.into_iter().map(Place::new).collect();
        let mut behind = vec![1.0; places.len() + 1];
        for (i, place) in places.iter().enumerate().rev() {
            behind[i] = behind[i + 1] * place.below[10];
        }
        Pattern { places, behind, weight }
    }

    /// The same where every digit is what was told, or lost.
    pub(crate) fn as_told(glyphs: &[&Glyph]) -> Option<Pattern> {
        let one = |g: &&Glyph| {
            let mut all = [0.0; 10];
            for (p, digit) in all.iter_mut().zip('0'..='9') {
                *p = f64::from(u8::from(g.one_of.is_empty() || g.one_of.contains(&digit)));
            }
            all
        };
        let sound = (1..=MOST_DIGITS).contains(&glyphs.len()) && !glyphs.iter().any(|g| g.many);
        sound.then(|| Pattern::of_places(glyphs.iter().map(one).collect(), 1.0))
    }

    /// Smallest and greatest number of this length; the first digit is no zero, but for zero itself.
    fn bounds(&self) -> (u32, u32) {
        let most = 10_u32.pow(self.places.len() as u32);
        (if self.places.len() == 1 { 0 } else { most / 10 }, most - 1)
    }

    /// The weight of all numbers below `n`.
    pub(crate) fn below(&self, n: u32) -> f64 {
        let (least, most) = self.bounds();
        if n <= least {
            return 0.0;
        }
        if n > most {
            return self.behind[0];
        }
        let (mut sum, mut prefix, mut unit) = (0.0, 1.0, (most + 1) / 10);
        for (place, behind) in self.places.iter().zip(&self.behind[1..]) {
            let digit = (n / unit % 10) as usize;
            sum += prefix * place.below[digit] * behind;
            prefix *= place.weights[digit];
            if prefix <= 0.0 {
                break;
            }
            unit = (unit / 10).max(1);
        }
        sum
    }

    /// The weight of all numbers from `from` to before `to`.
    pub(crate) fn within(&self, from: u32, to: u32) -> f64 {
        let mut sum = [0.0];
        if to > from {
            self.spread(&[from, to], 1.0, &mut sum);
        }
        sum[0]
    }

    /// Adds the weights between bounds in order, times a factor, to sums, of which there is one less than bounds.
    pub(crate) fn spread(&self, bounds: &[u32], factor: f64, sums: &mut [f64]) {
        // Differences of sums leave crumbs; the least weight that any number can have is far above them.
        let crumb = 1e-9 * self.behind[0].max(1e-12);
        let (least, most) = self.bounds();
        // Only between its smallest and its greatest number there is any.
        let first = bounds.partition_point(|b| *b <= least).saturating_sub(1);
        let mut before = bounds.get(first).map_or(0.0, |b| self.below(*b));
        for (sum, bound) in sums.iter_mut().zip(bounds.iter().skip(1)).skip(first) {
            let below = self.below(*bound);
            if below - before > crumb {
                *sum += factor * (below - before);
            }
            before = below;
            if *bound > most {
                break;
            }
        }
    }

    /// The weight of one number.
    pub(crate) fn of(&self, n: u32) -> f64 {
        let (least, most) = self.bounds();
        if n < least || n > most {
            return 0.0;
        }
        let mut left = n;
        let mut product = 1.0;
        for place in self.places.iter().rev() {
            product *= place.weights[(left % 10) as usize];
            left /= 10;
        }
        product
    }

    /// A number of the range, digit by digit the likeliest that still leads into it.
    pub(crate) fn example(&self, from: u32, to: u32) -> Option<u32> {
        let (least, most) = self.bounds();
        let (from, to) = (from.max(least), to.min(most + 1));
        if from >= to { None } else { self.search(0, 0, most + 1, from, to) }
    }

    fn search(&self, place: usize, prefix: u32, size: u32, from: u32, to: u32) -> Option<u32> {
        if place == self.places.len() {
            return (from <= prefix && prefix < to).then_some(prefix);
        }
        let size = size / 10;
        self.places[place].likely.iter().find_map(|d| {
            let start = prefix + u32::from(*d) * size;
            // Whole stretches outside the range are passed over, so only its two ends are searched in depth.
            (start < to && start + size > from)
                .then(|| self.search(place + 1, start, size, from, to))
                .flatten()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::glyph::glyphs;
    use super::*;
    use pack::marks::Alike as Pair;

    fn pattern(text: &str) -> Pattern {
        let pair = |one: &str, other: &str, share| Pair { one: one.into(), other: other.into(), share };
        let alike = Alike::new(&[pair("1", "7", 20), pair("3", "8", 40)]);
        let (list, _) = glyphs(text);
        let list: Vec<&Glyph> = list.iter().collect();
        Pattern::new(&list, &alike, 1.0).expect("a pattern")
    }

    #[test]
    fn counts_agree_with_a_list() {
        // Checked against all numbers one by one.
        for text in ["1?3", "8", "?", "7/13?8", "??", "0?1"] {
            let p = pattern(text);
            for (from, to) in [(0, 10), (7, 9), (100, 200), (0, 100_000), (130, 139), (5, 5), (9, 3)] {
                let listed: f64 = (from..to).map(|n| p.of(n)).sum();
                assert!((p.within(from, to) - listed).abs() < 1e-9, "{text} in {from}..{to}: {listed}");
            }
        }
    }

    #[test]
    fn examples_lie_in_their_range() {
        let p = pattern("1?3?8");
        for (from, to) in [(10_000, 20_000), (14_000, 14_500), (13_398, 13_399), (70_000, 80_000)] {
            let found = p.example(from, to);
            assert!(found.is_some_and(|n| from <= n && n < to && p.of(n) > 0.0), "{from}..{to}: {found:?}");
        }
        assert_eq!(p.example(20_000, 30_000), None);
        assert_eq!(p.example(14_000, 14_500).map(|n| n / 100), Some(143));
    }
}
