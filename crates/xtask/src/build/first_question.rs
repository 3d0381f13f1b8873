//! The first screen of each page as HTML, rendered by the pages' own components, so that it stands there before any
//! script runs: the first question, and the contents of the guide.

use super::pack::Packs;
use super::page::Page;
use crate::house;
use crate::run;
use crate::stamp::Stamp;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};

/// Where they are.
pub(super) struct First {
    pub(super) question: PathBuf,
    pub(super) contents: PathBuf,
    pub(super) stamp: Stamp,
}

/// Renders them if the pack or a page has changed. Cargo itself knows whether the renderer must be compiled again.
pub(super) fn step(steps: &mut Steps, packs: &Packs, pages: &[Page]) -> Result<First> {
    let at = |name: &str| house::site().join(name);
    let words: Vec<String> = pages.iter().map(|page| page.stamp.word()).chain([packs.stamp.word()]).collect();
    let stamp = Stamp::of("first-screens", &[], &words)?;
    let first = First { question: at("first-question.html"), contents: at("contents.html"), stamp };
    if first.stamp.fresh(&[first.question.clone(), first.contents.clone()]) {
        steps.unchanged("first screens");
        return Ok(first);
    }
    first.stamp.clear()?;
    steps.step("first screens: render", || {
        rendered(&[&packs.core], &first.question)?;
        rendered(&[&packs.core, &packs.book], &first.contents)
    })?;
    first.stamp.keep()?;
    Ok(first)
}

/// The core alone gives the first question, both halves the contents of the guide.
fn rendered(halves: &[&Path], to: &Path) -> Result<()> {
    let printed =
        run::printed(run::own("prerender")?.args(halves)).context("A first screen could not be rendered.")?;
    if printed.trim_ascii().is_empty() {
        bail!("The renderer of the first screens printed nothing.");
    }
    Ok(std::fs::write(to, printed)?)
}
