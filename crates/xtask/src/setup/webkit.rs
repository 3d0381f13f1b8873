//! A third make of browser, what drives it, and the screen that it draws on, which nobody sees.

use super::debian;
use crate::run;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};

const PACKAGES: [&str; 3] = ["webkit2gtk-driver", "libwebkit2gtk-4.1-0", "xvfb"];
const BROWSER: &str = "MiniBrowser";
/// The folder of the library that has the browser in it, which is in no PATH.
const LIBRARY: &str = "webkit2gtk-4.1";

/// An installed WebKitGTK.
pub(crate) struct WebKit {
    /// The browser that comes with the library.
    pub(crate) browser: PathBuf,
    /// What drives it, by WebDriver.
    pub(crate) driver: PathBuf,
    /// The X server without a screen: this browser has no way to run without one.
    pub(crate) screen: PathBuf,
}

/// WebKitGTK from where it is installed; on Debian, as root, it is installed when missing.
pub(crate) fn find(steps: &mut Steps) -> Result<WebKit> {
    if let Some(found) = installed() {
        return Ok(found);
    }
    if !debian::may_install() {
        bail!(
            "The page is tried in WebKitGTK as well, which needs WebKitWebDriver and Xvfb in PATH and {BROWSER} there or in \
             {LIBRARY}. Install them with the package manager of your system; on Debian they are {}.",
            PACKAGES.join(", ")
        );
    }
    steps.step("set-up: webkit", || debian::install(&PACKAGES))?;
    installed().with_context(|| {
        format!(
            "apt-get installed {}, but WebKitWebDriver, Xvfb or {BROWSER} is missing.",
            PACKAGES.join(", ")
        )
    })
}

fn installed() -> Option<WebKit> {
    Some(WebKit {
        browser: run::which(BROWSER).or_else(beside_the_library)?,
        driver: run::which("WebKitWebDriver")?,
        screen: run::which("Xvfb")?,
    })
}

/// The browser in the folder of the library: below /usr/libexec or /usr/lib, on Debian one further down.
fn beside_the_library() -> Option<PathBuf> {
    let usual = ["/usr/libexec", "/usr/lib"].map(PathBuf::from);
    let further = std::fs::read_dir("/usr/lib").into_iter().flatten().flatten().map(|entry| entry.path());
    let inside = |folder: PathBuf| folder.join(LIBRARY).join(BROWSER);
    usual.into_iter().chain(further).map(inside).find(|file| Path::is_file(file))
}
