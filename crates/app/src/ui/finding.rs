//! The finding: the first screenful says what, old or later, when, worth, and what next; the reasons stand below.

use super::charts;
use super::clues;
use super::drawing::drawing;
use consult::{FindingView, Msg, NextView};
use yew::prelude::*;

pub(crate) fn finding(view: &FindingView, on: &Callback<Msg>) -> Html {
    html! {
        <>
            { for view.grave.iter().map(|text| html! { <p class="care" role="note">{ text.clone() }</p> }) }
            if let Some(text) = &view.outside {
                <p class="care" role="note">{ text.clone() }</p>
            }
            <h1 id="heading" tabindex="-1">{ view.title.clone() }</h1>
            if !view.clues.is_empty() {
                if !view.draw.is_empty() {
                    <figure>
                        { drawing(&format!("{} view=both size={}", view.draw, view.draw_mm), true) }
                        <figcaption>{ "A typical one, not your piece." }</figcaption>
                    </figure>
                }
                { rows(view, on) }
            }
            if let Some(next) = &view.next {
                { look_next(next, on) }
            }
            <p class="hint">{ view.standing.clone() }</p>
            if !view.clues.is_empty() {
                { reasons(view, on) }
            }
        </>
    }
}

fn rows(view: &FindingView, on: &Callback<Msg>) -> Html {
    html! {
        <div class="rows">
            <div><i>{ "What" }</i><span><b>{ view.likely.clone() }{ "." }</b>{ " " }{ view.made_as.clone() }</span></div>
            <div><i>{ "Old or later" }</i><span><b>{ view.make.clone() }</b></span></div>
            <div><i>{ "When" }</i><span><b>{ view.years.half.clone() }</b>{ ", even chances; " }{ view.years.nine.clone() }{ ", 9 in 10" }</span></div>
            { worth_row(view, on) }
        </div>
    }
}

fn worth_row(view: &FindingView, on: &Callback<Msg>) -> Html {
    let text = match (&view.worth, view.money) {
        (_, false) => html! { <span class="go">{ "Show the money" }</span> },
        (Ok(w), true) => {
            html! { <span><b>{ w.half.clone() }</b>{ " for half of such; " }{ w.eight.clone() }{ " for 8 in 10" }</span> }
        }
        (Err(none), true) => html! { <span>{ none.clone() }</span> },
    };
    html! {
        <button type="button" aria-expanded={view.money.to_string()} onclick={on.reform(|_| Msg::Money)}>
            <i>{ "Worth" }</i>{ text }
        </button>
    }
}

fn look_next(next: &NextView, on: &Callback<Msg>) -> Html {
    html! {
        <button type="button" class="next" onclick={on.reform(|_| Msg::LookOn)}>
            <b>{ "Look next: " }{ next.ask.clone() }</b><span>{ next.why.clone() }</span>
        </button>
    }
}

fn reasons(view: &FindingView, on: &Callback<Msg>) -> Html {
    html! {
        <>
            <h2>{ "What would change it" }</h2>
            <div class="card">{ for view.change.iter().map(|c| html! { <p>{ c.clone() }</p> }) }</div>
            <h2>{ "For and against" }</h2>
            { clues::clues(&view.clues, on) }
            { second(view, on) }
            <h2>{ "When it was made" }</h2>
            <div class="card">
                { charts::years(&view.years) }
                <p>{ format!("Dark, even chances: {}. Light, 9 in 10: {}. ", view.years.half, view.years.nine) }</p>
                <p class="small">{ format!("EDTF {}. {}", view.years.edtf, view.years.basis) }</p>
            </div>
            { worth(view, on) }
            <h2>{ "What it was made as" }</h2>
            <div class="card">
                <p>{ view.purpose.clone() }</p>
                <ul class="shares">{ for view.roles.iter().map(|(name, chance)| share(name, chance)) }</ul>
            </div>
            <h2>{ "All that fits" }</h2>
            <div class="card"><ul class="shares">{ for view.kinds.iter().map(|(name, chance, _)| share(name, chance)) }</ul></div>
            { notes(view, on) }
        </>
    }
}

fn share(name: &str, chance: &str) -> Html {
    html! { <li><span>{ name.to_string() }</span><b>{ chance.to_string() }</b></li> }
}

fn second(view: &FindingView, on: &Callback<Msg>) -> Html {
    let Some(second) = &view.second else {
        return html! {};
    };
    html! {
        <>
            <h2>{ "Or else" }</h2>
            <div class="card">
                <p><b>{ second.name.clone() }</b>{ ": " }{ second.likely.clone() }{ "." }</p>
                if let Some(check) = &second.check {
                    <p>{ check.clone() }</p>
                }
                if let Some(look) = &second.look {
                    <button type="button" class="key" onclick={{ let q = look.question; on.reform(move |_| Msg::Ask(q)) }}>
                        { format!("Settle it: {}", look.ask) }
                    </button>
                }
            </div>
        </>
    }
}

fn worth(view: &FindingView, on: &Callback<Msg>) -> Html {
    html! {
        <>
            <h2>{ "What it is worth" }</h2>
            <div class="card">
                { match (&view.worth, view.money) {
                    (_, false) => html! {
                        <button type="button" class="key" onclick={on.reform(|_| Msg::Money)}>{ "Show the money" }</button>
                    },
                    (Err(none), true) => html! { <p>{ none.clone() }</p> },
                    (Ok(w), true) => html! {
                        <>
                            { charts::worth(w) }
                            <p>{ format!("Dark, half of such pieces: {}. Light, 8 in 10: {}.", w.half, w.eight) }</p>
                            <p class="small">{ w.basis.clone() }</p>
                        </>
                    },
                } }
            </div>
        </>
    }
}

fn notes(view: &FindingView, on: &Callback<Msg>) -> Html {
    html! {
        <>
            if !view.seller.is_empty() {
                <h2>{ "Ask the seller" }</h2>
                <div class="card">
                    { for view.seller.iter().map(|q| html! { <p>{ q.clone() }</p> }) }
                    <button type="button" class="key" onclick={on.reform(|_| Msg::CopySeller)}>{ "Copy the questions" }</button>
                </div>
            }
            if !view.cautions.is_empty() {
                <h2>{ "Take care" }</h2>
                <div class="card">{ for view.cautions.iter().map(|c| html! { <p>{ c.clone() }</p> }) }</div>
            }
            if !view.notes.is_empty() {
                <h2>{ "About this kind" }</h2>
                <div class="card">{ for view.notes.iter().map(|n| html! { <p>{ n.clone() }</p> }) }</div>
            }
            if !view.sources.is_empty() {
                <h2>{ "Sources" }</h2>
                <ul class="card sources">{ for view.sources.iter().map(|s| html! { <li>{ s.clone() }</li> }) }</ul>
            }
        </>
    }
}
