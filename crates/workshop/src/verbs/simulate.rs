//! `workshop simulate`: how often the guide is right about pieces drawn from its own tables.

use crate::args::{Args, refuse};
use crate::{End, folder};
use consult::Guide;
use serde_json::{Value, json};
use survey::simulate::{Figures, Form, Mistaken, Setting, entropy, figures, mistaken, run, run_each};

const HELP: &str = "\
workshop simulate <pack> [--pieces <number>] [--each <number>] [--seed <number>] [--json]

Draws pieces from the pack's own tables, as common as the pack says, and has them examined with ruler and magnet as
the page asks: the opening first, then whatever tells most about the kind for its time, then about the role and the
make, until no look is worth its time. Three forms:

  easy    every look from the piece's own tables
  hard    in 15 of 100 (piece, group of questions) the looks are those of a kind that it is taken for
  hard, every tenth answer wrong besides

Then, for the hard form, where most of the wrong ones come from, and what becomes of the pieces of each kind, worst
first.

  --pieces   pieces of each form (4000)
  --each     pieces of each kind for the table of kinds (30)
  --seed     another number draws other pieces (1)
  --json     the same for a program

The same seed always prints the same. It ends with 0 when every limit is kept, with 1 when one is not or the pack has
faults.
";

/// Runs the verb.
pub(crate) fn run_verb(words: &[String]) -> End {
    let args = match Args::read(words, &["--pieces", "--each", "--seed"], &["--json"], HELP) {
        Ok(args) => args,
        Err(end) => return end,
    };
    let number = |option: &str, else_: u64| match args.value(option).map(str::parse::<u64>) {
        None => Ok(else_),
        Some(Ok(n)) => Ok(n),
        Some(Err(_)) => Err(format!("{option} needs a whole number.")),
    };
    let (pieces, each, seed) = match (number("--pieces", 4000), number("--each", 30), number("--seed", 1)) {
        (Ok(pieces), Ok(each), Ok(seed)) if (1..=1_000_000).contains(&pieces) && each <= 10_000 => {
            (pieces as usize, each as usize, seed)
        }
        (Err(says), ..) | (_, Err(says), _) | (.., Err(says)) => return refuse(&says, HELP),
        _ => return refuse("From one to a million pieces, and up to ten thousand of each kind.", HELP),
    };
    let pack = match folder::read(&args.pack) {
        Ok(pack) => pack,
        Err(says) => return refuse(&says, HELP),
    };
    let guide = match folder::compiled(&pack).and_then(|c| folder::guide(&c)) {
        Ok(guide) => guide,
        Err(faults) => {
            faults.iter().for_each(|f| eprintln!("{f}"));
            return End::Faults;
        }
    };
    let setting = Setting::pocket(seed);
    let mut all: Vec<(Form, Figures)> = Vec::new();
    let mut met = Vec::new();
    for form in Form::ALL {
        let pieces = run(&guide, &setting, form, pieces);
        all.push((form, figures(&guide, &pieces)));
        if form == Form::Hard {
            met = mistaken(&guide, &pieces);
        }
    }
    let table = mistaken(&guide, &run_each(&guide, &setting, Form::Hard, each));
    if args.has("--json") {
        println!("{:#}", as_json(&guide, &all, &table, &met));
    } else {
        print!("{}", as_text(&guide, &all, &table, pieces, met));
    }
    let kept = all.iter().all(|(form, f)| rows(*form, f).iter().all(|r| r.kept()));
    if kept { End::Well } else { End::Faults }
}

/// A figure with its limit, both of a hundred.
struct Row {
    says: &'static str,
    is: f64,
    least: Option<f64>,
}

impl Row {
    fn kept(&self) -> bool {
        self.least.is_none_or(|least| self.is >= least)
    }
}

/// What is printed of a form. Limits: practice, what a guide has to do to be worth the looks.
fn rows(form: Form, f: &Figures) -> Vec<Row> {
    let row = |says, is: f64, least| Row { says, is: 100.0 * is, least };
    let (first, three, role, sure) = match form {
        Form::Bare | Form::Easy | Form::Together => (None, None, None, None),
        Form::Hard => (Some(85.0), Some(96.0), Some(93.0), Some(90.0)),
        Form::HardAndWrong => (Some(75.0), Some(92.0), Some(88.0), Some(90.0)),
    };
    vec![
        row("right kind first", f.first, first),
        row("right kind in the first three", f.three, three),
        row("right role first: a quarter or more of its own table", f.role, role),
        row("  the first of that table", f.role_first, None),
        row("  the one drawn from that table", f.role_drawn, None),
        row("a period piece or not: right", f.period, None),
        row("kind shown at 90 or more", f.sure_kind.0, None),
        row("  of these right", f.sure_kind.1, sure),
        row("role shown at 90 or more", f.sure_role.0, None),
        row("  of these right", f.sure_role.1, sure),
        row("  of these right, the one drawn", f.sure_role_drawn.1, None),
        row("settled", f.settled, None),
    ]
}

