//! Every folder in `cases/` is a pack with something wrong: `faults.txt` says what must be found, `notes.txt` what
//! must be noted in a pack that is sound all the same.

use crate::common::{cases, patched};
use std::fs;
use std::path::Path;

fn check(case: &Path) -> Result<(), String> {
    let expected = |name: &str| fs::read_to_string(case.join(name)).unwrap_or_default();
    let lines = |faults: &[compile::Fault]| faults.iter().map(|f| format!("{f}\n")).collect::<String>();
    let (faults, notes) = match compile::compile(&patched(case)) {
        Ok(compiled) => (String::new(), lines(&compiled.notes)),
        Err(faults) => (lines(&faults), String::new()),
    };
    for (what, found, name) in [("faults", faults, "faults.txt"), ("notes", notes, "notes.txt")] {
        if found != expected(name) {
            return Err(format!("{}: {what} found:\n{found}expected:\n{}", case.display(), expected(name)));
        }
    }
    Ok(())
}

#[test]
fn every_case_has_its_faults_and_no_others() {
    let mut folders: Vec<_> =
        fs::read_dir(cases()).expect("the cases").map(|e| e.expect("a case").path()).collect();
    folders.sort();
    let wrong: Vec<String> = folders.iter().filter_map(|c| check(c).err()).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // The sound pack and at least one case for each sort of fault.
    assert!(folders.len() > 40, "only {} cases were found", folders.len());
}
