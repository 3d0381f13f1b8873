//! Two kinds side by side: the deciding check on top, then the looks at which they differ most.

use super::Pages;
use super::figures::{heft, length};
use super::fold::fold;
use super::page::Page;
use super::search::found;
use super::sheet::{Block, Row, Sheet, Table, Tone};
use super::tables::Shown;
use super::write::{begun, card, cards, group, line, ranked, text};
use crate::words::{inside, likely, sentence};
use pack::Form;
use units::descending;

/// Words for bits that one look tells about two kinds at even chances. Limits: practice.
const CLEARLY: f64 = 0.45;
const DIFFER: f64 = 0.15;
const LITTLE: f64 = 0.04;
/// Answers below this share are not listed beside others. Basis: practice.
const LISTED: f64 = 0.095;
/// An answer that one shows oftener by this much stands out. Basis: practice.
const STRONG: f64 = 0.25;

pub(super) fn sheet(pages: &Pages, one: usize, other: usize) -> Sheet {
    let short = |k: usize| pages.core.kinds[k].short.as_str();
    let sort = |k: usize| pages.sort(k, pages.main_make(k));
    let (first, second) = (sort(one), sort(other));
    let many = pages.core.questions.len();
    let mut apart = vec![0.0; many];
    let order = ranked(many, many, &mut |q| {
        let (Some(a), Some(b)) = (pages.shown(&first, q), pages.shown(&second, q)) else { return 0.0 };
        apart[q] = a.apart(&b);
        // What does not differ at all is listed as well.
        apart[q] + 1e-9
    });
    let mut lead = Vec::new();
    match pages.confusions(one).iter().find(|(k, _)| *k == other) {
        Some((_, check)) => lead.push(begun(Tone::Check, "The deciding check: ", &sentence(check))),
        None => {
            lead.push(text(Tone::Check, "No check is written for these two. The look that parts them best:"));
            let best =
                order.first().map(|q| line(pages.to(&Page::Look(*q)), &pages.core.questions[*q].ask, ""));
            lead.push(Block::Lines(best.into_iter().collect()));
        }
    }
    lead.push(Block::Pieces(vec![pages.piece(one), pages.piece(other)]));
    let mut rows = in_short(pages, one, other);
    let mut same = Vec::new();
    for q in order {
        let name = line(pages.to(&Page::Look(q)), &pages.core.questions[q].ask, "");
        let (Some(a), Some(b)) = (pages.shown(&first, q), pages.shown(&second, q)) else { continue };
        let words = match apart[q] {
            x if x >= CLEARLY => "differ clearly",
            x if x >= DIFFER => "differ",
            x if x >= LITTLE => "differ a little",
            _ => {
                same.push(name);
                continue;
            }
        };
        let mark = Some(((apart[q] * 1000.0) as u16, words.to_string()));
        rows.push(Row { name, mark, cells: vec![cell(pages, q, &a, &b), cell(pages, q, &b, &a)] });
    }
    let heads = vec![short(one).to_string(), short(other).to_string()];
    let caption = "The looks at which the two differ, most first".to_string();
    let mut body = vec![Block::Table(Table { caption, heads, rows })];
    let none = same.is_empty();
    card(&mut body, "Much the same in both", if none { Vec::new() } else { vec![Block::Lines(same)] });
    let title = format!("{} or {}?", short(one), inside(short(other)));
    let keys = [(&Page::Kind(one), short(one)), (&Page::Kind(other), short(other))];
    let mut sheet = pages.keyed(&title, lead, body, keys, false);
    sheet.keys.push((pages.to(&Page::Compare(one, None)), "Another pair".to_string()));
    sheet
}

/// What each was made as, when, and how large: the first rows.
fn in_short(pages: &Pages, one: usize, other: usize) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for kind in [one, other] {
        for (name, says) in pages.in_short(kind, &pages.sort(kind, pages.main_make(kind))) {
            if !matches!(name.as_str(), "Made as" | "When" | "Size") {
                continue;
            }
            let cell = vec![(says, false)];
            match rows.iter_mut().find(|r| r.name.strong == name) {
                Some(row) => row.cells.push(cell),
                None if kind == one => {
                    rows.push(Row { name: line(String::new(), &name, ""), mark: None, cells: vec![cell] });
                }
                None => {}
            }
        }
    }
    rows.retain(|r| r.cells.len() == 2);
    rows
}

/// The answers that a kind shows, most first; those that it shows much oftener than the other stand out.
fn cell(pages: &Pages, question: usize, here: &Shown, there: &Shown) -> Vec<(String, bool)> {
    let q = &pages.core.questions[question];
    if let Some(range) = here.range() {
        let says = if q.form == Form::Heft { heft(range) } else { length(range) };
        return vec![(says, false)];
    }
    let mut cell = Vec::new();
    for c in descending(&here.shares).into_iter().take(3) {
        let share = here.shares[c];
        if cell.is_empty() || share >= LISTED {
            cell.push((
                format!("{}: {}", q.choices[c].label, likely(share)),
                share - there.shares[c] >= STRONG,
            ));
        }
    }
    cell
}

/// The choice of the second kind: those that the first is taken for, then all others whose name meets what was typed.
pub(super) fn choose(pages: &Pages, one: usize, typed: &str) -> Sheet {
    let close: Vec<usize> = pages.confusions(one).into_iter().map(|c| c.0).collect();
    let mut rest = pages.kinds();
    rest.retain(|k| *k != one && !close.contains(k));
    let sought = fold(typed);
    let mut body = Vec::new();
    for (title, kinds) in [("Taken for each other", close), ("All others", rest)] {
        let fitting = cards(kinds.len(), &mut |at| {
            let k = &pages.core.kinds[kinds[at]];
            let fits = sought.is_empty() || found(&sought, &[(1, &k.name), (1, &k.short)]) > 0.0;
            fits.then(|| pages.kind_card(kinds[at], Some(one)))
        });
        group(&mut body, title, fitting);
    }
    if body.is_empty() {
        body.push(text(Tone::Plain, "No kind has a name like that."));
    }
    let lead = vec![
        Block::Search("Part of a name".to_string(), typed.to_string()),
        text(Tone::Hint, "Tap the other kind."),
    ];
    pages.sheet(&format!("Compare \u{201c}{}\u{201d} with\u{2026}", pages.core.kinds[one].short), lead, body)
}
