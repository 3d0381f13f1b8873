//! The page of practice: loads both halves of the pack and what the phone has kept, then takes the page over.

use app::browser;
use app::practice::{Practice, PracticeProps, begun};
use std::rc::Rc;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

fn main() {
    wasm_bindgen_futures::spawn_local(start());
}

async fn start() {
    match (begun().await, browser::page::root()) {
        (Ok(begun), Some(root)) => {
            let props = PracticeProps { begun: Rc::new(begun) };
            yew::Renderer::<Practice>::with_root_and_props(root, props).render();
        }
        (Err(sentence), _) => browser::events::tell("trouble", Some(&sentence)),
        (Ok(_), None) => browser::events::tell("trouble", Some(browser::page::DAMAGED)),
    }
}
