//! Series: pieces of one kind and maker that wear numbers, and which numbers between are missing.

use super::words::folded;
use crate::order::sorted;
use crate::record::Record;

/// The greatest number that counts as a size of a series.
const GREATEST: u32 = 40;

/// Pieces that belong together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Series {
    /// Kind and maker, as the first of them has it.
    pub name: String,
    /// The numbers that are there, each with the places of its pieces.
    pub have: Vec<(u32, Vec<usize>)>,
    /// The numbers between the least and the greatest that are not there. Whether they were ever made is not known here.
    pub lack: Vec<u32>,
}

/// The series among records, by name. Two numbers make one.
#[must_use]
pub fn series(records: &[&Record]) -> Vec<Series> {
    let mut pieces: Vec<(String, u32, usize)> = Vec::new();
    for (at, record) in records.iter().enumerate().filter(|(_, r)| !r.kind.is_empty()) {
        if let Some(number) = number(record) {
            pieces.push((folded(&name(record)), number, at));
        }
    }
    let mut out = Vec::new();
    for one in sorted(pieces).chunk_by(|a, b| a.0 == b.0) {
        let have: Vec<(u32, Vec<usize>)> = one
            .chunk_by(|a, b| a.1 == b.1)
            .map(|same| (same[0].1, same.iter().map(|(_, _, at)| *at).collect()))
            .collect();
        let (least, greatest) = (one[0].1, one[one.len() - 1].1);
        if have.len() > 1 {
            let lack = (least..greatest).filter(|n| have.iter().all(|(h, _)| h != n)).collect();
            out.push(Series { name: name(records[one[0].2]), have, lack });
        }
    }
    out
}

fn name(record: &Record) -> String {
    if record.maker.is_empty() { record.kind.clone() } else { format!("{}, {}", record.kind, record.maker) }
}

/// The number of a piece: of the first mark that is a small number, alone or behind `No`, `Nr` or `#`.
fn number(record: &Record) -> Option<u32> {
    record.marks.iter().find_map(|mark| {
        let text = folded(&mark.text);
        let bare =
            ["no.", "no", "nr.", "nr", "#"].iter().find_map(|w| text.strip_prefix(w)).unwrap_or(&text).trim();
        let small = bare.len() <= 2 && bare.bytes().all(|b| b.is_ascii_digit());
        bare.parse().ok().filter(|n| small && (1..=GREATEST).contains(n))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Mark;

    #[test]
    fn sizes_that_are_there_and_lacking() {
        // Invented pieces.
        let piece = |kind: &str, mark: &str| Record {
            kind: kind.to_string(),
            marks: vec![Mark { text: mark.to_string(), ..Mark::default() }],
            ..Record::default()
        };
        let all = [
            piece("Swan", "No 4"),
            piece("swan", "1"),
            piece("Swan", "NO. 4"),
            piece("Swan", "1890"),
            piece("Box", "2"),
            piece("", "3"),
            piece("Swan", "2 3"),
        ];
        let all: Vec<&Record> = all.iter().collect();
        let want =
            Series { name: "swan".to_string(), have: vec![(1, vec![1]), (4, vec![0, 2])], lack: vec![2, 3] };
        assert_eq!(series(&all), [want]);
    }
}
