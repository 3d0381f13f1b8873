//! A few preferences kept on this device. Where storage is refused they last as long as the page.

use web_sys::Storage;

fn storage() -> Option<Storage> {
    web_sys::window()?.local_storage().ok()?
}

/// What was kept under a name.
#[must_use]
pub fn read(name: &str) -> Option<String> {
    storage()?.get_item(name).ok()?
}

/// Keeps text under a name; false where the browser refuses.
pub fn keep(name: &str, text: &str) -> bool {
    storage().is_some_and(|s| s.set_item(name, text).is_ok())
}
