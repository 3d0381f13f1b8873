//! `workshop try`: a finding from a file of answers, as the page would show it.

use crate::args::Args;
use crate::{End, folder};
use compile::sheets::Imported;
use consult::{Body, FindingView, Guide, Screen, State, from_text, view};
use std::time::{SystemTime, UNIX_EPOCH};

const HELP: &str = "\
workshop try <pack> --answers <file> [--json] [--year <year>]

Takes the answers in <file> and prints the finding that the page would show for them. The file is plain text, one
answer a line, with the ids of the pack:

  grip = wire                  one choice
  holes = through | blind      either of two
  sole = ground ?              not sure
  rust = can't tell
  length = 64 mm calipers      or: 2 5/8 in ruler
  heft = 120 g
  place = market               where it is offered
  # a remark

  --answers   the file
  --json      the whole finding for a program
  --year      the year it is (this year when left out)

It ends with 0 when there is a finding and with 1 when the pack or the answers have faults.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &["--answers", "--year"], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let Some(path) = args.value("--answers") else {
        return crate::args::refuse("Name the file of answers with --answers.", HELP);
    };
    let answers = match std::fs::read_to_string(path) {
        Ok(text) => text,
        Err(e) => return crate::args::refuse(&format!("{path} could not be read: {e}."), HELP),
    };
    let year = match args.value("--year").map(str::parse) {
        None => this_year(),
        Some(Ok(year)) if (1600..=2200).contains(&year) => year,
        Some(_) => return crate::args::refuse("The year is a number from 1600 to 2200, such as 2026.", HELP),
    };
    let pack = match folder::read(&args.pack) {
        Ok(pack) => pack,
        Err(says) => return crate::args::refuse(&says, HELP),
    };
    match finding(&pack, &answers, year) {
        Ok((guide, state, found)) => {
            if args.has("--json") {
                println!("{:#}", as_json(&guide, &found));
            } else {
                print!("{}", as_text(&guide, &state, &found));
            }
            End::Well
        }
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            End::Faults
        }
    }
}

fn finding(pack: &Imported, answers: &str, year: i16) -> Result<(Guide, State, FindingView), Vec<String>> {
    let compiled = folder::compiled(pack)?;
    let guide =
        Guide::from_bytes(&compiled.core_bytes, &compiled.book_bytes, year).map_err(|says| vec![says])?;
    let mut state = from_text(&guide, answers)?;
    state.screen = Screen::Finding;
    state.money = true;
    match view(&guide, &state).body {
        Body::Finding(found) => Ok((guide, state, *found)),
        _ => Err(vec!["There is no finding for these answers.".to_string()]),
    }
}

/// The finding, and the sentence that its pack wants on every finding.
fn as_json(guide: &Guide, f: &FindingView) -> serde_json::Value {
    let mut json = serde_json::json!(f);
    json["pack_notice"] = guide.core.head.notice.clone().into();
    json
}

fn as_text(guide: &Guide, state: &State, f: &FindingView) -> String {
    let mut lines: Vec<String> = f.grave.iter().map(|c| format!("TAKE CARE  {c}")).collect();
    lines.extend(f.cautions.iter().map(|c| format!("Take care  {c}")));
    lines.extend(Some(guide.core.head.notice.clone()).filter(|n| !n.is_empty()));
    lines.extend(f.outside.clone());
    lines.push(f.title.clone());
    lines.push(format!("What          {}. {}", f.likely, f.made_as));
    lines.push(format!("Old or later  {}", f.make));
    lines.push(format!(
        "When          {}, even chances; {}, 9 in 10 ({})",
        f.years.half, f.years.nine, f.years.edtf
    ));
    lines.push(match &f.worth {
        Ok(w) => format!("Worth         {} for half of such; {} for 8 in 10. {}", w.half, w.eight, w.basis),
        Err(none) => format!("Worth         {none}"),
    });
    if let Some(next) = &f.next {
        lines.push(format!("Look next     {} {}", next.ask, next.why));
    }
    lines.push(f.standing.clone());
    lines.push("\nFor and against".to_string());
    lines.extend(f.clues.iter().map(|c| {
        let again = c.again.as_ref().map(|a| format!(" {a}")).unwrap_or_default();
        format!("  {:>6}  {} ({}){again}", hundredths(c.strength), c.text, c.words)
    }));
    lines.push("\nWhat would change it".to_string());
    lines.extend(f.change.iter().map(|c| format!("  {c}")));
    if let Some(second) = &f.second {
        lines.push(format!(
            "\nOr else: {}: {}. {}",
            second.name,
            second.likely,
            second.check.clone().unwrap_or_default()
        ));
        lines.extend(second.look.as_ref().map(|l| format!("  Settle it: {}", l.ask)));
    }
    lines.push("\nMade as".to_string());
    lines.extend(f.roles.iter().map(|(n, c)| format!("  {n}: {c}")));
    lines.push("\nAll that fits".to_string());
    lines.extend(f.kinds.iter().map(|(n, c, _)| format!("  {n}: {c}")));
    lines.push(format!("\nLink: #{}\n", consult::fragment(guide, state)));
    lines.join("\n")
}

/// `+1.25`: powers of ten by which the clue moved the first kind against the second.
fn hundredths(n: i32) -> String {
    format!("{}{}.{:02}", if n < 0 { '-' } else { '+' }, n.abs() / 100, n.abs() % 100)
}

fn this_year() -> i16 {
    let seconds = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |d| d.as_secs());
    i16::try_from(1970 + seconds / 31_556_952).unwrap_or(i16::MAX)
}
