//! `cargo xtask bench fuzz [per cent]`: millions of foreign inputs to every reader, searched by coverage where cargo-fuzz
//! can be had, which needs unstable flags of the compiler: the stable one is told to take them. The readers of messages
//! between a host and the frame are JavaScript: they are handed mutated messages by Node.
//!
//! What is found and learned lies among what is built, the figures in `target/phone/fuzz.json`.

use crate::house;
use crate::run;
use crate::setup;
use crate::steps::Steps;
use anyhow::{Context, Result, bail, ensure};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Mutex;
use std::time::Instant;

/// The readers of `tests/foreign` and how many inputs each is handed, the longest work first. Together with the messages they are
/// more than five million.
const READERS: [(&str, u64); 15] = [
    // Each input is a whole pack that is compiled, and simulated when it is sound: one or two hundred a second.
    ("files", 14_000),
    // All readings of a lettering are weighed over the years: some hundred a second.
    ("marks", 40_000),
    // Each table is guessed, taken, and every record in it checked.
    ("sheet", 200_000),
    // Up to forty kilobytes are read, and used when they are let in.
    ("tables", 300_000),
    // From here on some ten thousand a second and more.
    ("link", 800_000),
    ("handover", 500_000),
    ("answers", 600_000),
    ("cabinet", 600_000),
    ("practice", 500_000),
    ("whole", 500_000),
    ("halves", 800_000),
    ("handed", 500_000),
    ("signature", 600_000),
    ("photograph", 800_000),
    ("asked", 500_000),
];
/// What Node is handed, and how often.
const MESSAGES: (&str, u64) = ("messages", 300_000);
/// Readers that are tried at a time.
const AT_A_TIME: usize = 2;
/// Where every search begins, so that two runs of one edition find the same.
const SEED: u64 = 20_261_129;

/// What came of one reader.
struct Tried {
    target: &'static str,
    runs: u64,
    seconds: f64,
    found: Option<String>,
}

/// Tries every reader with so many per cent of its runs; says so when some are left out.
pub(super) fn run(per_cent: &str, steps: &mut Steps) -> Result<()> {
    let per_cent: u64 =
        per_cent.parse().context("bench fuzz takes how many per cent of its runs it should make.")?;
    let scaled = |(target, runs): (&'static str, u64)| (target, (runs * per_cent / 100).max(1));
    let mut tried = Vec::new();
    match built(steps) {
        Ok(program) => {
            let todo = Mutex::new(READERS.into_iter().map(scaled));
            tried.extend(steps.step("fuzz: all readers", || searched(&program, &todo))?);
        }
        Err(why) => println!("Left out, what is searched by coverage. {why:#}"),
    }
    match setup::node(steps)? {
        Some(node) => {
            let (target, runs) = scaled(MESSAGES);
            tried.push(steps.step("fuzz: messages", || messages(&node.program, target, runs))?);
        }
        None => println!("Left out, the messages between a host and the frame: there is no Node."),
    }
    told(&tried)
}

/// The program that hands bytes to a reader, built so that it tells what of itself was run.
fn built(steps: &mut Steps) -> Result<PathBuf> {
    let fuzz = setup::cargo_fuzz(steps)?;
    let target = house::target().join("fuzz-build");
    steps.step("fuzz: build", || {
        let mut build = run::cargo();
        let folder = fuzz.parent().context("A program lies in a folder.")?.to_path_buf();
        build
            .env("PATH", run::path_with(&[folder])?)
            .env("RUSTC_BOOTSTRAP", "1")
            .env("CARGO_TARGET_DIR", &target);
        build.args(["fuzz", "build", "--fuzz-dir", "tests/fuzz", "--sanitizer", "none", "readers"]);
        run::shown(&mut build)
    })?;
    // It lies in a folder named by the machine that it is built for.
    let program = format!("release/readers{}", std::env::consts::EXE_SUFFIX);
    let places = fs::read_dir(&target)?.filter_map(|entry| Some(entry.ok()?.path().join(&program)));
    places.into_iter().find(|path| path.is_file()).context("cargo-fuzz built nothing.")
}

/// Takes reader after reader from the list, some at a time.
fn searched(
    program: &Path,
    todo: &Mutex<impl Iterator<Item = (&'static str, u64)> + Send>,
) -> Result<Vec<Tried>> {
    let next = || todo.lock().ok()?.next();
    let worker = || {
        let mut tried = Vec::new();
        while let Some((reader, runs)) = next() {
            tried.push(search(program, reader, runs)?);
        }
        anyhow::Ok(tried)
    };
    std::thread::scope(|scope| {
        let workers: Vec<_> = (0..AT_A_TIME).map(|_| scope.spawn(worker)).collect();
        let mut all = Vec::new();
        for worker in workers {
            all.extend(worker.join().map_err(|_| anyhow::anyhow!("A search got lost."))??);
        }
        Ok(all)
    })
}

/// Hands inputs to one reader until so many were tried or one upsets it.
fn search(program: &Path, reader: &'static str, runs: u64) -> Result<Tried> {
    let begun = Instant::now();
    let search = Search::of(program, reader)?;
    let (mut done, mut found) = (0, None);
    while done < runs && found.is_none() {
        let (more, ended_well) = search.on(runs - done, done)?;
        done += more;
        found = house::files(&search.found)?.into_iter().next();
        if ended_well {
            break;
        }
        let Some(path) = &found else {
            bail!("The search of {reader} broke off and left nothing: see {}.", search.log.display());
        };
        // The machine may have stood still meanwhile: what took too long must do so again.
        if path.file_name().is_some_and(|name| name.to_string_lossy().starts_with("timeout-"))
            && search.tool().arg(path).output()?.status.success()
        {
            fs::remove_file(path)?;
            found = None;
        }
    }
    let found = found.map(|path| path.display().to_string());
    Ok(Tried { target: reader, runs: done, seconds: begun.elapsed().as_secs_f64(), found })
}

/// Where the search of one reader begins, and what it leaves.
struct Search<'a> {
    program: &'a Path,
    reader: &'static str,
    seeds: PathBuf,
    learned: PathBuf,
    found: PathBuf,
    log: PathBuf,
}

impl<'a> Search<'a> {
    fn of(program: &'a Path, reader: &'static str) -> Result<Search<'a>> {
        let folder = house::target().join("fuzz");
        let at = |name: &str| folder.join(format!("{reader}{name}"));
        let (seeds, learned, log) = (at("-seeds"), at(""), at(".log"));
        let found = folder.join("found").join(reader);
        for made in [&seeds, &learned, &found] {
            house::empty(made).with_context(|| format!("Cannot make {}.", made.display()))?;
        }
        fs::write(&log, "")?;
        Ok(Search { program, reader, seeds, learned, found, log })
    }

    fn tool(&self) -> Command {
        let mut tool = run::command(self.program);
        tool.env("PRESSMARK_READER", self.reader).env("PRESSMARK_SEEDS", &self.seeds);
        tool.args(["-timeout=10", "-print_final_stats=1"]);
        tool
    }

    /// Goes on for so many inputs after so many; gives how many were tried, and whether all was well.
    fn on(&self, runs: u64, after: u64) -> Result<(u64, bool)> {
        let said = fs::File::create(&self.log)?;
        let mut tool = self.tool();
        tool.arg(&self.learned).arg(&self.seeds);
        tool.arg(format!("-dict={}", self.seeds.with_extension("words").display()));
        tool.arg(format!("-artifact_prefix={}/", self.found.display()));
        tool.arg(format!("-runs={runs}")).arg(format!("-seed={}", (SEED + after) % u64::from(u32::MAX)));
        tool.stdout(said.try_clone()?).stderr(said);
        let status = tool.status().with_context(|| format!("Cannot start {}.", self.program.display()))?;
        let said = fs::read(&self.log)?;
        let tried = executed(&String::from_utf8_lossy(&said));
        let tried =
            tried.with_context(|| format!("libFuzzer gave no figures: see {}.", self.log.display()))?;
        Ok((tried, status.success()))
    }
}

