//! The files of tests that need more than Chromium and the built page, and what they need.

use super::Depth;
use crate::release;
use crate::setup;
use crate::steps::Steps;
use anyhow::Result;
use std::path::PathBuf;

/// Something that most tests do without.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Need {
    Release,
    Nginx,
    Firefox,
    WebKit,
}

use Need::{Firefox, Nginx, Release, WebKit};

/// A browser of another make is a long way to fetch: it is for the full tests, and for whoever names its file.
const TABLE: [(&str, Depth, &[Need]); 3] = [
    ("release.test.mjs", Depth::Usual, &[Release, Nginx]),
    ("firefox.test.mjs", Depth::Deep, &[Release, Firefox]),
    ("engines.test.mjs", Depth::Deep, &[Firefox, WebKit]),
];

/// Whether a file runs in tests of this depth when nobody named it.
pub(super) fn runs(name: &str, depth: Depth) -> bool {
    depth == Depth::Deep || !TABLE.iter().any(|(file, least, _)| *file == name && *least == Depth::Deep)
}

/// Sets up what these files need; returns what their scripts are told of it, as variables.
pub(super) fn met(tests: &[PathBuf], steps: &mut Steps) -> Result<Vec<(&'static str, PathBuf)>> {
    let mut told = Vec::new();
    for need in [Release, Nginx, Firefox, WebKit] {
        let wanted = TABLE
            .iter()
            .any(|(file, _, needs)| needs.contains(&need) && tests.iter().any(|test| test.ends_with(file)));
        if wanted {
            told.extend(need.met(steps)?);
        }
    }
    Ok(told)
}

impl Need {
    fn met(self, steps: &mut Steps) -> Result<Vec<(&'static str, PathBuf)>> {
        Ok(match self {
            Release => {
                release::folder_of(steps)?;
                vec![("PRESSMARK_RELEASE", release::folder())]
            }
            Nginx => vec![("PRESSMARK_NGINX", setup::nginx(steps)?)],
            Firefox => {
                let firefox = setup::firefox(steps)?;
                vec![("PRESSMARK_FIREFOX", firefox.program), ("PRESSMARK_FIREFOX_DRIVER", firefox.driver)]
            }
            WebKit => {
                let webkit = setup::webkit(steps)?;
                vec![
                    ("PRESSMARK_WEBKIT", webkit.browser),
                    ("PRESSMARK_WEBKIT_DRIVER", webkit.driver),
                    ("PRESSMARK_XVFB", webkit.screen),
                ]
            }
        })
    }
}
