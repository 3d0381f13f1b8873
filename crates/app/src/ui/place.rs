//! Where the piece is offered, and what is at hand.

use consult::{Msg, PlaceView};
use yew::prelude::*;

/// Asked once, on the way.
pub(crate) fn place(view: &PlaceView, on: &Callback<Msg>) -> Html {
    html! {
        <>
            <h1 id="heading" tabindex="-1">{ "Where is it offered?" }</h1>
            <p class="hint">{ "Copies are commoner in some places. Skip it if you like; it is asked once." }</p>
            { places(view, on) }
            <h2>{ "What is at hand?" }</h2>
            { tools(view, on) }
        </>
    }
}

pub(super) fn places(view: &PlaceView, on: &Callback<Msg>) -> Html {
    html! {
        <div class="choices words" role="group" aria-label="Where it is offered">
            { for view.places.iter().map(|(i, name, set)| {
                let place = *i;
                html! {
                    <button type="button" class={classes!("choice", set.then_some("chosen"))} aria-pressed={set.to_string()}
                        onclick={on.reform(move |_| Msg::Place(place))}><span>{ name.clone() }</span></button>
                }
            }) }
        </div>
    }
}

pub(super) fn tools(view: &PlaceView, on: &Callback<Msg>) -> Html {
    html! {
        <div class="keyrow" role="group" aria-label="Tools at hand">
            { for view.tools.iter().map(|(i, name, set)| {
                let tool = *i;
                html! {
                    <button type="button" class="key" aria-pressed={set.to_string()}
                        onclick={on.reform(move |_| Msg::Tool(tool))}>{ name.clone() }</button>
                }
            }) }
        </div>
    }
}
