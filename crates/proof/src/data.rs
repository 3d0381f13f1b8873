//! Open data as pieces: a kind and a value for each question.

use anyhow::{Context, Result};
use std::path::Path;

/// What a piece shows at one question.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Value {
    /// One of the states, by index.
    State(usize),
    /// A measure.
    Number(f64),
    /// The data do not say.
    Missing,
}

/// One question of a set.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its name in the data.
    pub name: String,
    /// The texts of its states in order of the alphabet; none for a measure.
    pub states: Vec<String>,
}

/// One piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Index of its kind.
    pub kind: usize,
    /// A value for each question.
    pub values: Vec<Value>,
}

/// A data set.
#[derive(Debug, Clone)]
pub struct Set {
    /// Its name.
    pub name: String,
    /// Names of the kinds in order of the alphabet.
    pub kinds: Vec<String>,
    /// The questions.
    pub columns: Vec<Column>,
    /// The pieces.
    pub pieces: Vec<Piece>,
}

impl Set {
    /// Reads `name`.csv of a folder: first column the kind, empty = missing, `measures` the columns that hold numbers.
    ///
    /// # Errors
    /// When the file cannot be read, or a measure is no number.
    pub fn read(folder: &Path, name: &str, measures: &[&str]) -> Result<Set> {
        let path = folder.join(format!("{name}.csv"));
        let mut reader =
            csv::Reader::from_path(&path).with_context(|| format!("Cannot read {}.", path.display()))?;
        let header = reader.headers()?.clone();
        let lines: Vec<csv::StringRecord> = reader.records().collect::<Result<_, _>>()?;
        let texts = |at: usize| {
            let mut all: Vec<String> = lines.iter().map(|l| l[at].to_owned()).filter(|t| !t.is_empty()).collect();
            all.sort();
            all.dedup();
            all
        };
        let kinds = texts(0);
        let columns: Vec<Column> = (1..header.len())
            .map(|at| Column {
                name: header[at].to_owned(),
                states: if measures.contains(&&header[at]) { Vec::new() } else { texts(at) },
            })
            .collect();
        let value = |text: &str, column: &Column| -> Result<Value> {
            if text.is_empty() {
                return Ok(Value::Missing);
            }
            match column.states.iter().position(|s| s == text) {
                Some(state) => Ok(Value::State(state)),
                None => {
                    Ok(Value::Number(text.parse().with_context(|| format!("{}: {text:?}", column.name))?))
                }
            }
        };
        let pieces = lines
            .iter()
            .map(|line| {
                let values = line.iter().skip(1).zip(&columns).map(|(t, c)| value(t, c));
                let kind = kinds.iter().position(|k| *k == line[0]).unwrap_or(0);
                Ok(Piece { kind, values: values.collect::<Result<_>>()? })
            })
            .collect::<Result<_>>()?;
        Ok(Set { name: name.to_owned(), kinds, columns, pieces })
    }

    /// Smallest and largest number of a measure; 0 and 0 for a question by choice.
    #[must_use]
    pub fn range(&self, column: usize) -> (f64, f64) {
        let numbers = self.pieces.iter().filter_map(|p| match p.values[column] {
            Value::Number(x) => Some(x),
            _ => None,
        });
        numbers
            .fold(None, |ends, x| Some(ends.map_or((x, x), |(a, b): (f64, f64)| (a.min(x), b.max(x)))))
            .unwrap_or_default()
    }
}
