//! Fields to type into, and the keys that ask for a file.

use super::Frame;
use crate::ui::node::{self, Node, el, text};
use keep::{Field, FieldSort, Msg, Take};
use web_sys::{HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement};
use yew::TargetCast;
use yew::prelude::*;

pub(super) fn field(field: &Field, frame: &Frame<'_>) -> Node {
    let spot = field.spot;
    let input = match &field.sort {
        FieldSort::Line | FieldSort::Search => {
            let typed = frame.on.reform(move |e: InputEvent| {
                Msg::Type(spot, e.target_unchecked_into::<HtmlInputElement>().value())
            });
            let search = field.sort == FieldSort::Search;
            el("input", "")
                .set("type", if search { "search" } else { "text" })
                .set("autocomplete", "off")
                .set("enterkeyhint", if search { "search" } else { "next" })
                .value(&field.text)
                .typed(typed)
        }
        FieldSort::Lines => {
            let typed = frame.on.reform(move |e: InputEvent| {
                Msg::Type(spot, e.target_unchecked_into::<HtmlTextAreaElement>().value())
            });
            el("textarea", "").set("rows", "3").value(&field.text).typed(typed)
        }
        FieldSort::Choice(words) => {
            let chosen = frame.on.reform(move |e: Event| {
                Msg::Type(spot, e.target_unchecked_into::<HtmlSelectElement>().value())
            });
            let option = |word: &String| {
                let node =
                    text("option", "", if word.is_empty() { "\u{2013}" } else { word }).set("value", word);
                if *word == field.text { node.set("selected", "") } else { node }
            };
            el("select", "").all(words.iter().map(option)).changed(chosen)
        }
    };
    node::field(&field.label, input, field.fault.as_ref())
}

pub(super) fn file(take: Take, label: &str, frame: &Frame<'_>) -> Node {
    let sorts = match take {
        Take::Photos => "image/*",
        Take::Archive => ".zip,application/zip",
        Take::Table => ".csv,.tsv,.txt,text/csv",
    };
    let files = frame.files.clone();
    let chosen = Callback::from(move |e: Event| {
        let input = e.target_unchecked_into::<HtmlInputElement>();
        if let Some(list) = input.files().filter(|l| l.length() > 0) {
            files.emit((take, list));
        }
    });
    let input = el("input", "").set("type", "file").set("accept", sorts).changed(chosen);
    let input = if take == Take::Photos { input.set("multiple", "") } else { input };
    el("label", "key file").put(text("span", "", label)).put(input)
}
