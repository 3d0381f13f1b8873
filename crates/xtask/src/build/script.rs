//! Joins the glue of wasm-bindgen and `www/boot.js` into one file, so that the start costs one request and no chain.

use crate::run;
use crate::setup::Node;
use anyhow::{Context, Result};
use std::io::Write;
use std::process::Stdio;

/// The line of `www/boot.js` that the joining replaces.
const IMPORT: &str = "import init from \"./app.js\";\n";

/// Glue and start script as one module. The start script stands in a block of its own, so that no name of it can meet
/// one of the glue.
pub(super) fn joined(glue: &str, boot: &str) -> Result<String> {
    let exports = "The glue of wasm-bindgen does not end in the one export line that this build knows. Its version has \
                   changed: see crates/xtask/src/build/script.rs.";
    if glue.contains("\nimport ") || glue.starts_with("import ") {
        anyhow::bail!(
            "The glue of wasm-bindgen imports another file, which would be one more request and is not in the release. \
             Which crate brings JavaScript of its own?"
        );
    }
    let (body, export) = glue.trim_end().rsplit_once("\nexport { ").context(exports)?;
    let start = export
        .strip_suffix(" };")
        .and_then(|names| names.split(", ").find_map(|name| name.strip_suffix(" as default")))
        .context(exports)?;
    // What remains exported would only stand in the way of nothing: the page imports from nowhere.
    let body = body.replace("\nexport function ", "\nfunction ").replace("\nexport class ", "\nclass ");
    let (before, after) =
        boot.split_once(IMPORT).context("www/boot.js no longer imports init from ./app.js.")?;
    Ok(trimmed(&format!("{body}\n{{\nconst init = {start};\n{before}{after}}}\n")))
}

/// The same script with short names and no white space.
pub(super) fn shrunk(node: &Node, script: &str) -> Result<String> {
    let mut command = run::command(&node.program);
    command.arg(node.packages.join("node_modules/esbuild/bin/esbuild"));
    command.args(["--minify", "--format=esm", "--log-level=warning"]);
    let mut child = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .context("The start script could not be shrunk: esbuild does not start.")?;
    if let Some(mut stdin) = child.stdin.take() {
        stdin.write_all(script.as_bytes())?;
    }
    let output = child.wait_with_output()?;
    if !output.status.success() {
        anyhow::bail!("The start script could not be shrunk: the words of esbuild stand above.");
    }
    Ok(String::from_utf8(output.stdout)?)
}

/// Without whole-line comments and indentation: they are for readers of the sources.
pub(super) fn trimmed(script: &str) -> String {
    let mut text = String::with_capacity(script.len());
    let mut in_comment = false;
    for line in script.lines() {
        let line = line.trim();
        if in_comment || line.starts_with("/*") {
            in_comment = !line.ends_with("*/");
        } else if !line.is_empty() && !line.starts_with("//") {
            text.push_str(line);
            text.push('\n');
        }
    }
    text
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    // Invented glue in the shape of the real one.
    const GLUE: &str = "/* @ts-self-types */\nlet wasm;\nexport function one() {\n    return wasm;\n}\n\
                        async function __wbg_init(x) {\n    wasm = x;\n}\nexport { initSync, __wbg_init as default };\n";

    #[test]
    fn the_start_script_gets_the_function_that_the_glue_exports_by_default() {
        let joined = joined(GLUE, &format!("// why\n{IMPORT}init();\n")).unwrap();
        assert_eq!(
            joined,
            "let wasm;\nfunction one() {\nreturn wasm;\n}\nasync function __wbg_init(x) {\nwasm = x;\n}\n\
             {\nconst init = __wbg_init;\ninit();\n}\n"
        );
    }

    #[test]
    fn unknown_glue_is_refused() {
        let boot = format!("{IMPORT}init();\n");
        assert!(joined("let wasm;\n", &boot).is_err());
        assert!(joined(&format!("import {{ x }} from './snippets/x.js';\n{GLUE}"), &boot).is_err());
        assert!(joined(GLUE, "init();\n").is_err());
    }
}
