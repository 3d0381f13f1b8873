//! Handing files over to the user: a drawing as SVG, or drawn on a canvas as PNG. Everything stays on the device: the
//! addresses are `blob:`, which the page's policy allows for pictures.

use js_sys::Array;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, BlobPropertyBag, CanvasRenderingContext2d, HtmlAnchorElement, HtmlCanvasElement, HtmlImageElement,
    Url,
};

/// Saves a drawing as it is; false where the browser refuses.
#[must_use]
pub fn svg(name: &str, text: &str) -> bool {
    address(text).and_then(|address| hand_over(&address, &format!("{name}.svg"))).is_some()
}

/// Saves a drawing as pixels; false where the browser refuses.
pub async fn png(name: String, text: String, (width, height): (u32, u32)) -> bool {
    drawn(name, &text, width, height).await.is_some()
}

async fn drawn(name: String, text: &str, width: u32, height: u32) -> Option<()> {
    let picture = HtmlImageElement::new_with_width_and_height(width, height).ok()?;
    picture.set_src(&address(text)?);
    JsFuture::from(picture.decode()).await.ok()?;
    let document = web_sys::window()?.document()?;
    let canvas: HtmlCanvasElement = document.create_element("canvas").ok()?.dyn_into().ok()?;
    canvas.set_width(width);
    canvas.set_height(height);
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    let (w, h) = (f64::from(width), f64::from(height));
    context.draw_image_with_html_image_element_and_dw_and_dh(&picture, 0.0, 0.0, w, h).ok()?;
    let done = Closure::once_into_js(move |pixels: JsValue| {
        let pixels: Option<Blob> = pixels.dyn_into().ok();
        let address = pixels.and_then(|p| Url::create_object_url_with_blob(&p).ok());
        let _done = address.and_then(|address| hand_over(&address, &format!("{name}.png")));
    });
    canvas.to_blob(done.unchecked_ref()).ok()
}

/// Saves a blob; false where the browser refuses.
#[must_use]
pub fn blob(name: &str, blob: &Blob) -> bool {
    Url::create_object_url_with_blob(blob).ok().and_then(|address| hand_over(&address, name)).is_some()
}

/// An address for a drawing. It is not given back: when the browser has read it cannot be known, and one drawing
/// weighs a few kilobytes until the page is closed.
fn address(svg: &str) -> Option<String> {
    let sort = BlobPropertyBag::new();
    sort.set_type("image/svg+xml");
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&svg.into()), &sort).ok()?;
    Url::create_object_url_with_blob(&blob).ok()
}

/// As if a link to download had been followed.
fn hand_over(address: &str, name: &str) -> Option<()> {
    let link = web_sys::window()?.document()?.create_element("a").ok()?;
    let link: HtmlAnchorElement = link.dyn_into().ok()?;
    link.set_href(address);
    link.set_download(name);
    link.click();
    Some(())
}
