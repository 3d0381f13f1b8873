//! Blocks as text, there and back: what another program of the site has to say on a page of the guide. Only blocks of words,
//! and no address: whatever stands in them, nothing in them leads anywhere.
//!
//! A line for each block, its first sign says which; parts stand between U+001F. A section is a line at its beginning and one
//! at its end.

use super::sheet::{Block, Line, Tone};

const BETWEEN: char = '\u{1f}';
/// How deep sections may stand in each other.
const DEEPEST: usize = 4;
const TONES: [Tone; 6] = [Tone::Plain, Tone::Hint, Tone::Small, Tone::Care, Tone::Check, Tone::Ask];

/// The text for some blocks; those that are not of words are left out.
#[must_use]
pub fn written(blocks: &[Block]) -> String {
    let mut out = String::new();
    write(blocks, &mut out);
    out
}

fn write(blocks: &[Block], out: &mut String) {
    for block in blocks {
        match block {
            Block::Text(tone, line) => {
                let tone = TONES.iter().position(|t| t == tone).unwrap_or(0);
                put(out, 'T', &[&tone.to_string(), &line.strong, &line.says]);
            }
            Block::Section(title, boxed, inside) => {
                put(out, '(', &[title, if *boxed { "1" } else { "0" }]);
                write(inside, out);
                put(out, ')', &[]);
            }
            Block::Rows(rows) => pairs(out, 'R', rows),
            Block::Shares(rows) => pairs(out, 'H', rows),
            Block::Lines(lines) => {
                let parts: Vec<&str> = lines.iter().flat_map(|l| [l.strong.as_str(), &l.says]).collect();
                put(out, 'L', &parts);
            }
            _ => {}
        }
    }
}

fn pairs(out: &mut String, sort: char, rows: &[(String, String)]) {
    let parts: Vec<&str> = rows.iter().flat_map(|r| [r.0.as_str(), &r.1]).collect();
    put(out, sort, &parts);
}

fn put(out: &mut String, sort: char, parts: &[&str]) {
    out.push(sort);
    for part in parts {
        out.push(BETWEEN);
        out.extend(part.chars().map(|c| if c.is_control() { ' ' } else { c }));
    }
    out.push('\n');
}

/// The blocks of a text; what cannot be read is left out.
#[must_use]
pub fn read(text: &str) -> Vec<Block> {
    let mut open: Vec<(String, bool, Vec<Block>)> = Vec::new();
    let mut blocks = Vec::new();
    for line in text.split('\n') {
        let mut parts = line.split(BETWEEN);
        let sort = parts.next().unwrap_or_default();
        let rest: Vec<&str> = parts.collect();
        let part = |at: usize| rest.get(at).copied().unwrap_or_default();
        let both = || -> Vec<(String, String)> {
            rest.chunks_exact(2).map(|two| (two[0].to_string(), two[1].to_string())).collect()
        };
        let block = match sort {
            "T" => {
                let tone = part(0).parse().ok().and_then(|at: usize| TONES.get(at).copied());
                let line = Line { to: String::new(), strong: part(1).to_string(), says: part(2).to_string() };
                Block::Text(tone.unwrap_or(Tone::Plain), line)
            }
            "R" => Block::Rows(both()),
            "H" => Block::Shares(both()),
            "L" => {
                let line = |(strong, says)| Line { to: String::new(), strong, says };
                Block::Lines(both().into_iter().map(line).collect())
            }
            "(" if open.len() < DEEPEST => {
                open.push((part(0).to_string(), part(1) == "1", core::mem::take(&mut blocks)));
                continue;
            }
            ")" => match open.pop() {
                Some((title, boxed, before)) => {
                    let inside = core::mem::replace(&mut blocks, before);
                    Block::Section(title, boxed, inside)
                }
                None => continue,
            },
            _ => continue,
        };
        blocks.push(block);
    }
    // Sections that were never closed end here.
    while let Some((title, boxed, before)) = open.pop() {
        let inside = core::mem::replace(&mut blocks, before);
        blocks.push(Block::Section(title, boxed, inside));
    }
    blocks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blocks_come_back_and_addresses_do_not() {
        let line = |to: &str, strong: &str, says: &str| Line {
            to: to.to_string(),
            strong: strong.to_string(),
            says: says.to_string(),
        };
        let pair = |a: &str, b: &str| (a.to_string(), b.to_string());
        let blocks = |to| {
            vec![
                Block::Text(Tone::Care, line(to, "Row 3: ", "<b>plain</b>")),
                Block::Section("kinds.csv".to_string(), true, vec![Block::Lines(vec![line(to, "a", "b")])]),
                Block::Rows(vec![pair("Name", "Spoons"), pair("", "")]),
                Block::Shares(vec![pair("From memory", "12")]),
            ]
        };
        assert_eq!(read(&written(&blocks("https://elsewhere.example/"))), blocks(""));
        let broken = vec![Block::Text(Tone::Plain, line("", "a\u{1f}b", "c\nT\u{1f}0"))];
        let back = read(&written(&broken));
        assert_eq!(back, vec![Block::Text(Tone::Plain, line("", "a b", "c T 0"))]);
    }

    #[test]
    fn any_text_is_read_without_trouble() {
        for text in ["", ")", ")\n)\n(", "T", "T\u{1f}9\u{1f}", &"(\n".repeat(100), "L\u{1f}odd\nX\u{1f}y"] {
            let read = read(text);
            assert!(read.len() <= 2, "{text:?}");
        }
    }
}
