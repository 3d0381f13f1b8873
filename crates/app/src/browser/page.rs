//! The document: where the program is mounted, the title, the focus, the theme.

use wasm_bindgen::JsCast;
use web_sys::{Document, Element, FocusOptions, HtmlElement};

fn document() -> Option<Document> {
    web_sys::window()?.document()
}

/// The element that the program takes over.
#[must_use]
pub fn root() -> Option<Element> {
    document()?.get_element_by_id("app")
}

/// Moves the focus to the heading and the page to its top.
pub fn to_heading() {
    if let Some(window) = web_sys::window() {
        window.scroll_to_with_x_and_y(0.0, 0.0);
    }
    let heading = document()
        .and_then(|d| d.get_element_by_id("heading"))
        .and_then(|e| e.dyn_into::<HtmlElement>().ok());
    if let Some(heading) = heading {
        let options = FocusOptions::new();
        options.set_prevent_scroll(true);
        let _focused = heading.focus_with_options(&options);
    }
}

/// Names the page after its heading.
pub fn title(text: &str) {
    if let Some(document) = document() {
        document.set_title(&format!("{text} \u{2013} Pressmark"));
    }
}

/// Sets the theme: `phone`, `light`, `dark` or `sun`.
pub fn theme(name: &str) {
    if let Some(page) = document().and_then(|d| d.document_element()) {
        let _set = page.set_attribute("data-theme", name);
    }
}
