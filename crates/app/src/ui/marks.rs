//! The marks room: lettering in, with big keys; readings, what they prove and what they change out.

use super::look::heading;
use super::node::{Node, button, el, key, several, text, toggle};
use consult::Msg;
use consult::marks::{Corner, Diamond, Mark, MarkView, MarksView, ReadingView, WithMarks};
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// The keys in their order: what they put in, and what they are called where the sign alone does not say it.
const KEYS: [(&str, &str); 15] = [
    ("1", ""),
    ("2", ""),
    ("3", ""),
    ("4", ""),
    ("5", ""),
    ("?", "? one lost"),
    ("6", ""),
    ("7", ""),
    ("8", ""),
    ("9", ""),
    ("0", ""),
    ("*", "* some lost"),
    ("/", "/ this or that"),
    (" ", "space"),
    ("", "rub out"),
];
/// Words that stand on many pieces.
const WORDS: [&str; 6] = ["PAT. ", "No ", "RD No ", "D.R.G.M. ", "D.R.P. ", "MADE IN "];
/// What worn lettering looks like when it is typed.
const EXAMPLES: [&str; 4] = ["PAT. MAY ?3 18?1", "RD NO 5?2300", "D.R.G.M.", "MADE IN J?PAN"];

pub(crate) fn marks(view: &MarksView, on: &Callback<Msg>) -> Html {
    if let Some(diamond) = &view.diamond {
        return entering(diamond, on);
    }
    // What comes and goes has a list of its own: beside it the field would be made anew in the middle of a word, and with it the
    // focus be gone, and the phone's keyboard.
    let mut nodes: Vec<Html> = Vec::new();
    if view.coming {
        nodes.push(text("p", "hint", "The tables of marks are on their way.").named("coming").into());
    } else if view.text.trim().is_empty() {
        nodes.push(examples(on).into());
    }
    for clash in &view.clashes {
        nodes.push(text("p", "care", clash).set("role", "note").into());
    }
    nodes.extend(view.marks.iter().enumerate().map(|(at, mark)| one(at, mark, on).into()));
    nodes.extend(view.unread.iter().map(|line| text("p", "hint", line).into()));
    if !view.years.is_empty() {
        nodes.push(text("h2", "", "What they prove together").into());
        let says = el("p", "").say("A piece of its time: ").put(text("b", "", &view.years)).say(".");
        nodes.push(el("div", "card").put(says).put(text("p", "small", LATER)).into());
    }
    if let Some(finding) = &view.finding {
        nodes.push(text("h2", "", "What that does to the finding").into());
        nodes.push(changed(finding, on).into());
    }
    several(vec![
        heading("Read the marks").into(),
        text(
            "p",
            "hint",
            "Type what can still be read, just as it stands; several marks at once are welcome.",
        )
        .into(),
        field(view, on).into(),
        pad(on).into(),
        several(nodes),
    ])
}

const LATER: &str =
    "A later casting carries the words of its pattern: an old date speaks neither for nor against a copy.";

fn send(mark: Mark) -> Msg {
    Msg::Mark(mark)
}

fn field(view: &MarksView, on: &Callback<Msg>) -> Node {
    let typed =
        on.reform(|e: InputEvent| send(Mark::Type(e.target_unchecked_into::<HtmlInputElement>().value())));
    let input = el("input", "")
        .set("id", "lettering")
        .set("type", "text")
        .set("autocomplete", "off")
        .set("autocapitalize", "characters")
        .set("spellcheck", "false")
        .set("aria-label", "Lettering on the piece")
        .value(&view.text)
        .typed(typed);
    el("div", "typing").put(el("div", "row").put(input).put(key(
        "key",
        "Clear",
        on,
        send(Mark::Type(String::new())),
    )))
}

/// Big keys for figures and the notation: the phone's own keys are small, and gloves are thick.
fn pad(on: &Callback<Msg>) -> Node {
    let press = |what: &str| send(Mark::Key(what.to_string()));
    let keys = KEYS.iter().map(|(what, says)| {
        let (wide, label) = if what.trim().is_empty() { ("key wide", *says) } else { ("key", *what) };
        let node = key(wide, label, on, press(what));
        if says.is_empty() { node } else { node.set("aria-label", says) }
    });
    let words = WORDS.iter().map(|word| key("key", word.trim_end(), on, press(word)));
    el("div", "pad")
        .set("role", "group")
        .set("aria-label", "Keys for the lettering")
        .put(el("div", "figures").all(keys))
        .put(text("p", "small", "? is one character lost, * some lost, 3/8 is 3 or 8."))
        .put(el("div", "keyrow").all(words).put(key("key", "Diamond mark\u{2026}", on, send(Mark::Diamond))))
}

