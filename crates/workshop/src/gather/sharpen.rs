//! Tables made sharper by counting: a table of the pack counts as so many pieces, and confirmed pieces are added to it
//! (the mean of a Dirichlet distribution; Gelman and others, Bayesian Data Analysis, third edition, 3.4).

use super::Piece;
use compile::{Fault, Files};
use consult::Guide;
use pack::Says;
use units::Basis;

/// A table that changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Id of the kind.
    pub kind: String,
    /// Id of the make.
    pub make: String,
    /// Id of the question.
    pub question: String,
    /// Pieces that were counted.
    pub pieces: usize,
    /// Per mille by choice before.
    pub before: Vec<u16>,
    /// Per mille by choice after.
    pub after: Vec<u16>,
    /// How far the new table is from the old, in bits (Kullback-Leibler).
    pub bits: f64,
    basis: Basis,
}

/// What counting did.
#[derive(Debug, Default)]
pub struct Sharpened {
    /// Tables that changed, by far first.
    pub changes: Vec<Change>,
    /// Answers that were not counted, by reason: kinds with forms, tables that are published or so by definition, answers
    /// that are unsure, open or measured.
    pub left: Vec<(&'static str, usize)>,
}

/// Counts pieces into the tables of the pack, each of which weighs as `weight` pieces.
#[must_use]
pub fn sharpen(guide: &Guide, pieces: &[Piece], weight: f64) -> Sharpened {
    let core = &guide.core;
    let mut made = Sharpened::default();
    let mut counts: Vec<(usize, usize, usize, Vec<usize>)> = Vec::new();
    let mut leave = |why: &'static str| match made.left.iter_mut().find(|(w, _)| *w == why) {
        Some((_, n)) => *n += 1,
        None => made.left.push((why, 1)),
    };
    for piece in pieces {
        let kind = core.kinds.iter().position(|k| k.id == piece.kind);
        let make = core.makes.iter().position(|m| m.id == piece.make);
        let (Some(kind), Some(make)) = (kind, make) else { continue };
        let mut of =
            core.candidates.iter().filter(|c| usize::from(c.kind) == kind && usize::from(c.make) == make);
        let (first, several) = (of.next(), of.next().is_some());
        for (id, answer) in &piece.looks {
            let Some(at) = core.questions.iter().position(|q| q.id == *id) else { continue };
            let question = &core.questions[at];
            let Some(choice) = question.choices.iter().position(|c| c.id == *answer) else {
                leave("unsure, open or measured");
                continue;
            };
            let Some(candidate) = first else {
                leave("of a make that the kind does not have");
                continue;
            };
            let row = &question.rows[usize::from(candidate.rows[at])];
            match &row.says {
                _ if several => leave("of kinds with forms"),
                Says::Spread { .. } => leave("unsure, open or measured"),
                _ if row.basis == Basis::Published => leave("where the table is published"),
                Says::Shares(shares) if shares.contains(&0) => leave("where the table is so by definition"),
                Says::Shares(shares) => match counts.iter_mut().find(|c| (c.0, c.1, c.2) == (kind, make, at))
                {
                    Some(c) => c.3[choice] += 1,
                    None => {
                        let mut n = vec![0; shares.len()];
                        n[choice] = 1;
                        counts.push((kind, make, at, n));
                    }
                },
            }
        }
    }
    for (kind, make, at, n) in counts {
        let of = core.candidates.iter().find(|c| usize::from(c.kind) == kind && usize::from(c.make) == make);
        let Some(row) = of.map(|c| &core.questions[at].rows[usize::from(c.rows[at])]) else { continue };
        let Says::Shares(before) = &row.says else { continue };
        let pieces: usize = n.iter().sum();
        let weights = before.iter().zip(&n).map(|(b, n)| weight * f64::from(*b) / 1000.0 + *n as f64);
        let after = tens(&weights.map(|w| w / (weight + pieces as f64)).collect::<Vec<f64>>());
        let term = |(a, b): (&u16, &u16)| {
            let (a, b) = (f64::from(*a) / 1000.0, f64::from(*b) / 1000.0);
            if a > 0.0 { a * libm::log2(a / b) } else { 0.0 }
        };
        made.changes.push(Change {
            kind: core.kinds[kind].id.clone(),
            make: core.makes[make].id.clone(),
            question: core.questions[at].id.clone(),
            pieces,
            bits: after.iter().zip(before).map(term).sum(),
            before: before.clone(),
            after,
            basis: row.basis,
        });
    }
    made.changes.sort_by(|a, b| b.bits.total_cmp(&a.bits));
    made
}

