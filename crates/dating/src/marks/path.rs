//! From glyphs to slots: which stretches are wordings, which numbers, which other lettering. The best way through the
//! whole text is taken; of each wording all that could stand in its place are kept.

use super::glyph::Glyph;
use super::phrase::{Found, Target, shape};
use super::tables::Tables;

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
/// A letter must look this much like a digit where no more digits than letters stand. Basis: memory.
const LIKE_A_DIGIT: f64 = 0.008;
/// A number that touches a letter without a gap: one in ten is typed so. What has both is rather one word, or one number,
/// with a character taken for another: `N0`, `PAT0`. Basis: memory.
const TOUCHES: f64 = -2.3;
/// A lost character that touches a digit is a digit as a rule. Basis: memory.
const BESIDE_LOST: f64 = -1.4;
/// Wordings of less gain than this are not offered at all: one in a hundred.
const LEAST_WHISPER: f64 = -4.6;
/// What it costs an alternative to leave a lost character beside it that the widest one explains. Basis: memory.
const LEFT: f64 = -1.5;
/// Wordings this much less likely than the best in their place are left out.
const FAR: f64 = 9.0;

/// A piece that the way may be made of.
struct Item {
    from: usize,
    to: usize,
    gain: f64,
    words: bool,
}

/// Parts the glyphs into slots.
pub(crate) fn slots(tables: &Tables, glyphs: &[Glyph]) -> Vec<Slot> {
    let found = phrases(tables, glyphs);
    let mut items: Vec<Item> = Vec::new();
    for (from, f) in &found {
        let single = f.to - from == 1;
        // One letter by itself is a word only before a number.
        let lone = single && glyphs.get(f.to).is_none_or(|g| !g.digit() && !g.lost());
        if f.gain > 0.0 && !lone {
            items.push(Item { from: *from, to: f.to, gain: f.gain, words: true });
        }
    }
    rows(tables, glyphs, &mut items);
    let way = best(glyphs, &items);
    let mut slots: Vec<Slot> = Vec::new();
    let mut at = 0;
    for i in way {
        let item = &items[i];
        other(&mut slots, at, item.from);
        let what = if item.words {
            What::Words(alternatives(&found, glyphs, item.from, item.to))
        } else {
            What::Digits
        };
        slots.push(Slot { from: item.from, to: item.to, what });
        at = item.to;
    }
    other(&mut slots, at, glyphs.len());
    whisper(&mut slots, glyphs, &found);
    slots
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
            phrase.find(glyphs, from, &tables.alike, tables.junk, &mut out);
            all.extend(out.drain(..).map(|f| (from, f)));
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
        let digits = row.iter().filter(|g| g.digit()).count();
        let letters = row.iter().filter(|g| g.letter()).count();
        let bounded = glyphs[from].apart() || from == 0;
        // As many letters as digits only where each looks much like a digit.
        let like = |g: &Glyph| !g.letter() || tables.alike.digits(g).iter().any(|p| *p >= LIKE_A_DIGIT);
        let even = digits > 0 && digits == letters && bounded && row.iter().all(like);
        // Three characters behind a comma and a digit are thousands.
        let thousand = from > 0 && row.len() == 3 && [",", "."].contains(&glyphs[from].gap.as_str());
        let thousand = thousand && glyphs[from - 1].digit() && digits > 0 && row.iter().all(like);
        if digits > letters || even || thousand {
            let gain = DIGIT * digits as f64 + 0.02;
            items.push(Item { from, to, gain, words: false });
            let lost = |g: &&Glyph| g.one_of.is_empty();
            let head = row.iter().take_while(lost).count();
            let tail = row.iter().rev().take_while(lost).count();
            for (a, b) in [(head, 0), (0, tail), (head, tail)] {
                if a + b > 0 && a + b < row.len() {
                    items.push(Item { from: from + a, to: to - b, gain: gain - 0.01, words: false });
                }
            }
            // Letters at the ends that only look like digits may belong to a word.
            let letter = |g: &&Glyph| g.letter();
            let head = row.iter().take_while(letter).count();
            let tail = row.iter().rev().take_while(letter).count();
            if head + tail > 0 && head + tail < row.len() {
                items.push(Item { from: from + head, to: to - tail, gain: gain - 0.01, words: false });
            }
        } else if digits > 0 {
            // Mostly letters: the digits in it stand by themselves.
            let mut at = from;
            while at < to {
                let end = (at..to).find(|i| !glyphs[*i].digit()).unwrap_or(to);
                if end > at {
                    items.push(Item { from: at, to: end, gain: DIGIT * (end - at) as f64, words: false });
                }
                at = end.max(at) + 1;
            }
        }
        from = to;
    }
}

