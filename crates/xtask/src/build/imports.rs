//! Shortens the names under which the wasm asks for the functions of its glue. wasm-bindgen makes them long and ends each
//! in a digest that no packing shrinks; both files are ours, so one letter and a number will do (3 kB packed).

use crate::wasm::{self, Reader};
use anyhow::{Context, Result, bail};

const SHORT_MODULE: &str = "g";

/// The wasm of the page `name` and its glue with short names. Where a name is not found exactly once in the glue it is an error: a name
/// missed would be a page that does not start.
pub(super) fn shortened(name: &str, wasm: &[u8], glue: &str) -> Result<(Vec<u8>, String)> {
    let mut file = wasm::opened(wasm).context("The wasm of the page cannot be read.")?;
    let mut bytes = wasm::BEGINNING.to_vec();
    // The module that the glue calls itself, quoted as in the glue.
    let mut glue = replaced(glue, &format!("\"./{name}_bg.js\""), &format!("\"{SHORT_MODULE}\""))?;
    while !file.is_empty() {
        let id = file.byte()?;
        let section = file.sized()?;
        bytes.push(id);
        if id == 2 {
            let (section, renamed) = imports(section)?;
            wasm::put_sized(&mut bytes, &section);
            for (name, short) in renamed {
                glue = replaced(&glue, &format!("        {name}: "), &format!("        {short}: "))?;
            }
        } else {
            wasm::put_sized(&mut bytes, section.rest());
        }
    }
    Ok((bytes, glue))
}

/// A long name and the short one that stands for it.
type Renamed = (String, String);

/// The section with short names, and which name became which.
fn imports(mut section: Reader<'_>) -> Result<(Vec<u8>, Vec<Renamed>)> {
    let count = section.number()?;
    let (mut bytes, mut renamed) = (Vec::new(), Vec::new());
    wasm::put_number(&mut bytes, count);
    for index in 0..count {
        section.sized()?;
        let name = String::from_utf8_lossy(section.sized()?.rest()).into_owned();
        let kind = section.byte()?;
        if kind != 0 {
            bail!("The wasm of the page imports something else than functions ({name}).");
        }
        let short = format!("i{index}");
        wasm::put_sized(&mut bytes, SHORT_MODULE.as_bytes());
        wasm::put_sized(&mut bytes, short.as_bytes());
        bytes.push(kind);
        wasm::put_number(&mut bytes, section.number()?);
        renamed.push((name, short));
    }
    Ok((bytes, renamed))
}

fn replaced(text: &str, from: &str, to: &str) -> Result<String> {
    let times = text.matches(from).count();
    if times != 1 {
        bail!(
            "The glue of wasm-bindgen has {from:?} {times} times, not once. Its version has changed: see \
             crates/xtask/src/build/imports.rs."
        );
    }
    Ok(text.replacen(from, to, 1))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    /// A wasm file written by hand: an empty custom section "x", two imported functions of types 0 and 1, and a section
    /// of code that must stay as it is.
    fn file(module: &str, names: [&str; 2]) -> Vec<u8> {
        let mut imports = vec![2];
        for (kind, name) in names.into_iter().enumerate() {
            wasm::put_sized(&mut imports, module.as_bytes());
            wasm::put_sized(&mut imports, name.as_bytes());
            imports.extend([0, kind as u8]);
        }
        let mut file = wasm::BEGINNING.to_vec();
        file.extend([0, 2, 1, b'x', 2]);
        wasm::put_sized(&mut file, &imports);
        file.extend([10, 1, 0]);
        file
    }

    // Invented glue in the shape of the real one.
    const GLUE: &str = "    const import0 = {\n        __wbg_get_aa: function(a) {\n        },\n        __wbg_get_ab: f,\n    };\n    return { \"./app_bg.js\": import0 };\n";

    #[test]
    fn both_sides_get_the_same_short_names() {
        let (wasm, glue) =
            shortened("app", &file("./app_bg.js", ["__wbg_get_aa", "__wbg_get_ab"]), GLUE).unwrap();
        assert_eq!(wasm, file("g", ["i0", "i1"]));
        assert!(glue.contains("        i0: function(a) {") && glue.contains("        i1: f,"), "{glue}");
        assert!(glue.contains("return { \"g\": import0 }"));
    }

    #[test]
    fn a_name_that_the_glue_does_not_have_is_no_page() {
        assert!(shortened("app", &file("./app_bg.js", ["__wbg_get_aa", "__wbg_gone_ab"]), GLUE).is_err());
        assert!(
            shortened("app", &file("./app_bg.js", ["__wbg_get_aa", "__wbg_get_ab"]), "return {};").is_err()
        );
    }
}
