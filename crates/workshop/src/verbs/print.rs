//! `workshop print`: the printed key, the field card, or the contact sheet of all drawings, as a page without any
//! program.

use super::sheet;
use crate::args::{Args, refuse};
use crate::key::Key;
use crate::{End, card, folder};
use compile::sheets::Imported;
use consult::Guide;
use std::fs;
use std::path::Path;

const HELP: &str = "\
workshop print key <pack> [--json]
workshop print <pack> --card <file> [--json]
workshop print <pack> --sheet <file> [--json]
workshop print <pack> --pieces <file> [--seed N] [--json]

Prints the key of a pack as a page of HTML: numbered questions, each answer with the number to go on to, so that it
works on paper and in a browser without any program. Send it into a file:

  workshop print key data/packs/irons > key.html

A printed key cannot weigh a misread answer. It says how many steps it takes and how often it can be right at best.

With --card the field card is written into a file: the first looks and what each answer leans to, what is most often
mixed up, cautions and a rule, on one side of A4 or letter paper. Its styles are written beside it, as card.css. Print
it at 100 %, in black and white.

  workshop print data/packs/irons --card card.html

With --sheet all drawings are written into a file, again as a page of HTML: every choice under its question, every kind
from three sides, and every word of drawings; light and dark on the screen, light alone on paper.

  workshop print data/packs/irons --sheet sheet.html

With --pieces forty pieces drawn from the tables are written into a file, as a learner is handed them: from the side, from
behind and from below, with what is said of each view. Another seed gives other pieces.

  workshop print data/packs/irons --pieces pieces.html --seed 7

With --json the names of the files that were written, or the key's page, or what stood in the way, for a program.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let (key, rest) = match words.split_first() {
        Some((what, rest)) if what == "key" => (true, rest),
        _ => (false, words),
    };
    let args = match Args::read(rest, &["--card", "--sheet", "--pieces", "--seed"], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let (card, sheet, pieces) = (args.value("--card"), args.value("--sheet"), args.value("--pieces"));
    let wanted = [key, card.is_some(), sheet.is_some(), pieces.is_some()];
    if wanted.into_iter().filter(|w| *w).count() != 1 {
        return refuse(
            "Say what to print, one thing at a time: the key, --card, --sheet or --pieces with a file.",
            HELP,
        );
    }
    let pack = match folder::read(&args.pack) {
        Ok(pack) => pack,
        Err(says) => return refuse(&says, HELP),
    };
    let seed = match args.value("--seed").map(str::parse::<u64>) {
        None => 1,
        Some(Ok(seed)) => seed,
        Some(Err(_)) => return refuse("--seed needs a whole number behind it.", HELP),
    };
    let made = match (card, sheet, pieces) {
        (Some(to), ..) => field_card(&pack, to),
        (.., Some(to)) => pieces_of(&args.pack, &pack, seed).map(|html| vec![(to.to_string(), html)]),
        (_, Some(to), _) => drawings(&args.pack, &pack).map(|html| vec![(to.to_string(), html)]),
        _ => printed_key(&pack).map(|html| vec![(String::new(), html)]),
    };
    let json = args.has("--json");
    let pages = match made {
        Ok(pages) => pages,
        Err(faults) => {
            if json {
                println!("{:#}", serde_json::json!({ "faults": faults }));
            } else {
                faults.iter().for_each(|f| eprintln!("{f}"));
            }
            return End::Faults;
        }
    };
    // The key goes where the user sends it; all else into files.
    let (page, written): (Vec<_>, Vec<_>) = pages.into_iter().partition(|(to, _)| to.is_empty());
    for (to, text) in &written {
        if let Err(e) = fs::write(to, text) {
            return refuse(&format!("{to} could not be written: {e}."), HELP);
        }
    }
    if json {
        let names: Vec<&String> = written.iter().map(|(to, _)| to).collect();
        let page = page.first().map(|(_, html)| html);
        println!("{:#}", serde_json::json!({ "faults": [], "files": names, "page": page }));
    } else {
        page.iter().for_each(|(_, html)| print!("{html}"));
    }
    End::Well
}

fn drawings(folder: &str, pack: &Imported) -> Result<String, Vec<String>> {
    let art = Path::new(folder).join("../../art");
    let figures = folder::art(&art.to_string_lossy()).map_err(|says| vec![says])?;
    sheet::page(&folder::compiled(pack)?, &figures).map_err(|says| vec![says])
}

/// Forty pieces, every kind as often as any other.
fn pieces_of(folder: &str, pack: &Imported, seed: u64) -> Result<String, Vec<String>> {
    let compiled = folder::compiled(pack)?;
    let guide = folder::guide(&compiled)?;
    let art = Path::new(folder).join("../../art");
    let figures = folder::art(&art.to_string_lossy()).map_err(|says| vec![says])?;
    sheet::pieces(&guide, &figures, seed).map_err(|says| vec![says])
}

fn printed_key(pack: &Imported) -> Result<String, Vec<String>> {
    // The year bears on findings only.
    let guide = Guide::new(folder::compiled(pack)?.core, 2000).map_err(|says| vec![says])?;
    Ok(Key::of(&guide).html(&guide))
}

/// The card and, beside it, its styles.
fn field_card(pack: &Imported, to: &str) -> Result<Vec<(String, String)>, Vec<String>> {
    let compiled = folder::compiled(pack)?;
    let guide = folder::guide(&compiled)?;
    let styles = Path::new(to).with_file_name("card.css").to_string_lossy().into_owned();
    Ok(vec![(to.to_string(), card::html(&guide, &compiled.core_digest)), (styles, card::STYLES.to_string())])
}
