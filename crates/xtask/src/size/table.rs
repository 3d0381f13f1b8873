//! Which files a page needs when, and how large each is, plain and packed.

use crate::build::attribute_values;
use anyhow::{Context, Result};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// The size of one file, or of several together. A file without a packed copy is sent as it is.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Bytes {
    pub(super) raw: u64,
    pub(super) gzip: u64,
    pub(super) brotli: u64,
}

/// The files of a page by when they are needed.
pub(super) struct Table {
    dist: PathBuf,
    /// Before the page can be used.
    first: Vec<(String, Bytes)>,
    /// Asked for by the browser by itself: manifest and icon.
    beside: Vec<(String, Bytes)>,
    /// Named on the tag of the start script for afterwards.
    later: Vec<String>,
    /// Named there for when there is a photograph.
    photo: Vec<String>,
    /// Named there for when a pack is made or opened.
    desk: Vec<String>,
}

impl Bytes {
    /// What is left when that is taken away.
    pub(super) fn without(self, other: Bytes) -> Bytes {
        Bytes { raw: self.raw - other.raw, gzip: self.gzip - other.gzip, brotli: self.brotli - other.brotli }
    }
}

impl Table {
    /// Reads the page's own links, so that a file added to it cannot be forgotten here.
    pub(super) fn of(dist: &Path, name: &str) -> Result<Self> {
        let page = std::fs::read_to_string(dist.join(name))
            .with_context(|| format!("Cannot read the built page {name}."))?;
        let mut first = vec![name.to_owned()];
        let (mut beside, mut later, mut photo, mut desk) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for tag in page.split('<').filter_map(|rest| rest.split('>').next()) {
            let value = |name: &str| attribute_values(tag, name).next().unwrap_or_default().to_owned();
            let relation = value("rel");
            let list = match relation.as_str() {
                "stylesheet" | "preload" | "modulepreload" => &mut first,
                "manifest" | "icon" => &mut beside,
                // A phone fetches it only when it is put on the home screen.
                "apple-touch-icon" => continue,
                _ => {
                    if tag.starts_with("script ") || tag.starts_with("img ") {
                        first.push(value("src"));
                        later.extend([value("data-app"), value("data-app-wasm")]);
                        photo.extend([value("data-darkroom"), value("data-darkroom-wasm")]);
                        desk.extend([value("data-desk"), value("data-desk-wasm")]);
                    }
                    continue;
                }
            };
            list.push(value("href"));
        }
        let sized = |names: Vec<String>| {
            names
                .into_iter()
                .map(|name| bytes(dist, &name).map(|bytes| (name, bytes)))
                .collect::<Result<Vec<_>>>()
        };
        // What is loaded early and named again by its tag is loaded once.
        let mut named = BTreeSet::new();
        first.retain(|name| named.insert(name.clone()));
        later.retain(|name| !name.is_empty());
        photo.retain(|name| !name.is_empty());
        desk.retain(|name| !name.is_empty());
        Ok(Self {
            dist: dist.to_path_buf(),
            first: sized(first)?,
            beside: sized(beside)?,
            later,
            photo,
            desk,
        })
    }

    /// What the page loads once it can be used.
    pub(super) fn later(&self) -> Result<Self> {
        self.only(&self.later)
    }

    /// What it loads when there is a photograph.
    pub(super) fn photo(&self) -> Result<Self> {
        self.only(&self.photo)
    }

    /// What it loads when a pack is made or opened.
    pub(super) fn desk(&self) -> Result<Self> {
        self.only(&self.desk)
    }

    fn only(&self, names: &[String]) -> Result<Self> {
        let sized = |name: &String| bytes(&self.dist, name).map(|bytes| (name.clone(), bytes));
        let first = names.iter().map(sized).collect::<Result<Vec<_>>>()?;
        let (beside, later, photo, desk) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        Ok(Self { dist: self.dist.clone(), first, beside, later, photo, desk })
    }

    /// What it loads up to its first use that another page does not, and that has not this ending.
    pub(super) fn beyond(self, other: &Table, ending: &str) -> Self {
        let had = |name: &str| name.ends_with(ending) || other.first.iter().any(|(one, _)| one == name);
        let first = self.first.into_iter().filter(|(name, _)| !had(name)).collect();
        Self { first, beside: Vec::new(), ..self }
    }

    /// Everything before the page can be used.
    pub(super) fn first(&self) -> Bytes {
        sum(self.first.iter().map(|(_, bytes)| *bytes))
    }

    /// How often the browser asks, the manifest and the icon among it.
    pub(super) fn requests(&self) -> usize {
        self.first.len() + self.beside.len()
    }

    /// Everything that the service worker keeps, and the worker itself.
    pub(super) fn offline(&self) -> Result<Bytes> {
        let worker = std::fs::read_to_string(self.dist.join("sw.js")).context("Cannot read the worker.")?;
        // Its list has a line for each: ["name", "digest"],
        let listed = worker.lines().filter_map(|line| line.trim().strip_prefix("[\"")?.split('"').next());
        let names = listed.map(|name| if name == "./" { "index.html" } else { name });
        sum_of(&self.dist, names.chain(["sw.js"]))
    }

    /// One line for each file.
    pub(super) fn print(&self) {
        println!("\n{:<34}{:>10}{:>10}{:>10}", "bytes", "plain", "gzip", "brotli");
        for (name, bytes) in self.first.iter().chain(&self.beside) {
            println!("{name:<34}{bytes}");
        }
    }
}

/// The size of one file of the release.
pub(super) fn bytes(dist: &Path, name: &str) -> Result<Bytes> {
    let length = |name: &str| std::fs::metadata(dist.join(name)).map(|data| data.len());
    let raw =
        length(name).with_context(|| format!("The page asks for {name:?}, which is not in the release."))?;
    let packed = |ending: &str| length(&format!("{name}.{ending}")).unwrap_or(raw);
    Ok(Bytes { raw, gzip: packed("gz"), brotli: packed("br") })
}

fn sum_of<'a>(dist: &Path, names: impl Iterator<Item = &'a str>) -> Result<Bytes> {
    Ok(sum(names.map(|name| bytes(dist, name)).collect::<Result<Vec<_>>>()?.into_iter()))
}

fn sum(all: impl Iterator<Item = Bytes>) -> Bytes {
    all.fold(Bytes::default(), |sum, one| Bytes {
        raw: sum.raw + one.raw,
        gzip: sum.gzip + one.gzip,
        brotli: sum.brotli + one.brotli,
    })
}
