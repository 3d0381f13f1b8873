//! The page: what was measured, as tables and plots, and the same as text.

mod html;
mod plot;
mod text;

use anyhow::{Context, Result};
use std::path::Path;

/// All that is shown.
#[derive(Debug, Clone, Default)]
pub struct Page {
    /// The heading.
    pub title: String,
    /// What a reader must know before the figures, a paragraph each.
    pub notes: Vec<String>,
    /// The sections.
    pub sections: Vec<Section>,
}

/// A part of the page.
#[derive(Debug, Clone, Default)]
pub struct Section {
    /// Its heading.
    pub title: String,
    /// What it shows and how it was measured.
    pub text: String,
    /// What is held against a limit.
    pub rows: Vec<Line>,
    /// Further tables.
    pub tables: Vec<Grid>,
    /// Curves.
    pub plots: Vec<Plot>,
}

/// One figure beside its peer and its limit. Not a number: there is none.
#[derive(Debug, Clone)]
pub struct Line {
    /// What was measured.
    pub what: String,
    /// The engine's figure.
    pub ours: f64,
    /// The peer's, or the optimum's.
    pub peer: f64,
    /// The limit in words.
    pub limit: String,
    /// Ours over the peer's.
    pub ratio: f64,
    /// Whether the limit is kept; none = printed only.
    pub met: Option<bool>,
}

/// A table.
#[derive(Debug, Clone, Default)]
pub struct Grid {
    /// What it shows.
    pub caption: String,
    /// Headings of the columns.
    pub head: Vec<String>,
    /// Cells.
    pub rows: Vec<Vec<String>>,
}

/// Curves over one another.
#[derive(Debug, Clone, Default)]
pub struct Plot {
    /// What it shows.
    pub caption: String,
    /// What runs to the right.
    pub x: String,
    /// What runs upwards.
    pub y: String,
    /// Curves: name and points.
    pub lines: Vec<(String, Vec<(f64, f64)>)>,
}

/// Writes `index.html` and `figures.txt` into a folder.
///
/// # Errors
/// When a file cannot be written.
pub fn write(out: &Path, page: &Page) -> Result<()> {
    std::fs::create_dir_all(out)?;
    for (name, text) in [("index.html", html::page(page)), ("figures.txt", text::page(page))] {
        let path = out.join(name);
        std::fs::write(&path, text).with_context(|| format!("Cannot write {}.", path.display()))?;
    }
    Ok(())
}

/// How many limits are kept, and how many there are.
#[must_use]
pub fn kept(page: &Page) -> (usize, usize) {
    let met: Vec<bool> = page.sections.iter().flat_map(|s| &s.rows).filter_map(|r| r.met).collect();
    (met.iter().filter(|m| **m).count(), met.len())
}

/// A figure with as many digits as help, a dash where there is none.
fn figure(x: f64) -> String {
    let size = x.abs();
    if x.is_nan() {
        "–".to_owned()
    } else if size != 0.0 && size < 0.001 {
        format!("{x:.1e}")
    } else if size < 10.0 {
        format!("{x:.4}")
    } else {
        format!("{x:.2}")
    }
}

fn verdict(met: Option<bool>) -> &'static str {
    match met {
        Some(true) => "met",
        Some(false) => "not met",
        None => "",
    }
}
