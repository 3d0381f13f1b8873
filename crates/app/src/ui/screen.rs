//! A whole screen: header, strip, body, bar.

use super::{bar, finding, list, look, place, setup, strip};
use consult::{Body, Msg, Screen as Which, View};
use std::rc::Rc;
use yew::prelude::*;

/// What happens around the consultation.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Around {
    /// Kept on this device for use without a signal, or a sentence why not; nothing while it is not known.
    pub kept: Option<Result<(), String>>,
    /// A new version waits.
    pub update: bool,
    /// Preferences could not be kept.
    pub unkept: bool,
}

/// What a screen is drawn from.
#[derive(Properties, PartialEq)]
pub struct ScreenProps {
    /// What to show.
    pub view: Rc<View>,
    /// What happens around it.
    pub around: Around,
    /// Where taps go.
    pub on: Callback<Msg>,
    /// The user agrees to a new version.
    pub accept: Callback<()>,
}

/// A whole screen.
#[component]
pub fn Screen(props: &ScreenProps) -> Html {
    let ScreenProps {
        view,
        around,
        on,
        accept,
    } = props;
    let setup_open = matches!(view.body, Body::Setup(_));
    let (to, label) = if setup_open {
        (Which::Look, "Back")
    } else {
        (Which::Setup, "Set up")
    };
    html! {
        <>
            <header class="top">
                <b>{ "PRESSMARK" }</b>
                <button type="button" onclick={on.reform(move |_| Msg::Show(to))}>{ label }</button>
            </header>
            if let Some(s) = &view.strip {
                { strip::strip(s, Some(on)) }
            }
            <main>
                if around.update {
                    <div class="told">
                        <p>{ "A new version is ready." }</p>
                        <button type="button" class="key" onclick={accept.reform(|_| ())}>{ "Use it now" }</button>
                    </div>
                }
                if let Some(notice) = &view.notice {
                    <div class="told" role="status">
                        <p>{ notice.clone() }</p>
                        <button type="button" class="key" onclick={on.reform(|_| Msg::Notice(None))}>{ "Good" }</button>
                    </div>
                }
                if !view.pack_notice.is_empty() {
                    <p class="told">{ view.pack_notice.clone() }</p>
                }
                { body(view, around, on) }
            </main>
            { bar::bar(&view.body, Some(on)) }
            <p id="said" class="unseen" role="status" aria-atomic="true"></p>
        </>
    }
}

fn body(view: &View, around: &Around, on: &Callback<Msg>) -> Html {
    match &view.body {
        Body::Look(v) => look::look(v, Some(on)),
        Body::Place(v) => place::place(v, on),
        Body::Finding(v) => finding::finding(v, on),
        Body::List(v) => list::list(v, on),
        Body::Setup(v) => setup::setup(v, around, on),
    }
}

/// Says something to a screen reader.
pub fn say(text: &str) {
    let said = web_sys::window()
        .and_then(|w| w.document())
        .and_then(|d| d.get_element_by_id("said"));
    if let Some(said) = said {
        said.set_text_content(Some(text));
    }
}

/// What the first question is drawn from.
#[derive(Properties, PartialEq)]
pub struct FirstProps {
    /// The view, with links.
    pub view: Rc<View>,
}

/// The first question before any program has come: the same drawing, its choices real links.
#[component]
pub fn FirstQuestion(props: &FirstProps) -> Html {
    html! {
        <>
            <header class="top"><b>{ "PRESSMARK" }</b></header>
            if let Some(s) = &props.view.strip {
                { strip::strip(s, None) }
            }
            <main>
                if let Body::Look(v) = &props.view.body {
                    { look::look(v, None) }
                }
            </main>
            { bar::bar(&props.view.body, None) }
        </>
    }
}
