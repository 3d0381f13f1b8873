//! `cargo xtask size`: what a phone must load before the first question, and in all, against the limits.

mod rooms;
mod table;
mod wasm_names;

use crate::build;
use crate::house;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use table::{Bytes, Table};

/// Everything up to the first question that can be answered, packed with brotli.
const FIRST_GOAL: u64 = 120_000;
const FIRST_LIMIT: u64 = 140_000;
/// Glue and wasm of the whole program, which is loaded once the first question can be answered.
const APP_LIMIT: u64 = 300_000;
/// Glue and wasm of what works on a photograph.
const PHOTO_LIMIT: u64 = 60_000;
/// Glue and wasm of the pack desk, which is loaded when a pack is made or opened.
const DESK_LIMIT: u64 = 450_000;
/// The guide's own files: what it loads beyond the question page, the book of the pack left out, which that page loads
/// as well once it can be used.
const GUIDE_LIMIT: u64 = 135_000;
/// The cabinet's own files.
const CABINET_LIMIT: u64 = 220_000;
/// The practice page's own files, the pack left out.
const PRACTICE_LIMIT: u64 = 200_000;
/// Everything that is kept for offline use, as transferred; the pack desk is kept only once it was used.
const OFFLINE_LIMIT: u64 = 1_250_000;
/// What a page of another site loads before anything is pressed, packed with gzip.
const EMBED_LIMIT: u64 = 5_000;
/// The edition of one file, as it lies on a memory stick.
const ONE_FILE_LIMIT: u64 = 2_000_000;
/// Requests up to the first question, the icon and the manifest among them.
const REQUESTS_LIMIT: usize = 8;

/// Modules of the standard library that print and read floats.
const FLOATS: [&str; 2] = ["flt2dec", "dec2flt"];

/// The program that reads figures as people write them and prints reports: the pack desk is a compiler.
const READS_FIGURES: &str = "desk";

/// Builds what changed, prints the table, and fails when a limit is broken.
pub(crate) fn verb(arguments: &[String], steps: &mut Steps) -> Result<()> {
    let rooms = match arguments {
        [] => false,
        [only] if only == "--rooms" => true,
        _ => bail!("size takes --rooms or nothing."),
    };
    build::site(steps)?;
    if rooms {
        for (name, _) in build::PROGRAMS {
            println!("\nprogram {name}");
            rooms::print(&functions(name)?);
        }
    }
    check()
}

/// What the compiler made a program of.
fn functions(name: &str) -> Result<Vec<wasm_names::Function>> {
    let wasm = std::fs::read(build::named_wasm(name)).context("Cannot read the wasm with its names.")?;
    wasm_names::functions(&wasm).with_context(|| {
        format!("The wasm of the program {name} cannot be checked for what was linked into it.")
    })
}

