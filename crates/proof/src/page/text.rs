//! The page as text.

use super::{Page, figure, kept, verdict};

/// Everything but the plots.
pub(super) fn page(page: &Page) -> String {
    let (met, all) = kept(page);
    let mut out = format!("{}\n{met} of {all} limits met.\n", page.title);
    page.notes.iter().for_each(|n| out.push_str(&format!("{n}\n")));
    for section in &page.sections {
        out.push_str(&format!("\n== {}\n{}\n", section.title, section.text));
        if !section.rows.is_empty() {
            let mut rows = vec![["what", "ours", "peer", "limit", "ratio", ""].map(str::to_owned).to_vec()];
            rows.extend(section.rows.iter().map(|r| {
                let met = verdict(r.met).to_owned();
                vec![r.what.clone(), figure(r.ours), figure(r.peer), r.limit.clone(), figure(r.ratio), met]
            }));
            out.push_str(&columns(&rows));
        }
        for grid in &section.tables {
            out.push_str(&format!("\n{}\n", grid.caption));
            let rows: Vec<Vec<String>> = std::iter::once(&grid.head).chain(&grid.rows).cloned().collect();
            out.push_str(&columns(&rows));
        }
    }
    out
}

/// Columns as wide as their widest cell.
fn columns(rows: &[Vec<String>]) -> String {
    let count = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |c: usize| rows.iter().filter_map(|r| r.get(c)).map(|t| t.chars().count()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..count).map(width).collect();
    let mut out = String::new();
    for row in rows {
        let cells: Vec<String> = row.iter().zip(&widths).map(|(cell, w)| format!("{cell:<w$}")).collect();
        out.push_str(cells.join("  ").trim_end());
        out.push('\n');
    }
    out
}
