//! Two kinds side by side: the deciding check on top, then the looks at which they differ most.

use super::Pages;
use super::fold::fold;
use super::page::Page;
use super::search::found;
use super::sheet::{Block, Card, Row, Run, Sheet, Table, Tone, say, section, text, toned};
use super::tables::Shown;
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
    let short = |k: usize| pages.core.kinds[k].short.clone();
    let mut lead = Vec::new();
    let check = pages.confusions(one).into_iter().find(|(k, _)| *k == other);
    let rows = rows(pages, one, other);
    lead.push(match (check, rows.first()) {
        (Some((_, check)), _) => Block::Text(
            Tone::Check,
            vec![Run::Strong("The deciding check: ".to_string()), say(sentence(check))],
        ),
        (None, Some((at, _))) => Block::Text(
            Tone::Check,
            vec![
                Run::Strong("No check is written for these two. ".to_string()),
                say("The look that parts them best: "),
                Run::Link(pages.to(&Page::Look(*at)), pages.core.questions[*at].ask.clone()),
            ],
        ),
        (None, None) => text("Nothing in this guide tells these two apart."),
    });
    lead.push(Block::Pieces(vec![pages.piece(one), pages.piece(other)]));
    let mut body = Vec::new();
    let heads = vec![short(one), short(other)];
    let caption = "The looks at which the two differ, most first".to_string();
    let (differ, same): (Vec<_>, Vec<_>) = rows.into_iter().partition(|(_, row)| row.mark.is_some());
    body.push(Block::Table(Table {
        caption,
        heads: heads.clone(),
        rows: std::iter::once(in_short(pages, one, other))
            .chain(differ.into_iter().map(|(_, row)| row))
            .collect(),
    }));
    let same: Vec<Vec<Run>> = same.into_iter().map(|(_, row)| row.name).collect();
    section(
        &mut body,
        "Much the same in both",
        if same.is_empty() { same.into_iter().map(|_| text("")).collect() } else { vec![Block::List(same)] },
    );
    let keys = [
        (pages.to(&Page::Kind(one)), short(one)),
        (pages.to(&Page::Kind(other)), short(other)),
        (pages.to(&Page::Compare(one, None)), "Another pair".to_string()),
    ];
    Sheet { title: format!("{} or {}?", short(one), inside(&short(other))), lead, body, keys: keys.to_vec() }
}

/// What each was made as, when, and how large: the first row.
fn in_short(pages: &Pages, one: usize, other: usize) -> Row {
    let cell = |kind: usize| {
        let sort = pages.sort(kind, pages.main_make(kind));
        let line = |(name, runs): (String, Vec<Run>)| match runs.first() {
            Some(Run::Say(says)) => (format!("{name}: {says}"), false),
            _ => (name, false),
        };
        pages.in_short(kind, &sort).into_iter().map(line).collect()
    };
    Row { name: vec![Run::Strong("In short".to_string())], mark: None, cells: vec![cell(one), cell(other)] }
}

/// All looks at which both show something, those that part them best first.
fn rows(pages: &Pages, one: usize, other: usize) -> Vec<(usize, Row)> {
    let sort = |k: usize| pages.sort(k, pages.main_make(k));
    let (first, second) = (sort(one), sort(other));
    let (mut bits, mut rows) = (Vec::new(), Vec::new());
    for at in 0..pages.core.questions.len() {
        let (Some(a), Some(b)) = (pages.shown(&first, at), pages.shown(&second, at)) else { continue };
        let apart = a.apart(&b);
        let mark = match apart {
            x if x >= CLEARLY => Some("differ clearly"),
            x if x >= DIFFER => Some("differ"),
            x if x >= LITTLE => Some("differ a little"),
            _ => None,
        };
        bits.push(apart);
        rows.push((
            at,
            Row {
                name: vec![Run::Link(pages.to(&Page::Look(at)), pages.core.questions[at].ask.clone())],
                mark: mark.map(|words| ((apart * 1000.0) as u16, words.to_string())),
                cells: vec![cell(pages, at, &a, &b), cell(pages, at, &b, &a)],
            },
        ));
    }
    let order = descending(&bits);
    units::arranged(rows, &order)
}

/// The answers that a kind shows, most first; those that it shows much oftener than the other stand out.
fn cell(pages: &Pages, question: usize, here: &Shown, there: &Shown) -> Vec<(String, bool)> {
    let q = &pages.core.questions[question];
    if let Some((low, middle, high)) = here.range() {
        let says = match q.form {
            Form::Heft => {
                let hundredths = |heft: f64| (libm::exp(heft / 1000.0) * 100.0 + 0.5) as u32;
                let print = |h: u32| format!("{}.{:02}", h / 100, h % 100);
                format!("{} to {} g/cm\u{b3}, 19 in 20", print(hundredths(low)), print(hundredths(high)))
            }
            _ => {
                let mm = |tenths: f64| (tenths / 10.0 + 0.5).max(1.0) as u32;
                format!("{} to {} mm, 19 in 20; middle {} mm", mm(low), mm(high), mm(middle))
            }
        };
        return vec![(says, false)];
    }
    let order = descending(&here.shares);
    let listed =
        order.iter().enumerate().filter(|(rank, c)| *rank == 0 || here.shares[**c] >= LISTED).take(3);
    listed
        .map(|(_, c)| {
            let share = here.shares[*c];
            (format!("{}: {}", q.choices[*c].label, likely(share)), share - there.shares[*c] >= STRONG)
        })
        .collect()
}

/// The choice of the second kind: those that the first is taken for, then all others whose name meets what was typed.
pub(super) fn choose(pages: &Pages, one: usize, typed: &str) -> Sheet {
    let card = |other: usize| pages.kind_card(other, &Page::Compare(one, Some(other)));
    let close: Vec<usize> = pages.confusions(one).into_iter().map(|c| c.0).collect();
    let sought = fold(typed);
    let fits = |k: &usize| {
        let name = &pages.core.kinds[*k];
        sought.is_empty() || found(&sought, &[(1, &name.name), (1, &name.short)]) > 0
    };
    let cards =
        |kinds: Vec<usize>| -> Vec<Card> { kinds.into_iter().filter(|k| fits(k)).map(card).collect() };
    let mut body = Vec::new();
    let near = cards(close.clone());
    if !near.is_empty() {
        body.push(Block::Group("Taken for each other".to_string(), vec![Block::Cards(near)]));
    }
    let rest = cards(pages.kinds().filter(|k| *k != one && !close.contains(k)).collect());
    if !rest.is_empty() {
        body.push(Block::Group("All others".to_string(), vec![Block::Cards(rest)]));
    }
    if body.is_empty() {
        body.push(text("No kind has a name like that."));
    }
    let name = &pages.core.kinds[one].short;
    Sheet {
        title: format!("Compare \u{201c}{name}\u{201d} with\u{2026}"),
        lead: vec![
            Block::Search("Part of a name".to_string(), typed.to_string()),
            toned(Tone::Hint, "Tap the other kind."),
        ],
        body,
        keys: pages.usual_keys(),
    }
}
