//! `cargo xtask bench linked-art <folder>`: documents of the cabinet against the published schema of Linked Art, where its
//! files (`object.json`, `core.json`) and a Python that can read them are there.

use crate::house;
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result};
use std::path::Path;

/// Writes documents and holds them against the schema; says so when that is left out.
pub(super) fn run(folder: &str, steps: &mut Steps) -> Result<()> {
    if !["object.json", "core.json"].iter().all(|name| Path::new(folder).join(name).is_file()) {
        println!(
            "Left out: the schema is not in {folder}. It is docs/api/1.0/schema of linked-art/linked.art."
        );
        return Ok(());
    }
    let can = run::command("python3").args(["-c", "import jsonschema, referencing"]).output();
    if !can.is_ok_and(|o| o.status.success()) {
        println!("Left out: there is no python3 with the packages jsonschema and referencing.");
        return Ok(());
    }
    let out = house::target().join("linked-art");
    house::empty(&out).with_context(|| format!("Cannot make {}.", out.display()))?;
    let mut write = run::cargo();
    write.args(["run", "--package", "cabinet", "--example", "linked_art", "--"]).arg(&out);
    steps.step("write documents", || run::shown(&mut write))?;
    let mut check = run::command("python3");
    check.arg(house::at("crates/cabinet/tests/linked_art/validate.py")).arg(folder).args(house::files(&out)?);
    steps.step("against the schema", || run::shown(&mut check))
}
