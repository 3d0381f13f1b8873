//! Skips what has been done already: a step is fresh when the digest of everything it reads is the one it left behind.

use crate::house;
use anyhow::{Context, Result};
use sha2::{Digest, Sha256};
use std::path::PathBuf;

/// The inputs of one step, and where their digest is kept.
pub(crate) struct Stamp {
    file: PathBuf,
    digest: String,
}

impl Stamp {
    /// Reads every file under `paths` (relative to the repository; what does not exist counts as absent) and mixes in
    /// `words`: versions of tools, names of earlier outputs.
    pub(crate) fn of(step: &str, paths: &[&str], words: &[String]) -> Result<Self> {
        let root = house::root();
        let mut sum = Sha256::new();
        for path in paths {
            for file in house::files(&root.join(path))? {
                let bytes =
                    std::fs::read(&file).with_context(|| format!("Cannot read {}.", file.display()))?;
                sum.update(file.strip_prefix(&root).unwrap_or(&file).to_string_lossy().as_bytes());
                sum.update(bytes.len().to_le_bytes());
                sum.update(&bytes);
            }
        }
        for word in words {
            sum.update(word.len().to_le_bytes());
            sum.update(word.as_bytes());
        }
        let digest = sum.finalize().iter().map(|byte| format!("{byte:02x}")).collect();
        Ok(Self { file: house::site().join("stamps").join(step), digest })
    }

    /// Whether the step has been done with these very inputs and `outputs` still stand.
    pub(crate) fn fresh(&self, outputs: &[PathBuf]) -> bool {
        std::fs::read_to_string(&self.file).is_ok_and(|kept| kept == self.digest)
            && outputs.iter().all(|output| output.exists())
    }

    /// Forgets the last run. Called before the work, so that work cut short is done again.
    pub(crate) fn clear(&self) -> Result<()> {
        if self.file.exists() {
            std::fs::remove_file(&self.file)
                .with_context(|| format!("Cannot remove {}.", self.file.display()))?;
        }
        Ok(())
    }

    /// Remembers that the work is done.
    pub(crate) fn keep(&self) -> Result<()> {
        if let Some(folder) = self.file.parent() {
            std::fs::create_dir_all(folder)?;
        }
        std::fs::write(&self.file, &self.digest)
            .with_context(|| format!("Cannot write {}.", self.file.display()))
    }

    /// The digest itself, as an input of a later step.
    pub(crate) fn word(&self) -> String {
        self.digest.clone()
    }
}
