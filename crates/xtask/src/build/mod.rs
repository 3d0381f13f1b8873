//! `cargo xtask build`: from sources to `target/site/dist`, each step skipped when nothing that it reads has changed.

mod assets;
mod beside;
mod change;
mod first_question;
mod frame;
mod html;
mod imports;
mod one_file;
mod pack;
mod page;
mod script;
mod squeeze;
mod styles;
mod worker;

use crate::digest;
use crate::headers;
use crate::house;
use crate::setup;
use crate::stamp::Stamp;
use crate::steps::Steps;
use anyhow::{Context, Result};
use assets::Assets;
use std::path::{Path, PathBuf};

pub(crate) use beside::one_file_made;
pub(crate) use html::values as attribute_values;
pub(crate) use page::{PROGRAMS, named_wasm, shrink};
pub(crate) use squeeze::all as squeeze;

/// Core and book of the bundled pack, made if they are not there.
pub(crate) fn halves(steps: &mut Steps) -> Result<[PathBuf; 2]> {
    let packs = pack::step(steps)?;
    Ok([packs.core, packs.book])
}

/// Files that go into the release under names made of their bytes, as they are.
const AS_THEY_ARE: [&str; 5] =
    ["icon.svg", "icon-180.png", "icon-192.png", "icon-512.png", "icon-maskable-512.png"];

/// Builds what changed.
pub(crate) fn site(steps: &mut Steps) -> Result<()> {
    let tools = setup::page(steps)?;
    if tools.node.is_none() {
        println!("  There is no Node 20 with npm in PATH: the page works, but is about a quarter larger.");
    }
    let packs = pack::step(steps)?;
    let pages = page::all(steps, &tools)?;
    let first = first_question::step(steps, &packs, &pages)?;
    // The first screens are made of the packs and the pages: their stamp stands for all.
    let words = [first.stamp.word()];
    let stamp = Stamp::of("finish", &["www", "crates/xtask/src"], &words)?;
    if stamp.fresh(&[house::dist().join("sw.js"), one_file_made()]) {
        steps.unchanged("finish");
        return Ok(());
    }
    stamp.clear()?;
    steps.step("finish: names, list for offline use, packed copies", || {
        // Made beside the old one and then moved: a server that is running never shows half of it for long.
        let fresh = house::site().join("dist-new");
        house::empty(&fresh)?;
        finish(&fresh, &tools, &packs, &pages, &first)?;
        let dist = house::dist();
        if dist.exists() {
            std::fs::remove_dir_all(&dist)?;
        }
        std::fs::rename(&fresh, &dist).context("The finished site cannot be moved into place.")
    })?;
    stamp.keep()
}

