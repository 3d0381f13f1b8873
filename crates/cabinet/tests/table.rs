//! Tables: out, through a spreadsheet's habits, in again.

use crate::common::Random;
use crate::common::make::sound;
use cabinet::csv::{COLUMNS, Table, Taken, guess, head, row, take};
use cabinet::record::{Date, Record, Uuid, Value};
use proptest::prelude::*;

const TODAY: Date = Date { year: 2299, month: 12, day: 31 };

/// How a spreadsheet may write a table again.
#[derive(Debug, Clone, Copy)]
struct Habit {
    separator: &'static str,
    line_end: &'static str,
    mark: &'static str,
    decimal_comma: bool,
    all_quoted: bool,
}

const HABITS: [Habit; 4] = [
    Habit { separator: ",", line_end: "\r\n", mark: "\u{feff}", decimal_comma: false, all_quoted: false },
    Habit { separator: ";", line_end: "\n", mark: "", decimal_comma: true, all_quoted: false },
    Habit { separator: "\t", line_end: "\r", mark: "", decimal_comma: true, all_quoted: true },
    Habit { separator: ";", line_end: "\r\n", mark: "sep=;\r\n", decimal_comma: false, all_quoted: true },
];

fn again(table: &Table, habit: Habit) -> String {
    let numbers = ["length mm", "weight g", "price paid", "price received", "value low", "value high"];
    let mut out = habit.mark.to_string();
    let rows = [&table.heads].into_iter().chain(table.rows.iter().map(|(_, cells)| cells));
    for cells in rows {
        let cells: Vec<String> = cells
            .iter()
            .zip(&table.heads)
            .map(|(cell, head)| {
                let comma = habit.decimal_comma && numbers.contains(&head.as_str());
                let cell = if comma { cell.replace('.', ",") } else { cell.clone() };
                let must = habit.all_quoted || cell.contains([',', ';', '\t', '"', '\n', '\r']);
                if must { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell }
            })
            .collect();
        out.push_str(&cells.join(habit.separator));
        out.push_str(habit.line_end);
    }
    out
}

fn written(records: &[(Uuid, Record)]) -> String {
    let rows: String = records.iter().map(|(id, record)| row(*id, record)).collect();
    head() + &rows
}

fn taken(text: &str, known: &[(Uuid, Record)]) -> Result<Taken, Vec<cabinet::csv::Fault>> {
    let table = Table::read(text.as_bytes())?;
    let mut random = Random(99);
    let find = |id: Uuid| known.iter().find(|(k, _)| *k == id).map(|(_, r)| r.clone());
    take(&table, &guess(&table.heads), &find, &mut || random.uuid(), TODAY)
}

proptest! {
    #[test]
    fn a_table_comes_back(seed: u64, count in 1_usize..5, habit in 0_usize..4) {
        let mut random = Random(seed);
        let records: Vec<(Uuid, Record)> = (0..count).map(|_| (random.uuid(), sound(&mut random))).collect();
        let text = written(&records);
        let table = Table::read(text.as_bytes()).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        let text_again = again(&table, HABITS[habit]);
        // Into an empty cabinet: what the columns can hold is there.
        let fresh = taken(&text_again, &[]).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        prop_assert_eq!(fresh.new, count);
        let shown = |(id, record): &(Uuid, Record)| -> Vec<String> {
            let photos = COLUMNS.len() - 1;
            COLUMNS[..photos].iter().map(|c| c.text(*id, record)).collect()
        };
        let before: Vec<Vec<String>> = records.iter().map(shown).collect();
        prop_assert_eq!(fresh.records.iter().map(shown).collect::<Vec<_>>(), before);
        // Into the cabinet that it came from: nothing changes.
        let same = taken(&text_again, &records).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        prop_assert_eq!((same.records, same.new, same.notes), (vec![], 0, vec![]));
        // No cell begins like a formula.
        for (_, cells) in &table.rows {
            prop_assert!(cells.iter().all(|c| !c.starts_with(['=', '+', '-', '@'])));
        }
    }
}

#[test]
fn a_table_of_somebody_else() {
    // Invented, as a person may have kept it.
    let text = "Inventory number;Object;Weight;Bought from;Date bought;Price;Currency paid;Colour\n\
                2019.3;Swan, small;85,5;a friend;23.10.2019;12,50;eur;blue\n\
                ;\"Flat \"\"toy\"\" iron\";1.234,5;;;;;\n";
    let taken = taken(text, &[]).expect("two records");
    let [(_, swan), (_, flat)] = taken.records.as_slice() else { unreachable!("two rows") };
    let deal = swan.acquired.clone().unwrap_or_default();
    assert_eq!(swan.number.as_ref().map(|n| n.text()), Some("2019.3"));
    assert_eq!((swan.title.as_str(), deal.with.as_str()), ("Swan, small", "a friend"));
    assert_eq!(deal.price.map(|p| p.shown()), Some("12.50 EUR".to_string()));
    assert_eq!(deal.date.map(|d| d.shown()), Some("2019-10-23".to_string()));
    assert_eq!(flat.title, "Flat \"toy\" iron");
    let weight = flat.measured("weight").and_then(|m| m.value).and_then(|v| v.mass());
    assert_eq!(weight.map(|m| m.0), Some(12_345));
}

#[test]
fn all_or_nothing_with_rows() {
    let text = "number,title,weight,value,value basis,recorded\n\
                2026.1,Good,100,,,2026-10-03\n\
                26.2,Bad number,100,,,\n\
                2026.3,Two ways,\"1,234\",,,\n\
                2026.4,No currency,,20,fair market,\n\
                2026.5,Which day,,,,3/10/2026\n";
    let faults = taken(text, &[]).expect_err("four bad rows");
    let told: Vec<(usize, &str)> = faults.iter().map(|f| (f.row, f.column.as_str())).collect();
    let cells: Vec<(usize, &str)> = told.iter().copied().filter(|(_, column)| !column.is_empty()).collect();
    assert_eq!(cells, [(3, "number"), (4, "weight g"), (5, "value low"), (6, "recorded")], "{faults:?}");
    let twice = "id,title\n919108f7-52d1-4320-9bac-f847db4148a8,A\n919108f7-52d1-4320-9bac-f847db4148a8,B\n";
    assert_eq!(taken(twice, &[]).map_err(|f| (f.len(), f[0].row)), Err((1, 3)));
    assert!(taken("Colour,Shape\nred,round\n", &[]).is_err());
    assert!(taken("title\n", &[]).is_err());
    assert!(taken("title\nA,B\n", &[]).is_err());
}

#[test]
fn a_spreadsheet_does_not_spoil_what_is_kept() {
    let mut random = Random(4);
    let id = random.uuid();
    let mut record = sound(&mut random);
    record.number = cabinet::record::Number::new("2026.10");
    let known = [(id, record)];
    // A decimal lost its nought; an empty cell says nothing; other marks are left and told.
    let text = format!("id,number,title,marks\n{id},\"2026,1\",,Other\n");
    let taken = taken(&text, &known).expect("nothing wrong");
    let marked = !known[0].1.marks.is_empty();
    assert_eq!(taken.notes.len(), usize::from(marked));
    assert!(taken.records.iter().all(|(_, r)| r.number == known[0].1.number && r.title == known[0].1.title));
}
