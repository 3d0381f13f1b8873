//! `engine rows DATA ROWS` writes what is told; `engine page DATA PEERS OUT` measures and writes the page.

use anyhow::{Result, bail};
use proof::data::Data;
use proof::page::{Page, Section};
use proof::peers::Peers;
use proof::{page, sections, settings, trial};
use std::path::{Path, PathBuf};

fn main() -> Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match words[..] {
        ["rows", data, rows] => write_rows(Path::new(data), Path::new(rows)),
        ["page", data, peers, out] => write_page(Path::new(data), Path::new(peers), Path::new(out)),
        _ => bail!("engine rows DATA ROWS, or engine page DATA PEERS OUT."),
    }
}

/// The tables in a folder, by name.
fn tables(folder: &Path) -> Result<Vec<Data>> {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder)?.map(|e| Ok(e?.path())).collect::<Result<_>>()?;
    paths.sort();
    let names = paths.iter().filter_map(|p| p.file_stem()?.to_str());
    names.map(|name| Data::read(folder, name)).collect()
}

fn write_rows(data: &Path, rows: &Path) -> Result<()> {
    std::fs::create_dir_all(rows)?;
    for table in tables(data)? {
        for wrong in settings::WRONG {
            let told = trial::told(&table, wrong, trial::times(&table));
            trial::write(&rows.join(format!("{}-{}.csv", table.name, (wrong * 100.0) as u32)), &told)?;
        }
    }
    Ok(())
}

fn write_page(data: &Path, peers: &Path, out: &Path) -> Result<()> {
    let mut all = Vec::new();
    for raw in tables(data)? {
        let start = std::time::Instant::now();
        let file = |wrong: f64| peers.join(format!("{}-{}.csv", raw.name, (wrong * 100.0) as u32));
        let peers = settings::WRONG.iter().map(|w| Peers::read(&file(*w))).collect::<Result<_>>()?;
        let name = raw.name.clone();
        all.push(sections::measured(raw, peers)?);
        println!("  {name}: {:.1} s", start.elapsed().as_secs_f64());
    }
    let zoo = all.iter().find(|m| m.raw.name == "zoo").map(|m| &m.raw);
    let traced = std::env::var_os("PRESSMARK_TRACES").map(std::fs::read_to_string).transpose()?;
    let mut page = Page {
        title: "The engine beside its peers".into(),
        notes: vec![
            "Ours: the engine of this program, its tables learned from the training folds by stated rules. Peers: scikit-learn's decision \
             trees (entropy and gini; grown to a depth, or the path cut after so many distinct characters) and naive Bayes (the characters \
             that tell most on the training rows), called from their own package on the same rows in the same run."
                .into(),
            "Split: zoo and penguins leave one out; soybean and mushroom five stratified folds, seed 0. A wrong answer is another state, \
             each as likely, or a number from anywhere in the range. Settings: crates/proof/src/settings.rs."
                .into(),
            "Data: penguins (CC0) from the package palmerpenguins; zoo (Forsyth 1990, UCI 111, CC BY 4.0), soybean (Michalski and Chilausky \
             1980, UCI 90) and mushroom (UCI 73, CC BY 4.0) from the packages that carry them. A table that is missing was left out."
                .into(),
        ],
        sections: Vec::new(),
    };
    page.sections.push(Section {
        title: "The same answers as other libraries, and how fast".into(),
        text: "Lines without a figure were left out.".into(),
        rows: [proof::same::lines(&out.join("same"))?, proof::speed::lines(&out.join("speed"))?].concat(),
        ..Section::default()
    });
    page.sections.push(sections::digits()?);
    page.sections.push(sections::traces(zoo, traced.as_deref())?);
    page.sections.push(sections::keys(zoo)?);
    page.sections.extend(all.iter().map(sections::tables));
    page.sections.push(sections::strangers(&all)?);
    page.sections.push(sections::answers(&all)?);
    page.sections.push(Section {
        title: "Parts taken out".into(),
        text: "The engine with one part taken out must make the test of that name fail.".into(),
        rows: proof::mutations::lines(out),
        ..Section::default()
    });
    page::write(out, &page)?;
    let (kept, limits) = page::kept(&page);
    println!("{kept} of {limits} limits kept: {}", out.join("index.html").display());
    Ok(())
}
