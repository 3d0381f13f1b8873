//! Reads the packs of the tests: a whole one in `cases/good`, all others as changes to it.

use compile::Files;
use std::fs;
use std::path::{Path, PathBuf};

/// Files of a case that are about the test, not of the pack.
const ASIDE: [&str; 3] = ["edits.txt", "faults.txt", "notes.txt"];

/// The folder of all cases.
pub(crate) fn cases() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases")
}

/// Path and text of the files of a folder and of the folders in it.
pub(crate) fn folder(path: &Path) -> Vec<(String, String)> {
    let mut files = Vec::new();
    let mut todo = vec![(path.to_path_buf(), String::new())];
    while let Some((at, before)) = todo.pop() {
        for entry in fs::read_dir(&at).expect("a folder of the tests") {
            let entry = entry.expect("an entry of a folder of the tests");
            let name = format!("{before}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                todo.push((entry.path(), format!("{name}/")));
            } else if !ASIDE.contains(&name.as_str()) {
                let text = fs::read_to_string(entry.path()).expect("a text file of the tests");
                files.push((name, text));
            }
        }
    }
    files
}

/// The sound pack.
pub(crate) fn good() -> Vec<(String, String)> {
    folder(&cases().join("good"))
}

/// The figures of drawings, as the workshop hands them over.
fn art() -> Vec<(String, String)> {
    let files = folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/art"));
    let figures = files.into_iter().filter(|(p, _)| p.ends_with(".toml"));
    figures.map(|(p, t)| (format!("art/{p}"), t)).collect()
}

/// The sound pack with the files of a case put in and its edits made, and the art.
pub(crate) fn patched(case: &Path) -> Files {
    let mut files = good();
    files.extend(art());
    for (path, text) in folder(case) {
        files.retain(|(p, _)| *p != path);
        files.push((path, text));
    }
    if let Ok(edits) = fs::read_to_string(case.join("edits.txt")) {
        edit(&mut files, &edits);
    }
    Files::new(files)
}

/// `@ path` names a file, `- line` a line in it that must be there once, `+ line` what follows in its stead,
/// `> line` what is put at the end, `! gone` removes the file.
fn edit(files: &mut Vec<(String, String)>, edits: &str) {
    let mut path = String::new();
    let mut at = 0;
    for line in edits.lines().filter(|l| !l.is_empty()) {
        let (sign, rest) = line.split_at(2.min(line.len()));
        if sign == "@ " {
            path = rest.to_string();
            continue;
        }
        let index = files.iter().position(|(p, _)| *p == path).expect("an edited file exists");
        let mut lines: Vec<String> = files[index].1.lines().map(String::from).collect();
        match sign.trim_end() {
            "-" => {
                let found: Vec<usize> = (0..lines.len()).filter(|i| lines[*i] == rest).collect();
                assert_eq!(found.len(), 1, "{path} must hold the line once: {rest}");
                at = found[0];
                lines.remove(at);
            }
            "+" => {
                lines.insert(at, rest.to_string());
                at += 1;
            }
            ">" => lines.push(rest.to_string()),
            "!" => {
                files.remove(index);
                continue;
            }
            other => unreachable!("no such edit: {other}"),
        }
        files[index].1 = lines.join("\n") + "\n";
    }
}
