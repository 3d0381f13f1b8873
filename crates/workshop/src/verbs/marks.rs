//! `workshop marks`: what worn lettering may say, and what it proves.

use crate::End;
use crate::args::refuse;
use compile::Files;
use dating::{
    Flag, Kind, Mark, Measure, Measured, Reading, Tables, Together, Verdict, bounds, calendar,
    clash_in_words, edtf_bounds, years_in_words,
};
use pack::marks::Proof;
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};
use units::{Length, LengthUnit, Mass};

/// Where the tables lie when the command is given in the root of the project.
const TABLES: &str = "data/reference";

const HELP: &str = "\
workshop marks \"<text>\" [--json] [--length <length>] [--mass <mass>] [--year <year>] [--tables <folder>]

Reads the lettering of a piece: dates, numbers of rights, wordings, sizes; several at once, in any order and case.

  ?          one character is lost           PAT. MAY ?3 18?1
  *          some are lost                   RD NO 5*
  3/8        it is this or that              NO 1134/98
  diamond    a British diamond mark          diamond class I top E left E right 31 bottom 2
             clockwise from the circle       diamond I E 31 2 E

  --json     everything for a program: readings with chances, years, bounds, words, sources
  --curve    with --json: the likelihood of every year, for a piece of its time and for later makes
  --length   of the sole, as \"105 mm\" or \"4 1/8 in\": it tells what a bare number may be
  --mass     of the whole piece, as \"480 g\": it settles whether a number is its weight
  --year     the year it is (this year when left out)
  --tables   the folder of the tables (data/reference)

It ends with 0 when the text was read and with 1 when the tables have faults.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let asked = match Asked::of(words) {
        Ok(asked) => asked,
        Err(None) => {
            print!("{HELP}");
            return End::Well;
        }
        Err(Some(says)) => return refuse(&says, HELP),
    };
    let files = match files(&asked.tables) {
        Ok(files) => files,
        Err(says) => return refuse(&says, HELP),
    };
    let tables = match compile::reference(&files) {
        Ok(reference) => Tables::new(reference.marks, asked.year),
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            return End::Faults;
        }
    };
    let read = tables.read(&asked.text, asked.measured);
    let together = tables.together(&read.marks);
    if asked.json {
        let marks: Vec<Value> = read.marks.iter().map(|m| mark(&tables, m)).collect();
        let all = json!({
            "text": asked.text, "year": asked.year, "cut": read.cut, "unread": read.unread, "marks": marks,
            "together": whole(&read.marks, &together, asked.curve),
        });
        println!("{all:#}");
    } else {
        print!("{}", as_text(&tables, &read.marks, &together));
        for rest in &read.unread {
            println!("Not known: {rest}");
        }
        if read.cut {
            println!("The text was too long to be read to its end.");
        }
    }
    End::Well
}

/// What was asked.
struct Asked {
    text: String,
    json: bool,
    curve: bool,
    measured: Measured,
    year: i16,
    tables: String,
}

impl Asked {
    /// Reads the words; nothing as the fault when help is asked for.
    fn of(words: &[String]) -> Result<Asked, Option<String>> {
        let mut asked = Asked {
            text: String::new(),
            json: false,
            curve: false,
            measured: Measured::default(),
            year: this_year(),
            tables: TABLES.to_string(),
        };
        let mut texts: Vec<&str> = Vec::new();
        let mut words = words.iter();
        while let Some(word) = words.next() {
            let mut value = || words.next().ok_or_else(|| Some(format!("{word} needs a value behind it.")));
            match word.as_str() {
                "--help" | "-h" => return Err(None),
                "--json" => asked.json = true,
                "--curve" => asked.curve = true,
                "--tables" => asked.tables = value()?.clone(),
                "--length" => asked.measured.length = Some(length(value()?).map_err(Some)?),
                "--mass" => asked.measured.mass = Some(mass(value()?).map_err(Some)?),
                "--year" => {
                    let year = value()?.parse().ok().filter(|y| (1600..=2200).contains(y));
                    let says = "The year is a number from 1600 to 2200, such as 2026.";
                    asked.year = year.ok_or_else(|| Some(says.to_string()))?;
                }
                word if word.starts_with("--") => {
                    return Err(Some(format!("There is no option \"{word}\" here.")));
                }
                word => texts.push(word),
            }
        }
        asked.text = texts.join(" ");
        if asked.text.trim().is_empty() {
            return Err(Some("The lettering is missing. Put it in quotes.".to_string()));
        }
        Ok(asked)
    }
}

