//! What the peers gave: figures of `peers/peers.py`.

use anyhow::Result;
use std::path::Path;

/// One table at one share of wrong answers: peer, budget (0: all), accuracy, log loss.
#[derive(Debug, Clone, Default)]
pub struct Peers(Vec<(String, usize, f64, f64)>);

impl Peers {
    /// Reads a file; where there is none, there are no peers.
    ///
    /// # Errors
    /// When the file is not of the expected shape.
    pub fn read(path: &Path) -> Result<Peers> {
        if !path.exists() {
            return Ok(Peers::default());
        }
        let mut reader = csv::Reader::from_path(path)?;
        let rows = reader.deserialize().map(|r| {
            let (peer, budget, accuracy, loss, _brier): (String, usize, f64, f64, f64) = r?;
            Ok((peer, budget, accuracy, loss))
        });
        Ok(Peers(rows.collect::<Result<_>>()?))
    }

    /// The most accurate at a budget.
    #[must_use]
    pub fn best(&self, budget: usize) -> (&str, f64) {
        let at = self.0.iter().filter(|p| p.1 == budget);
        at.max_by(|a, b| a.2.total_cmp(&b.2)).map_or(("no peer", f64::NAN), |p| (p.0.as_str(), p.2))
    }

    /// The least log loss with all answers.
    #[must_use]
    pub fn least_loss(&self) -> (&str, f64) {
        let at = self.0.iter().filter(|p| p.1 == 0);
        at.min_by(|a, b| a.3.total_cmp(&b.3)).map_or(("no peer", f64::NAN), |p| (p.0.as_str(), p.3))
    }
}
