//! The strip under the title: what is known so far, the sole filling from heel to toe, the way to the finding.

use consult::{Msg, Screen, Strip};
use yew::prelude::*;

const SOLE: &str = "M30 3C44 18 55 46 54 72L53 92Q30 99 7 92L6 72C5 46 16 18 30 3Z";

/// A button to the finding; plain text before the program has come.
pub(crate) fn strip(strip: &Strip, on: Option<&Callback<Msg>>) -> Html {
    let inner = html! {
        <>
            { sole(strip.known) }
            <span><strong>{ strip.fits.clone() }</strong>{ strip.left.clone() }</span>
            if on.is_some() {
                <span class="go">{ "See finding" }</span>
            }
        </>
    };
    match on {
        Some(on) => html! {
            <button type="button" class="strip" onclick={on.reform(|_| Msg::Show(Screen::Finding))}>{ inner }</button>
        },
        None => html! { <div class="strip">{ inner }</div> },
    }
}

/// The emblem as a meter, beside the words and never instead of them.
fn sole(permille: u16) -> Html {
    let filled = 96 * i32::from(permille.min(1000)) / 1000;
    html! {
        <svg viewBox="0 0 60 100" class="sole" aria-hidden="true">
            <clipPath id="sole"><path d={SOLE} /></clipPath>
            <rect clip-path="url(#sole)" class="fill" x="0" width="60" y={(99 - filled).to_string()} height="100" />
            <path d={SOLE} class="line" />
        </svg>
    }
}
