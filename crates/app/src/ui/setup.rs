//! Set-up: the place, the tools, the aim, how it is shown, what is kept.

use super::place;
use super::screen::Around;
use consult::{Aim, Manner, Msg, SetupView, Theme};
use yew::prelude::*;

pub(crate) fn setup(view: &SetupView, around: &Around, on: &Callback<Msg>) -> Html {
    let toggle = |label: &str, set: bool, msg: Msg| {
        html! {
            <button type="button" class="key" aria-pressed={set.to_string()} onclick={on.reform(move |_| msg.clone())}>
                { label.to_string() }
            </button>
        }
    };
    let themes = [
        ("As the phone", Theme::Phone),
        ("Light", Theme::Light),
        ("Dark", Theme::Dark),
        ("Sun", Theme::Sun),
    ];
    html! {
        <>
            <h1 id="heading" tabindex="-1">{ "Set up" }</h1>
            <h2>{ "Where is it offered?" }</h2>
            { place::places(&view.place, on) }
            <div class="keyrow">
                { toggle("Only a picture", view.place.picture, Msg::Picture(!view.place.picture)) }
            </div>
            <h2>{ "What is at hand?" }</h2>
            { place::tools(&view.place, on) }
            <h2>{ "What do you want to know most?" }</h2>
            <div class="keyrow" role="group" aria-label="What you want to know most">
                { for Aim::ALL.into_iter().zip(&view.aims).map(|(aim, (label, set))| toggle(label, *set, Msg::Aim(aim))) }
            </div>
            <h2>{ "How are the looks chosen?" }</h2>
            <div class="keyrow" role="group" aria-label="How the looks are chosen">
                { toggle("The first looks always the same", view.guided, Msg::Manner(Manner::Guided)) }
                { toggle("What tells most, from the start", !view.guided, Msg::Manner(Manner::Free)) }
            </div>
            <h2>{ "How is it shown?" }</h2>
            <div class="keyrow" role="group" aria-label="How it is shown">
                { for themes.into_iter().map(|(label, t)| toggle(label, view.theme == t, Msg::Theme(t))) }
            </div>
            <h2>{ "Kept on this phone" }</h2>
            <p>{ kept(around) }</p>
            <p>{ "Nothing you answer leaves this phone. The answers stand in the address of the page, so a link carries the piece." }</p>
            <div class="keyrow">
                { toggle("Copy the link", false, Msg::CopyLink) }
                <a class="key" href="key.html">{ "Printed key" }</a>
            </div>
            <p class="small">{ view.pack.clone() }</p>
        </>
    }
}

fn kept(around: &Around) -> String {
    let mut text = match &around.kept {
        Some(Ok(())) => "Ready without signal.".to_string(),
        Some(Err(sentence)) => sentence.clone(),
        None => "Getting ready for use without a signal\u{2026}".to_string(),
    };
    if around.unkept {
        text.push_str(" This browser keeps no choices of yours: they last until the page is closed.");
    }
    text
}
