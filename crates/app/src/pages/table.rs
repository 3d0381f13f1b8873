//! Tables: a row is a line of its own with the cells beneath, so that two columns find room on a phone.

use super::block::line;
use crate::ui::node::{Node, el, text};
use consult::book::{Row, Table};

pub(super) fn table(table: &Table) -> Node {
    let columns = table.heads.len();
    let heads = table.heads.iter().map(|h| text("th", "", h).set("scope", "col"));
    el("table", "beside")
        .put(text("caption", "unseen", &table.caption))
        .put(el("thead", "").put(el("tr", "").all(heads)))
        .all(table.rows.iter().map(|r| row(r, columns)))
}

fn row(row: &Row, columns: usize) -> Node {
    let mut name =
        el("th", "").put(line(&row.name)).set("scope", "rowgroup").number("colspan", columns as i32);
    if let Some((share, words)) = &row.mark {
        name = name.put(el("span", "mark").put(bar(i32::from(*share))).put(text("b", "", words)));
    }
    let said = |(says, strong): &(String, bool)| text(if *strong { "b" } else { "span" }, "", says);
    let cell = |lines: &Vec<(String, bool)>| el("td", "").all(lines.iter().map(said));
    el("tbody", "").put(el("tr", "").put(name)).put(el("tr", "").all(row.cells.iter().map(cell)))
}

/// How far the columns differ, beside the words that say it.
fn bar(permille: i32) -> Node {
    el("svg", "strength")
        .set("viewBox", "0 0 104 14")
        .flag("aria-hidden", true)
        .put(el("path", "axis").set("d", "M1 1H103V13H1Z"))
        .put(
            el("rect", "for")
                .set("x", "1")
                .set("y", "1")
                .number("width", (permille * 102 / 1000).clamp(2, 102))
                .set("height", "12"),
        )
}
