//! All looks at once, by part of the piece, answered in place.

use consult::{ListedLook, Msg, PartView};
use yew::prelude::*;

pub(crate) fn list(parts: &[PartView], on: &Callback<Msg>) -> Html {
    html! {
        <>
            <h1 id="heading" tabindex="-1">{ "All looks" }</h1>
            <p class="hint">{ "Answer in any order. A bar at the side marks the three that tell most now." }</p>
            { for parts.iter().map(|p| html! {
                <section key={p.part.clone()}>
                    <h2>{ p.part.clone() }</h2>
                    { for p.looks.iter().map(|l| row(l, on)) }
                </section>
            }) }
        </>
    }
}

fn row(look: &ListedLook, on: &Callback<Msg>) -> Html {
    let question = look.question;
    let answered = look.cannot || look.measured.is_some() || look.choices.iter().any(|c| c.2);
    let name = format!("ask-{question}");
    let choose = |choice: usize, set: bool| {
        on.reform(move |_| {
            if set {
                Msg::TakeBack(question)
            } else {
                Msg::Choose { question, choice }
            }
        })
    };
    html! {
        <div key={question} class={classes!("listed", look.tells_most.then_some("most"))} role="group" aria-labelledby={name.clone()}>
            <h3 id={name}>
                { look.ask.clone() }
                if look.tells_most {
                    <span class="unseen">{ " (tells most now)" }</span>
                }
            </h3>
            <div class="keyrow">
                { for look.choices.iter().map(|(i, label, set)| html! {
                    <button type="button" class="key" aria-pressed={set.to_string()} onclick={choose(*i, *set)}>{ label.clone() }</button>
                }) }
                if let Some(m) = &look.measured {
                    <button type="button" class="key" aria-pressed="true" onclick={on.reform(move |_| Msg::TakeBack(question))}>
                        { m.clone() }
                    </button>
                }
                <button type="button" class="key quiet" aria-pressed={look.cannot.to_string()}
                    onclick={on.reform(move |_| Msg::Cannot(question))}>{ "can't tell" }</button>
                if answered && !look.cannot {
                    <button type="button" class="key quiet" aria-pressed={look.unsure.to_string()}
                        onclick={on.reform(move |_| Msg::Unsure(question))}>{ "not sure" }</button>
                }
                <button type="button" class="key quiet" onclick={on.reform(move |_| Msg::Ask(question))}>
                    { if look.typed { "drawings, type it" } else { "drawings" } }
                    <span class="unseen">{ format!(" for: {}", look.ask) }</span>
                </button>
            </div>
        </div>
    }
}
