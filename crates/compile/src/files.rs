//! The files of a pack as the caller hands them over, with limits that hold before anything is parsed.

use crate::fault::{Fault, Faults, Spot};
use crate::text::disguises;
use toml_parser::lexer::TokenKind;

/// The most files of a pack.
pub const MOST_FILES: usize = 400;
/// The longest file, in bytes.
pub const LONGEST_FILE: usize = 512 * 1024;
/// All files together, in bytes.
pub const LARGEST_PACK: usize = 8 * 1024 * 1024;
/// The longest name that is told apart, with the folders or fields it stands in, in characters.
const LONGEST_NAME: usize = 300;
/// How deep lists and tables may stand in each other on one line. The format needs three.
const DEEPEST: usize = 8;
/// How many names a key may be made of (`a.b.c`). The format needs three.
const LONGEST_KEY: usize = 6;

/// Files of a pack: relative path with `/`, and text. Sorted by path, so that the order in which a folder was
/// listed does not matter.
#[derive(Debug, Clone, Default)]
pub struct Files(Vec<(String, String)>);

impl Files {
    /// Takes files in any order. Faults repeat their names, so these are made [`plain`].
    #[must_use]
    pub fn new(mut files: Vec<(String, String)>) -> Files {
        files.iter_mut().for_each(|(path, _)| *path = plain(path));
        files.sort();
        Files(files)
    }

    /// Path and text of each.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &str)> {
        self.0.iter().map(|(p, t)| (p.as_str(), t.as_str()))
    }

    /// The text of a file.
    #[must_use]
    pub fn get(&self, path: &str) -> Option<&str> {
        self.iter().find(|(p, _)| *p == path).map(|(_, t)| t)
    }

    /// Whether the limits hold. What breaks them is not read at all.
    pub(crate) fn within_limits(&self, faults: &Faults) -> bool {
        if self.0.len() > MOST_FILES {
            let says = format!("The folder holds {} files; at most {MOST_FILES} are read.", self.0.len());
            faults.add(&Spot::file("pack.toml"), says, "Keep other files elsewhere.");
            return false;
        }
        let mut sound = true;
        for (path, text) in self.iter() {
            if text.len() > LONGEST_FILE {
                let says = format!("The file is longer than {} kB.", LONGEST_FILE / 1024);
                faults.add(&Spot::file(path), says, "Part it into several files.");
                sound = false;
            }
        }
        if self.0.iter().map(|(_, t)| t.len()).sum::<usize>() > LARGEST_PACK {
            let says = format!("All files together are larger than {} MB.", LARGEST_PACK >> 20);
            faults.add(&Spot::file("pack.toml"), says, "Shorten the texts.");
            sound = false;
        }
        for pair in self.0.windows(2) {
            if pair[0].0 == pair[1].0 {
                faults.add(&Spot::file(&pair[0].0), "The file was handed over twice.", "");
                sound = false;
            }
        }
        sound
    }
}

/// A stranger's name of a file or a field as it can be shown: short, and every character that is not seen or steers others a `?`.
#[must_use]
pub fn plain(name: &str) -> String {
    name.chars().take(LONGEST_NAME).map(|c| if disguises(c) || c == '\n' { '?' } else { c }).collect()
}

/// The lines of a text, to find the line of a byte.
#[derive(Debug)]
pub(crate) struct Lines(Vec<usize>);

impl Lines {
    pub(crate) fn of(text: &str) -> Lines {
        Lines(text.bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(i, _)| i).collect())
    }

    /// Line of a byte, from 1.
    pub(crate) fn at(&self, byte: usize) -> u32 {
        let before = self.0.partition_point(|newline| *newline < byte);
        u32::try_from(before + 1).unwrap_or(u32::MAX)
    }
}

/// Refuses nesting that no honest file has, by the parser's own tokens, before a tree is built of them.
pub(crate) fn too_deep(path: &str, text: &str, lines: &Lines) -> Option<Fault> {
    let (mut depth, mut dots) = (0_usize, 0_usize);
    for token in toml_parser::Source::new(text).lex() {
        match token.kind() {
            TokenKind::LeftSquareBracket | TokenKind::LeftCurlyBracket => (depth, dots) = (depth + 1, 0),
            TokenKind::RightSquareBracket | TokenKind::RightCurlyBracket => depth = depth.saturating_sub(1),
            TokenKind::Comma | TokenKind::Equals | TokenKind::Newline => dots = 0,
            TokenKind::Dot => dots += 1,
            _ => {}
        }
        if depth > DEEPEST || dots > LONGEST_KEY {
            return Some(Fault {
                file: path.to_string(),
                line: lines.at(token.span().start()),
                field: String::new(),
                says: "Lists, tables or names stand too deep in each other.".to_string(),
                hint: "Close a bracket, or see data/README.md for the shape of this file.".to_string(),
            });
        }
    }
    None
}
