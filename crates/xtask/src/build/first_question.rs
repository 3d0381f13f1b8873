//! The first question as HTML, rendered by the page's own components, so that it stands there before any script runs.

use super::pack::Packs;
use crate::house;
use crate::run;
use crate::stamp::Stamp;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::PathBuf;

/// Where it is.
pub(super) struct First {
    pub(super) html: PathBuf,
    pub(super) stamp: Stamp,
}

/// Renders it if the pack or the page has changed. Cargo itself knows whether the renderer must be compiled again.
pub(super) fn step(steps: &mut Steps, packs: &Packs, page: &Stamp) -> Result<First> {
    let html = house::site().join("first-question.html");
    let stamp = Stamp::of("first-question", &[], &[packs.stamp.word(), page.word()])?;
    let first = First { html, stamp };
    if first.stamp.fresh(std::slice::from_ref(&first.html)) {
        steps.unchanged("first question");
        return Ok(first);
    }
    first.stamp.clear()?;
    steps.step("first question: render", || {
        let mut renderer = run::cargo();
        renderer
            .args(["run", "--package", "app", "--features", "ssr", "--bin", "prerender", "--"])
            .arg(&packs.core);
        let printed = run::printed(&mut renderer).context("The first question could not be rendered.")?;
        if printed.trim_ascii().is_empty() {
            bail!("The renderer of the first question printed nothing.");
        }
        std::fs::write(&first.html, printed)?;
        Ok(())
    })?;
    first.stamp.keep()?;
    Ok(first)
}
