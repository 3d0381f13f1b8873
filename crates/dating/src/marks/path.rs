//! From glyphs to slots: which stretches are wordings, which numbers, which other lettering. The best way through the
//! whole text is taken; of each wording all that could stand in its place are kept.

use super::glyph::Glyph;
use super::phrase::{Found, Target, shape};
use super::tables::Tables;
use super::way::{Item, Sort, TOUCHES, best, shares};
use pack::marks::Role;

/// A stretch of the text.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Slot {
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) what: What,
}

/// What a stretch is.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum What {
    /// One of these wordings, with their chances; what is missing to one is other lettering.
    Words(Vec<(Target, f64)>),
    /// A row of digits.
    Digits,
    /// Other lettering.
    Other,
}

/// The gain of a digit in a row: enough to prefer a row to other lettering, too little to break up a wording.
const DIGIT: f64 = 0.5;
/// What a letter in a row gains beside other lettering when it is a digit that was taken for it: the logarithm of one
/// digit in ten over one character in forty.
const TAKEN: f64 = 1.386;
/// Wordings of less gain than this are not offered at all: one in a thousand.
const LEAST: f64 = -7.0;
/// Stretches of other lettering that are a wording with less chance than this are left as they are. Basis: practice.
const WHISPER: f64 = 0.002;

/// Wordings and rows that may stand in a text, each with its share of all ways through it.
struct Ways<'a> {
    glyphs: &'a [Glyph],
    /// The wordings stand first.
    items: Vec<Item>,
    targets: Vec<Target>,
    shares: Vec<f64>,
}

/// Parts the glyphs into slots.
pub(crate) fn slots(tables: &Tables, glyphs: &[Glyph]) -> Vec<Slot> {
    let mut items: Vec<Item> = Vec::new();
    let mut targets: Vec<Target> = Vec::new();
    for (from, f) in phrases(tables, glyphs) {
        let single = f.to - from == 1;
        // One letter by itself is a word only before a number.
        let lone = single && glyphs.get(f.to).is_none_or(|g| !g.digit() && !g.lost());
        if f.gain > LEAST && !lone {
            let sort = Sort::Words { leads: tables.leads(f.target) };
            items.push(Item { from, to: f.to, gain: f.gain, sort });
            targets.push(f.target);
        }
    }
    rows(tables, glyphs, &mut items);
    misread(tables, glyphs, &mut items);
    let shares = shares(glyphs, &items);
    let ways = Ways { glyphs, items, targets, shares };
    let mut slots: Vec<Slot> = Vec::new();
    let mut at = 0;
    for item in best(glyphs, &ways.items).into_iter().map(|i| ways.items[i]) {
        let what = match item.sort {
            Sort::Other => continue,
            Sort::Words { .. } => What::Words(ways.alternatives(item.from, item.to)),
            Sort::Row if glyphs[item.from..item.to].iter().all(|g| g.one_of.is_empty()) => What::Other,
            Sort::Row => What::Digits,
        };
        ways.whisper(&mut slots, at, item.from);
        slots.push(Slot { from: item.from, to: item.to, what });
        at = item.to;
    }
    ways.whisper(&mut slots, at, glyphs.len());
    slots
}

impl Ways<'_> {
    /// All wordings that take this stretch, and at most lost characters beside it, with their chances.
    fn alternatives(&self, from: usize, to: usize) -> Vec<(Target, f64)> {
        let mut list: Vec<(Target, f64)> = Vec::new();
        let lost = |a: usize, b: usize| b - a <= 2 && self.glyphs[a..b].iter().all(|g| g.one_of.is_empty());
        // What is longer may take told letters too, as long as this is most of it.
        let covers = |i: &Item| i.from <= from && to <= i.to && 2 * (to - from) > i.to - i.from;
        let less = |i: &Item| from <= i.from && i.to <= to && lost(from, i.from) && lost(i.to, to);
        for ((item, target), share) in self.items.iter().zip(&self.targets).zip(&self.shares) {
            if !covers(item) && !less(item) {
                continue;
            }
            match list.iter_mut().find(|(t, _)| t == target) {
                Some(old) => old.1 += share,
                None => list.push((*target, *share)),
            }
        }
        let order = units::order(list.len(), &|a, b| list[b].1.total_cmp(&list[a].1));
        units::arranged(list, &order)
    }

    /// Other lettering run by run. A stretch of it that stands by itself and was not worth a wording may still be one of a
    /// few: they are offered with their small chances.
    fn whisper(&self, slots: &mut Vec<Slot>, from: usize, to: usize) {
        let apart = |at: usize| at == 0 || self.glyphs.get(at).is_none_or(Glyph::apart);
        let fits =
            |i: &Item| from <= i.from && i.to <= to && i.to - i.from > 1 && apart(i.from) && apart(i.to);
        let all = self.items.iter().zip(&self.shares).take(self.targets.len());
        let best = all.filter(|(i, share)| fits(i) && **share > WHISPER).max_by(|a, b| a.1.total_cmp(b.1));
        if let Some((item, _)) = best {
            self.whisper(slots, from, item.from);
            let what = What::Words(self.alternatives(item.from, item.to));
            slots.push(Slot { from: item.from, to: item.to, what });
            self.whisper(slots, item.to, to);
            return;
        }
        let mut at = from;
        while at < to {
            let end = (at + 1..to).find(|i| self.glyphs[*i].apart()).unwrap_or(to);
            slots.push(Slot { from: at, to: end, what: What::Other });
            at = end;
        }
    }
}

