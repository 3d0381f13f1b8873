//! Taking a picture in: decoded by the browser, turned upright, made smaller, written as a JPEG of its own. Nothing of what a
//! camera wrote beside the picture is left; the bytes are looked through once more to be sure.

use super::database::bytes;
use js_sys::{Array, Object, Reflect, Uint8Array};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, CanvasRenderingContext2d, HtmlCanvasElement, ImageBitmap};

/// The longer side of what is kept, in pixels.
const LONGEST: u32 = 1600;
/// The largest file that is decoded, in bytes.
const LARGEST: f64 = 60_000_000.0;

/// A picture as it is kept.
///
/// # Errors
/// A sentence.
pub async fn taken(file: &Blob) -> Result<(Vec<u8>, Blob), String> {
    if file.size() > LARGEST {
        return Err("This picture is larger than 60 megabytes. Make it smaller first.".to_string());
    }
    let drawn = drawn(file).await;
    let jpeg = drawn.ok_or("This file is no picture that the browser can read. A JPEG or PNG will do.")?;
    let bytes = bytes(&jpeg).await.map_err(|_| "The picture could not be read.".to_string())?;
    let clean =
        picture::strip::stripped(&bytes).map_err(|_| "The picture could not be made smaller.".to_string())?;
    let blob = blob(&clean, "image/jpeg").ok_or("The picture could not be made ready.")?;
    Ok((clean, blob))
}

/// Bytes as a blob.
#[must_use]
pub fn blob(bytes: &[u8], sort: &str) -> Option<Blob> {
    let about = BlobPropertyBag::new();
    about.set_type(sort);
    Blob::new_with_u8_array_sequence_and_options(&Array::of1(&Uint8Array::from(bytes)), &about).ok()
}

async fn drawn(file: &Blob) -> Option<Blob> {
    let window = web_sys::window()?;
    let decode: js_sys::Function =
        Reflect::get(&window, &"createImageBitmap".into()).ok()?.dyn_into().ok()?;
    let options = Object::new();
    let _set = Reflect::set(&options, &"imageOrientation".into(), &"from-image".into());
    let promise: js_sys::Promise = decode.call2(&window, file, &options).ok()?.dyn_into().ok()?;
    let picture: ImageBitmap = JsFuture::from(promise).await.ok()?.dyn_into().ok()?;
    let (wide, high) = (picture.width(), picture.height());
    let most = wide.max(high).max(1);
    let by = |side: u32| if most > LONGEST { (side * LONGEST / most).max(1) } else { side };
    let (wide, high) = (by(wide), by(high));
    let canvas: HtmlCanvasElement = window.document()?.create_element("canvas").ok()?.dyn_into().ok()?;
    canvas.set_width(wide);
    canvas.set_height(high);
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    // What is seen through is white, as on paper.
    context.set_fill_style_str("#fff");
    context.fill_rect(0.0, 0.0, f64::from(wide), f64::from(high));
    let (w, h) = (f64::from(wide), f64::from(high));
    context.draw_image_with_image_bitmap_and_dw_and_dh(&picture, 0.0, 0.0, w, h).ok()?;
    picture.close();
    let promise = js_sys::Promise::new(&mut |resolve: js_sys::Function, reject: js_sys::Function| {
        let done = Closure::once_into_js(move |blob: JsValue| {
            let _told =
                if blob.is_null() { reject.call0(&blob) } else { resolve.call1(&JsValue::NULL, &blob) };
        });
        let _begun =
            canvas.to_blob_with_type_and_encoder_options(done.unchecked_ref(), "image/jpeg", &0.86.into());
    });
    JsFuture::from(promise).await.ok()?.dyn_into().ok()
}
