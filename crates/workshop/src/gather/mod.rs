//! What members of a club found, merged: confirmed pieces and sales, only with consent, without names, what disagrees
//! shown; and the tables of a pack made sharper by counting.

mod sharpen;
mod table;

pub use sharpen::{Change, Sharpened, sharpen};

use compile::Fault;
use consult::Guide;
use table::Table;

/// Columns of `pieces.csv` beside the questions.
const PIECE: [&str; 4] = ["piece", "consent", "kind", "make"];
/// Columns of `sales.csv`: those of a ledger that hold no free text, and consent.
const SALE: [&str; 11] = [
    "piece",
    "consent",
    "date",
    "kind",
    "make",
    "price",
    "currency",
    "premium",
    "sort",
    "condition",
    "likeness",
];

/// A confirmed piece. Its sign only tells it from others while members' tables are merged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    sign: String,
    /// Id of the kind.
    pub kind: String,
    /// Id of the make.
    pub make: String,
    /// Question and answer, as `workshop try` reads them.
    pub looks: Vec<(String, String)>,
}

/// Everything, merged.
#[derive(Debug, Default)]
pub struct Gathered {
    /// Pieces that nobody disagrees about, those of one sign once.
    pub pieces: Vec<Piece>,
    /// Rows of a ledger without sign and consent.
    pub sales: Vec<Vec<String>>,
    /// What members say differently of one piece or sale: left out, a sentence each.
    pub conflicts: Vec<String>,
    /// Rows without consent, which were not read any further.
    pub withheld: usize,
    /// What is wrong with the tables.
    pub faults: Vec<Fault>,
}

/// Merges members' tables. Each is a path, whose last part is `pieces.csv` or `sales.csv`, and its text. The order of
/// the tables does not matter.
#[must_use]
pub fn gather(guide: &Guide, tables: &[(String, String)]) -> Gathered {
    let mut all = Gathered::default();
    let mut pieces: Vec<Piece> = Vec::new();
    let mut sales: Vec<(String, Vec<String>)> = Vec::new();
    let mut sorted: Vec<&(String, String)> = tables.iter().collect();
    sorted.sort();
    for (path, text) in sorted {
        if path.ends_with("pieces.csv") {
            let asked = guide.core.questions.iter().map(|q| q.id.as_str());
            let columns: Vec<&str> = PIECE.into_iter().chain(asked).collect();
            let table = Table::read(path, text, &columns, &mut all.faults);
            for row in table.rows() {
                if !row.consents(&mut all.withheld) {
                    continue;
                }
                pieces.extend(piece(guide, &row, &mut all.faults));
            }
        } else {
            let table = Table::read(path, text, &SALE, &mut all.faults);
            for row in table.rows() {
                if !row.consents(&mut all.withheld) {
                    continue;
                }
                let known =
                    row.one_of("kind", guide.core.kinds.iter().map(|k| k.id.as_str()), &mut all.faults);
                let made = row.get("make").is_empty()
                    || row.one_of("make", guide.core.makes.iter().map(|m| m.id.as_str()), &mut all.faults);
                if known && made && row.sign(&mut all.faults) {
                    let cells = SALE.iter().skip(2).map(|c| row.get(c).to_string()).collect();
                    sales.push((row.get("piece").to_string(), cells));
                }
            }
        }
    }
    pieces.sort_by(|a, b| (&a.sign, &a.kind, &a.make, &a.looks).cmp(&(&b.sign, &b.kind, &b.make, &b.looks)));
    for same in pieces.chunk_by(|a, b| a.sign == b.sign) {
        match merged(same) {
            Ok(piece) => all.pieces.push(piece),
            Err(says) => all.conflicts.push(says),
        }
    }
    // A sale is one piece on one day.
    sales.sort();
    sales.dedup();
    for same in sales.chunk_by(|a, b| a.0 == b.0 && a.1[0] == b.1[0]) {
        match same {
            [(_, cells)] => all.sales.push(cells.clone()),
            _ => {
                let told: Vec<String> = same.iter().map(|(_, c)| c.join(" ").trim().to_string()).collect();
                all.conflicts.push(format!("Sale of piece {}: {}.", same[0].0, told.join("; or ")));
            }
        }
    }
    all.sales.sort();
    all
}

