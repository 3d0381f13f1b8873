//! Known wordings in worn lettering: where one may stand, and how much likelier it is than other lettering.

use super::alike::Alike;
use super::glyph::Glyph;

/// Of a thousand stretches of lettering so many are none that the tables know. Basis: memory.
const OTHER: f64 = 300.0;

/// What a wording is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Target {
    /// A mark of the tables, by index.
    Mark(usize),
    /// A word that introduces numbers of a series, by index.
    Series(usize),
    /// A word of the tables, by index.
    Word(usize),
}

/// A wording, letter by letter.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Phrase {
    /// Its letters and digits.
    letters: Vec<char>,
    /// By letter, whether a word of it begins there.
    begins: Vec<bool>,
    /// What it is.
    pub(crate) target: Target,
    /// The logarithm of how often it stands in a place, beside other lettering.
    prior: f64,
    /// How often it holds each letter and digit.
    holds: [u8; SIGNS],
}

/// The logarithm of how often a wording stands beside how often other lettering does.
fn prior(weight: u16) -> f64 {
    libm::log(f64::from(weight.max(1)) / OTHER)
}

/// Letters, digits, and one for all else.
const SIGNS: usize = 37;

/// The place of a letter or digit; one place for all signs.
fn sign(c: char) -> usize {
    match c {
        'A'..='Z' => c as usize - 'A' as usize,
        '0'..='9' => 26 + c as usize - '0' as usize,
        _ => SIGNS - 1,
    }
}

/// A wording found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Found {
    pub(crate) to: usize,
    /// The logarithm of how much likelier it is than other lettering.
    pub(crate) gain: f64,
    pub(crate) target: Target,
}

/// The cost of a lost character that was a gap, of a letter eaten by `*`, of gaps where none belongs, and of words that
/// touch. Basis: memory.
const LOST_GAP: f64 = -2.3;
const EATEN: f64 = -0.7;
const STOP_INSIDE: f64 = -0.2;
const SPACE_INSIDE: f64 = -1.2;
const NO_SPACE: f64 = -1.6;
const ODD_SIGN: f64 = -2.3;
const UNBOUNDED: f64 = -7.0;
/// A digit told where a wording has a letter, or the other way: there are words and numbers, seldom both.
const CROSSED: f64 = -1.0;
const TOUCHES_LOST: f64 = -1.5;
/// In wordings of no more letters, a letter by itself must be told.
const SHORT: usize = 5;
/// The most partial matches that are kept.
const KEPT: usize = 6;

impl Phrase {
    /// From a spelling that has this share of the weight; that is per mille.
    pub(crate) fn new(spelling: &str, target: Target, weight: u16, share: f64) -> Phrase {
        let (mut letters, mut begins, mut begin) = (Vec::new(), Vec::new(), true);
        for c in spelling.chars() {
            if c == ' ' {
                begin = true;
            } else {
                letters.push(c);
                begins.push(begin);
                begin = false;
            }
        }
        let prior = prior(weight) + libm::log(share);
        let mut holds = [0; SIGNS];
        letters.iter().for_each(|c| holds[sign(*c)] += 1);
        Phrase { letters, begins, target, prior, holds }
    }

    /// Whether enough of the glyphs from a place on are letters that it holds. A row of lost characters could be anything.
    pub(crate) fn worth_a_look(&self, glyphs: &[Glyph], from: usize) -> bool {
        let near = &glyphs[from..glyphs.len().min(from + self.letters.len() + 2)];
        // Each of its letters is found once.
        let mut left = self.holds;
        let mut held = 0;
        for glyph in near {
            if let Some(c) = glyph.one_of.iter().find(|c| left[sign(**c)] > 0) {
                left[sign(*c)] -= 1;
                held += 1;
            }
        }
        held > 0 && held * 4 >= self.letters.len().min(12)
    }

    /// Whether a letter is the first or last word by itself, and little else tells what it was.
    fn single(&self, place: usize) -> bool {
        let end = place == 0 || place + 1 == self.letters.len();
        end && self.letters.len() <= SHORT
            && self.begins[place]
            && self.begins.get(place + 1).is_none_or(|b| *b)
    }

    /// Whether `glyph` may be its first letter.
    pub(crate) fn may_begin(&self, glyph: &Glyph, alike: &Alike) -> bool {
        self.letters.first().is_some_and(|c| alike.p(*c, glyph) > 0.0)
    }

