//! Packs laid open, and what is read off their sheets.

use compile::{Files, compile};
use consult::book::{Block, Errand, Line, Pages, Reading, Sheet, Turn, sheet, turn};
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

/// Some keys of the sketches.
const OUTSIDE: [&str; 9] = ["body", "outline", "grip", "heel", "top", "sole", "cord", "vents", "door"];

type Halves = (Vec<u8>, Vec<u8>);

static IRONS: LazyLock<Halves> = LazyLock::new(|| compiled("data/packs/irons"));
static TINY: LazyLock<Halves> = LazyLock::new(|| compiled("crates/compile/tests/cases/good"));

fn texts(folder: &Path, inside: &str) -> Vec<(String, String)> {
    let mut texts = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let entry = entry.unwrap();
        let name = format!("{inside}{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            texts.extend(self::texts(&entry.path(), &format!("{name}/")));
        } else if name.ends_with(".toml") || name.ends_with(".csv") {
            texts.push((name, fs::read_to_string(entry.path()).unwrap()));
        }
    }
    texts
}

fn compiled(folder: &str) -> Halves {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut files = texts(&root.join(folder), "");
    files.extend(texts(&root.join("data/art"), "art/"));
    let c = compile(&Files::new(files)).unwrap();
    (c.core_bytes, c.book_bytes)
}

/// Core and book of the bundled pack.
pub(crate) fn irons_bytes() -> &'static Halves {
    &IRONS
}

/// The bundled pack laid open.
pub(crate) fn irons() -> Pages {
    Pages::from_bytes(&IRONS.0, &IRONS.1, OUTSIDE.to_vec()).unwrap()
}

/// The small sound pack of the compiler's tests: two kinds, five questions, one gate. All its figures are invented.
pub(crate) fn tiny() -> Pages {
    Pages::from_bytes(&TINY.0, &TINY.1, OUTSIDE.to_vec()).unwrap()
}

/// What a fragment shows, opened as a link is.
pub(crate) fn opened(pages: &Pages, fragment: &str) -> Sheet {
    sheet(pages, &went(pages, Reading::default(), fragment, 0, false).0)
}

/// A reading after the address has changed, with the errands.
pub(crate) fn went(
    pages: &Pages,
    reading: Reading,
    fragment: &str,
    down: i32,
    again: bool,
) -> (Reading, Vec<Errand>) {
    turn(pages, reading, Turn::Went { fragment: fragment.to_string(), down, again })
}

/// All words of a sheet, a line to a block, a row or an entry; `[address words]` for links, `*` round what stands out.
pub(crate) fn words(sheet: &Sheet) -> String {
    let mut lines = vec![sheet.title.clone()];
    sheet.lead.iter().chain(&sheet.body).for_each(|b| block(b, &mut lines));
    lines.extend(sheet.keys.iter().map(|(to, says)| format!("[{to} {says}]")));
    lines.join("\n")
}

/// The lines under a heading, up to the next.
pub(crate) fn under(words: &str, heading: &str) -> Vec<String> {
    let mut lines = words.lines().skip_while(|l| *l != format!("== {heading}"));
    assert!(lines.next().is_some(), "no heading {heading} in:\n{words}");
    lines.take_while(|l| !l.starts_with("== ")).map(str::to_string).collect()
}

fn linked(to: &str, says: String) -> String {
    if to.is_empty() { says } else { format!("[{to} {says}]") }
}

fn line(line: &Line) -> String {
    linked(&line.to, format!("{}{}", line.strong, line.says))
}

fn cell(lines: &[(String, bool)]) -> String {
    let line = |(says, strong): &(String, bool)| if *strong { format!("*{says}*") } else { says.clone() };
    lines.iter().map(line).collect::<Vec<_>>().join("; ")
}

fn block(block: &Block, lines: &mut Vec<String>) {
    match block {
        Block::Text(_, says) => lines.push(line(says)),
        Block::Section(title, _, inside) => {
            lines.push(format!("== {title}"));
            inside.iter().for_each(|b| self::block(b, lines));
        }
        Block::Rows(rows) | Block::Shares(rows) => {
            lines.extend(rows.iter().map(|(name, says)| format!("{name}: {says}")))
        }
        Block::Lines(list) => lines.extend(list.iter().map(line)),
        Block::Cards(cards) => {
            lines.extend(
                cards
                    .iter()
                    .map(|c| format!("{} {}", linked(&c.to, c.says.clone()), c.note).trim_end().to_string()),
            );
        }
        Block::Keys(keys) => {
            lines.extend(
                keys.iter()
                    .map(|(to, says, here)| format!("[{to} {says}]{}", if *here { " here" } else { "" })),
            );
        }
        Block::Pieces(pieces) => lines.extend(pieces.iter().map(|p| format!("{} mm: {}", p.mm, p.says))),
        Block::Table(t) => {
            lines.push(t.heads.join(" | "));
            for row in &t.rows {
                let mark = row.mark.as_ref().map(|m| format!(" ({})", m.1)).unwrap_or_default();
                lines.push(format!("{}{mark}", line(&row.name)));
                lines.push(row.cells.iter().map(|c| cell(c)).collect::<Vec<_>>().join(" | "));
            }
        }
        Block::Years(makes) => {
            lines.extend(makes.iter().map(|(name, p)| format!("{name}: {}", p.in_words())))
        }
        Block::Money(inside, open) => {
            lines.push(String::from(if *open { "shown:" } else { "hidden:" }));
            inside.iter().for_each(|b| self::block(b, lines));
        }
        Block::Search(label, typed) => lines.push(format!("{label}: <{typed}>")),
        Block::Numbered(piece, parts) => {
            lines.push(piece.says.clone());
            for part in parts {
                let words: Vec<String> = part.words.iter().map(line).collect();
                lines
                    .push(format!("{}: {}. {}", part.key, part.says, words.join(" ")).trim_end().to_string());
            }
        }
        Block::Said(says) => lines.push(format!("== {says}")),
        Block::Acts(acts) => lines.extend(acts.iter().map(|a| format!("<{}>", a.says))),
        Block::Pick { says, .. } | Block::Field { says, .. } => lines.push(format!("<{says}>")),
        Block::Save | Block::Themes => {}
    }
}

/// Every address on a sheet.
pub(crate) fn addresses(sheet: &Sheet) -> Vec<String> {
    let mut all: Vec<String> = sheet.keys.iter().map(|k| k.0.clone()).chain([sheet.find.clone()]).collect();
    sheet.lead.iter().chain(&sheet.body).for_each(|b| collect(b, &mut all));
    all.retain(|to| !to.is_empty());
    all
}

fn collect(block: &Block, all: &mut Vec<String>) {
    let mut add = |line: &Line| all.push(line.to.clone());
    match block {
        Block::Text(_, line) => add(line),
        Block::Lines(list) => list.iter().for_each(add),
        Block::Table(t) => t.rows.iter().for_each(|r| add(&r.name)),
        Block::Numbered(_, parts) => parts.iter().flat_map(|p| &p.words).for_each(add),
        Block::Section(_, _, inside) | Block::Money(inside, _) => inside.iter().for_each(|b| collect(b, all)),
        Block::Cards(cards) => all.extend(cards.iter().map(|c| c.to.clone())),
        Block::Keys(keys) => all.extend(keys.iter().map(|k| k.0.clone())),
        Block::Rows(_)
        | Block::Shares(_)
        | Block::Pieces(_)
        | Block::Years(_)
        | Block::Search(..)
        | Block::Save
        | Block::Said(_)
        | Block::Acts(_)
        | Block::Pick { .. }
        | Block::Field { .. }
        | Block::Themes => {}
    }
}
