//! The question page: loads the pack, then takes the page over.

use app::app::{App, AppProps, guide};
use app::browser;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

fn main() {
    wasm_bindgen_futures::spawn_local(start());
}

async fn start() {
    // A link may name any question; a fresh start needs those of the opening only.
    let whole = !browser::address::fragment().is_empty();
    match (guide(whole).await, browser::page::root()) {
        (Ok(guide), Some(root)) => {
            let props = AppProps { guide };
            yew::Renderer::<App>::with_root_and_props(root, props).render();
        }
        (Err(sentence), _) => browser::events::tell("trouble", Some(&sentence)),
        (Ok(_), None) => browser::events::tell("trouble", Some("This page is damaged. Load it again.")),
    }
}
