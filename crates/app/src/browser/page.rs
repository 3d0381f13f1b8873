//! The document: where the program is mounted, the title, the focus, the theme.

use wasm_bindgen::JsCast;
use web_sys::{Document, Element, FocusOptions, HtmlElement, HtmlInputElement, MouseEvent};

/// What is said when the element for the program is not there.
pub const DAMAGED: &str = "This page is damaged. Load it again.";

fn document() -> Option<Document> {
    web_sys::window()?.document()
}

/// The element that the program takes over.
#[must_use]
pub fn root() -> Option<Element> {
    document()?.get_element_by_id("app")
}

/// Whether another program of the page answers already.
#[must_use]
pub fn is_answered() -> bool {
    let page = document().and_then(|d| d.document_element());
    page.is_some_and(|page| page.has_attribute("data-opening"))
}

/// Moves the focus to what was said last, and as much of the page with it as is needed to see it.
pub fn to_said() {
    let said = document().and_then(|d| d.get_element_by_id("said")?.dyn_into::<HtmlElement>().ok());
    if let Some(said) = said {
        let _focused = said.focus();
    }
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
        focus(&heading);
    }
}

/// Puts text where the caret stands in a field, in place of what is selected; an empty text rubs out what stands before
/// the caret. Gives what then stands in the field, and where the caret belongs: a field that is drawn anew loses it.
#[must_use]
pub fn insert(id: &str, text: &str) -> Option<(String, u32)> {
    let field: HtmlInputElement = document()?.get_element_by_id(id)?.dyn_into().ok()?;
    let at = |end: Result<Option<u32>, _>| end.ok().flatten().unwrap_or(u32::MAX);
    let (mut from, to) = (at(field.selection_start()), at(field.selection_end()));
    if text.is_empty() && from == to {
        from = from.saturating_sub(1);
    }
    let end = web_sys::SelectionMode::End;
    field.set_range_text_with_start_and_end_and_selection_mode(text, from, to, end).ok()?;
    let caret = at(field.selection_end());
    Some((field.value(), caret))
}

/// Puts the caret of a field there.
pub fn put_caret(id: &str, at: u32) {
    let field = document().and_then(|d| d.get_element_by_id(id)?.dyn_into::<HtmlInputElement>().ok());
    if let Some(field) = field {
        let _set = field.set_selection_range(at, at);
    }
}

/// How far down the page stands.
#[must_use]
pub fn down() -> i32 {
    web_sys::window().and_then(|w| w.scroll_y().ok()).map_or(0, |y| y as i32)
}

/// Moves the page to where it stood, and the focus to the link that was followed from there, or to the heading.
pub fn back_to(down: i32, link: &str) {
    let Some(document) = document() else { return };
    let linked = document.query_selector(&format!("main a[href=\"{link}\"]")).ok().flatten();
    match linked.and_then(|e| e.dyn_into::<HtmlElement>().ok()) {
        Some(link) => focus(&link),
        None => to_heading(),
    }
    if let Some(window) = web_sys::window() {
        window.scroll_to_with_x_and_y(0.0, f64::from(down));
    }
}

fn focus(element: &HtmlElement) {
    let options = FocusOptions::new();
    options.set_prevent_scroll(true);
    let _focused = element.focus_with_options(&options);
}

/// Where in a drawing a click fell, in parts of 100 000 of its width and height.
#[must_use]
pub fn within(event: &MouseEvent) -> Option<[i32; 2]> {
    let drawing = event.target()?.dyn_into::<Element>().ok()?.closest("svg").ok()??;
    let frame = drawing.get_bounding_client_rect();
    let share = |at: i32, from: f64, size: f64| (100_000.0 * (f64::from(at) - from) / size.max(1.0)) as i32;
    Some([
        share(event.client_x(), frame.left(), frame.width()),
        share(event.client_y(), frame.top(), frame.height()),
    ])
}

/// Says which screen this is, now and whenever it changes: its size, the pixel ratio and the zoom, per mille. Heard for as
/// long as the page stands.
pub fn screens(hear: impl Fn(String) + Clone + 'static) {
    let Some(window) = web_sys::window() else { return };
    let say = {
        let window = window.clone();
        move || {
            let number = |of: &wasm_bindgen::JsValue, name: &str| {
                let value = js_sys::Reflect::get(of, &name.into()).ok().and_then(|v| v.as_f64());
                (value.unwrap_or(1.0) * 1000.0) as i32
            };
            let part = |name: &str| js_sys::Reflect::get(&window, &name.into()).unwrap_or_default();
            let (screen, sight) = (part("screen"), part("visualViewport"));
            let size = (number(&screen, "width") / 1000, number(&screen, "height") / 1000);
            let ratio = number(&window, "devicePixelRatio");
            hear(format!("{}x{} {ratio} {}", size.0, size.1, number(&sight, "scale")));
        }
    };
    say();
    let later = say.clone();
    gloo_events::EventListener::new(&window, "resize", move |_| later()).forget();
    let sight = js_sys::Reflect::get(&window, &"visualViewport".into()).unwrap_or_default();
    if let Ok(sight) = sight.dyn_into::<web_sys::EventTarget>() {
        gloo_events::EventListener::new(&sight, "resize", move |_| say()).forget();
    }
}

/// Prints.
pub fn print() {
    if let Some(window) = web_sys::window() {
        let _done = window.print();
    }
}

/// Names the page after its heading.
pub fn title_of_heading() {
    let Some(document) = document() else { return };
    if let Some(heading) = document.get_element_by_id("heading").and_then(|h| h.text_content()) {
        document.set_title(&format!("{heading} \u{2013} Pressmark"));
    }
}

/// Sets the theme: `phone`, `light`, `dark` or `sun`.
pub fn theme(name: &str) {
    if let Some(page) = document().and_then(|d| d.document_element()) {
        let _set = page.set_attribute("data-theme", name);
    }
}

/// The digest of the pack that the question page has, as the build wrote it into the page; empty where there is none.
#[must_use]
pub fn pack() -> String {
    let boot = document().and_then(|d| d.get_element_by_id("boot"));
    boot.and_then(|b| b.get_attribute("data-pack")).unwrap_or_default()
}
