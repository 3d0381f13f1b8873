//! `engine rows DATA ROWS` writes what is told; `engine page DATA PEERS OUT` measures and writes the page.

use anyhow::{Result, bail};
use proof::data::Data;
use proof::{settings, trial};
use std::path::{Path, PathBuf};

fn main() -> Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match words[..] {
        ["rows", data, rows] => write_rows(Path::new(data), Path::new(rows)),
        ["page", data, peers, out] => page(Path::new(data), Path::new(peers), Path::new(out)),
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

fn page(data: &Path, peers: &Path, _out: &Path) -> Result<()> {
    for table in tables(data)? {
        if std::env::var("ONLY").is_ok_and(|only| only != table.name) {
            continue;
        }
        let raw = table;
        let table = raw.with_unknown_as_state();
        let tell = |w: f64| -> Vec<trial::Told> {
            let mut told = trial::told(&raw, w, trial::times(&raw));
            told.iter_mut().for_each(|t| t.shown = raw.told_unknown(&t.shown));
            told
        };
        let start = std::time::Instant::now();
        let choices = trial::choices(&table)?;
        println!("{} {:?} {:?}", table.name, start.elapsed(), &choices[..5]);
        if table.name == "zoo" || table.name == "soybean" {
            for (w, asked) in [(0.0, None), (0.05, None), (0.05, Some(8))] {
                let told = tell(w);
                println!(
                    "{w} {asked:?} chosen {:?}",
                    proof::novelty::novelty(&table, &choices, &told, asked)?
                );
                let one =
                    vec![proof::learn::Choice { shape: proof::learn::Shape::One, rho: 0.0 }; choices.len()];
                println!("{w} {asked:?} one {:?}", proof::novelty::novelty(&table, &one, &told, asked)?);
                let one = vec![
                    proof::learn::Choice { shape: proof::learn::Shape::Mixture, rho: 0.0 };
                    choices.len()
                ];
                println!("{w} {asked:?} mix {:?}", proof::novelty::novelty(&table, &one, &told, asked)?);
            }
        }
        for wrong in settings::WRONG {
            let o = trial::outcome(&table, &choices, &tell(wrong))?;
            let all = o.budgets.iter().chain([&o.all]).zip([3, 5, 8, 12, 0]);
            let file = std::fs::read_to_string(peers.join(format!(
                "{}-{}.csv",
                table.name,
                (wrong * 100.0) as u32
            )))?;
            println!("{} {wrong} ece {:.4} {:?}", table.name, o.all.ece, o.all.ece_range);
            for (score, budget) in all {
                let lines = file.lines().filter(|l| l.contains(&format!("\",{budget},")));
                let best = lines.clone().max_by(|a, b| field(a, 1).total_cmp(&field(b, 1))).unwrap_or("");
                let loss = lines.map(|l| field(l, 2)).fold(f64::INFINITY, f64::min);
                println!(
                    "  {budget:>3}: {:.4} {:+.4}  loss {:.4} {loss:.4}   {best}",
                    score.accuracy,
                    score.accuracy - field(best, 1),
                    score.log_loss
                );
            }
        }
    }
    Ok(())
}

fn field(line: &str, at: usize) -> f64 {
    let rest = line.rsplit('"').next().unwrap_or("").trim_start_matches(',');
    rest.split(',').nth(at).and_then(|f| f.parse().ok()).unwrap_or(f64::NAN)
}
