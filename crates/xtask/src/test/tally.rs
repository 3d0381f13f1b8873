//! Counts what passed and failed, from the closing lines of the test runners themselves.

use std::fmt;

/// Checks that ran so far.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Tally {
    pub(super) passed: u64,
    pub(super) failed: u64,
    /// Tests that were there and did not run. No lane with such a test passes.
    pub(super) skipped: u64,
}

impl Tally {
    pub(super) fn add(&mut self, other: Tally) {
        self.passed += other.passed;
        self.failed += other.failed;
        self.skipped += other.skipped;
    }

    /// Reads the closing lines of cargo's test runner, one for each test binary.
    pub(super) fn of_cargo(output: &str) -> Tally {
        let mut tally = Tally::default();
        for line in output.lines().filter(|line| line.starts_with("test result: ")) {
            tally.passed += before(line, " passed");
            tally.failed += before(line, " failed");
            tally.skipped += before(line, " ignored");
        }
        tally
    }

    /// Reads the closing lines of node's test runner: `# pass 12` or `ℹ pass 12`.
    pub(super) fn of_node(output: &str) -> Tally {
        let mut tally = Tally::default();
        for line in output.lines() {
            let mut words = line.split_whitespace();
            if !matches!(words.next(), Some("#" | "ℹ")) {
                continue;
            }
            let (name, count) =
                (words.next(), words.next().and_then(|word| word.parse().ok()).unwrap_or(0_u64));
            match name {
                Some("pass") => tally.passed += count,
                Some("fail" | "cancelled") => tally.failed += count,
                Some("skipped" | "todo") => tally.skipped += count,
                _ => {}
            }
        }
        tally
    }
}

/// The number that stands before `word`, or 0.
fn before(line: &str, word: &str) -> u64 {
    line.split_once(word)
        .and_then(|(front, _)| front.rsplit(' ').next())
        .and_then(|number| number.parse().ok())
        .unwrap_or(0)
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} passed, {} failed", self.passed, self.failed)?;
        if self.skipped > 0 {
            write!(f, ", {} skipped", self.skipped)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cargo_and_node_are_counted_as_they_count_themselves() {
        let cargo = "running 3 tests\ntest a ... ok\n\
                     test result: FAILED. 12 passed; 1 failed; 2 ignored; 0 measured; 0 filtered out; finished in 0.1s\n\
                     test result: ok. 3 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.1s\n";
        assert_eq!(Tally::of_cargo(cargo), Tally { passed: 15, failed: 1, skipped: 2 });
        let node =
            "ℹ tests 4\nℹ suites 0\nℹ pass 2\nℹ fail 1\nℹ cancelled 1\nℹ skipped 0\nℹ todo 0\n# pass 5\n";
        assert_eq!(Tally::of_node(node), Tally { passed: 7, failed: 2, skipped: 0 });
    }

    #[test]
    fn the_closing_line_names_what_was_skipped_only_if_something_was() {
        assert_eq!(Tally { passed: 7, failed: 0, skipped: 0 }.to_string(), "7 passed, 0 failed");
        assert_eq!(Tally { passed: 7, failed: 1, skipped: 2 }.to_string(), "7 passed, 1 failed, 2 skipped");
    }
}
