//! `workshop explain`: why a finding is what it is, for the writer of the pack: each answer under two kinds, and where
//! the figures stand.

use super::stated;
use crate::args::{Args, refuse};
use crate::{End, folder};
use compile::sheets::Imported;
use consult::{Guide, from_text};
use pack::Standing;
use reason::{Answer, fit, log_likelihood, weigh, with_fit};
use serde_json::{Value, json};

const HELP: &str = "\
workshop explain <pack> --answers <file> [--for <kind>] [--against <kind>] [--json]

Takes answers as `workshop try` does and shows for each how often it would be given for two kinds: the first two of the
finding, or those that are named by their ids. With it stands how much it speaks for the one against the other, what the
figures rest on, and in which line of which file they are stated, so that a wrong finding leads to the figure that is
to blame.

The answers of a group overlap, and some looks may not be the piece's own: together they say less than each of them
multiplied. The last lines show how much less.

It ends with 0, with 1 when pack or answers have faults, with 2 when something could not be read.
";

/// One answer under two kinds.
struct Line {
    question: String,
    answer: String,
    chances: [f64; 2],
    basis: [&'static str; 2],
    stated: [String; 2],
}

struct Explained {
    kinds: [usize; 2],
    before: [f64; 2],
    lines: Vec<Line>,
    after: [f64; 2],
}

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    let args = match Args::read(words, &["--answers", "--for", "--against"], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let Some(path) = args.value("--answers") else {
        return refuse("Name the file of answers with --answers.", HELP);
    };
    let answers = match std::fs::read_to_string(path) {
        Ok(text) => text,
        Err(e) => return refuse(&format!("{path} could not be read: {e}."), HELP),
    };
    let pack = match folder::read(&args.pack) {
        Ok(pack) => pack,
        Err(says) => return refuse(&says, HELP),
    };
    let named = [args.value("--for"), args.value("--against")];
    let made = folder::compiled(&pack)
        .and_then(|c| folder::guide(&c))
        .and_then(|guide| explained(&pack, &guide, &answers, named).map(|e| (guide, e)));
    match made {
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            End::Faults
        }
        Ok((guide, found)) => {
            if args.has("--json") {
                println!("{:#}", as_json(&guide, &found));
            } else {
                print!("{}", as_text(&guide, &found));
            }
            End::Well
        }
    }
}

fn explained(
    pack: &Imported,
    guide: &Guide,
    text: &str,
    named: [Option<&str>; 2],
) -> Result<Explained, Vec<String>> {
    let state = from_text(guide, text)?;
    let model = &guide.model;
    let answers: Vec<Answer> = state.answers();
    let prior = weigh(model, state.place, &[]);
    let bare = weigh(model, state.place, &answers);
    let strange = fit(model, &bare, &answers);
    let after = with_fit(model, bare, strange).kinds(model);
    let mut order: Vec<usize> =
        (0..after.len()).filter(|k| guide.core.kinds[*k].standing != Standing::Unknown).collect();
    order.sort_by(|a, b| after[*b].total_cmp(&after[*a]));
    let find = |id: &str| {
        let at = guide.core.kinds.iter().position(|k| k.id == id);
        at.ok_or_else(|| vec![format!("There is no kind \"{id}\" in this pack.")])
    };
    let first = named[0].map(find).transpose()?.or(order.first().copied()).unwrap_or(0);
    let second = named[1].map(find).transpose()?.or(order.iter().copied().find(|k| *k != first)).unwrap_or(0);
    if first == second {
        return Err(vec!["Two kinds are needed, one against the other.".to_string()]);
    }
    let kinds = [first, second];
    let before = prior.kinds(model);
    let mut lines = Vec::new();
    for answer in &answers {
        let Some(log) = log_likelihood(model, answer, &answers) else { continue };
        let q = &guide.core.questions[answer.question];
        let chance = |kind: usize| {
            let of = |c: &usize| model.kind_of()[*c] == kind;
            let all = (0..log.len()).filter(of);
            all.map(|c| prior.p[c] * libm::exp(log[c])).sum::<f64>() / before[kind].max(1e-300)
        };
        let basis = |kind: usize| {
            let of = guide.core.candidates.iter().find(|c| usize::from(c.kind) == kind);
            of.map_or("", |c| q.rows[usize::from(c.rows[answer.question])].basis.phrase())
        };
        let written = text.lines().map(|l| l.split('#').next().unwrap_or_default());
        let own = written.filter_map(|l| l.split_once('=')).find(|(name, _)| name.trim() == q.id);
        lines.push(Line {
            question: q.id.clone(),
            answer: own.map(|(_, a)| a.trim().to_string()).unwrap_or_default(),
            chances: kinds.map(chance),
            basis: kinds.map(basis),
            stated: kinds.map(|k| stated::of_kind(pack, &guide.core.kinds[k].id, &q.id)),
        });
    }
    lines.sort_by(|a, b| speaks(b).abs().total_cmp(&speaks(a).abs()));
    Ok(Explained { kinds, before: kinds.map(|k| before[k]), lines, after: kinds.map(|k| after[k]) })
}

/// Powers of ten for the first kind against the second.
fn speaks(line: &Line) -> f64 {
    libm::log10(line.chances[0].max(1e-12) / line.chances[1].max(1e-12))
}

fn as_text(guide: &Guide, e: &Explained) -> String {
    let [one, other] = e.kinds.map(|k| guide.core.kinds[k].id.as_str());
    let mut text = format!(
        "{one} against {other}\n\n    {:>6} {:>6}  before any look\n",
        pc(e.before[0]),
        pc(e.before[1])
    );
    for line in &e.lines {
        text.push_str(&format!(
            "{:>+5.2} {:>6} {:>6}  {} = {}\n",
            speaks(line),
            pc(line.chances[0]),
            pc(line.chances[1]),
            line.question,
            line.answer
        ));
        for (kind, (basis, stated)) in [one, other].iter().zip(line.basis.iter().zip(&line.stated)) {
            text.push_str(&format!("                     {kind}: {stated} ({basis})\n"));
        }
    }
    let all: f64 = e.lines.iter().map(speaks).sum::<f64>()
        + libm::log10(e.before[0].max(1e-12) / e.before[1].max(1e-12));
    let said = libm::log10(e.after[0].max(1e-12) / e.after[1].max(1e-12));
    text.push_str(&format!(
        "\n{all:>+5.2}  if every answer stood for itself\n{said:>+5.2}  as it is reckoned: answers overlap, and a look may not be the piece's own\n    {:>6} {:>6}  in the finding, of all kinds and pieces outside the guide\n",
        pc(e.after[0]), pc(e.after[1])
    ));
    text.push_str("\nThe first figure counts powers of ten: +1 makes the first kind ten times likelier against the second.\n");
    text
}

/// Per cent.
fn pc(share: f64) -> String {
    format!("{:.1}%", 100.0 * share)
}

fn as_json(guide: &Guide, e: &Explained) -> Value {
    let line = |l: &Line| {
        json!({
            "question": l.question, "answer": l.answer, "chances": l.chances, "speaks": speaks(l),
            "rests_on": l.basis, "stated": l.stated,
        })
    };
    json!({
        "kinds": e.kinds.map(|k| guide.core.kinds[k].id.clone()), "before": e.before, "after": e.after,
        "answers": e.lines.iter().map(line).collect::<Vec<_>>(),
    })
}
