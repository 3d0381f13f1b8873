//! Tables of known things: their class, the number of the fold, what each shows.

use anyhow::{Context, Result, ensure};
use reason::Random;
use std::path::Path;

/// A character of the things.
#[derive(Debug, Clone, PartialEq)]
pub enum Character {
    /// One of so many states.
    States(usize),
    /// A number between these two.
    Number(f64, f64),
}

/// What a thing shows: the state's index or the number; not a number where it is unknown.
pub type Row = Vec<f64>;

/// A table of things.
#[derive(Debug, Clone)]
pub struct Data {
    /// Its name.
    pub name: String,
    /// Number of classes.
    pub classes: usize,
    /// Class of each thing.
    pub class_of: Vec<usize>,
    /// The fold in which each thing is held out.
    pub fold_of: Vec<usize>,
    /// The characters.
    pub characters: Vec<Character>,
    /// What each thing shows.
    pub rows: Vec<Row>,
}

impl Data {
    /// Reads `class,fold,c:...,n:...`: `c:` columns hold words, `n:` columns numbers, empty cells are unknown.
    ///
    /// # Errors
    /// When the file is missing or not of this shape.
    pub fn read(folder: &Path, name: &str) -> Result<Data> {
        let path = folder.join(format!("{name}.csv"));
        let mut reader =
            csv::Reader::from_path(&path).with_context(|| format!("Cannot read {}.", path.display()))?;
        let head: Vec<String> = reader.headers()?.iter().map(str::to_owned).collect();
        ensure!(head.len() > 2, "{name} has no characters.");
        let lines = reader.records().collect::<Result<Vec<_>, _>>()?;
        let column = |c: usize| -> Vec<&str> { lines.iter().map(|l| l.get(c).unwrap_or("")).collect() };
        let classes = words(&column(0));
        let mut rows: Vec<Row> = vec![Vec::new(); lines.len()];
        let mut characters = Vec::new();
        for (c, title) in head.iter().enumerate().skip(2) {
            let cells = column(c);
            let known = words(&cells);
            let value = |cell: &str| -> Result<f64> {
                Ok(match (cell, title.starts_with("n:")) {
                    ("", _) => f64::NAN,
                    (number, true) => number.parse()?,
                    (word, false) => known.iter().position(|k| k == word).context("a known word")? as f64,
                })
            };
            let values = cells.iter().map(|c| value(c)).collect::<Result<Vec<f64>>>()?;
            let (low, high) = span(&values);
            characters.push(if title.starts_with("n:") {
                Character::Number(low, high)
            } else {
                Character::States(known.len())
            });
            rows.iter_mut().zip(values).for_each(|(row, v)| row.push(v));
        }
        Ok(Data {
            name: name.to_owned(),
            classes: classes.len(),
            class_of: column(0).iter().filter_map(|w| classes.iter().position(|c| c == w)).collect(),
            fold_of: column(1).iter().map(|f| f.parse()).collect::<Result<_, _>>()?,
            characters,
            rows,
        })
    }

    /// The same table with "unknown" as one more state wherever it occurs among the states of a character: what cannot be
    /// seen of a thing often tells of its class. Numbers stay unknown.
    #[must_use]
    pub fn with_unknown_as_state(&self) -> Data {
        let mut whole = self.clone();
        for (c, character) in self.characters.iter().enumerate() {
            if let Character::States(k) = character
                && self.rows.iter().any(|r| r[c].is_nan())
            {
                whole.characters[c] = Character::States(k + 1);
            }
        }
        whole.rows = self.rows.iter().map(|r| self.told_unknown(r)).collect();
        whole
    }

    /// A row of this table as a row of the one with "unknown" as a state.
    #[must_use]
    pub fn told_unknown(&self, row: &Row) -> Row {
        let told = |(value, character): (&f64, &Character)| match character {
            Character::States(k) if value.is_nan() => *k as f64,
            _ => *value,
        };
        row.iter().zip(&self.characters).map(told).collect()
    }

    /// Number of folds.
    #[must_use]
    pub fn folds(&self) -> usize {
        self.fold_of.iter().max().map_or(0, |f| f + 1)
    }

    /// The row with a share of its answers wrong: another state, each as likely, or a number from anywhere in the range.
    pub fn misread(&self, row: &Row, share: f64, random: &mut Random) -> Row {
        let wrong = |(value, character): (&f64, &Character)| {
            if value.is_nan() || random.unit() >= share {
                return *value;
            }
            match character {
                Character::States(k) if *k > 1 => ((*value as usize + 1 + random.below(k - 1)) % k) as f64,
                Character::States(_) => *value,
                Character::Number(low, high) => low + random.unit() * (high - low),
            }
        };
        row.iter().zip(&self.characters).map(wrong).collect()
    }
}

fn span(values: &[f64]) -> (f64, f64) {
    let present = values.iter().filter(|v| !v.is_nan());
    present.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(*v), high.max(*v)))
}

/// The different words of a column, in alphabetical order; unknown is none.
fn words(cells: &[&str]) -> Vec<String> {
    let mut words: Vec<String> = cells.iter().filter(|c| !c.is_empty()).map(|c| (*c).to_owned()).collect();
    words.sort();
    words.dedup();
    words
}
