//! What the tests of the tool share: the packs they run on, and running it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// The sound pack of the compiler's tests; its figures are invented.
pub(crate) fn good() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../compile/tests/cases/good")
}

/// A fresh folder of that name.
pub(crate) fn fresh(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    if path.exists() {
        fs::remove_dir_all(&path).expect("an old folder can be removed");
    }
    path
}

/// A copy of the sound pack, with one file changed.
pub(crate) fn changed(name: &str, file: &str, from: &str, to: &str) -> PathBuf {
    let copy = fresh(name);
    for folder in ["", "questions", "kinds"] {
        fs::create_dir_all(copy.join(folder)).expect("a folder can be made");
        for entry in fs::read_dir(good().join(folder)).expect("the pack can be listed") {
            let entry = entry.expect("an entry");
            if entry.path().is_file() {
                fs::copy(entry.path(), copy.join(folder).join(entry.file_name())).expect("a copy");
            }
        }
    }
    let text = fs::read_to_string(copy.join(file)).expect("the file");
    assert!(text.contains(from), "{file} holds {from}");
    fs::write(copy.join(file), text.replace(from, to)).expect("the file can be changed");
    copy
}

pub(crate) fn workshop(words: &[&str]) -> (Option<i32>, String, String) {
    let Output { status, stdout, stderr } =
        Command::new(env!("CARGO_BIN_EXE_workshop")).args(words).output().expect("the tool runs");
    let text = |bytes| String::from_utf8(bytes).expect("text");
    (status.code(), text(stdout), text(stderr))
}

/// The sound pack's files, some of them exchanged.
pub(crate) fn with(own: &[(String, String)]) -> compile::Files {
    let mut all = own.to_vec();
    for folder in ["", "questions/", "kinds/"] {
        for entry in fs::read_dir(good().join(folder)).expect("the pack can be listed") {
            let path = entry.expect("an entry").path();
            let name = format!("{folder}{}", path.file_name().expect("a name").to_string_lossy());
            if path.is_file() && !all.iter().any(|(p, _)| *p == name) {
                all.push((name, fs::read_to_string(path).expect("text")));
            }
        }
    }
    compile::Files::new(all)
}
