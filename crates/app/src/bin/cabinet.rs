//! The page of the cabinet.

use app::browser;
use app::cabinet::Cabinet;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

fn main() {
    match browser::page::root() {
        Some(root) => {
            yew::Renderer::<Cabinet>::with_root(root).render();
        }
        None => browser::events::tell("trouble", Some(browser::page::DAMAGED)),
    }
}
