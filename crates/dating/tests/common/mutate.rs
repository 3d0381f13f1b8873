//! Texts that went wrong: real ones, cut, doubled, swapped and barbed.

use super::make::{Maker, Random};
use super::root;
use std::fs;

/// Pieces that are put in anywhere.
const BARBS: [&str; 36] = [
    "?",
    "*",
    "/",
    "3/8",
    "**",
    "??",
    "?/?",
    "//",
    "-",
    ".",
    ",",
    "'",
    "0",
    "9",
    "99999999",
    "O",
    "I",
    "PAT",
    "No",
    "Rd",
    "MAY",
    "D.R.G.M.",
    "diamond",
    "top",
    "class",
    "\u{202e}",
    "\u{0}",
    "é",
    "ß",
    "\u{1f525}",
    "*8",
    "?*3/8",
    "J*",
    "*E",
    "18??",
    ";",
];

/// Makes texts from those of all cases and from made ones.
pub struct Mutator<'a> {
    maker: &'a Maker<'a>,
    real: Vec<String>,
}

impl<'a> Mutator<'a> {
    pub fn new(maker: &'a Maker<'a>) -> Mutator<'a> {
        let mut real = Vec::new();
        for entry in fs::read_dir(root().join("tests/cases/marks")).expect("the cases") {
            let text = fs::read_to_string(entry.expect("an entry").path()).expect("a text");
            let rows = text.lines().filter(|l| !l.starts_with('#') && !l.is_empty()).skip(1);
            // The first cell, with the rest of the row now and then: other text that a person may paste in.
            real.extend(rows.flat_map(|l| [l.split(',').next().unwrap_or(l).to_string(), l.to_string()]));
        }
        real.retain(|t| !t.trim_matches(['"', ' ']).is_empty());
        assert!(real.len() > 200, "only {} real texts", real.len());
        real.sort();
        Mutator { maker, real }
    }

    fn text(&self, random: &mut Random) -> String {
        if random.below(2) == 0 { random.pick(&self.real).clone() } else { self.maker.lettering(random).text }
    }

    /// A text of at most so many characters.
    pub fn next(&self, random: &mut Random, most: usize) -> String {
        let mut chars: Vec<char> = self.text(random).chars().collect();
        for _ in 0..random.below(12) {
            let at = random.below(chars.len() + 1);
            let end = (at + random.below(8)).min(chars.len());
            match random.below(7) {
                0 => {
                    let barb: Vec<char> = random.pick(&BARBS).chars().collect();
                    chars.splice(at..at, barb);
                }
                1 if at < chars.len() => {
                    chars.remove(at);
                }
                2 if at < chars.len() => chars[at] = '?',
                3 if at < chars.len() => chars[at] = '*',
                4 => {
                    let part: Vec<char> = chars[at..end].to_vec();
                    chars.splice(at..at, part);
                }
                5 => chars[at..end].reverse(),
                _ => chars.extend(format!(" {}", self.text(random)).chars()),
            }
        }
        // One in four is a short piece over and over.
        if random.below(4) == 0 && !chars.is_empty() {
            let part = 1 + random.below(9.min(chars.len()));
            let from = random.below(chars.len() - part + 1);
            chars = chars[from..from + part].iter().copied().cycle().take(most).collect();
        }
        chars.into_iter().take(most).collect()
    }
}

/// Texts made to be slow or deep: everything lost, everything ambiguous, months and numbers without end; some were
/// found by climbing towards the slowest.
pub fn nasty() -> Vec<String> {
    let repeated = [
        "?",
        "*",
        "? ",
        "* ",
        "?*",
        "1/7/4/3",
        "?*3/8",
        "?*3/8 ",
        "MAY ?? ???? ",
        "M?? ?? ???? ",
        "J* * * ",
        "PAT. NO. ???????? ",
        "NO * ",
        "12?4567 ",
        "A/B/C/D",
        "P?T?P?T?",
        "*1* ",
        "*8 ",
        "1/2/3/4* ",
        "*E",
        "**E*",
        "0/O",
        "I/1/L/7",
        "RD ?*",
        "PAT*8 J*8 ",
        "1871 ",
        "D.R.?.?. ",
        "& ",
        "diamond ? ",
    ];
    let found = [
        "diamond ? ? ? ? ? ?",
        "diamond top * left * right * bottom *",
        "*'*'diamond ?*8M??'8'*'*'M?A**Y I8**''**M?A?*8'ANT**S8' *8'A*8'",
        ",*8,*,*8,/top *8,*,*8,*8*8,*8,I*8,,*,PAT *8,toI*8,9,*p ,*8,9O*88",
        "*E*E*E*E*E*E*E*E*E*E*E**E**E*E*E*E***E*EE*E*E**E*E*E*1* E*E*EPAT",
        "*E*E**E*& E*E***EE**E*E*E*EJ**E*E**E*E**E*E***E*E**E*E*E***EE*E",
        "-,*8,*,*8,/MAY top *8,*,*8,*8*8,*8,*,,I*8,*,PAT *8,toI*8,9,*p ,*",
        "PATD?// **14 JAN1868class U.S. PAT. 494098",
        "Pa?t. 2 230 **?6? PAT. NO. 148869 D.R.G.M. Nr. 1536793 Pat. 243,",
    ];
    let repeated = repeated.iter().map(|t| t.repeat(64).chars().take(64).collect());
    repeated.chain(found.iter().map(|t| (*t).to_string())).collect()
}