/// How many inputs were tried, by the last figures of libFuzzer.
fn executed(said: &str) -> Option<u64> {
    said.lines().find_map(|line| line.strip_prefix("stat::number_of_executed_units:"))?.trim().parse().ok()
}

/// Node's part: the script prints how many messages it handed over, or what it found.
fn messages(node: &Path, target: &'static str, runs: u64) -> Result<Tried> {
    let begun = Instant::now();
    let mut script = Command::new(node);
    script
        .current_dir(house::root())
        .arg("tests/fuzz/messages.mjs")
        .arg(runs.to_string())
        .arg(SEED.to_string());
    let output = script.output().context("Cannot start Node.")?;
    let (said, wrong) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    let found = (!output.status.success()).then(|| wrong.trim().to_string());
    let runs = said.trim().parse().unwrap_or(0);
    Ok(Tried { target, runs, seconds: begun.elapsed().as_secs_f64(), found })
}

/// Prints and writes the figures; fails when anything was found.
fn told(tried: &[Tried]) -> Result<()> {
    let lines: Vec<serde_json::Value> = tried
        .iter()
        .map(|t| {
            let seconds = (t.seconds * 10.0).round() / 10.0;
            serde_json::json!({ "target": t.target, "runs": t.runs, "seconds": seconds, "found": t.found })
        })
        .collect();
    let out = house::target().join("phone");
    fs::create_dir_all(&out)?;
    fs::write(out.join("fuzz.json"), serde_json::to_string_pretty(&lines)? + "\n")?;
    println!();
    for t in tried {
        let found = t.found.as_ref().map_or(String::new(), |found| format!("  FOUND: {found}"));
        println!("{:>12} {:>9} inputs in {:>6.1} s{found}", t.target, t.runs, t.seconds);
    }
    println!("{:>12} {:>9} inputs", "all", tried.iter().map(|t| t.runs).sum::<u64>());
    let upset: Vec<&str> = tried.iter().filter(|t| t.found.is_some()).map(|t| t.target).collect();
    ensure!(
        upset.is_empty(),
        "Inputs were found that upset these readers: {}. Each lies where the list above says; its words stand in {}.",
        upset.join(", "),
        house::target().join("fuzz").display()
    );
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_figures_of_a_search_are_read() {
        // As libFuzzer prints them; the figures are invented.
        let said = "#12\tDONE   cov: 3\nstat::number_of_executed_units: 1058391\nstat::average_exec_per_sec:     66149\n";
        assert_eq!(executed(said), Some(1_058_391));
        assert_eq!(executed("==7== ERROR"), None);
    }

    #[test]
    fn all_together_are_five_million() {
        let all: u64 = READERS.iter().chain(&[MESSAGES]).map(|(_, runs)| runs).sum();
        assert!(all >= 5_000_000, "{all}");
    }

    #[test]
    fn every_reader_is_searched() {
        let named = fs::read_dir(house::at("tests/foreign/src")).expect("the readers").flatten();
        let texts = named.map(|entry| fs::read_to_string(entry.path()).expect("a text")).collect::<String>();
        let count = texts.lines().filter(|line| line.trim_start().starts_with("name: \"")).count();
        assert_eq!(count, READERS.len());
        assert!(READERS.iter().all(|(name, _)| texts.contains(&format!("name: \"{name}\","))));
    }
}
