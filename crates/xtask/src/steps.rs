//! The clock: says what is being done, how long it took, and at the end which steps were slowest.

use std::io::Write;
use std::time::{Duration, Instant};

/// What has been done so far in this run.
pub(crate) struct Steps {
    done: Vec<(String, Duration)>,
    start: Instant,
}

impl Steps {
    pub(crate) fn new() -> Self {
        Self { done: Vec::new(), start: Instant::now() }
    }

    /// Does one step, with its name before it and its time behind it.
    pub(crate) fn step<T>(
        &mut self,
        name: &str,
        work: impl FnOnce() -> anyhow::Result<T>,
    ) -> anyhow::Result<T> {
        println!("· {name}");
        // A tool that is started now must not print above this line.
        let _ = std::io::stdout().flush();
        let start = Instant::now();
        let outcome = work();
        let took = start.elapsed();
        if took >= Duration::from_millis(100) {
            println!("  {name}: {:.1} s", took.as_secs_f64());
        }
        self.done.push((name.to_owned(), took));
        outcome
    }

    /// Does a lane: a step that has steps of its own. Only those count among the slowest, if there are any.
    pub(crate) fn lane(
        &mut self,
        name: &str,
        work: impl FnOnce(&mut Steps) -> anyhow::Result<()>,
    ) -> anyhow::Result<()> {
        println!("\n· {name}");
        let _ = std::io::stdout().flush();
        let (start, before) = (Instant::now(), self.done.len());
        let outcome = work(self);
        let took = start.elapsed();
        println!("  {name}: {:.1} s", took.as_secs_f64());
        if self.done.len() == before {
            self.done.push((name.to_owned(), took));
        }
        outcome
    }

    /// Says that a step was not needed.
    pub(crate) fn unchanged(&mut self, name: &str) {
        println!("· {name}: unchanged");
    }

    /// Forgets the steps, once they have been printed.
    pub(crate) fn forget(&mut self) {
        self.done.clear();
    }

    /// Prints the ten slowest steps, if there was more than one.
    pub(crate) fn slowest(&self) {
        if self.done.len() < 2 {
            return;
        }
        let mut by_time: Vec<&(String, Duration)> = self.done.iter().collect();
        by_time.sort_by_key(|step| std::cmp::Reverse(step.1));
        println!("\nSlowest steps, of {:.1} s in all:", self.start.elapsed().as_secs_f64());
        for (name, took) in by_time.into_iter().take(10) {
            println!("{:>8.1} s  {name}", took.as_secs_f64());
        }
    }
}