fn finish(
    dist: &Path,
    tools: &setup::PageTools,
    packs: &pack::Packs,
    pages: &[page::Page],
    first: &first_question::First,
) -> Result<()> {
    let mut assets = Assets::new(dist);
    for name in AS_THEY_ARE {
        assets.add(name, &read(&house::at("www/icons").join(name))?)?;
    }
    let manifest = text(&house::at("www/manifest.webmanifest"))?;
    assets.add("manifest.webmanifest", assets.refer(&manifest).as_bytes())?;
    assets.add("styles.css", styles::joined(&house::at("www/styles"))?.as_bytes())?;
    assets.add("early.js", script::trimmed(&text(&house::at("www/early.js"))?).as_bytes())?;
    assets.add("guide.css", styles::of_page("guide")?.as_bytes())?;
    assets.add("cabinet.css", styles::of_page("cabinet")?.as_bytes())?;
    assets.add("practice.css", styles::of_page("practice")?.as_bytes())?;
    let small = |text: &str| match &tools.node {
        Some(node) => script::shrunk(node, text),
        None => Ok(script::trimmed(text)),
    };
    let (core, book) = (read(&packs.core)?, read(&packs.book)?);
    let pack = digest::hex(&[core.as_slice(), &book].concat());
    let core = assets.add("core.pack", &core)?;
    let book = assets.add("book.pack", &book)?;
    let mut tables = Vec::new();
    for (what, path) in &packs.tables {
        tables.push((*what, assets.add(&format!("{what}.pack"), &read(path)?)?));
    }
    let key = assets.refer(&text(&packs.key)?);
    assets.keep("key.html", key.as_bytes())?;
    assets.add("card.css", &read(&packs.card_styles)?)?;
    let card = assets.refer(&text(&packs.card)?);
    assets.keep("card.html", card.as_bytes())?;
    let mut made = vec![("key.html", key), ("card.html", card)];
    let boot = text(&house::at("www/boot.js"))?;
    let guest =
        assets.add("guest.js", small(&script::trimmed(&text(&house::at("www/guest.js"))?))?.as_bytes())?;
    let (mut app, mut darkroom, mut desk) = (None, None, None);
    let (mut app_glue, mut darkroom_start) = (String::new(), String::new());
    for page in pages {
        let (wasm, glue) = imports::shortened(page.name, &read(&page.wasm)?, &text(&page.glue)?)?;
        if page.html == "desk.html" {
            let start = small(&script::joined(&glue, &text(&house::at("www/desk.js"))?)?)?;
            let wasm = assets.add_later("desk.wasm", &wasm)?;
            desk = Some((assets.add_later("desk.js", start.as_bytes())?, wasm));
            continue;
        }
        let wasm = assets.add(&format!("{}.wasm", page.name), &wasm)?;
        if page.html == "app.html" {
            app = Some((assets.add("app.js", small(&glue)?.as_bytes())?, wasm));
            app_glue = glue;
            continue;
        }
        if page.html == "darkroom.html" {
            darkroom_start = small(&script::joined(&glue, &text(&house::at("www/darkroom.js"))?)?)?;
            darkroom = Some((assets.add("darkroom.js", darkroom_start.as_bytes())?, wasm));
            continue;
        }
        // Each page has its own, joined with its own glue.
        let start = small(&script::joined(&glue, &boot)?)?;
        let (script, first) = match page.html {
            "index.html" => ("boot.js", text(&first.question)?),
            "book.html" => ("guide.js", text(&first.contents)?),
            // What was practised, and what is in a cabinet, only its own device knows.
            "practice.html" => ("practice.js", String::new()),
            _ => ("cabinet.js", String::new()),
        };
        assets.add(script, start.as_bytes())?;
        let mut later: Vec<(&str, &str)> = Vec::new();
        if page.html == "index.html" {
            for (script, wasm, files) in [("app", "app-wasm", &app), ("darkroom", "darkroom-wasm", &darkroom)]
            {
                later.extend(files.iter().flat_map(|(a, b)| [(script, a.as_str()), (wasm, b.as_str())]));
            }
            later.extend(tables.iter().map(|(what, name)| (*what, name.as_str())));
        }
        let whole = ["book.html", "practice.html"].contains(&page.html);
        let none = page.html == "cabinet.html";
        if !none {
            later.push(("guest", &guest));
            later.extend(desk.iter().flat_map(|(a, b)| [("desk", a.as_str()), ("desk-wasm", b.as_str())]));
        }
        let core = if none { "" } else { core.as_str() };
        let names = html::Names { wasm: &wasm, later: &later, core, book: &book, pack: &pack, whole };
        let template = assets.refer(&text(&house::at("www").join(page.html))?);
        let filled = html::filled(&template, &names, &first)?;
        assets.keep(page.html, filled.as_bytes())?;
        if page.html == "index.html" {
            made.extend(beside::embedded(&mut assets, &filled, &small)?);
        }
        made.push((page.html, filled));
    }
    if let (Some((_, app)), Some((_, darkroom))) = (&app, &darkroom) {
        let mut later: Vec<(&str, &str)> = vec![("darkroom-wasm", darkroom)];
        later.extend(tables.iter().map(|(what, name)| (*what, name.as_str())));
        let names =
            html::Names { wasm: app, later: &later, core: &core, book: &book, pack: &pack, whole: false };
        let modules = [small(&script::joined(&app_glue, &boot)?)?, darkroom_start];
        beside::one_file(dist, &names, modules, &first.question)?;
    }
    for (name, page) in &made {
        html::check(page, dist).with_context(|| format!("{name} is not fit to be released."))?;
    }

    let worker = worker::filled(&text(&house::at("www/sw.js"))?, assets.listed(), assets.later())?;
    std::fs::write(dist.join("sw.js"), worker)?;
    let mut names = assets.names();
    names.push("sw.js".to_owned());
    squeeze::all(dist, &names)?;
    std::fs::write(dist.join("_headers"), headers::file(&names, ""))?;
    Ok(())
}

fn read(file: &Path) -> Result<Vec<u8>> {
    std::fs::read(file).with_context(|| format!("Cannot read {}.", file.display()))
}

fn text(file: &Path) -> Result<String> {
    std::fs::read_to_string(file).with_context(|| format!("Cannot read {}.", file.display()))
}
