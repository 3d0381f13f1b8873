//! Cells: values of a file as a person reads and types them in a spreadsheet.
//!
//! An empty cell is a field that is not there; an empty text is `""`. Before a text that a spreadsheet would take for a
//! formula stands an apostrophe, which is taken away again.

use super::write;
use crate::shape::Sort;
use toml::de::DeValue;

/// Texts that begin so would be reckoned out by a spreadsheet, or be changed by the rule itself.
const GUARDED: [char; 5] = ['=', '+', '-', '@', '\''];
/// How an empty text is written.
const EMPTY: &str = "\"\"";

fn guarded(text: &str) -> String {
    if text.is_empty() {
        EMPTY.to_string()
    } else if text.starts_with(GUARDED) || text == EMPTY {
        format!("'{text}")
    } else {
        text.to_string()
    }
}

fn bare(cell: &str) -> &str {
    if cell == EMPTY { "" } else { cell.strip_prefix('\'').unwrap_or(cell) }
}

/// The cell for a value; none when it is not of this sort.
pub(super) fn of(value: &DeValue<'_>, sort: Sort) -> Option<String> {
    let list = |between: &str, one: &dyn Fn(&DeValue<'_>) -> Option<String>| {
        let cells: Option<Vec<String>> = value.as_array()?.iter().map(|v| one(v.get_ref())).collect();
        let joined = cells?.join(between);
        Some(if joined.is_empty() { EMPTY.to_string() } else { joined })
    };
    let text = |v: &DeValue<'_>| v.as_str().map(String::from);
    match sort {
        Sort::Number(..) | Sort::Whole(..) => number(value),
        Sort::Flag => value.as_bool().map(|b| b.to_string()),
        Sort::Date => match value {
            DeValue::Datetime(d) => Some(d.to_string()),
            other => other.as_str().map(guarded),
        },
        Sort::Names(_) => list(", ", &|v| text(v).filter(|t| !t.contains([',', ';', '\n']))),
        Sort::Sentences => list("\n", &|v| text(v).filter(|t| !t.contains('\n') && !t.is_empty()))
            .map(|t| if t == EMPTY { t } else { guarded(&t) }),
        Sort::Numbers(_) => list(" ", &number),
        _ => value.as_str().map(|t| guarded(t.trim_matches('\n'))),
    }
}

fn number(value: &DeValue<'_>) -> Option<String> {
    match value {
        DeValue::Integer(i) if i.radix() == 10 => Some(i.as_str().to_string()),
        DeValue::Integer(i) => i64::from_str_radix(i.as_str(), i.radix()).ok().map(|n| n.to_string()),
        DeValue::Float(f) => Some(f.as_str().to_string()),
        _ => None,
    }
}

/// The value of a cell as it stands in a file.
pub(super) fn back(cell: &str, sort: Sort) -> String {
    let cell = cell.trim();
    match sort {
        Sort::Number(..) | Sort::Whole(..) => figure(cell),
        Sort::Flag => match cell.to_ascii_lowercase().as_str() {
            "true" | "yes" | "1" => "true".to_string(),
            "false" | "no" | "0" => "false".to_string(),
            _ => write::text(bare(cell)),
        },
        Sort::Names(_) => names(cell),
        Sort::Sentences => {
            let lines = bare(cell).lines().map(str::trim).filter(|l| !l.is_empty());
            format!("[{}]", lines.map(write::text).collect::<Vec<_>>().join(", "))
        }
        Sort::Numbers(_) if cell == EMPTY => "[]".to_string(),
        Sort::Numbers(_) => {
            let parts = cell.split([' ', ';', '\n', '|']).filter(|p| !p.is_empty());
            format!("[{}]", parts.map(figure).collect::<Vec<_>>().join(", "))
        }
        _ => write::text(bare(cell)),
    }
}

fn names(cell: &str) -> String {
    let cell = bare(cell);
    let parts = cell.split([',', ';', '\n']).map(str::trim).filter(|p| !p.is_empty());
    format!("[{}]", parts.map(write::text).collect::<Vec<_>>().join(", "))
}

/// A number as TOML writes it: a comma before decimals becomes a point. What is no number becomes a text, which the
/// reader of the file refuses with its place.
fn figure(cell: &str) -> String {
    let point = if cell.matches(',').count() == 1 && !cell.contains('.') {
        cell.replace(',', ".")
    } else {
        cell.to_string()
    };
    let digits = point.strip_prefix('-').unwrap_or(&point);
    let sound = |part: &str| !part.is_empty() && part.len() <= 18 && part.bytes().all(|b| b.is_ascii_digit());
    let whole = |part: &str| sound(part) && (part == "0" || !part.starts_with('0'));
    let is_number = match digits.split_once('.') {
        Some((a, b)) => whole(a) && sound(b),
        None => whole(digits),
    };
    if is_number { point } else { write::text(cell) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_people_type_them() {
        for (cell, toml) in
            [("0,40", "0.40"), ("12", "12"), ("1e9", "\"1e9\""), ("nan", "\"nan\""), ("07", "\"07\"")]
        {
            assert_eq!(back(cell, Sort::Number(0, 100)), toml, "{cell}");
        }
    }

    #[test]
    fn formulas_are_texts() {
        for text in ["=1+1", "-x", "'a", "", "\"\"", "plain"] {
            let cell = guarded(text);
            assert!(!cell.starts_with(['=', '-', '+', '@']) && !cell.is_empty());
            assert_eq!(bare(&cell), text);
        }
    }
}
