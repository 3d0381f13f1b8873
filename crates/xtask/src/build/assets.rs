//! Gives every file the name of its own bytes. Trunk names files before their last change, so the same name could come
//! to mean other bytes, and whatever trusts names (a cache, the service worker) would mix versions.

use crate::digest;
use anyhow::{Context, Result};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// What has been put into the release so far.
pub(super) struct Assets {
    dist: PathBuf,
    /// From the name in the sources to the name in the release.
    renamed: BTreeMap<String, String>,
    /// Name in the release, as a browser asks for it, and the digest of the bytes.
    listed: Vec<(String, String)>,
    /// What nobody needs without a signal.
    beside: Vec<String>,
    /// The same of what is kept only once it was used.
    later: Vec<(String, String)>,
}

impl Assets {
    pub(super) fn new(dist: &Path) -> Self {
        Self {
            dist: dist.to_path_buf(),
            renamed: BTreeMap::new(),
            listed: Vec::new(),
            later: Vec::new(),
            beside: Vec::new(),
        }
    }

    /// Puts a file in under a name made of its bytes, and returns that name.
    pub(super) fn add(&mut self, name: &str, bytes: &[u8]) -> Result<String> {
        let renamed = digest::named(name, bytes);
        self.write(&renamed, bytes)?;
        self.renamed.insert(name.to_owned(), renamed.clone());
        self.listed.push((renamed.clone(), digest::hex(bytes)));
        Ok(renamed)
    }

    /// The same for a file that few need: it is not kept for offline use before it was used.
    pub(super) fn add_later(&mut self, name: &str, bytes: &[u8]) -> Result<String> {
        let renamed = self.add(name, bytes)?;
        self.later.extend(self.listed.pop());
        Ok(renamed)
    }

    /// Puts a page in under its own name. The start page is asked for as `./`: some hosts send `index.html` elsewhere.
    pub(super) fn keep(&mut self, name: &str, bytes: &[u8]) -> Result<()> {
        self.write(name, bytes)?;
        let asked = if name == "index.html" { "./" } else { name };
        self.listed.push((asked.to_owned(), digest::hex(bytes)));
        Ok(())
    }

    /// Puts a file in under its own name that is not kept for offline use.
    pub(super) fn keep_beside(&mut self, name: &str, bytes: &[u8]) -> Result<()> {
        self.write(name, bytes)?;
        self.beside.push(name.to_owned());
        Ok(())
    }

    /// Puts a file in under a name made of its bytes that is not kept for offline use.
    pub(super) fn add_beside(&mut self, name: &str, bytes: &[u8]) -> Result<()> {
        let renamed = digest::named(name, bytes);
        self.keep_beside(&renamed, bytes)?;
        self.renamed.insert(name.to_owned(), renamed);
        Ok(())
    }

    /// The text with every quoted name of the sources replaced by the one in the release.
    pub(super) fn refer(&self, text: &str) -> String {
        self.renamed.iter().fold(text.to_owned(), |text, (name, renamed)| {
            // As a script imports it, too.
            let text = text.replace(&format!("\"./{name}\""), &format!("\"./{renamed}\""));
            text.replace(&format!("\"{name}\""), &format!("\"{renamed}\""))
        })
    }

    /// Address and digest of everything that is kept for offline use.
    pub(super) fn listed(&self) -> &[(String, String)] {
        &self.listed
    }

    /// Of what is kept once it was used.
    pub(super) fn later(&self) -> &[(String, String)] {
        &self.later
    }

    /// The file names, sorted.
    pub(super) fn names(&self) -> Vec<String> {
        let name = |asked: &String| {
            if asked == "./" { "index.html".to_owned() } else { asked.clone() }
        };
        let mut names: Vec<String> =
            self.listed.iter().chain(&self.later).map(|(asked, _)| name(asked)).collect();
        names.extend(self.beside.iter().cloned());
        names.sort();
        names
    }

    fn write(&self, name: &str, bytes: &[u8]) -> Result<()> {
        let file = self.dist.join(name);
        std::fs::write(&file, bytes).with_context(|| format!("Cannot write {}.", file.display()))
    }
}
