//! The form on the screen.

use crate::block::{Block, Field, Key, Sort, Take};
use crate::form::{Form, words};
use crate::msg::{Msg, Spot};
use cabinet::record::PARTS;

/// The lines of a record by what they are about. What is in none of them is not typed.
const GROUPS: [(&str, &[&str]); 6] = [
    ("What it is", &["number", "state", "title", "class", "kind", "subject", "attribution", "maker"]),
    ("When it was made", &["date", "date as edtf"]),
    ("What it is made of", &["materials", "techniques"]),
    ("How it is", &["condition", "distinguishing features", "description", "cautions"]),
    ("Where, and who", &["location", "sell singly", "whom to ask", "recorder", "recorded"]),
    ("Anything else", &["notes"]),
];
/// Lines of which there may be several.
const LONG: [&str; 7] =
    ["condition", "distinguishing features", "description", "cautions", "notes", "says", "note"];

/// What stands above a field.
fn label(part: &str, key: &str) -> String {
    let says = match (part, key) {
        ("", "number") => "Number on its tag, such as 2026.4 or 2026.4.2",
        ("", "class") => "What sort of thing, broadly: toy, pressing iron, trivet",
        ("", "kind") => "Kind: the form",
        ("", "subject") => "What it shows, if it shows something",
        ("", "attribution") => "How sure the maker is",
        ("", "date") => "Date in words",
        ("", "date as edtf") => "Date as EDTF, such as 1880~ or 1871/..",
        ("", "materials") => "Materials, with ; between",
        ("", "techniques") => "Techniques, with ; between",
        ("", "distinguishing features") => "What tells it from others of its kind",
        ("", "cautions") => "What to be careful of, one a line",
        ("", "location") => "Where it is kept",
        ("", "sell singly") => "To be sold by itself, not in a lot",
        ("", "recorder") => "Recorded by",
        ("", "recorded") => "Recorded on",
        ("measurement", "what") => "What: length, height, weight",
        ("measurement", "value") => "Size with its unit, such as 98.5 mm or 212 g",
        ("measurement", "plus or minus") => "Plus or minus, such as 0.5 mm",
        ("measurement", "method") => "With what: ruler, calipers, scales",
        ("mark", "text") => "As it reads; lost letters as ?",
        ("mark", "sign") => "What a sign looks like",
        ("mark", "place") => "Where on the piece",
        ("mark", "how") => "How made: cast, stamped, painted",
        ("acquired" | "parted with", "how") => "How: bought, given, inherited, sold",
        (_, "price") => "Price in all, such as 12.50 EUR",
        ("valuation", "low") => "From, such as 20.00 USD",
        ("valuation", "high") => "To",
        ("valuation", "basis") => "What sort of figure",
        ("valuation", "date") => "As of which day",
        ("valuation", "source") => "What it rests on",
        ("photograph", "view") => "What it shows: overall, side, sole, mark, damage",
        ("photograph", "scale shown") => "Is a scale or a thing of known size in it?",
        ("opinion", "name") => "Who",
        ("opinion", "says") => "What they say",
        (_, "date" | "when") => "When",
        (_, "with") => "With whom",
        _ => "",
    };
    if !says.is_empty() {
        return says.to_string();
    }
    let mut chars = key.chars();
    chars.next().map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

fn field(form: &Form, part: usize, at: usize) -> Field {
    let fields = &form.parts[part];
    let (key, text, fault) = &fields.all[at];
    let sort = match words(&fields.name, key) {
        Some(words) => Sort::Choice(words),
        None if LONG.contains(key) => Sort::Lines,
        None => Sort::Line,
    };
    Field {
        spot: Spot::Form(part, at),
        label: label(&fields.name, key),
        text: text.clone(),
        fault: fault.clone(),
        sort,
    }
}

/// What a key on the form adds, by the places in [`PARTS`].
const ADDS: [(usize, &str); 7] = [
    (2, "A measurement"),
    (3, "A mark"),
    (0, "How it came"),
    (1, "How it went"),
    (4, "An event of its past"),
    (5, "A valuation"),
    (7, "A specialist's opinion"),
];
/// Names of parts, in the order of [`PARTS`].
const NAMES: [&str; 8] = [
    "How it came",
    "How it went",
    "Measurement",
    "Mark",
    "Event of its past",
    "Valuation",
    "Photograph",
    "Opinion",
];

pub(crate) fn blocks(form: &Form, saving: bool) -> Vec<Block> {
    let mut out: Vec<Block> = form.faults.iter().map(|f| Block::Care(f.clone())).collect();
    let own = &form.parts[0];
    for (name, keys) in GROUPS {
        out.push(Block::Heading(name.to_string()));
        let place = |key: &&str| own.all.iter().position(|(k, ..)| k == key);
        out.push(Block::Fields(keys.iter().filter_map(place).map(|at| field(form, 0, at)).collect()));
        if name == GROUPS[0].0 {
            out.push(Block::Heading("Photographs".to_string()));
            out.push(Block::Hint(
                "Made smaller, and freed of the place where they were taken, before they are kept."
                    .to_string(),
            ));
            parts(form, &|name| name == PARTS[6], &mut out);
            out.push(Block::File(Take::Photos, "Add photographs".to_string()));
        }
    }
    parts(form, &|name| name != PARTS[6] && !name.is_empty(), &mut out);
    out.push(Block::Heading("Add".to_string()));
    let adds = ADDS.iter().filter(|(sort, _)| *sort > 1 || form.parts.iter().all(|p| p.name != PARTS[*sort]));
    out.push(Block::Keys(
        String::new(),
        adds.map(|(sort, label)| Key::new(label, Msg::Part(*sort))).collect(),
    ));
    if saving {
        out.push(Block::Hint("Saving.".to_string()));
    }
    out
}

fn parts(form: &Form, wanted: &dyn Fn(&str) -> bool, out: &mut Vec<Block>) {
    for (part, fields) in form.parts.iter().enumerate().filter(|(at, p)| *at > 0 && wanted(&p.name)) {
        let known = PARTS.iter().position(|p| *p == fields.name);
        let name = known.map_or(fields.name.as_str(), |at| NAMES[at]);
        let nth = form.parts[..part].iter().filter(|p| p.name == fields.name).count() + 1;
        let several = form.parts.iter().filter(|p| p.name == fields.name).count() > 1;
        let name = if several { format!("{name} {nth}") } else { name.to_string() };
        let mut card = vec![Block::Heading(name.clone())];
        let digest = fields.text("sha256");
        if !digest.is_empty() {
            card.push(Block::Photos(vec![(digest.to_string(), String::new())]));
        }
        let typed = (0..fields.all.len()).filter(|at| fields.all[*at].0 != "sha256");
        card.push(Block::Fields(typed.map(|at| field(form, part, at)).collect()));
        card.push(Block::Keys(String::new(), vec![Key::new(&format!("Remove: {name}"), Msg::Drop(part))]));
        out.push(Block::Card(card));
    }
}
