//! The least that a page of this framework can be: a question and four keys that do nothing but change the question. It stands
//! beside the real page in `cargo xtask bench phone`, and shows what of the time is the framework's.

use app::browser::events;
use yew::prelude::*;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

struct Bare {
    asked: usize,
}

impl Component for Bare {
    type Message = ();
    type Properties = ();

    fn create(_: &Context<Self>) -> Bare {
        Bare { asked: 0 }
    }

    fn update(&mut self, _: &Context<Self>, (): ()) -> bool {
        self.asked += 1;
        true
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        let key = |name: &str| {
            let onclick = ctx.link().callback(|_: MouseEvent| ());
            html! { <button {onclick}>{ name.to_string() }</button> }
        };
        html! {
            <>
                <h1 id="heading">{ format!("Question {}?", self.asked + 1) }</h1>
                { for ["One", "Two", "Three", "Four"].into_iter().map(key) }
            </>
        }
    }

    fn rendered(&mut self, _: &Context<Self>, first: bool) {
        if first {
            events::tell("usable", None);
        }
    }
}

fn main() {
    yew::Renderer::<Bare>::new().render();
}
