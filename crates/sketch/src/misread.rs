//! What is wrong with a line. Sentences are made only where somebody reads them, so that a page need not carry them.

use crate::keys::{KEYS, Key, SIZES};
use core::fmt;

/// All that is wrong with a line; shown as sentences.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread<'a>(pub(crate) Vec<Slip<'a>>);

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Slip<'a> {
    /// A word without `=`.
    Bare(&'a str),
    /// A key that is not known.
    Key(&'a str),
    /// A key that was given before.
    Twice(&'static Key),
    /// A `size` that is no length, or out of range.
    Size(&'a str),
    /// An `ask` that names no key.
    Ask(&'a str),
    /// A view that does not draw the asked key.
    View(&'a str, &'static Key),
}

impl fmt::Display for Slip<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let names = || {
            let names: Vec<&str> = KEYS.iter().map(|k| k.name).collect();
            names.join(", ")
        };
        match self {
            Slip::Bare(word) => write!(f, "`{word}` has no `=`: write key=value, such as grip=wire."),
            Slip::Key(key) => write!(f, "There is no key `{key}`; known are: {}.", names()),
            Slip::Twice(key) => write!(f, "{} is given twice.", key.name),
            Slip::Size(value) => write!(
                f,
                "`size={value}`: size is the length of the sole in mm, a whole number from {} to {}.",
                SIZES.0, SIZES.1
            ),
            Slip::Ask(value) => write!(f, "`ask={value}`: what can be asked is none or a key: {}.", names()),
            Slip::View(view, key) => {
                write!(f, "view={view} does not draw {}; it is drawn in: {}.", key.name, key.views)
            }
        }
    }
}

impl fmt::Display for Misread<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, slip) in self.0.iter().enumerate() {
            f.write_str(if i > 0 { " " } else { "" })?;
            slip.fmt(f)?;
        }
        Ok(())
    }
}

impl From<Misread<'_>> for String {
    fn from(misread: Misread<'_>) -> String {
        misread.to_string()
    }
}
