//! Installs what is missing, once per user and version, and says where everything is.

mod cache;
mod chromium;
mod debian;
mod firefox;
mod lighthouse;
mod nginx;
mod node;
mod npm;
mod python;
mod rust_tools;
mod typescript;
mod webkit;

use crate::steps::Steps;
use anyhow::Result;
use std::path::PathBuf;

pub(crate) use chromium::Chromium;
pub(crate) use firefox::find as firefox;
pub(crate) use lighthouse::find as lighthouse;
pub(crate) use nginx::find as nginx;
pub(crate) use node::Node;
pub(crate) use python::{NO_PYTHON, Python, open_data};
pub(crate) use rust_tools::cargo_fuzz;
pub(crate) use typescript::find as typescript;
pub(crate) use webkit::find as webkit;

/// What the build of the page needs.
pub(crate) struct PageTools {
    /// Trunk, of the version that the project is built with.
    pub(crate) trunk: PathBuf,
    /// wasm-bindgen, of exactly the version in Cargo.lock.
    pub(crate) bindgen: PathBuf,
    /// Node with the pinned packages. Without it the page is built, but larger.
    pub(crate) node: Option<Node>,
}

/// Sets up what the page needs.
pub(crate) fn page(steps: &mut Steps) -> Result<PageTools> {
    rust_tools::wasm_target(steps)?;
    let trunk = rust_tools::trunk(steps)?;
    let bindgen = rust_tools::wasm_bindgen(steps)?;
    let node = node::find(steps)?;
    Ok(PageTools { trunk, bindgen, node })
}

/// Sets up what the browser tests need beyond the page.
pub(crate) fn browser(steps: &mut Steps) -> Result<(Node, Chromium)> {
    let node = node::find(steps)?.ok_or_else(|| anyhow::anyhow!(node::MISSING))?;
    let chromium = chromium::find(steps)?;
    Ok((node, chromium))
}

/// Node, where there is a recent one.
pub(crate) fn node(steps: &mut Steps) -> Result<Option<Node>> {
    node::find(steps)
}

/// Sets up what the engine is held against. Without a Python: none.
pub(crate) fn python(steps: &mut Steps) -> Result<Option<Python>> {
    steps.step("set-up: python packages", python::find)
}

/// Sets up all of it.
pub(crate) fn everything(steps: &mut Steps) -> Result<()> {
    let tools = page(steps)?;
    let (node, chromium) = browser(steps)?;
    let (firefox, webkit, nginx) = (firefox::find(steps)?, webkit::find(steps)?, nginx::find(steps)?);
    println!("\ntrunk         {}", tools.trunk.display());
    println!("wasm-bindgen  {}", tools.bindgen.display());
    println!("node          {}", node.program.display());
    println!("packages      {}", node.packages.display());
    println!("chromium      {}", chromium.program.display());
    println!("firefox       {}", firefox.program.display());
    println!("webkitgtk     {}", webkit.browser.display());
    println!("nginx         {}", nginx.display());
    Ok(())
}