    /// The best match that begins at `from`, for each end. `junk` is the logarithm of one in how many other characters.
    pub(crate) fn find(&self, glyphs: &[Glyph], from: usize, alike: &Alike, junk: f64, out: &mut Vec<Found>) {
        // How far the text was read, and the gain so far.
        let mut states = States::default();
        states.keep((from, 0.0));
        for (place, c) in self.letters.iter().enumerate() {
            let mut next = States::default();
            let mut at = 0;
            while at < states.n {
                let (j, gain) = states.list[at];
                at += 1;
                let Some(glyph) = glyphs.get(j) else { continue };
                // A lost character between two words may have been their gap.
                let before = j.checked_sub(1).and_then(|b| glyphs.get(b));
                let touches = before.is_some_and(|b| !b.one_of.is_empty());
                let gap = match (place, self.begins[place], glyph.apart()) {
                    (0, ..) | (_, false, false) => 0.0,
                    (_, true, true) => between(&glyph.gap),
                    (_, false, true) => inside(&glyph.gap, j == from + 1 || before.is_some_and(Glyph::apart)),
                    (_, true, false) if touches => NO_SPACE,
                    (_, true, false) => 0.0,
                };
                if glyph.many {
                    next.keep((j, gain + EATEN + gap));
                    states.keep((j + 1, gain + EATEN));
                    continue;
                }
                if glyph.one_of.is_empty() {
                    // One letter at an end must be told: a lost character could be any.
                    if !self.single(place) {
                        next.keep((j + 1, gain + gap));
                    }
                    if place > 0 {
                        states.keep((j + 1, gain + LOST_GAP));
                    }
                    continue;
                }
                if let Some(log) = alike.log(*c, glyph) {
                    let crossed = if glyph.digit() == c.is_ascii_digit() { 0.0 } else { CROSSED };
                    next.keep((j + 1, gain + gap + log + junk + crossed));
                }
            }
            states = next;
            if states.n == 0 {
                return;
            }
        }
        for (mut to, gain) in states.list.into_iter().take(states.n) {
            // What is left of a run of lost characters goes with the wording.
            if glyphs.get(to).is_some_and(|g| g.many && (to == from || !g.apart())) {
                to += 1;
            }
            let gain = gain + self.prior + bound(glyphs, from, to);
            if to > from {
                out.push(Found { to, gain, target: self.target });
            }
        }
    }
}

/// Partial matches: how far the text was read, and the gain so far.
#[derive(Default)]
struct States {
    list: [(usize, f64); KEPT],
    n: usize,
}

impl States {
    /// Keeps a partial match, the better one for each place, and few of them.
    fn keep(&mut self, state: (usize, f64)) {
        match self.list[..self.n].iter_mut().find(|(j, _)| *j == state.0) {
            Some(old) => old.1 = old.1.max(state.1),
            None if self.n < KEPT => {
                self.list[self.n] = state;
                self.n += 1;
            }
            None => {}
        }
    }
}

/// An apostrophe parts no words: "PAT'D" is one.
fn between(gap: &str) -> f64 {
    if gap.chars().all(|c| matches!(c, '\'' | '\u{2019}')) { NO_SPACE } else { 0.0 }
}

fn inside(gap: &str, alone: bool) -> f64 {
    let stop = |c: char| matches!(c, '.' | '\'' | '\u{2019}');
    // "D. R. G. M.": between letters that stand alone a space behind the stop is no more than its part.
    let stops = gap.chars().all(|c| stop(c) || alone && c == ' ') && gap.starts_with(stop);
    if stops { STOP_INSIDE } else { SPACE_INSIDE }
}

/// A wording stands between gaps or numbers; in the middle of other letters it is hardly one, and a lost character that
/// touches it is rather a letter more than a gap.
fn bound(glyphs: &[Glyph], from: usize, to: usize) -> f64 {
    let between = |left: Option<&Glyph>, right: Option<&Glyph>| match (left, right) {
        (Some(_), Some(b)) if b.apart() => 0.0,
        (Some(a), Some(b)) if a.letter() && b.letter() => UNBOUNDED,
        (Some(a), Some(b)) if a.lost() || b.lost() => TOUCHES_LOST,
        _ => 0.0,
    };
    let at = |i: Option<usize>| i.and_then(|i| glyphs.get(i));
    between(at(from.checked_sub(1)), at(Some(from))) + between(at(to.checked_sub(1)), at(Some(to)))
}

