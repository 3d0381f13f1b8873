//! Writes down what the deep tests found. A test reports a figure by printing a line that begins with `figure: `.

use crate::house;
use crate::run;
use anyhow::{Context, Result};
use std::time::{SystemTime, UNIX_EPOCH};

/// Writes `target/deep.txt`: date, commit, and every figure.
pub(super) fn write(output: &str) -> Result<()> {
    let commit = run::printed(run::command("git").args(["log", "-1", "--format=%h"]))?;
    let changed = run::printed(run::command("git").args(["status", "--porcelain"]))?;
    let more = if changed.is_empty() { "" } else { " with changes" };
    let now = SystemTime::now().duration_since(UNIX_EPOCH).context("The clock stands before 1970.")?;
    let mut text = format!(
        "{}, commit {}{more}\n",
        date(now.as_secs() / 86_400),
        String::from_utf8_lossy(&commit).trim()
    );
    for line in output.lines() {
        // With `--nocapture` the name of the test may stand before it on the same line.
        if let Some((_, figure)) = line.split_once("figure: ") {
            text.push_str(figure);
            text.push('\n');
        }
    }
    let file = house::at("target/deep.txt");
    std::fs::write(&file, text).with_context(|| format!("Cannot write {}.", file.display()))
}

/// Adds a figure that was found outside of the tests of the rooms.
pub(super) fn add(figure: &str) -> Result<()> {
    let file = house::at("target/deep.txt");
    let mut text = std::fs::read_to_string(&file).unwrap_or_default();
    text.push_str(figure);
    text.push('\n');
    std::fs::write(&file, text).with_context(|| format!("Cannot write {}.", file.display()))
}

/// ISO date of a day counted from 1970-01-01, by counting years and months off.
fn date(mut days: u64) -> String {
    let leap = |year: u64| year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    let mut year = 1970;
    while days >= 365 + u64::from(leap(year)) {
        days -= 365 + u64::from(leap(year));
        year += 1;
    }
    let mut month = 1;
    for length in [31, 28 + u64::from(leap(year)), 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] {
        if days < length {
            break;
        }
        days -= length;
        month += 1;
    }
    format!("{year}-{month:02}-{:02}", days + 1)
}

#[cfg(test)]
mod tests {
    use super::date;

    #[test]
    fn days_become_dates() {
        // Published: POSIX counts days from 1970-01-01; 11 016 days later is 2000-02-29, a leap day.
        assert_eq!(date(0), "1970-01-01");
        assert_eq!(date(11_016), "2000-02-29");
        assert_eq!(date(11_017), "2000-03-01");
        assert_eq!(date(20_453), "2025-12-31");
        assert_eq!(date(20_454), "2026-01-01");
    }
}
