//! The room for a sale: what to pay, condition, the sheet for the day, sales that were seen.

mod sheet;

use super::drawing;
use super::look::heading;
use super::node::{self, Node, el, key, several, text, toggle};
use consult::Msg;
use consult::sale::{
    Act, ConditionView, Desk, FieldView, PayView, SaleView, SeenView, SoldView, TermsView, WornView,
};
use sketch::Art;
use web_sys::HtmlInputElement;
use yew::prelude::*;

pub(crate) fn sale(view: &SaleView, art: &Art, on: &Callback<Msg>) -> Html {
    let desks = Desk::ALL.iter().zip(&view.desks);
    let desks = desks.map(|(desk, (label, set))| toggle("key", label, *set, on, send(Act::Desk(*desk))));
    let mut nodes: Vec<Html> = vec![
        heading("What to pay").named("heading").into(),
        el("div", "desks").named("desks").set("role", "group").set("aria-label", "Desks").all(desks).into(),
    ];
    if view.coming {
        nodes.push(text("p", "hint", "The tables of prices are on their way.").named("coming").into());
    }
    if !view.money && view.worn.is_none() && !view.coming {
        let says = text(
            "p",
            "hint",
            "Money is hidden, so that nobody reads along. One key shows it and hides it again.",
        );
        nodes.push(says.named("hidden").into());
        nodes.push(key("key strong", "Show the money", on, Msg::Money).named("show").into());
    }
    if let Some(pay) = &view.pay {
        most(&mut nodes, pay, on);
    }
    if let Some(worn) = &view.worn {
        condition(&mut nodes, worn, art, on);
    }
    if let Some(sheet) = &view.sheet {
        sheet::sheet(&mut nodes, sheet, on);
    }
    if let Some(seen) = &view.seen {
        sales(&mut nodes, seen, on);
    }
    nodes.push(text("p", "small", &view.care).named("care").set("role", "note").into());
    several(nodes)
}

fn send(act: Act) -> Msg {
    Msg::Sale(act)
}

/// A field with its label and why it cannot be used.
fn field(view: &FieldView, on: &Callback<Msg>) -> Node {
    let which = view.field;
    let typed = on.reform(move |e: InputEvent| {
        send(Act::Type(which, e.target_unchecked_into::<HtmlInputElement>().value()))
    });
    let input = el("input", "")
        .set("type", "text")
        .set("autocomplete", "off")
        .set("inputmode", if view.words() { "text" } else { "decimal" })
        .value(&view.text)
        .typed(typed);
    node::field(&view.label, input, view.fault.as_ref())
}

fn lines(lines: &[(String, String)]) -> Node {
    let line = |(name, amount): &(String, String)| {
        el("li", "").put(text("span", "", name)).put(text("b", "", amount))
    };
    el("ul", "sums").all(lines.iter().map(line))
}

fn stepper(hammer: &str, on: &Callback<Msg>) -> Node {
    let step = |sign: &str, says: &str, up| key("key", sign, on, send(Act::Step(up))).set("aria-label", says);
    el("div", "stepper")
        .put(step("\u{2212}", "One bid down", false))
        .put(text("b", "", hammer).set("role", "status"))
        .put(step("+", "One bid up", true))
}

fn most(nodes: &mut Vec<Html>, view: &PayView, on: &Callback<Msg>) {
    nodes.push(field(&view.limit, on).named("limit").into());
    if let Some(highest) = &view.highest {
        let big = el("p", "big").put(text("span", "", "Highest bid")).put(text("b", "", highest));
        nodes.push(big.named("highest").set("role", "status").into());
    }
    let mut tried = el("div", "card")
        .named("tried")
        .put(text("p", "", "Try a hammer price:"))
        .put(stepper(view.hammer.as_deref().unwrap_or("none yet"), on))
        .put(lines(&view.cost));
    if let Some(over) = &view.over {
        tried = tried.put(text("p", "care", over).set("role", "note"));
    }
    tried = tried.put(el("div", "keyrow").put(key("key", "Back to the highest bid", on, send(Act::Highest))));
    nodes.push(tried.into());
    if let Some(arithmetic) = &view.arithmetic {
        nodes.push(text("p", "small", arithmetic).named("arithmetic").into());
    }
    nodes.push(text("h2", "", "A limit from the finding").named("from").into());
    let mut from = el("div", "card").named("suggested").put(lines(&view.suggested));
    from = from.put(text("p", "small", &view.suggested_rests));
    let mut keys = el("div", "keyrow").put(toggle("key", "Fills a gap", view.gap, on, send(Act::Gap)));
    if !view.suggested.is_empty() {
        keys = keys.put(key("key strong", "Take this limit", on, send(Act::Suggested)));
    }
    nodes.push(from.put(keys).put(margins(&view.terms, on)).into());
    nodes.push(key("key", "Put this piece on the sheet", on, send(Act::PutPiece)).named("put").into());
    nodes.push(text("h2", "", "Terms of the room").named("terms").into());
    nodes.push(terms(&view.terms, on).named("fields").into());
    about(nodes, &view.about);
}

