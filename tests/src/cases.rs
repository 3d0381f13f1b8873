//! Cases as folders: `answers.txt` (what a user would tell) and `expect.txt` (what must hold of the finding).
//!
//! A line of `expect.txt` is one of
//! `role in first 2: toy | working`, `role toy at least 10`, `role sample at most 60`, `make period at least 66`,
//! `kind in first 1: two-part`, `later at least 90`; numbers are per cents. `years 1850 1900` wants that the years
//! which the finding gives with nine chances in ten overlap with these; `altered: some words` wants these words in what it
//! says of later alterations. `#` begins a remark.

use consult::{Body, FindingView, Guide, Screen, State, from_text, view};
use reason::{fit, weigh, with_fit};
use std::path::{Path, PathBuf};

/// The folders inside a folder, sorted.
#[must_use]
pub fn folders(path: &Path) -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> = std::fs::read_dir(path)
        .into_iter()
        .flatten()
        .flatten()
        .map(|e| e.path())
        .filter(|p| p.is_dir())
        .collect();
    folders.sort();
    folders
}

/// Shares of one sort of thing with their ids, greatest first.
#[derive(Debug)]
struct Shares(Vec<(String, f64)>);

impl Shares {
    fn new<'a>(ids: impl Iterator<Item = &'a String>, shares: Vec<f64>) -> Shares {
        let mut list: Vec<(String, f64)> = ids.cloned().zip(shares).collect();
        list.sort_by(|a, b| b.1.total_cmp(&a.1));
        Shares(list)
    }

    fn of(&self, id: &str) -> Result<f64, String> {
        self.0.iter().find(|(n, _)| n == id).map(|(_, s)| *s).ok_or_else(|| format!("nothing is called {id}"))
    }
}

/// One line of `expect.txt` and what stands instead where it does not hold.
#[derive(Debug)]
pub struct Expected {
    /// The line without its remark.
    pub line: String,
    /// What stands instead; nothing when the line holds.
    pub instead: Option<String>,
}

/// Checks one case. The error says every expectation that does not hold, with what stands instead.
///
/// # Errors
/// The expectations that do not hold, or why the case could not be read.
pub fn check(guide: &Guide, case: &Path) -> Result<(), String> {
    let broken: Vec<String> = expected(guide, case)?
        .into_iter()
        .filter_map(|e| e.instead.map(|instead| format!("{}: {instead}", e.line)))
        .collect();
    if broken.is_empty() { Ok(()) } else { Err(broken.join("\n")) }
}

/// Every line of a case's `expect.txt`, held against the finding.
///
/// # Errors
/// Why the case could not be read.
pub fn expected(guide: &Guide, case: &Path) -> Result<Vec<Expected>, String> {
    let read = |name: &str| std::fs::read_to_string(case.join(name)).map_err(|e| format!("{name}: {e}"));
    let state = from_text(guide, &read("answers.txt")?).map_err(|faults| faults.join("\n"))?;
    let answers = state.answers();
    let bare = weigh(&guide.model, state.place, &answers);
    let fit = fit(&guide.model, &bare, &answers);
    let posterior = with_fit(&guide.model, bare, fit);
    let core = &guide.core;
    let kinds = Shares::new(core.kinds.iter().map(|k| &k.id), posterior.kinds(&guide.model));
    let roles = Shares::new(core.roles.iter().map(|r| &r.id), posterior.roles(&guide.model));
    let makes = Shares::new(core.makes.iter().map(|m| &m.id), posterior.makes(&guide.model));
    let mut lines = Vec::new();
    for line in read("expect.txt")?.lines().map(|l| l.split('#').next().unwrap_or_default().trim()) {
        let held = match line.split_whitespace().next() {
            None => continue,
            Some("years") => overlaps(line, guide, &state),
            Some("altered:") => altered(line, guide, &state),
            Some("role") => holds(line, &roles, &makes),
            Some("kind") => holds(line, &kinds, &makes),
            Some(_) => holds(line, &makes, &makes),
        };
        lines.push(Expected { line: line.to_string(), instead: held.err() });
    }
    Ok(lines)
}

/// Whether `years 1850 1900` and the finding's years, nine chances in ten, have a year in common.
fn overlaps(line: &str, guide: &Guide, state: &State) -> Result<(), String> {
    let years: Vec<i16> = line.split_whitespace().filter_map(|w| w.parse().ok()).collect();
    let [from, to] = years[..] else { return Err("say `years`, the first and the last".to_string()) };
    if from > to {
        return Err("the first year comes after the last".to_string());
    }
    let found = finding(guide, state)?;
    let meets = found.years.nine_runs.iter().any(|(first, last)| *first <= to && from <= *last);
    if meets { Ok(()) } else { Err(format!("it is {}", found.years.nine)) }
}

/// Whether `altered: some words` stand in what the finding says of later alterations.
fn altered(line: &str, guide: &Guide, state: &State) -> Result<(), String> {
    let (_, words) = line.split_once(": ").ok_or("say `altered: ` and the words")?;
    let says = finding(guide, state)?.old_or_later.altered.join(" ");
    if says.contains(words) { Ok(()) } else { Err(format!("it says {says:?}")) }
}

fn finding(guide: &Guide, state: &State) -> Result<FindingView, String> {
    let mut finding = state.clone();
    finding.screen = Screen::Finding;
    match view(guide, &finding).body {
        Body::Finding(found) => Ok(*found),
        _ => Err("there is no finding".to_string()),
    }
}

fn holds(line: &str, shares: &Shares, makes: &Shares) -> Result<(), String> {
    if let Some((head, ids)) = line.split_once(':') {
        let n: usize = head.split_whitespace().last().and_then(|n| n.parse().ok()).ok_or("how many?")?;
        let first = &shares.0[..n.min(shares.0.len())];
        // A name that the pack does not have would make a line that can only fail, or that holds by its other names.
        ids.split('|').try_for_each(|id| shares.of(id.trim()).map(|_| ()))?;
        let found = ids.split('|').any(|id| first.iter().any(|(n, _)| n == id.trim()));
        return if found { Ok(()) } else { Err(format!("first are {first:?}")) };
    }
    let words: Vec<&str> = line.split_whitespace().collect();
    let (share, rest) = match words.as_slice() {
        ["later", rest @ ..] => (1.0 - makes.of("period")?, rest),
        [_, id, rest @ ..] => (shares.of(id)?, rest),
        _ => return Err("this line says nothing".to_string()),
    };
    let (at_least, bound) = match rest {
        ["at", "least", n] => (true, n),
        ["at", "most", n] => (false, n),
        _ => return Err("say `at least` or `at most`".to_string()),
    };
    let bound: f64 = bound.parse::<f64>().map_err(|e| e.to_string())? / 100.0;
    let ok = if at_least { share >= bound } else { share <= bound };
    if ok { Ok(()) } else { Err(format!("it is {:.1}", share * 100.0)) }
}