/// Every wording that may stand anywhere, with where it begins.
fn phrases(tables: &Tables, glyphs: &[Glyph]) -> Vec<(usize, Found)> {
    let mut all = Vec::new();
    let mut out: Vec<Found> = Vec::new();
    for (from, glyph) in glyphs.iter().enumerate() {
        for phrase in &tables.phrases {
            if !phrase.may_begin(glyph, &tables.alike) || !phrase.worth_a_look(glyphs, from) {
                continue;
            }
            // "23rd": a suffix always touches a number, and is none without it.
            let suffix = tables.role(phrase.target).is_some_and(|(r, _)| r == Role::Suffix);
            let before = from.checked_sub(1).filter(|_| !glyph.apart()).map(|b| &glyphs[b]);
            if suffix && before.is_none_or(Glyph::letter) {
                continue;
            }
            phrase.find(glyphs, from, &tables.alike, tables.junk, &mut out);
            // Behind a lost character it may as well be the end of a word.
            let always = match (suffix, before.is_some_and(Glyph::digit)) {
                (false, _) => 0.0,
                (true, true) => -TOUCHES,
                (true, false) => TOUCHES,
            };
            all.extend(out.drain(..).map(|f| (from, Found { gain: f.gain + always, ..f })));
        }
        for (i, mark) in tables.marks.marks.iter().enumerate() {
            for s in &mark.shapes {
                if let Some((to, gain)) = shape(s, glyphs, from, tables.junk, mark.weight) {
                    all.push((from, Found { to, gain, target: Target::Mark(i) }));
                }
            }
        }
    }
    all
}

/// Rows of digits: as long as they go, and without lost characters at their ends, which may have been gaps.
fn rows(tables: &Tables, glyphs: &[Glyph], items: &mut Vec<Item>) {
    let mut from = 0;
    while from < glyphs.len() {
        if !tables.alike.may_be_digit(&glyphs[from]) && !glyphs[from].many {
            from += 1;
            continue;
        }
        let mut to = from + 1;
        while to < glyphs.len()
            && !glyphs[to].apart()
            && (tables.alike.may_be_digit(&glyphs[to]) || glyphs[to].many)
        {
            to += 1;
        }
        let row = &glyphs[from..to];
        // A letter in it is a digit that was taken for one.
        let most = |g: &Glyph| tables.alike.digits(g).iter().copied().fold(0.0, f64::max);
        let one = |g: &Glyph| match (g.digit(), g.letter()) {
            (true, _) => DIGIT,
            (_, true) => TAKEN + libm::log(most(g)),
            _ => 0.0,
        };
        let mut offer = |a: usize, b: usize, less: f64| {
            let part = row.get(a..b).unwrap_or_default();
            if part.iter().any(Glyph::digit) {
                let gain = part.iter().map(one).sum::<f64>() + 0.02 - less;
                items.push(Item { from: from + a, to: from + b, gain, sort: Sort::Row });
            }
        };
        offer(0, row.len(), 0.0);
        // Lost characters at its ends may be no digits, and letters there may belong to a word.
        let ends: [fn(&Glyph) -> bool; 2] = [|g| g.one_of.is_empty(), Glyph::letter];
        for end in ends {
            let head = row.iter().take_while(|g| end(g)).count();
            let tail = row.iter().rev().take_while(|g| end(g)).count();
            for (a, b) in [(head, 0), (0, tail), (head, tail)] {
                if a + b > 0 && a + b < row.len() {
                    offer(a, row.len() - b, 0.01);
                }
            }
        }
        // Digits may stand by themselves between letters that look like some.
        let letters = row.iter().any(Glyph::letter);
        let mut at = 0;
        while letters && at < row.len() {
            let end = (at..row.len()).find(|i| row[*i].letter()).unwrap_or(row.len());
            if at > 0 && end < row.len() {
                offer(at, end, 0.01);
            }
            at = end + 1;
        }
        // Lost characters by themselves may be a number: "SEP ? 1876", "? 409 060".
        let apart = glyphs.get(to).is_none_or(Glyph::apart);
        let bounded = from == 0 || glyphs[from].apart();
        if row.len() <= 3 && row.iter().all(Glyph::lost) && bounded && apart {
            items.push(Item { from, to, gain: 0.0, sort: Sort::Row });
        }
        from = to;
    }
}

/// Words of other lettering in which a letter was taken for a digit: `DALM0`.
fn misread(tables: &Tables, glyphs: &[Glyph], items: &mut Vec<Item>) {
    let mut from = 0;
    while from < glyphs.len() {
        let to = (from + 1..glyphs.len()).find(|i| glyphs[*i].apart()).unwrap_or(glyphs.len());
        let run = &glyphs[from..to];
        let digits = run.iter().filter(|g| g.digit()).count();
        let letters = run.iter().filter(|g| g.letter()).count();
        let like: f64 = run.iter().filter(|g| g.digit()).map(|g| tables.alike.letter(g)).product();
        if digits > 0 && letters > digits && like > 0.0 {
            items.push(Item { from, to, gain: libm::log(like), sort: Sort::Other });
        }
        from = to;
    }
}
