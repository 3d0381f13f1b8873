//! Text to keys and values: what stands in it, before anybody asks what it means.

use super::Fault;

/// A key with its value.
#[derive(Debug)]
pub(super) struct Line {
    /// Where it begins, from 1.
    pub at: usize,
    /// In small letters.
    pub key: String,
    /// With line feeds where it goes on.
    pub value: String,
}

/// A part of the text; the first one has no name.
#[derive(Debug)]
pub(super) struct Block {
    /// Where it begins.
    pub at: usize,
    /// In small letters.
    pub name: String,
    /// What stands in it.
    pub lines: Vec<Line>,
}

/// Takes a text apart. `first` is the number of its first line.
pub(super) fn blocks(text: &str, first: usize, faults: &mut Vec<Fault>) -> Vec<Block> {
    let mut all = vec![Block { at: first, name: String::new(), lines: Vec::new() }];
    let mut open = false;
    for (at, line) in text.split('\n').enumerate() {
        let at = at + first;
        let line = line.trim();
        let mut fault = |says: &str| faults.push(Fault { line: at, says: says.to_string() });
        if let Some(rest) = line.strip_prefix('|') {
            match all.last_mut().and_then(|b| b.lines.last_mut()).filter(|_| open) {
                Some(line) => {
                    line.value.push('\n');
                    line.value.push_str(rest.trim());
                }
                None => fault("This line goes on with a value, and none stands above it."),
            }
            continue;
        }
        // Between a value and a line that goes on with it nothing may stand.
        open = false;
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        if let Some(name) = line.strip_prefix('[') {
            match name.strip_suffix(']').map(|n| n.trim().to_ascii_lowercase()).filter(|n| is_name(n)) {
                Some(name) => all.push(Block { at, name, lines: Vec::new() }),
                None => fault("A part begins with its name in square brackets, such as [mark]."),
            }
            continue;
        }
        match line.split_once(':').map(|(key, value)| (key.trim().to_ascii_lowercase(), value)) {
            Some((key, value)) if is_name(&key) => {
                let line = Line { at, key, value: value.trim().to_string() };
                if let Some(block) = all.last_mut() {
                    block.lines.push(line);
                }
                open = true;
            }
            _ => fault("A line is a key, a colon and a value."),
        }
    }
    all
}

/// What may name a key or a part.
fn is_name(text: &str) -> bool {
    let sound =
        |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || matches!(b, b' ' | b'-' | b'_' | b'.');
    (1..=60).contains(&text.len()) && text.bytes().all(sound)
}
