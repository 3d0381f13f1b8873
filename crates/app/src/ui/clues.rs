//! For and against, and what would change it.

use consult::{ClueView, Msg};
use yew::prelude::*;

/// Half the width of the drawing stands for this strength, in hundredths of log10: a factor of a thousand.
const FULL: i32 = 300;

pub(crate) fn clues(clues: &[ClueView], on: &Callback<Msg>) -> Html {
    html! {
        <div class="card clues">
            <p class="ends" aria-hidden="true"><span>{ "against" }</span><span>{ "for" }</span></p>
            { for clues.iter().map(|c| clue(c, on)) }
        </div>
    }
}

fn clue(clue: &ClueView, on: &Callback<Msg>) -> Html {
    let question = clue.question;
    html! {
        <button type="button" class="clue" onclick={on.reform(move |_| Msg::Ask(question))}>
            <span class="says">
                { clue.text.clone() }
                if clue.unsure {
                    { " (not sure)" }
                }
            </span>
            { bar(clue.strength) }
            <span class="small">{ format!("{}; {}", clue.words, clue.basis) }</span>
            if let Some(again) = &clue.again {
                <span class="again">{ again.clone() }</span>
            }
            <span class="unseen">{ " Tap to correct." }</span>
        </button>
    }
}

/// For is solid to the right, against is hatched to the left.
fn bar(strength: i32) -> Html {
    let long = (strength.abs().min(FULL) * 50 / FULL).max(1);
    let x = if strength < 0 { 52 - long } else { 52 };
    let ticks = (0..long / 5 + 1).map(|i| {
        let at = x + 5 * i;
        html! { <path class="hatch" d={format!("M{} 13L{} 1", at, (at + 5).min(52))} /> }
    });
    html! {
        <svg class="strength" viewBox="0 0 104 14" aria-hidden="true">
            <path class="axis" d="M52 0V14" />
            if strength < 0 {
                <rect class="against" x={x.to_string()} y="1" width={long.to_string()} height="12" />
                { for ticks }
            } else {
                <rect class="for" x={x.to_string()} y="1" width={long.to_string()} height="12" />
            }
        </svg>
    }
}
