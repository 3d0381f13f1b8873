//! The lower bar: what is pressed most, where the thumb is.

use consult::{Body, LastView, Msg, Screen};
use yew::prelude::*;

pub(crate) fn bar(body: &Body, on: Option<&Callback<Msg>>) -> Html {
    let key = |label: &str, msg: Msg| match on {
        Some(on) => {
            html! { <button type="button" onclick={on.reform(move |_| msg.clone())}>{ label.to_string() }</button> }
        }
        None => html! { <button type="button" disabled=true>{ label.to_string() }</button> },
    };
    let keys = match body {
        Body::Look(v) => {
            let either = if v.either.is_some() {
                "Only one"
            } else {
                "One of two"
            };
            html! { <>{ key("Undo", Msg::Undo) }{ key("Can't tell", Msg::Cannot(v.question)) }{ key(either, Msg::Either) }</> }
        }
        Body::Place(v) => html! {
            <>
                { key("Undo", Msg::Undo) }
                { key("Skip", Msg::SkipPlace) }
                { key(if v.picture { "It is in my hand" } else { "Only a picture" }, Msg::Picture(!v.picture)) }
            </>
        },
        Body::Finding(_) => html! {
            <>{ key("Undo", Msg::Undo) }{ key("All looks", Msg::Show(Screen::List)) }{ key("Next piece", Msg::Fresh) }</>
        },
        Body::List(_) => html! {
            <>{ key("Undo", Msg::Undo) }{ key("One at a time", Msg::LookOn) }{ key("See finding", Msg::Show(Screen::Finding)) }</>
        },
        Body::Setup(_) => html! {
            <>
                { key("One at a time", Msg::Show(Screen::Look)) }
                { key("All looks", Msg::Show(Screen::List)) }
                { key("See finding", Msg::Show(Screen::Finding)) }
            </>
        },
    };
    let last = match body {
        Body::Look(v) => v.last.as_ref(),
        Body::Place(v) => v.last.as_ref(),
        _ => None,
    };
    html! {
        <div class="bar">
            if let (Some(last), Some(on)) = (last, on) {
                { said(last, on) }
            }
            <div class="keys">{ keys }</div>
        </div>
    }
}

/// The answer just given, with one tap to mark it as not sure.
fn said(last: &LastView, on: &Callback<Msg>) -> Html {
    let question = last.question;
    html! {
        <div class="last">
            <span>{ "You said: " }<b>{ last.text.clone() }</b></span>
            <button type="button" aria-pressed={last.unsure.to_string()} onclick={on.reform(move |_| Msg::Unsure(question))}>
                { "Not sure" }
            </button>
        </div>
    }
}
