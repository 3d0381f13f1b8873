//! Typing a measurement.

use consult::{LengthUnit, Msg, TypingView};
use web_sys::HtmlInputElement;
use yew::prelude::*;

pub(crate) fn typing(question: usize, view: &TypingView, on: &Callback<Msg>) -> Html {
    let typed = on.reform(|e: InputEvent| Msg::Type(e.target_unchecked_into::<HtmlInputElement>().value()));
    let enter = {
        let on = on.clone();
        move |e: SubmitEvent| {
            e.prevent_default();
            on.emit(Msg::Enter(question));
        }
    };
    let unit = |unit: LengthUnit, label: &str, set: bool| {
        html! {
            <button type="button" class="key" aria-pressed={set.to_string()} onclick={on.reform(move |_| Msg::Unit(unit))}>
                { label.to_string() }
            </button>
        }
    };
    let with = |calipers: bool, label: &str| {
        let set = calipers == view.calipers;
        html! {
            <button type="button" class="key" aria-pressed={set.to_string()}
                onclick={on.reform(move |_| Msg::Calipers(calipers))}>{ label.to_string() }</button>
        }
    };
    html! {
        <form class="typing" onsubmit={enter}>
            <label for="typed">{ view.label.clone() }</label>
            <div class="row">
                <input id="typed" type="text" inputmode={if view.inches { "text" } else { "decimal" }} autocomplete="off"
                    value={view.text.clone()} oninput={typed} aria-describedby="typed-fault"
                    aria-invalid={view.fault.is_some().to_string()} />
                <button type="submit" class="key strong">{ "Use it" }</button>
            </div>
            <p id="typed-fault" class="fault">{ view.fault.clone().unwrap_or_default() }</p>
            if view.length {
                <div class="row" role="group" aria-label="Unit and instrument">
                    { unit(LengthUnit::Millimetre, "mm", !view.inches) }
                    { unit(LengthUnit::Inch, "inches", view.inches) }
                    { with(false, "ruler") }
                    { with(true, "calipers") }
                </div>
            }
        </form>
    }
}