/// How many kinds are listed that most of the wrong ones come from.
const LOSING: usize = 12;

/// The kinds from which most of the wrong ones come when pieces are as common as the pack says.
fn losing(guide: &Guide, pieces: usize, mut met: Vec<Mistaken>) -> Vec<String> {
    let id = |k: usize| guide.core.kinds[k].id.as_str();
    let role = |r: usize| guide.core.roles[r].id.as_str();
    let mut lines = Vec::new();
    let of_100 = |m: &Mistaken, share: f64| 100.0 * m.pieces as f64 / pieces as f64 * share;
    let mut list =
        |heading: &str, wrong: &dyn Fn(&Mistaken) -> f64, instead: &dyn Fn(&Mistaken) -> Vec<String>| {
            met.sort_by(|a, b| of_100(b, wrong(b)).total_cmp(&of_100(a, wrong(a))));
            lines.push(heading.to_string());
            lines.extend(met.iter().take(LOSING).map(|m| {
                format!(
                    "  {:<28} {:>5.2} of {:>5.2}   {}",
                    id(m.kind),
                    of_100(m, wrong(m)),
                    of_100(m, 1.0),
                    instead(m).join(", ")
                )
            }));
            lines.push(String::new());
        };
    list(
        "hard form, as common as they are: of 100 pieces wrong, and what came first instead",
        &|m| 1.0 - m.first,
        &|m| m.instead.iter().map(|(k, s)| format!("{} {:.2}", id(*k), of_100(m, *s))).collect(),
    );
    list("the same of the role: of 100 pieces wrong, and the role shown instead", &|m| 1.0 - m.role, &|m| {
        m.roles_instead.iter().map(|(r, s)| format!("{} {:.2}", role(*r), of_100(m, *s))).collect()
    });
    lines
}

fn as_text(
    guide: &Guide,
    all: &[(Form, Figures)],
    table: &[Mistaken],
    pieces: usize,
    met: Vec<Mistaken>,
) -> String {
    let mut lines = Vec::new();
    for (form, f) in all {
        lines.push(format!("{}: {} pieces, of 100", form.name(), f.pieces));
        for row in rows(*form, f) {
            let least = row.least.map(|l| {
                let kept = if row.kept() { "" } else { "   TOO LOW" };
                format!("   at least {l:.0}{kept}")
            });
            lines.push(format!("  {:<54} {:>5.1}{}", row.says, row.is, least.unwrap_or_default()));
        }
        lines.push(format!(
            "  {:.2} answers until settled or spent, {:.2} looks to the end; {:.2} bits to be told\n",
            f.until,
            f.looks,
            entropy(guide)
        ));
    }
    lines.extend(losing(guide, pieces, met));
    lines.push(
        "hard form, by kind, worst first: pieces, right first of 100, role right of 100, and what came first instead"
            .into(),
    );
    let id = |k: usize| guide.core.kinds[k].id.as_str();
    for row in table {
        let instead: Vec<String> =
            row.instead.iter().map(|(k, s)| format!("{} {:.0}", id(*k), 100.0 * s)).collect();
        lines.push(format!(
            "  {:<28} {:>5} {:>4.0} {:>4.0}   {}",
            id(row.kind),
            row.pieces,
            100.0 * row.first,
            100.0 * row.role,
            instead.join(", ")
        ));
    }
    lines.push(String::new());
    lines.join("\n")
}

fn as_json(guide: &Guide, all: &[(Form, Figures)], table: &[Mistaken], met: &[Mistaken]) -> Value {
    let id = |k: usize| guide.core.kinds[k].id.as_str();
    let row = |r: &Row| json!({ "says": r.says.trim(), "of_100": r.is, "at_least": r.least });
    let form = |(form, f): &(Form, Figures)| {
        json!({
            "form": form.name(), "pieces": f.pieces,
            "figures": rows(*form, f).iter().map(row).collect::<Vec<_>>(),
            "answers_until_settled_or_spent": f.until, "looks": f.looks,
        })
    };
    let kind = |m: &Mistaken| {
        let instead: Vec<Value> =
            m.instead.iter().map(|(k, s)| json!({ "kind": id(*k), "of_100": 100.0 * s })).collect();
        json!({ "kind": id(m.kind), "pieces": m.pieces, "first": 100.0 * m.first, "role": 100.0 * m.role, "instead": instead })
    };
    json!({
        "bits": entropy(guide),
        "forms": all.iter().map(form).collect::<Vec<_>>(),
        "kinds": table.iter().map(kind).collect::<Vec<_>>(),
        "as_met": met.iter().map(kind).collect::<Vec<_>>(),
    })
}