fn examples(on: &Callback<Msg>) -> Node {
    let example = |text: &&str| key("key", text, on, send(Mark::Type((*text).to_string())));
    el("div", "card")
        .named("examples")
        .put(text("p", "", "Nothing typed yet. Tap an example to see what comes of it:"))
        .put(el("div", "keyrow").all(EXAMPLES.iter().map(example)))
}

fn one(at: usize, mark: &MarkView, on: &Callback<Msg>) -> Node {
    let more = mark.more.as_ref().map(|label| key("key quiet", label, on, send(Mark::All(at))).into());
    let none = mark.none.as_ref().map(|none| text("p", "small", none).into());
    el("section", "mark")
        .put(text("h2", "", &mark.text))
        .put(el("div", "card").all(mark.readings.iter().map(|r| reading(at, r, on))).maybe(none).maybe(more))
}

fn reading(at: usize, view: &ReadingView, on: &Callback<Msg>) -> Node {
    let dates = if view.years.is_empty() { "Dates nothing" } else { &view.years };
    let head = button("reading", on, send(Mark::Open(at, view.reading)))
        .flag("aria-expanded", view.open.is_some())
        .put(text("b", "", &view.title))
        .put(text("span", "", dates))
        .put(text("span", "small", &view.likely));
    let open = view.open.iter().flatten().map(|line| text("p", "", line));
    el("div", "").put(head).all(open)
}

fn changed(view: &WithMarks, on: &Callback<Msg>) -> Node {
    let row = |name: &str, says: &str| el("div", "").put(text("i", "", name)).put(text("span", "", says));
    el("div", "card")
        .put(text("p", "", &view.kind))
        .put(el("div", "rows").put(row("Before", &view.without)).put(row("Now", &view.with)))
        .put(el("div", "keyrow").put(key("key", "See finding", on, Msg::Show(consult::Screen::Finding))))
}

/// The diamond, drawn: tap a place, then what stands in it.
fn entering(diamond: &Diamond, on: &Callback<Msg>) -> Html {
    let place = |(i, corner): (usize, &Corner)| {
        let holds = diamond.holds.get(i).map_or("", String::as_str);
        let label = if holds.is_empty() { "\u{b7}" } else { holds };
        toggle(class(*corner), label, diamond.at == i, on, send(Mark::Corner(i))).set(
            "aria-label",
            &format!("{}: {}", corner.name(), if holds.is_empty() { "empty" } else { holds }),
        )
    };
    let lozenge = el("svg", "lozenge")
        .set("viewBox", "0 0 240 280")
        .flag("aria-hidden", true)
        .put(el("path", "line").set("d", "M120 48L228 156L120 264L12 156Z"))
        .put(el("path", "line").set("d", "M120 110L166 156L120 202L74 156Z"))
        .put(el("circle", "line").set("cx", "120").set("cy", "30").set("r", "24"))
        .put(text("text", "", "Rd").set("x", "120").set("y", "164").set("text-anchor", "middle"));
    let keys = diamond.keys().into_iter().map(|k| key("key", &k, on, send(Mark::Press(k.clone()))));
    several(vec![
        heading("The diamond mark").into(),
        text("p", "hint", "British designs registered from 1842 to 1883 bear it. The circle stands at the top. Tap a place, then what stands in it; ? for what cannot be read.")
            .into(),
        el("div", "diamond").put(lozenge).all(Corner::ALL.iter().enumerate().map(place)).into(),
        text("p", "hint", &format!("Now {}:", diamond.corner().name())).set("role", "status").into(),
        el("div", "letters").set("role", "group").set("aria-label", "Letters and figures").all(keys).into(),
        el("div", "keyrow")
            .put(key("key strong", "Use it", on, send(Mark::UseDiamond)))
            .put(key("key", "Empty this place", on, send(Mark::Rub)))
            .put(key("key", "Leave it", on, send(Mark::Diamond)))
            .into(),
    ])
}

fn class(corner: Corner) -> &'static str {
    match corner {
        Corner::Class => "place at-circle",
        Corner::Top => "place at-top",
        Corner::Left => "place at-left",
        Corner::Right => "place at-right",
        Corner::Bottom => "place at-bottom",
    }
}
