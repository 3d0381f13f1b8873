//! Answers written in a text file, one a line: `grip = wire`, `holes = through | blind`, `sole = ground ?` (not
//! sure), `rust = can't tell`, `length = 64 mm calipers`, `heft = 120 g`, `place = market`, `# a remark`.

use crate::guide::Guide;
use crate::state::{Given, State, What, measures};
use measure::Instrument;
use pack::Form;
use units::{Length, LengthUnit, Mass};

/// Reads answers.
///
/// # Errors
/// One sentence for each line that could not be read, with its number.
pub fn from_text(guide: &Guide, text: &str) -> Result<State, Vec<String>> {
    let mut state = State { tools: (0..guide.core.tools.len()).collect(), ..State::default() };
    let mut faults = Vec::new();
    let mut lines = Vec::new();
    for (i, line) in text.lines().enumerate() {
        let line = line.split('#').next().unwrap_or_default().trim();
        if line.is_empty() {
            continue;
        }
        match read_line(guide, &mut state, line) {
            Ok(()) => lines.extend((state.given.len() > lines.len()).then_some(i + 1)),
            Err(says) => faults.push(format!("line {}: {says}", i + 1)),
        }
    }
    let told = state.given.clone();
    state.drop_closed(guide);
    for (given, line) in told.iter().zip(&lines).filter(|(g, _)| state.answer_to(g.question).is_none()) {
        faults.push(format!("line {line}: {}", closed(guide, given.question)));
    }
    if faults.is_empty() { Ok(state) } else { Err(faults) }
}

/// That a question is not asked after the other answers, and after which it would be.
fn closed(guide: &Guide, question: usize) -> String {
    let q = &guide.core.questions[question];
    let Some(gate) = &q.gate else { return format!("{} is not asked.", q.id) };
    let outer = &guide.core.questions[usize::from(gate.question)];
    let open: Vec<&str> = gate.choices.iter().map(|c| outer.choices[usize::from(*c)].id.as_str()).collect();
    format!(
        "{} is asked only after \u{201c}{} = {}\u{201d}. Mend the answer to {}, or strike out this line.",
        q.id,
        outer.id,
        open.join(" | "),
        outer.id
    )
}

fn read_line(guide: &Guide, state: &mut State, line: &str) -> Result<(), String> {
    let (name, value) =
        line.split_once('=').ok_or_else(|| format!("\u{201c}{line}\u{201d} has no \u{201c}=\u{201d}."))?;
    let (name, value) = (name.trim(), value.trim());
    if name == "place" {
        let place = guide.core.places.iter().position(|p| p.id == value);
        state.place =
            place.ok_or_else(|| unknown("place", value, guide.core.places.iter().map(|p| &p.id)))?;
        state.place_asked = true;
        return Ok(());
    }
    let question = guide.core.questions.iter().position(|q| q.id == name);
    let question = question.ok_or_else(|| {
        let place = (!guide.core.places.is_empty()).then(|| "place".to_string());
        unknown("question", name, guide.core.questions.iter().map(|q| &q.id).chain(&place))
    })?;
    if state.answer_to(question).is_some() {
        return Err(format!("{name} is answered twice."));
    }
    let (value, sure) = match value.strip_suffix('?') {
        Some(rest) => (rest.trim(), false),
        None => (value, true),
    };
    state.given.push(Given { question, what: read_value(guide, question, value)?, sure });
    Ok(())
}

fn read_value(guide: &Guide, question: usize, value: &str) -> Result<What, String> {
    let q = &guide.core.questions[question];
    if matches!(value, "can't tell" | "cannot tell") {
        return Ok(What::Cannot);
    }
    let mut set = Vec::new();
    for id in value.split('|').map(str::trim) {
        match q.choices.iter().position(|c| c.id == id) {
            Some(choice) if set.contains(&choice) => {
                return Err(format!("\u{201c}{id}\u{201d} is named twice."));
            }
            Some(choice) => set.push(choice),
            None if q.form == Form::Choice => {
                return Err(unknown("choice", id, q.choices.iter().map(|c| &c.id)));
            }
            None => return read_measure(q.form, value),
        }
    }
    Ok(What::OneOf(set))
}

fn read_measure(form: Form, value: &str) -> Result<What, String> {
    let words: Vec<&str> = value.split_whitespace().collect();
    let (number, rest): (Vec<&str>, Vec<&str>) =
        words.into_iter().partition(|w| w.starts_with(|c: char| c.is_ascii_digit() || c == '.'));
    let (mut unit, mut with) = (LengthUnit::Millimetre, None);
    for word in rest {
        match word {
            "mm" if form == Form::Length => {}
            "g" if form == Form::Heft => {}
            "in" if form == Form::Length => unit = LengthUnit::Inch,
            "mm" | "in" | "g" => return Err(format!("\u{201c}{word}\u{201d} is no unit for that.")),
            "ruler" => with = Some(Instrument::Ruler),
            "calipers" => with = Some(Instrument::Calipers),
            "eye" => with = Some(Instrument::ByEye),
            "scales" => with = Some(Instrument::Scales),
            other => return Err(format!("\u{201c}{other}\u{201d} is no unit and no instrument.")),
        }
    }
    if with.is_some_and(|with| !measures(with, form)) {
        return Err("This instrument does not measure that.".to_string());
    }
    let number = number.join(" ");
    match form {
        Form::Heft => {
            Ok(What::Mass(Mass::typed(&number).map_err(|m| m.0)?, with.unwrap_or(Instrument::Scales)))
        }
        _ => Ok(What::Length(
            Length::typed(&number, unit).map_err(|m| m.0)?,
            with.unwrap_or(Instrument::Ruler),
        )),
    }
}

fn unknown<'a>(what: &str, said: &str, known: impl Iterator<Item = &'a String>) -> String {
    let known: Vec<&str> = known.map(String::as_str).collect();
    format!("\u{201c}{said}\u{201d} is no {what} of this pack. Known: {}.", known.join(", "))
}