/// A length as a file of answers has it: `105 mm`, `4 1/8 in`; millimetres when no unit stands behind.
fn length(text: &str) -> Result<Length, String> {
    let (number, unit) = match parted(text) {
        (number, "" | "mm") => (number, LengthUnit::Millimetre),
        (number, "in") => (number, LengthUnit::Inch),
        (_, unit) => {
            return Err(format!("\u{201c}{unit}\u{201d} is no unit of a length here. Write mm or in."));
        }
    };
    Length::typed(number, unit).map_err(|e| e.0)
}

/// A mass as a file of answers has it: `480 g`; grams when no unit stands behind.
fn mass(text: &str) -> Result<Mass, String> {
    match parted(text) {
        (number, "" | "g") => Mass::typed(number).map_err(|e| e.0),
        (_, unit) => {
            Err(format!("\u{201c}{unit}\u{201d} is no unit of a mass here. Write grams, such as 480 g."))
        }
    }
}

/// The figure, and the letters behind it.
fn parted(text: &str) -> (&str, &str) {
    let text = text.trim();
    let number = text.trim_end_matches(char::is_alphabetic);
    // Letters alone are no unit of anything.
    if number.is_empty() { (text, "") } else { (number.trim_end(), &text[number.len()..]) }
}

fn this_year() -> i16 {
    let seconds = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |d| d.as_secs());
    // Days since 1 January 1600; 1970 begins 135,140 days later.
    let day = 135_140 + i32::try_from(seconds / 86_400).unwrap_or(0);
    calendar::year_of(day)
}

/// The files of the tables.
fn files(folder: &str) -> Result<Files, String> {
    let root = Path::new(folder);
    let mut all = Vec::new();
    for inside in ["", "marks", "numbers"] {
        let path = root.join(inside);
        let list =
            fs::read_dir(&path).map_err(|e| format!("{} could not be listed: {e}.", path.display()))?;
        for entry in list {
            let entry = entry.map_err(|e| format!("{} could not be listed: {e}.", path.display()))?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let wanted = name.ends_with(".toml") || name.ends_with(".csv");
            if !wanted || name.starts_with('.') || !entry.path().is_file() {
                continue;
            }
            let text =
                fs::read_to_string(entry.path()).map_err(|e| format!("{name} could not be read: {e}."))?;
            all.push((if inside.is_empty() { name } else { format!("{inside}/{name}") }, text));
        }
    }
    Ok(Files::new(all))
}

fn as_text(tables: &Tables, marks: &[Mark], together: &Together) -> String {
    let mut text = String::new();
    for m in marks {
        text.push_str(&format!("{}\n", m.text));
        for r in m.readings.iter().take(5) {
            text.push_str(&format!("  {:>3.0} in 100  {}\n", 100.0 * r.chance, r.in_words(tables)));
            let source = r.source.and_then(|s| tables.marks().sources.get(usize::from(s)));
            let source = source.map_or(String::new(), |s| format!(": {}", s.text));
            text.push_str(&format!("              {}{source}\n", r.basis.phrase()));
        }
        if let Some(more) = m.more {
            text.push_str(&format!(
                "              {more} readings in all; those left out are the less likely ones\n"
            ));
        }
        text.push_str(&format!("  {:>3.0} in 100  none of these\n", 100.0 * m.misread));
    }
    let years = years_in_words(marks, together);
    if !years.is_empty() {
        text.push_str(&format!("Years of a period piece with these marks: {years}.\n"));
    }
    for clash in clash_in_words(marks, together) {
        text.push_str(&format!("{clash}\n"));
    }
    text
}

fn mark(tables: &Tables, m: &Mark) -> Value {
    let readings: Vec<Value> = m.readings.iter().map(|r| reading(tables, r)).collect();
    json!({
        "text": m.text, "at": [m.at.0, m.at.1], "none_of_these": m.misread, "readings_in_all": m.more,
        "one_source_with": m.same_as, "readings": readings,
    })
}

