//! The question page: loads the pack, then takes the page over.

use app::app::{App, AppProps};
use app::browser;
use consult::Guide;
use std::rc::Rc;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

fn main() {
    wasm_bindgen_futures::spawn_local(start());
}

async fn start() {
    let guide = match browser::pack::load("core").await {
        Ok(bytes) => Guide::from_bytes(&bytes, browser::clock::this_year()),
        Err(sentence) => Err(sentence),
    };
    match (guide, browser::page::root()) {
        (Ok(guide), Some(root)) => {
            let props = AppProps { guide: Rc::new(guide) };
            yew::Renderer::<App>::with_root_and_props(root, props).render();
        }
        (Err(sentence), _) => browser::events::tell("trouble", Some(&sentence)),
        (Ok(_), None) => browser::events::tell("trouble", Some("This page is damaged. Load it again.")),
    }
}
