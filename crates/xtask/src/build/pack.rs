//! The bundled pack, made by the same command that a club uses: one way from plain files to bytes.

use crate::house;
use crate::run;
use crate::stamp::Stamp;
use crate::steps::Steps;
use anyhow::{Context, Result};
use std::path::{Path, PathBuf};

const BUNDLED: &str = "data/packs/irons";
const TABLES: &str = "data/reference";
const DEMO: &str = "data/packs/demo";
/// What is made of the tables.
const MADE: [&str; 5] = ["marks", "metals", "prices", "demo", "coins"];

/// The two halves of the pack, and the reference tables.
pub(super) struct Packs {
    pub(super) core: PathBuf,
    pub(super) book: PathBuf,
    /// By the name under which a program asks for it.
    pub(super) tables: [(&'static str, PathBuf); 5],
    /// The printed key and the field card, pages without their final names; the styles of the card stand beside it.
    pub(super) key: PathBuf,
    pub(super) card: PathBuf,
    pub(super) card_styles: PathBuf,
    pub(super) stamp: Stamp,
}

/// Compiles the pack if its files, or what compiles them, have changed.
pub(super) fn step(steps: &mut Steps) -> Result<Packs> {
    let folder = house::packs();
    // The rooms that a pack is made by; others may change without making another pack.
    let paths = [
        "units", "pack", "reason", "dating", "appraise", "measure", "sketch", "consult", "compile",
        "practice", "survey", "workshop",
    ]
    .map(|room| format!("crates/{room}"));
    let paths: Vec<&str> =
        paths.iter().map(String::as_str).chain([BUNDLED, TABLES, DEMO, "data/art", "Cargo.lock"]).collect();
    let stamp = Stamp::of("pack", &paths, &[])?;
    let printed = Printed {
        key: folder.join("key.html"),
        card: folder.join("card.html"),
        card_styles: folder.join("card.css"),
    };
    if let Ok(list) = read_list(&folder)
        && stamp.fresh(&[list.all(), printed.all().to_vec()].concat())
    {
        steps.unchanged("pack");
        return packs(list, printed, stamp);
    }
    stamp.clear()?;
    steps.step("pack: compile", || {
        house::empty(&folder)?;
        let mut workshop = run::own("workshop")?;
        workshop.args(["build", BUNDLED, "--out"]).arg(&folder);
        run::shown(&mut workshop).context("The pack could not be compiled.")
    })?;
    steps.step("tables: compile", || {
        let mut workshop = run::own("workshop")?;
        workshop.args(["build", TABLES, "--out"]).arg(tables_in(&folder));
        run::shown(&mut workshop).context("The reference tables could not be compiled.")
    })?;
    steps.step("pack: printed key", || {
        let mut workshop = run::own("workshop")?;
        workshop.args(["print", "key", BUNDLED]);
        let page = run::printed(&mut workshop).context("The key could not be printed.")?;
        Ok(std::fs::write(&printed.key, page)?)
    })?;
    steps.step("pack: field card", || {
        let mut workshop = run::own("workshop")?;
        workshop.args(["print", BUNDLED, "--card"]).arg(&printed.card);
        run::shown(&mut workshop).context("The field card could not be printed.")
    })?;
    stamp.keep()?;
    packs(read_list(&folder)?, printed, stamp)
}

/// What is made for paper.
struct Printed {
    key: PathBuf,
    card: PathBuf,
    card_styles: PathBuf,
}

impl Printed {
    fn all(&self) -> [PathBuf; 3] {
        [self.key.clone(), self.card.clone(), self.card_styles.clone()]
    }
}

fn packs(list: Listed, printed: Printed, stamp: Stamp) -> Result<Packs> {
    let Printed { key, card, card_styles } = printed;
    let Listed { core, book, tables } = list;
    Ok(Packs { core, book, tables, key, card, card_styles, stamp })
}

/// What the two `pack.txt` name.
struct Listed {
    core: PathBuf,
    book: PathBuf,
    tables: [(&'static str, PathBuf); 5],
}

impl Listed {
    fn all(&self) -> Vec<PathBuf> {
        let tables = self.tables.iter().map(|(_, path)| path.clone());
        [self.core.clone(), self.book.clone()].into_iter().chain(tables).collect()
    }
}

fn tables_in(folder: &Path) -> PathBuf {
    folder.join("tables")
}

/// The files that the two `pack.txt` name: `core <file>` and `book <file>` of the pack, `marks <file>` and so on of the
/// tables.
fn read_list(folder: &Path) -> Result<Listed> {
    let inside = tables_in(folder);
    let mut tables = MADE.map(|what| (what, PathBuf::new()));
    for (what, path) in &mut tables {
        *path = named(&inside, what)?;
    }
    Ok(Listed { core: named(folder, "core")?, book: named(folder, "book")?, tables })
}

fn named(folder: &Path, what: &str) -> Result<PathBuf> {
    let file = folder.join("pack.txt");
    let text = std::fs::read_to_string(&file).with_context(|| format!("Cannot read {}.", file.display()))?;
    text.lines()
        .find_map(|line| line.strip_prefix(what)?.strip_prefix(' '))
        .map(|name| folder.join(name))
        .with_context(|| format!("{} names no {what}.", file.display()))
}
