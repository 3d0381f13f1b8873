//! The plain files of a pack, as somebody wrote them.

use crate::project::{SMALL, texts};
use crate::{Reader, must};
use compile::sheets::{export, import};
use compile::{Fault, Files, compile, missing_codes};
use std::sync::LazyLock;

/// Says in an input that the files stand as sheets.
const SHEETS: &str = "@ sheets";
/// Before the path of a file whose text follows.
const FILE: &str = "@ ";

static PLAIN: LazyLock<Vec<(String, String)>> = LazyLock::new(|| texts(SMALL));
static IN_SHEETS: LazyLock<Vec<(String, String)>> =
    LazyLock::new(|| export(&Files::new(PLAIN.clone())).unwrap_or_default());
static ART: LazyLock<Vec<(String, String)>> = LazyLock::new(|| {
    texts("data/art").into_iter().map(|(name, text)| (format!("art/{name}"), text)).collect()
});

/// Texts that take the place of files of the small pack: `@ path`, then the text. Begun with `@ sheets`, it is the small pack
/// in sheets.
pub(crate) const FILES: Reader = Reader {
    name: "files",
    seeds: || {
        let one = |(path, text): &(String, String)| format!("{FILE}{path}\n{text}").into_bytes();
        let in_sheets = |file: &(String, String)| [format!("{SHEETS}\n").into_bytes(), one(file)].concat();
        let art = ART.iter().filter(|(_, text)| text.len() < 3_000);
        PLAIN.iter().map(one).chain(IN_SHEETS.iter().map(in_sheets)).chain(art.map(one)).collect()
    },
    words: &[
        "\n@ pack.toml\n",
        "@ sheets\n",
        "\n@ codes.csv\n",
        "\n@ kinds/x.toml\n",
        "[[kind]]\n",
        "[[kind.form]]\n",
        "[[kind.example]]\n",
        "[[question]]\n",
        "[[question.choice]]\n",
        "[[lesson]]\n",
        "[[lesson.step]]\n",
        "[[proof]]\n",
        "[[block]]\n",
        "id = ",
        "years = [",
        "usual = ",
        "looks.",
        "always",
        "never",
        " 100",
        "{ from = 1, to = 2 }",
        "\"\"\"",
        "1e999",
        "nan",
        "-9223372036854775808",
        "99999999999999999999",
        "\u{202e}",
        "\0",
        "defines",
        "#",
    ],
    answered: |bytes| {
        let Ok(text) = core::str::from_utf8(bytes) else { return Ok(false) };
        let files = patched(text);
        let made = match import(&files) {
            Ok(made) => made,
            Err(faults) => return refused(&faults, &files).map(|()| false),
        };
        must(missing_codes(&made.files).iter().all(|line| !line.is_empty()), "a code without a line")?;
        match compile(&made.files) {
            Ok(c) => {
                let book = pack::read_book(&c.book_bytes).map_err(|fault| fault.0)?;
                let mut core = pack::read_core(&c.core_bytes).map_err(|fault| fault.0)?;
                pack::join(&mut core, c.book.late.clone()).map_err(|fault| fault.0)?;
                must(core == c.core && book == c.book, "the pack does not come back")?;
                pack::read_whole(&c.whole_bytes).map_err(|fault| fault.0)?;
                Ok(true)
            }
            Err(faults) => {
                let traced: Vec<Fault> = faults.iter().map(|fault| made.trace(fault)).collect();
                refused(&faults, &made.files)?;
                refused(&traced, &files)?;
                Ok(false)
            }
        }
    },
};

/// The small pack with the files of an input in place of its own.
fn patched(text: &str) -> Files {
    let base = if text.starts_with(SHEETS) { &IN_SHEETS } else { &PLAIN };
    let mut files: Vec<(String, String)> = Vec::new();
    for line in text.split_inclusive('\n') {
        match (line.strip_prefix(FILE), files.last_mut()) {
            (Some(path), _) => files.push((path.trim_end().to_string(), String::new())),
            (None, Some((_, text))) => text.push_str(line),
            (None, None) => files.push(("pack.toml".to_string(), line.to_string())),
        }
    }
    let art = if files.iter().any(|(path, _)| path.starts_with("art/")) { ART.as_slice() } else { &[] };
    for file in base.iter().chain(art) {
        if files.iter().all(|(path, _)| *path != file.0) {
            files.push(file.clone());
        }
    }
    Files::new(files)
}

/// Faults are lines that can be shown, each in a line that its file has.
fn refused(faults: &[Fault], files: &Files) -> Result<(), String> {
    must(!faults.is_empty(), "refused without a fault")?;
    for fault in faults {
        let shown = fault.to_string();
        let plain = !shown.chars().any(char::is_control) && shown.len() <= 4000;
        must(plain, &format!("not a line that can be shown: {shown:?}"))?;
        must(!fault.says.is_empty(), "a fault without words")?;
        let lines = files.get(&fault.file).map_or(usize::MAX, |text| text.lines().count() + 1);
        must(fault.line as usize <= lines, "the file has no such line")?;
    }
    Ok(())
}
