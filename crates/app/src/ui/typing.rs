//! Typing a measurement.

use super::node::{el, key, text, toggle};
use consult::{LengthUnit, Msg, Screen, TypingView};
use web_sys::HtmlInputElement;
use yew::prelude::*;

pub(crate) fn typing(question: usize, view: &TypingView, on: &Callback<Msg>) -> Html {
    let typed = on.reform(|e: InputEvent| Msg::Type(e.target_unchecked_into::<HtmlInputElement>().value()));
    let enter = on.reform(move |e: SubmitEvent| {
        e.prevent_default();
        Msg::Enter(question)
    });
    let input = el("input", "")
        .set("id", "typed")
        .set("type", "text")
        .set("inputmode", if view.inches { "text" } else { "decimal" })
        .set("autocomplete", "off")
        .set("value", &view.text)
        .set("aria-describedby", "typed-fault")
        .flag("aria-invalid", view.fault.is_some())
        .typed(typed);
    let unit = |unit: LengthUnit, label: &str, set: bool| toggle("key", label, set, on, Msg::Unit(unit));
    let with = |calipers: bool, label: &str| {
        toggle("key", label, calipers == view.calipers, on, Msg::Calipers(calipers))
    };
    let units = view.length.then(|| {
        el("div", "row")
            .set("role", "group")
            .set("aria-label", "Unit and instrument")
            .put(unit(LengthUnit::Millimetre, "mm", !view.inches))
            .put(unit(LengthUnit::Inch, "inches", view.inches))
            .put(with(false, "ruler"))
            .put(with(true, "calipers"))
            .into()
    });
    let form = el("form", "typing")
        .submitted(enter)
        .put(text("label", "unseen", &view.label).set("for", "typed"))
        .put(el("div", "row").put(input).put(text("button", "key strong", "Use it").set("type", "submit")))
        .put(text("p", "fault", view.fault.as_deref().unwrap_or_default()).set("id", "typed-fault"))
        .maybe(units);
    // Folded at first: most look, few measure, and the choices come before it.
    let fold = el("details", "").put(text("summary", "key", &view.label)).put(form);
    let photo = || key("key quiet", "Measure in a photo", on, Msg::Show(Screen::Photo)).into();
    el("div", "typed").named("typing").put(fold).maybe(view.length.then(photo)).into()
}
