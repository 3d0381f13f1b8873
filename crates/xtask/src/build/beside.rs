//! What is made beside the pages of the site: what stands in the pages of others, and the edition of one file.

use super::assets::Assets;
use super::{frame, html, one_file, read, script, styles, text};
use crate::headers;
use crate::house;
use anyhow::{Context, Result};
use std::path::{Path, PathBuf};

/// Where the edition of one file comes to lie.
pub(crate) fn one_file_made() -> PathBuf {
    house::site().join("one-file.html")
}

/// Writes it: `names` are those of the whole program and of all that it asks for, `modules` the start script of that program and
/// the darkroom.
pub(super) fn one_file(
    dist: &Path,
    names: &html::Names<'_>,
    modules: [String; 2],
    first: &Path,
) -> Result<()> {
    let at = |name: &str| text(&house::at("www").join(name));
    let [boot, darkroom] = modules;
    let wanted =
        [names.wasm, names.core, names.book].into_iter().chain(names.later.iter().map(|(_, name)| *name));
    let files = wanted.map(|name| Ok((name, read(&dist.join(name))?))).collect::<Result<_>>()?;
    let early = ["embed/memory.js", "one-file/held.js", "early.js"].map(at);
    let early: Vec<String> = early.into_iter().collect::<Result<_>>()?;
    let own_styles = styles::trimmed(&at("one-file/one-file.css")?)?;
    let parts = one_file::Parts {
        page: html::filled(&at("index.html")?, names, &text(first)?)?,
        styles: styles::joined(&house::at("www/styles"))? + &own_styles,
        early: script::trimmed(&early.concat()),
        modules: [boot, script::trimmed(&at("one-file/one-file.js")?), darkroom],
        icon: &read(&house::at("www/icons/icon.svg"))?,
        files,
        says: &at("one-file/edition.html")?,
    };
    std::fs::write(one_file_made(), one_file::made(&parts)?).context("Cannot write the edition of one file.")
}

/// What stands in the pages of others: the loader, the frame, and a club's page that shows both. Nobody needs them without a
/// signal.
pub(super) fn embedded(
    assets: &mut Assets,
    start: &str,
    small: &impl Fn(&str) -> Result<String>,
) -> Result<[(&'static str, String); 2]> {
    let at = |name: &str| text(&house::at("www").join(name));
    for name in ["memory.js", "wear.js", "frame.js"] {
        let script = assets.refer(&at(&format!("embed/{name}"))?);
        assets.add_beside(name, small(&script)?.as_bytes())?;
    }
    assets.add_beside("frame.css", styles::trimmed(&at("embed/frame.css")?)?.as_bytes())?;
    assets.add_beside("club.css", styles::trimmed(&at("club/club.css")?)?.as_bytes())?;
    assets.add_beside("club.js", small(&at("club/club.js")?)?.as_bytes())?;
    // Under a name that stays: it stands in pages that nobody here knows.
    assets.keep_beside("embed.js", small(&at("embed/embed.js")?)?.as_bytes())?;
    let frame = assets.refer(&frame::page(start, &at("embed/around.html")?)?);
    assets.keep_beside(headers::FRAME, frame.as_bytes())?;
    let club = html::plain(&assets.refer(&at("club/club.html")?), headers::CLUB)?;
    assets.keep_beside(headers::CLUB, club.as_bytes())?;
    Ok([(headers::FRAME, frame), (headers::CLUB, club)])
}
