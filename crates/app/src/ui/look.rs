//! One question.

use super::drawing::drawing;
use super::typing;
use consult::{ChoiceView, LookView, Msg};
use yew::prelude::*;

/// A question with its choices: buttons, or links before the program has come (`on` is none).
pub(crate) fn look(view: &LookView, on: Option<&Callback<Msg>>) -> Html {
    html! {
        <>
            <div class="q">
                <h1 id="heading" tabindex="-1">{ view.ask.clone() }</h1>
                if let Some(on) = on {
                    <button type="button" aria-expanded={view.why_open.to_string()} onclick={on.reform(|_| Msg::Why)}>
                        { "Why this?" }
                    </button>
                }
            </div>
            <p class="hint">{ view.look.clone() }</p>
            if let Some(lines) = &view.why {
                <div class="card why">
                    { for lines.iter().map(|l| html! { <p>{ l.clone() }</p> }) }
                    if let Some(n) = &view.newcomers {
                        <p><b>{ "Take care: " }</b>{ n.clone() }</p>
                    }
                </div>
            }
            if let Some(either) = &view.either {
                <p class="told" role="status">{ either.clone() }</p>
            }
            <div class="choices" role="group" aria-labelledby="heading">
                { for view.choices.iter().map(|c| choice(view.question, c, on)) }
            </div>
            if let Some(t) = &view.typing {
                if let Some(on) = on {
                    { typing::typing(view.question, t, on) }
                }
            }
        </>
    }
}

fn choice(question: usize, choice: &ChoiceView, on: Option<&Callback<Msg>>) -> Html {
    let inner = html! { <>{ drawing(&choice.draw, false) }<span>{ choice.label.clone() }</span></> };
    let class = classes!("choice", choice.chosen.then_some("chosen"));
    let at = choice.choice;
    match on {
        Some(on) => html! {
            <button type="button" {class} key={at} aria-pressed={choice.chosen.then_some("true")}
                onclick={on.reform(move |_| Msg::Choose { question, choice: at })}>
                { inner }
            </button>
        },
        None => html! { <a {class} href={format!("#{}", choice.link)}>{ inner }</a> },
    }
}