/// A shape such as `AA 99999` or `A+ 99, A+` at a place: where it ends and its gain, or nothing.
pub(crate) fn shape(
    shape: &str,
    glyphs: &[Glyph],
    from: usize,
    junk: f64,
    weight: u16,
) -> Option<(usize, f64)> {
    let mut at = from;
    let mut gain = prior(weight);
    // Letters of a class, and those of them that are told: where none is, nothing tells the shape from a number.
    let (mut letters, mut told) = (0, 0);
    // What must stand between the last character and the next.
    let mut between = String::new();
    let mut known = 0;
    for c in shape.chars() {
        if c == '+' {
            // More letters of the same word.
            while glyphs.get(at).is_some_and(|g| !g.apart() && (g.letter() || g.lost())) {
                at += 1;
            }
            continue;
        }
        if !c.is_ascii_alphanumeric() {
            between.push(c);
            continue;
        }
        let glyph = glyphs.get(at)?;
        let spaced = between.contains(' ');
        let signs: Vec<char> = between.chars().filter(|c| *c != ' ').collect();
        let fits = signs.iter().all(|s| glyph.gap.contains(*s)) && (!spaced || glyph.apart());
        // At its start a shape stands apart; within it nothing stands between that the shape does not have.
        let tight = at == from || !between.is_empty() || !glyph.apart();
        if !fits || !tight {
            return None;
        }
        gain += 1.5 * signs.len() as f64;
        // A stop or other sign that the shape does not have: "RE. 11407" is hardly "IL 60601".
        let odd = at > from && glyph.gap.chars().any(|c| c != ' ' && !signs.contains(&c));
        gain += if odd { ODD_SIGN } else { 0.0 };
        between.clear();
        let class = match c {
            '9' => glyph.digit().then_some(10.0),
            // One letter of a class; spelled words in shapes are letters of their own.
            'A' => (glyph.letter() && glyph.one_of[0].is_ascii_uppercase()).then_some(26.0),
            c => glyph.one_of.contains(&c).then_some(1.0),
        };
        letters += usize::from(c == 'A');
        match class {
            Some(size) => {
                known += 1;
                told += usize::from(c == 'A');
                gain += junk - libm::log(size);
            }
            None if glyph.lost() => {}
            None => return None,
        }
        at += 1;
    }
    let bounded =
        glyphs.get(from).is_some_and(|g| from == 0 || g.apart()) && glyphs.get(at).is_none_or(Glyph::apart);
    (bounded
        && (letters == 0 || told > 0)
        && known * 2 > shape.chars().filter(char::is_ascii_alphanumeric).count())
    .then_some((at, gain))
}

#[cfg(test)]
mod tests {
    use super::super::glyph::glyphs;
    use super::*;

    fn best(spelling: &str, text: &str) -> Option<(usize, f64)> {
        let (list, _) = glyphs(text);
        let phrase = Phrase::new(spelling, Target::Mark(0), 300, 1.0);
        let mut out = Vec::new();
        phrase.find(&list, 0, &Alike::new(&[]), libm::log(40.0), &mut out);
        out.into_iter().map(|f| (f.to, f.gain)).max_by(|a, b| a.1.total_cmp(&b.1))
    }

    #[test]
    fn letters_tell_and_losses_do_not() {
        // Arithmetic: each letter that is told is forty times likelier than other lettering.
        let one = libm::log(40.0);
        for (text, letters) in [("JAPAN", 5.0), ("J?PAN", 4.0), ("?????", 0.0), ("japan", 5.0)] {
            let found = best("JAPAN", text);
            assert!(
                found.is_some_and(|(to, g)| to == 5 && (g - letters * one).abs() < 1e-9),
                "{text}: {found:?}"
            );
        }
        assert_eq!(best("JAPAN", "JAMAN"), None);
        assert!(best("JAPAN", "JA*N").is_some_and(|(to, g)| to == 4 && g > 2.0 * one));
        assert!(best("MADE IN JAPAN", "MADE?IN JAPAN").is_some_and(|(to, g)| to == 12 && g > 10.0 * one));
        assert!(best("DRGM", "D. R. G. M.").is_some_and(|(to, _)| to == 4));
    }

    #[test]
    fn shapes() {
        let at = |s: &str, text: &str| shape(s, &glyphs(text).0, 0, libm::log(40.0), 1000).map(|(to, _)| to);
        assert_eq!(at("AA 99999", "IL 60601"), Some(7));
        assert_eq!(at("AA 99999", "IL 6060"), None);
        assert_eq!(at("AA 99999", "IL-60601"), Some(7));
        assert_eq!(at("999-9999", "555-1?34"), Some(7));
        assert_eq!(at("999-9999", "5551234"), None);
        assert_eq!(at("A+ 99, A+", "CHICAGO 16, ILL."), Some(12));
        assert_eq!(at("A+ 99, A+", "CHICAGO 16 ILL."), None);
        assert_eq!(at("9999 OF 99", "1234 of 98"), Some(8));
        assert_eq!(at("(999) 999-9999", "(312) 555-1234"), Some(10));
    }
}