fn margins(view: &TermsView, on: &Callback<Msg>) -> Node {
    let keys = view.margins.iter().enumerate();
    let keys = keys.map(|(i, (label, set))| toggle("key", label, *set, on, send(Act::Margin(i))));
    el("div", "keyrow")
        .set("role", "group")
        .set("aria-label", "Kept back")
        .put(text("span", "", "Keep back"))
        .all(keys)
}

fn terms(view: &TermsView, on: &Callback<Msg>) -> Node {
    let keys = view.tax_on.iter().enumerate();
    let keys = keys.map(|(i, (label, set))| toggle("key", label, *set, on, send(Act::TaxOn(i))));
    el("div", "card")
        .put(el("div", "fields").all(view.fields.iter().map(|f| field(f, on))))
        .put(text("p", "", "The tax is on:"))
        .put(el("div", "keyrow").set("role", "group").set("aria-label", "The tax is on").all(keys))
        .put(text("p", "small", "Kept on this device for the next time."))
}

fn about(nodes: &mut Vec<Html>, lines: &[String]) {
    let lines = lines.iter().map(|l| text("p", "small", l));
    nodes.push(el("div", "").named("about").all(lines).into());
}

fn condition(nodes: &mut Vec<Html>, view: &WornView, art: &Art, on: &Callback<Msg>) {
    let together = view.together.iter().map(|l| text("p", "", l));
    nodes.push(el("div", "card").named("together").set("role", "status").all(together).into());
    for (part, list) in &view.parts {
        nodes.push(text("h2", "", part).named(part).into());
        let ticks = list.iter().map(|c| tick(c, art, on));
        nodes.push(el("div", "ticks").named(&format!("{part}.")).all(ticks).into());
    }
}

fn tick(view: &ConditionView, art: &Art, on: &Callback<Msg>) -> Node {
    let effect = format!("{}; {}", view.effect, view.basis);
    super::node::button("tick", on, send(Act::Condition(view.condition)))
        .flag("aria-pressed", view.on)
        .maybe(Some(&view.draw).filter(|d| !d.is_empty()).and_then(|d| drawing::of_choice(d, art)))
        .put(text("b", "", &view.name))
        .put(text("span", "", &view.says))
        .put(text("span", "small", &effect))
        .maybe(view.instead.as_ref().map(|i| text("span", "small", i).into()))
}

fn sales(nodes: &mut Vec<Html>, view: &SoldView, on: &Callback<Msg>) {
    nodes.push(text("h2", "", "Results on your sheet").named("yours").into());
    seen(nodes, &view.noted);
    nodes.push(text("h2", "", "Sales of an invented club").named("club").into());
    let says = "They show how noted sales move a band, and touch neither finding nor limit.";
    nodes.push(text("p", "hint", says).named("says").into());
    let label = if view.on { "Hide the invented sales" } else { "Show the invented sales" };
    nodes.push(key("key", label, on, send(Act::Invented)).named("invented").into());
    if view.coming {
        nodes.push(text("p", "hint", "The invented sales are on their way.").named("on its way").into());
    }
    if let Some(invented) = &view.invented {
        nodes.push(text("p", "told", &view.notice).named("notice").set("role", "note").into());
        seen(nodes, invented);
    }
}

/// Sales of a kind, and what they do to its band.
fn seen(nodes: &mut Vec<Html>, view: &SeenView) {
    let mut card = el("div", "card").put(text("p", "", &view.kind));
    if let Some(none) = &view.none {
        nodes.push(card.put(text("p", "small", none)).into());
        return;
    }
    let row = |name: &str, says: &str| el("div", "").put(text("i", "", name)).put(text("span", "", says));
    card = card
        .put(el("div", "rows").put(row("Without", &view.before)).put(row("With", &view.with)))
        .put(text("p", "small", &view.rests));
    nodes.push(card.into());
    let each = view.sales.iter().map(|s| {
        let pooled = if s.used { "pooled" } else { "listed only" };
        el("li", "")
            .put(text("b", "", &s.price))
            .put(text("span", "", &format!("{}, {}", s.meaning, s.date)))
            .put(text("span", "", &s.what))
            .put(text("span", "small", &format!("{}; {pooled}", s.basis)))
    });
    nodes.push(el("ul", "seen").all(each).into());
}
