//! The page of the guide: loads both halves of the pack, then takes the page over.

use app::browser;
use app::guide::{Book, BookProps, pages};
use std::rc::Rc;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

fn main() {
    wasm_bindgen_futures::spawn_local(start());
}

async fn start() {
    match (pages().await, browser::page::root()) {
        (Ok(pages), Some(root)) => {
            let props = BookProps { pages: Rc::new(pages) };
            yew::Renderer::<Book>::with_root_and_props(root, props).render();
        }
        (Err(sentence), _) => browser::events::tell("trouble", Some(&sentence)),
        (Ok(_), None) => browser::events::tell("trouble", Some(browser::page::DAMAGED)),
    }
}