/// The items of the best way, in order.
fn best(glyphs: &[Glyph], items: &[Item]) -> Vec<usize> {
    let n = glyphs.len();
    // What it costs to part the text before a place.
    let cut = |at: usize| {
        if at == 0 || at == n || glyphs[at].apart() {
            return 0.0;
        }
        let (a, b) = (&glyphs[at - 1], &glyphs[at]);
        match (a.digit(), b.digit()) {
            (true, false) | (false, true) if a.letter() || b.letter() => TOUCHES,
            (true, false) | (false, true) => BESIDE_LOST,
            _ => 0.0,
        }
    };
    // From each place on: the gain, and the item that begins there.
    let mut gain = vec![0.0; n + 1];
    let mut take: Vec<Option<usize>> = vec![None; n + 1];
    let mut by_start: Vec<Vec<usize>> = vec![Vec::new(); n + 1];
    for (i, item) in items.iter().enumerate() {
        by_start[item.from].push(i);
    }
    for at in (0..n).rev() {
        gain[at] = gain[at + 1] + cut(at + 1);
        for i in &by_start[at] {
            let item = &items[*i];
            let total = item.gain + gain[item.to] + cut(item.to);
            if total > gain[at] {
                (gain[at], take[at]) = (total, Some(*i));
            }
        }
    }
    let (mut way, mut at) = (Vec::new(), 0);
    while at < n {
        match take[at] {
            Some(i) => {
                way.push(i);
                at = items[i].to;
            }
            None => at += 1,
        }
    }
    way
}

/// All wordings that take this stretch, and at most lost characters beside it, with their chances.
fn alternatives(found: &[(usize, Found)], glyphs: &[Glyph], from: usize, to: usize) -> Vec<(Target, f64)> {
    let mut list: Vec<(Target, f64)> = Vec::new();
    let lost = |a: usize, b: usize| b - a <= 2 && glyphs[a..b].iter().all(|g| g.one_of.is_empty());
    let covers =
        |(start, f): &&(usize, Found)| *start <= from && to <= f.to && lost(*start, from) && lost(to, f.to);
    let widest = found.iter().filter(covers).map(|(start, f)| f.to - start).max().unwrap_or(to - from);
    for (start, f) in found.iter().filter(covers) {
        let gain = f.gain + LEFT * (widest - (f.to - start)) as f64;
        match list.iter_mut().find(|(t, _)| *t == f.target) {
            Some(old) => old.1 = old.1.max(gain),
            None => list.push((f.target, gain)),
        }
    }
    let most = list.iter().map(|(_, g)| *g).fold(f64::NEG_INFINITY, f64::max);
    list.retain(|(_, g)| *g > most - FAR);
    // Other lettering gains nothing: its weight is one.
    let top = most.max(0.0);
    let total: f64 = libm::exp(-top) + list.iter().map(|(_, g)| libm::exp(g - top)).sum::<f64>();
    list.iter_mut().for_each(|(_, g)| *g = libm::exp(*g - top) / total);
    let order = units::order(list.len(), &|a, b| list[b].1.total_cmp(&list[a].1));
    units::arranged(list, &order)
}

fn other(slots: &mut Vec<Slot>, from: usize, to: usize) {
    if from < to {
        slots.push(Slot { from, to, what: What::Other });
    }
}

/// Other lettering run by run. A stretch of it that stands by itself and was not worth a wording may still be one of a
/// few: they are offered with their small chances.
fn whisper(slots: &mut Vec<Slot>, glyphs: &[Glyph], found: &[(usize, Found)]) {
    let mut list: Vec<Slot> = Vec::new();
    for slot in slots.drain(..) {
        if slot.what == What::Other {
            stretch(&mut list, glyphs, found, slot.from, slot.to);
        } else {
            list.push(slot);
        }
    }
    *slots = list;
}

fn stretch(list: &mut Vec<Slot>, glyphs: &[Glyph], found: &[(usize, Found)], from: usize, to: usize) {
    let apart = |at: usize| at == 0 || glyphs.get(at).is_none_or(Glyph::apart);
    let fits = |(start, f): &&(usize, Found)| {
        from <= *start && f.to <= to && f.to - start > 1 && apart(*start) && apart(f.to) && f.gain > LEAST_WHISPER
    };
    let best = found.iter().filter(fits).max_by(|a, b| a.1.gain.total_cmp(&b.1.gain));
    if let Some((start, f)) = best {
        stretch(list, glyphs, found, from, *start);
        let what = What::Words(alternatives(found, glyphs, *start, f.to));
        list.push(Slot { from: *start, to: f.to, what });
        stretch(list, glyphs, found, f.to, to);
        return;
    }
    let mut at = from;
    while at < to {
        let end = (at + 1..to).find(|i| glyphs[*i].apart()).unwrap_or(to);
        list.push(Slot { from: at, to: end, what: What::Other });
        at = end;
    }
}