/// Per mille that sum to a thousand and are at least one, the rest to the greatest remainders.
fn tens(shares: &[f64]) -> Vec<u16> {
    let mut whole: Vec<u16> = shares.iter().map(|s| (libm::floor(s * 1000.0) as u16).max(1)).collect();
    let mut order: Vec<usize> = (0..shares.len()).collect();
    order.sort_by(|a, b| {
        (shares[*b] * 1000.0 - f64::from(whole[*b])).total_cmp(&(shares[*a] * 1000.0 - f64::from(whole[*a])))
    });
    let sum: u16 = whole.iter().sum();
    for at in order.iter().cycle().take(usize::from(1000_u16.saturating_sub(sum))) {
        whole[*at] += 1;
    }
    whole
}

impl Sharpened {
    /// The files of the pack with the changed tables in them, each stated for its kind and make. Remarks are lost.
    ///
    /// # Errors
    /// What keeps the files from being rewritten.
    pub fn apply(&self, guide: &Guide, files: &Files) -> Result<Vec<(String, String)>, Vec<Fault>> {
        let mut sheets = compile::sheets::export(files)?;
        for (_, text) in sheets.iter_mut().filter(|(name, _)| name == "kinds.csv") {
            let mut rows = compile::sheets::csv::read(text).unwrap_or_default();
            for change in &self.changes {
                let choices =
                    guide.core.questions.iter().find(|q| q.id == change.question).map(|q| &q.choices);
                let share = |(c, s): (&pack::Choice, &u16)| format!("{} {}.{}", c.id, s / 10, s % 10);
                let line: Vec<String> = choices.into_iter().flatten().zip(&change.after).map(share).collect();
                let column = format!("{}.looks.{}", change.make, change.question);
                put(&mut rows, &change.kind, &column, line.join(", "));
                put(&mut rows, &change.kind, &format!("{column}.basis"), change.basis.word().to_string());
            }
            *text = compile::sheets::csv::write(&rows);
        }
        let made = compile::sheets::import(&Files::new(sheets))?;
        Ok(made.files.iter().map(|(p, t)| (p.to_string(), t.to_string())).collect())
    }
}

/// Puts a cell into the row of a kind, in a column that is made when there is none.
fn put(rows: &mut [Vec<String>], kind: &str, column: &str, cell: String) {
    let Some(head) = rows.first_mut() else { return };
    let id = head.iter().position(|h| h == "id");
    let at = head.iter().position(|h| h == column).unwrap_or_else(|| {
        head.push(column.to_string());
        head.len() - 1
    });
    let own = |row: &&mut Vec<String>| id.and_then(|id| row.get(id)).is_some_and(|c| c == kind);
    if let Some(row) = rows.iter_mut().skip(1).find(own) {
        row.resize(row.len().max(at + 1), String::new());
        row[at] = cell;
    }
}

#[cfg(test)]
mod tests {
    use super::tens;

    #[test]
    fn shares_sum_to_a_thousand() {
        // By hand: a table of 800, 150, 50 that weighs 20 pieces, and 20 pieces of the second: 400, 575, 25.
        let after: Vec<f64> = [16.0, 3.0 + 20.0, 1.0].iter().map(|w| w / 40.0).collect();
        assert_eq!(tens(&after), [400, 575, 25]);
        assert_eq!(tens(&[1.0 / 3.0; 3]).iter().sum::<u16>(), 1000);
        assert_eq!(tens(&[0.9999, 0.0001]), [999, 1]);
    }
}