fn piece(guide: &Guide, row: &table::Row<'_>, faults: &mut Vec<Fault>) -> Option<Piece> {
    let before = faults.len();
    row.sign(faults);
    row.one_of("kind", guide.core.kinds.iter().map(|k| k.id.as_str()), faults);
    row.one_of("make", guide.core.makes.iter().map(|m| m.id.as_str()), faults);
    let mut looks = Vec::new();
    for question in &guide.core.questions {
        let answer = row.get(&question.id);
        if answer.is_empty() {
            continue;
        }
        // Whatever reads answers elsewhere reads these; gates are another matter, a confirmed piece was seen whole.
        let read = consult::from_text(guide, &format!("{} = {answer}", question.id));
        let slip = read.err().and_then(|says| says.into_iter().find(|s| s.starts_with("line ")));
        match slip {
            Some(says) => row.fault(&question.id, says.trim_start_matches("line 1: ").to_string(), faults),
            None => looks.push((question.id.clone(), answer.to_string())),
        }
    }
    (faults.len() == before).then(|| Piece {
        sign: row.get("piece").to_string(),
        kind: row.get("kind").to_string(),
        make: row.get("make").to_string(),
        looks,
    })
}

/// One piece of what members say of it: looks add up, as long as nothing disagrees.
fn merged(same: &[Piece]) -> Result<Piece, String> {
    let mut whole = same[0].clone();
    for other in &same[1..] {
        if (&other.kind, &other.make) != (&whole.kind, &whole.make) {
            return Err(format!(
                "Piece {}: {} ({}) or {} ({}).",
                whole.sign, whole.kind, whole.make, other.kind, other.make
            ));
        }
        for (question, answer) in &other.looks {
            match whole.looks.iter().find(|(q, _)| q == question) {
                None => whole.looks.push((question.clone(), answer.clone())),
                Some((_, own)) if own == answer => {}
                Some((_, own)) => {
                    return Err(format!("Piece {}, {question}: {own} or {answer}.", whole.sign));
                }
            }
        }
    }
    Ok(whole)
}

/// The pieces as a table, numbered anew.
#[must_use]
pub fn pieces_csv(guide: &Guide, pieces: &[Piece]) -> String {
    let asked: Vec<&str> = guide
        .core
        .questions
        .iter()
        .map(|q| q.id.as_str())
        .filter(|q| pieces.iter().any(|p| p.looks.iter().any(|(own, _)| own == q)))
        .collect();
    let head = PIECE.into_iter().filter(|c| *c != "consent").chain(asked.iter().copied());
    let mut rows = vec![head.map(String::from).collect::<Vec<_>>()];
    let mut order: Vec<&Piece> = pieces.iter().collect();
    // Neither the order nor the number says whose piece it was.
    order.sort_by(|a, b| (&a.kind, &a.make, &a.looks).cmp(&(&b.kind, &b.make, &b.looks)));
    for (i, piece) in order.into_iter().enumerate() {
        let look = |q: &&str| {
            piece.looks.iter().find(|(own, _)| own == q).map(|(_, a)| a.clone()).unwrap_or_default()
        };
        let mut row = vec![(i + 1).to_string(), piece.kind.clone(), piece.make.clone()];
        row.extend(asked.iter().map(look));
        rows.push(row);
    }
    compile::sheets::csv::write(&rows)
}

/// The sales as a ledger reads them, resting on memory.
#[must_use]
pub fn sales_csv(sales: &[Vec<String>]) -> String {
    let mut rows = vec![
        SALE.iter().skip(2).chain(&["basis", "source", "note"]).map(|c| c.to_string()).collect::<Vec<_>>(),
    ];
    let end = ["memory", "", ""].map(String::from);
    rows.extend(sales.iter().map(|s| s.iter().cloned().chain(end.clone()).collect()));
    compile::sheets::csv::write(&rows).replace("\r\n", "\n")
}