fn reading(tables: &Tables, r: &Reading) -> Value {
    let t = tables.marks();
    let (what, id) = match r.kind {
        Kind::Dated(s) => ("date of", t.series[s].id.as_str()),
        Kind::Number(s) => ("number of", t.series[s].id.as_str()),
        Kind::Words(m) => ("wording", t.marks[m].id.as_str()),
        Kind::Size(s) => ("size", t.sizes[s].id.as_str()),
        Kind::Diamond => ("diamond", "diamond"),
        Kind::Date => ("date", "date"),
    };
    let source = r.source.and_then(|s| t.sources.get(usize::from(s)));
    let source = source.map(|s| json!({ "key": s.key, "text": s.text }));
    let granted: Vec<Value> = r.years().iter().map(|(y, s)| json!({ "year": y, "share": s })).collect();
    let examples: Vec<Value> = r
        .issues
        .iter()
        .filter(|i| i.share > 0.01 && i.example > 0)
        .map(|i| json!({ "number": i.example, "from": iso(i.from), "to": iso(i.to), "fit": i.fit, "share": i.share }))
        .collect();
    let spans: Vec<Value> = r
        .evidence
        .spans
        .iter()
        .filter(|(share, _)| *share > 1e-4)
        .map(|(share, s)| {
            json!({ "share": share, "not_before": s.hard_from, "usual_from": s.from, "usual_to": s.to,
                "not_after": s.hard_to, "fades_by_half_in": s.fades })
        })
        .collect();
    let proves = match r.evidence.proof {
        Proof::NotBefore => "not before",
        Proof::Habit => "habit of use",
        Proof::Between => "between",
        Proof::NotAfter => "not after",
        Proof::Nothing => "nothing",
    };
    json!({
        "chance": r.chance, "what": what, "id": id, "name": r.name, "reads": r.reads, "as_told": r.as_told,
        "proves": proves, "granted": granted, "numbers": examples, "bounds": spans, "words": r.in_words(tables),
        "basis": r.basis.word(), "habit_basis": r.habit_basis.word(), "source": source,
        "would_measure": r.flags.iter().find_map(would_measure),
        "flags": r.flags.iter().map(|f| flag(tables, *f)).collect::<Vec<_>>(),
    })
}

/// What the piece would have to measure, in tenths of a gram or of a millimetre, and what it measures.
fn would_measure(flag: &Flag) -> Option<Value> {
    let Flag::Held(held) = flag else { return None };
    let unit = match held.measure {
        Measure::Mass => "0.1 g",
        Measure::Length => "0.1 mm",
    };
    Some(json!({
        "unit": unit, "from": held.would_be.0, "to": held.would_be.1, "found": held.found.map(|(a, b)| json!([a, b])),
        "guessed": held.guessed,
    }))
}

fn flag(tables: &Tables, flag: Flag) -> String {
    let d = &tables.marks().diamond;
    match flag {
        Flag::NoIssue => "no patent was issued on that day".to_string(),
        Flag::MissedWeeks => "weeks without issue".to_string(),
        Flag::Memory => "years from memory".to_string(),
        Flag::Drawn => "years along a line".to_string(),
        Flag::Exception(e) => d.instead.get(e).map(|i| i.note.clone()).unwrap_or_default(),
        Flag::Class(c) => d.classes.get(c).map(|(n, what)| format!("class {n}, {what}")).unwrap_or_default(),
        Flag::BorneOut => "number and date bear each other out".to_string(),
        Flag::Held(held) => {
            let measure = match held.measure {
                Measure::Mass if held.guessed => "mass guessed from the length",
                Measure::Mass => "mass",
                Measure::Length => "length",
            };
            match held.verdict {
                Verdict::For => format!("the {measure} bears it out"),
                Verdict::Open => format!("the {measure} leaves it open"),
                Verdict::Against => format!("the {measure} speaks against it"),
                Verdict::NotMeasured => format!("the {measure} was not measured"),
            }
        }
    }
}

fn iso(day: i32) -> String {
    let (year, month, day) = calendar::date(day);
    format!("{year:04}-{month:02}-{day:02}")
}

fn whole(marks: &[Mark], together: &Together, curve: bool) -> Value {
    let (from, to) = bounds(marks, together);
    let years = together.curve();
    let clashes: Vec<Value> = together
        .clashes
        .iter()
        .zip(clash_in_words(marks, together))
        .map(|(c, words)| json!({ "marks": [c.marks.0, c.marks.1], "left": c.left, "words": words }))
        .collect();
    let mut all = json!({
        "sources": together.sources, "words": years_in_words(marks, together), "edtf": edtf_bounds(from, to),
        "not_before": from.map(|(a, b)| json!([a, b])), "not_after": to, "half": years.densest(0.5), "nine_in_ten": years.densest(0.9),
        "cannot_both_be_right": clashes,
    });
    if curve {
        all["likelihood"] =
            json!({ "from": dating::FIRST_YEAR, "period": together.period, "later": together.later });
    }
    all
}
