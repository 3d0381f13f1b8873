//! What the tests share: the project's own table of metals, by way of its bytes, rows of cases, and seeded numbers.

use compile::{Files, Reference};
use measure::{FineLength, Instrument, Pair, Reading};
use pack::metals::{Metal, Metals, read_metals};
use std::fs;
use std::path::{Path, PathBuf};

/// The root of the project.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The text of `data/reference/metals.toml`.
pub(crate) fn text() -> String {
    fs::read_to_string(root().join("data/reference/metals.toml")).expect("the table of metals")
}

/// The bytes of a table compiled from a text, or its faults as lines.
pub(crate) fn compiled(text: String) -> Result<Vec<u8>, Vec<String>> {
    let found = Reference::metals(&Files::new(vec![("metals.toml".to_string(), text)]));
    found.map(|t| t.bytes).map_err(|all| all.iter().map(ToString::to_string).collect())
}

/// The project's own table.
pub(crate) fn table() -> Metals {
    read_metals(&compiled(text()).expect("a table without faults")).expect("bytes that can be read")
}

/// The metal of this id.
pub(crate) fn metal<'a>(table: &'a Metals, id: &str) -> &'a Metal {
    table.metals.iter().find(|m| m.id == id).expect(id)
}

/// The rows of a table of cases, without the one that names the columns: cells stand between commas, the last one may hold
/// some.
pub(crate) fn rows(path: &str, columns: usize) -> Vec<Vec<String>> {
    let text = fs::read_to_string(root().join("tests").join(path)).expect(path);
    let lines = text.lines().filter(|l| !l.starts_with('#') && !l.trim().is_empty());
    lines.skip(1).map(|l| l.splitn(columns, ',').map(|c| c.trim().to_string()).collect()).collect()
}

/// A length in hundredths of a millimetre by some instrument.
pub(crate) fn reading(hundredths: u32, by: Instrument) -> Reading {
    Reading { length: FineLength(hundredths), by }
}

/// A pair by calipers, not worked, across the draw.
pub(crate) fn pair(piece: u32, reference: u32) -> Pair {
    Pair {
        piece: reading(piece, Instrument::Calipers),
        reference: reading(reference, Instrument::Calipers),
        worked: false,
        along_draw: false,
    }
}

/// Pairs such as `7430/7500 4158/4200a`: hundredths of a millimetre, `a` for along the draw, `w` for worked, `r` and `R` for a
/// ruler on the piece and on the reference.
pub(crate) fn pairs(text: &str) -> Vec<Pair> {
    let one = |word: &str| {
        let (lengths, signs) = word.split_at(word.find(|c: char| c.is_alphabetic()).unwrap_or(word.len()));
        let (piece, reference) = lengths.split_once('/').expect(word);
        let mut pair = pair(piece.parse().expect(word), reference.parse().expect(word));
        assert!(signs.chars().all(|sign| "awrRe".contains(sign)), "{word}");
        let has = |sign: char| signs.contains(sign);
        (pair.along_draw, pair.worked) = (has('a'), has('w'));
        if has('r') || has('e') {
            pair.piece.by = if has('r') { Instrument::Ruler } else { Instrument::ByEye };
        }
        if has('R') {
            pair.reference.by = Instrument::Ruler;
        }
        pair
    };
    text.split_whitespace().map(one).collect()
}

/// Uniform 64 bits by `SplitMix64` (published: Steele, Lea and Flood, OOPSLA 2014, figure 17).
#[derive(Debug, Clone)]
pub(crate) struct Random(pub u64);

impl Random {
    pub(crate) fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Anywhere in -1 to 1.
    pub(crate) fn within(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
    }

    /// Standard normal, by the polar method (published: Marsaglia and Bray, SIAM Review 6, 1964).
    pub(crate) fn normal(&mut self) -> f64 {
        loop {
            let (a, b) = (self.within(), self.within());
            let s = a * a + b * b;
            if s > 0.0 && s < 1.0 {
                return a * (-2.0 * libm::log(s) / s).sqrt();
            }
        }
    }
}

/// Mean and standard deviation.
pub(crate) fn spread(values: &[f64]) -> (f64, f64) {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
    (mean, (squares / (n - 1.0)).sqrt())
}
