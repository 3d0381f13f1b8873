//! How likely a character is seen as another on a worn casting.

use super::glyph::Glyph;
use pack::marks::Alike as Pair;

/// Letters and digits.
const KNOWN: usize = 36;

/// P(seen as | truly), for letters and digits.
#[derive(Debug, Clone)]
pub(crate) struct Alike {
    seen: Vec<[f64; KNOWN]>,
    /// Their logarithms.
    logs: Vec<[f64; KNOWN]>,
}

fn index(c: char) -> Option<usize> {
    match c {
        'A'..='Z' => Some(c as usize - 'A' as usize),
        '0'..='9' => Some(26 + c as usize - '0' as usize),
        _ => None,
    }
}

impl Alike {
    /// From the pairs of the tables; what is not paired is seen as it is.
    pub(crate) fn new(pairs: &[Pair]) -> Alike {
        let mut seen = vec![[0.0; KNOWN]; KNOWN];
        for pair in pairs {
            let ends = [&pair.one, &pair.other].map(|t| t.chars().next().and_then(index));
            if let [Some(a), Some(b)] = ends {
                seen[a][b] += f64::from(pair.share) / 1000.0;
                seen[b][a] += f64::from(pair.share) / 1000.0;
            }
        }
        for (i, row) in seen.iter_mut().enumerate() {
            let lost: f64 = row.iter().sum();
            // However many look-alikes it has, a character is mostly read right.
            let most = lost.min(0.5);
            row.iter_mut().for_each(|p| *p *= if lost > 0.0 { most / lost } else { 0.0 });
            row[i] = 1.0 - most;
        }
        let logs = seen.iter().map(|row| row.map(libm::log)).collect();
        Alike { seen, logs }
    }

    /// P(this glyph | truly `c`), but for the chance of loss, which is the same whatever stood there.
    pub(crate) fn p(&self, truly: char, glyph: &Glyph) -> f64 {
        if glyph.one_of.is_empty() {
            return 1.0;
        }
        let one = |seen: &char| match (index(truly), index(*seen)) {
            (Some(a), Some(b)) => self.seen[a][b],
            _ => f64::from(u8::from(truly == *seen)),
        };
        glyph.one_of.iter().map(one).sum::<f64>().min(1.0)
    }

    /// The logarithm of [`Alike::p`]; none where it is nought.
    pub(crate) fn log(&self, truly: char, glyph: &Glyph) -> Option<f64> {
        if let ([one], Some(a)) = (glyph.one_of.as_slice(), index(truly)) {
            let log = index(*one).map_or(f64::NEG_INFINITY, |b| self.logs[a][b]);
            return (log > f64::NEG_INFINITY).then_some(log);
        }
        let p = self.p(truly, glyph);
        (p > 0.0).then(|| libm::log(p))
    }

    /// By digit, P(this glyph | the digit).
    pub(crate) fn digits(&self, glyph: &Glyph) -> [f64; 10] {
        let mut all = [0.0; 10];
        for (p, digit) in all.iter_mut().zip('0'..='9') {
            *p = self.p(digit, glyph);
        }
        all
    }

    /// P(this glyph | the letter that looks most like it).
    pub(crate) fn letter(&self, glyph: &Glyph) -> f64 {
        ('A'..='Z').map(|c| self.p(c, glyph)).fold(0.0, f64::max)
    }

    /// Whether it may be a digit at all: one as told, a lost character, or a letter that looks like one.
    pub(crate) fn may_be_digit(&self, glyph: &Glyph) -> bool {
        glyph.one_of.is_empty() || self.digits(glyph).iter().any(|p| *p > 0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::super::glyph::glyphs;
    use super::*;

    #[test]
    fn shares_go_either_way_and_sum_to_one() {
        let pair = |one: &str, other: &str, share| Pair { one: one.into(), other: other.into(), share };
        let alike = Alike::new(&[pair("1", "7", 20), pair("1", "I", 30)]);
        let g = |t: &str| glyphs(t).0.remove(0);
        // Arithmetic: 1 - 0.02 - 0.03, 0.02, 1 - 0.02; both of "1/7" cover what 1 may look like but I.
        for (truly, seen, p) in [
            ('1', "1", 0.95),
            ('1', "7", 0.02),
            ('7', "7", 0.98),
            ('7', "1", 0.02),
            ('1', "1/7", 0.97),
            ('1', "?", 1.0),
        ] {
            assert!((alike.p(truly, &g(seen)) - p).abs() < 1e-12, "{truly} as {seen}");
        }
        assert!(alike.may_be_digit(&g("I")) && !alike.may_be_digit(&g("K")));
    }
}
