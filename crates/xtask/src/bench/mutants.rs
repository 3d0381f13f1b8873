//! The mutation check: the engine with one part taken out must make a named test fail.

use crate::house;
use crate::run;
use anyhow::{Context, Result, ensure};
use std::path::Path;

/// A part taken out: its name, which is that of the test that must fail, a file, what stands there, what takes its place.
struct Mutant {
    test: &'static str,
    file: &'static str,
    stands: &'static str,
    instead: &'static str,
}

const MUTANTS: [Mutant; 4] = [
    Mutant {
        test: "misreading",
        file: "crates/reason/src/model.rs",
        stands: "        let others = self.parts.choices - 1;\n",
        instead: "        let e = 0.0 * e;\n        let others = self.parts.choices - 1;\n",
    },
    Mutant {
        test: "groups_temper_what_repeats",
        file: "crates/reason/src/posterior.rs",
        stands: "group.map_or(0.0, |g| model.parts.overlaps[g])",
        instead: "group.map_or(0.0, |_| 0.0)",
    },
    Mutant {
        test: "forms_part_what_is_alike_on_the_average",
        file: "crates/proof/src/learn/forms.rs",
        stands: "Shape::Mixture => mixture(lesson, class, &rows, &floors),",
        instead: "Shape::Mixture => vec![one],",
    },
    Mutant {
        test: "fit_stops_strangers",
        file: "crates/reason/src/fit.rs",
        stands: "strange: n >= 3 && ",
        instead: "strange: n > usize::MAX - 1 && ",
    },
];

/// What the mutants are made of: cargo reads every room's manifest, though only four are compiled.
const COPIED: [&str; 3] = ["Cargo.lock", "clippy.toml", "crates"];

/// Breaks a copy of the engine in each way and writes `name,failed as it must` for each; first the copy as it is, which
/// must pass.
pub(super) fn check(out: &Path) -> Result<()> {
    let copy = house::at("target/mutants/engine");
    house::empty(&copy)?;
    for part in COPIED {
        for file in house::files(&house::at(part))? {
            let to = copy.join(file.strip_prefix(house::root())?);
            std::fs::create_dir_all(to.parent().context("A file has a folder.")?)?;
            std::fs::copy(&file, &to)?;
        }
    }
    let whole = std::fs::read_to_string(house::at("Cargo.toml"))?;
    let shared =
        whole.split("[workspace.package]").nth(1).context("Cargo.toml has no [workspace.package].")?;
    let rooms = "[workspace]\nresolver = \"3\"\nmembers = [\"crates/*\"]\n\n[workspace.package]";
    std::fs::write(copy.join("Cargo.toml"), format!("{rooms}{shared}"))?;
    ensure!(passes(&copy, None)?, "The tests of the parts fail before anything is taken out.");
    let mut text = String::new();
    for mutant in MUTANTS {
        let path = copy.join(mutant.file);
        let whole = std::fs::read_to_string(&path)?;
        let found = whole.matches(mutant.stands).count();
        ensure!(found == 1, "{}: {:?} stands there {found} times, not once.", mutant.file, mutant.stands);
        std::fs::write(&path, whole.replacen(mutant.stands, mutant.instead, 1))?;
        let failed = !passes(&copy, Some(mutant.test))?;
        std::fs::write(&path, whole)?;
        println!(
            "  {}: {}",
            mutant.test,
            if failed { "fails without its part" } else { "PASSES WITHOUT ITS PART" }
        );
        text.push_str(&format!("{},{failed}\n", mutant.test));
    }
    std::fs::write(out, text).with_context(|| format!("Cannot write {}.", out.display()))
}

/// Whether the named test of the parts passes, or all of them. A copy that does not compile is a fault of ours.
fn passes(copy: &Path, test: Option<&str>) -> Result<bool> {
    let cargo = || {
        let mut cargo = run::cargo();
        cargo.args(["test", "--quiet", "--package", "proof", "--test", "mutations"]).current_dir(copy);
        cargo.arg("--target-dir").arg(house::at("target/mutants/build")).env("RUSTFLAGS", "-Awarnings");
        cargo
    };
    run::shown(cargo().arg("--no-run")).context("A mutant does not compile.")?;
    let mut tests = cargo();
    tests.arg("--").args(test.map(|name| ["--exact", name]).into_iter().flatten());
    Ok(tests.output().context("The tests of the parts could not be started.")?.status.success())
}