/// Prints the table of what has been built, and fails when a limit is broken.
pub(crate) fn check() -> Result<()> {
    let dist = house::dist();
    let table = Table::of(&dist, "index.html")?;
    let guide = Table::of(&dist, "book.html")?.beyond(&table, ".pack");
    let cabinet = Table::of(&dist, "cabinet.html")?.beyond(&table, ".pack");
    let practice = Table::of(&dist, "practice.html")?.beyond(&table, ".pack");
    let app = table.later()?;
    let first = table.first();
    let offline = table.offline()?.without(table.desk()?.first());
    table.print();
    println!("{:<34}{}", "up to the first question", first);
    app.print();
    let whole = app.first();
    println!("{:<34}{}", "the whole program", whole);
    let photo = table.photo()?;
    photo.print();
    let darkroom = photo.first();
    println!("{:<34}{}", "what works on a photograph", darkroom);
    let desk = table.desk()?;
    desk.print();
    let checks = desk.first();
    println!("{:<34}{}", "the pack desk", checks);
    guide.print();
    let own = guide.first();
    println!("{:<34}{}", "the guide's own files", own);
    cabinet.print();
    let keeps = cabinet.first();
    println!("{:<34}{}", "the cabinet's own files", keeps);
    practice.print();
    let learns = practice.first();
    println!("{:<34}{}", "the practice page's own files", learns);
    let embed = table::bytes(&dist, "embed.js")?;
    println!("{:<34}{}", "embed.js, in pages of others", embed);
    println!("\n{:<34}{}", "kept for offline use", offline);
    let one_file =
        std::fs::metadata(build::one_file_made()).context("There is no edition of one file.")?.len();
    println!("{:<34}{one_file:>10}", "the edition of one file");
    println!("requests up to the first question: {} (limit {REQUESTS_LIMIT})", table.requests());

    let mut faults = Vec::new();
    if first.brotli > FIRST_LIMIT {
        faults.push(format!(
            "Up to the first question {} bytes are transferred; the limit is {FIRST_LIMIT}.",
            first.brotli
        ));
    } else if first.brotli > FIRST_GOAL {
        println!("Above the goal of {FIRST_GOAL} bytes by {}.", first.brotli - FIRST_GOAL);
    }
    if whole.brotli > APP_LIMIT {
        faults.push(format!("The whole program has {} bytes; the limit is {APP_LIMIT}.", whole.brotli));
    }
    if darkroom.brotli > PHOTO_LIMIT {
        faults.push(format!(
            "What works on a photograph has {} bytes; the limit is {PHOTO_LIMIT}.",
            darkroom.brotli
        ));
    }
    if checks.brotli > DESK_LIMIT {
        faults.push(format!("The pack desk has {} bytes; the limit is {DESK_LIMIT}.", checks.brotli));
    }
    if own.brotli > GUIDE_LIMIT {
        faults.push(format!("The guide's own files have {} bytes; the limit is {GUIDE_LIMIT}.", own.brotli));
    }
    if keeps.brotli > CABINET_LIMIT {
        faults.push(format!(
            "The cabinet's own files have {} bytes; the limit is {CABINET_LIMIT}.",
            keeps.brotli
        ));
    }
    if learns.brotli > PRACTICE_LIMIT {
        faults.push(format!(
            "The practice page's own files have {} bytes; the limit is {PRACTICE_LIMIT}.",
            learns.brotli
        ));
    }
    if offline.brotli > OFFLINE_LIMIT {
        faults.push(format!(
            "{} bytes are kept for offline use; the limit is {OFFLINE_LIMIT}.",
            offline.brotli
        ));
    }
    if embed.gzip > EMBED_LIMIT {
        faults.push(format!("embed.js has {} bytes; the limit is {EMBED_LIMIT}.", embed.gzip));
    }
    if one_file > ONE_FILE_LIMIT {
        faults.push(format!("The edition of one file has {one_file} bytes; the limit is {ONE_FILE_LIMIT}."));
    }
    if table.requests() > REQUESTS_LIMIT {
        faults.push(format!(
            "The first question takes {} requests; the limit is {REQUESTS_LIMIT}.",
            table.requests()
        ));
    }
    for (name, _) in build::PROGRAMS.into_iter().filter(|(name, _)| *name != READS_FIGURES) {
        let all = functions(name)?.into_iter();
        let floats: Vec<_> = all.filter(|one| FLOATS.iter().any(|word| one.name.contains(word))).collect();
        if let Some(example) = floats.first() {
            faults.push(format!(
                "Code that prints or reads floats is linked into the program {name} ({} functions, such as {}). It costs \
                 about 20 kB: keep floats inside, integers at every border, and no Debug or Display of a float.",
                floats.len(),
                example.name
            ));
        }
    }
    if faults.is_empty() { Ok(()) } else { bail!("{}", faults.join("\n")) }
}

impl std::fmt::Display for Bytes {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:>10}{:>10}{:>10}", self.raw, self.gzip, self.brotli)
    }
}
