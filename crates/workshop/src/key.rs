//! The printed key: a fixed tree of questions, each chosen as the one that tells most for its cost.

use consult::{Guide, chance};
use reason::{Answer, Goal, Plan, Reach, Told, rank, weigh};
use std::fmt::Write;

/// A branch that fewer than one in 150 pieces take ends in what fits so far. Basis: practice (paper has an end).
const RARE: f64 = 1.0 / 150.0;
/// A kind is named when it stands so high.
const ENOUGH: f64 = 0.85;
/// Below this expected information in bits no further question is printed.
const SPENT: f64 = 0.08;
const DEEPEST: usize = 8;

/// One numbered entry.
struct Entry {
    question: usize,
    /// By choice: where it leads; none where the choice cannot be true.
    leads: Vec<Option<Lead>>,
}

/// Where an answer leads.
enum Lead {
    /// To the entry of this index.
    Entry(usize),
    /// To these kinds, with their chances.
    Kinds(Vec<(usize, f64)>),
}

/// A printed key.
pub(crate) struct Key {
    entries: Vec<Entry>,
    /// Mean number of questions, over pieces as common as the pack says and without a misread answer.
    steps: f64,
    /// The chance that the first kind named is right, without a misread answer.
    right: f64,
}

impl Key {
    /// Grows the key of a pack.
    pub(crate) fn of(guide: &Guide) -> Key {
        let plan = Plan::new(&guide.model, Goal::kind(&guide.model));
        let mut key = Key { entries: Vec::new(), steps: 0.0, right: 0.0 };
        key.grow(guide, &plan, &[], 1.0);
        key
    }

    /// Where a piece with these answers goes on, when `share` of all pieces come here.
    fn grow(&mut self, guide: &Guide, plan: &Plan, answers: &[Answer], share: f64) -> Lead {
        let model = &guide.model;
        let posterior = weigh(model, 0, answers);
        let kinds = posterior.kinds(model);
        let reach =
            Reach { tools: (0..guide.core.tools.len()).collect(), picture: false, without: Vec::new() };
        let best = rank(model, plan, &posterior, answers, &reach).into_iter().next();
        let top = kinds.iter().copied().fold(0.0, f64::max);
        let go_on = top < ENOUGH && share >= RARE && answers.len() < DEEPEST;
        let Some(look) = best.filter(|l| go_on && l.gain >= SPENT) else {
            self.right += share * top;
            return Lead::Kinds(named(&kinds));
        };
        self.steps += share;
        let at = self.entries.len();
        let choices = guide.core.questions[look.question].choices.len();
        self.entries.push(Entry { question: look.question, leads: Vec::new() });
        let leads = (0..choices)
            .map(|choice| {
                let p: f64 = (0..model.candidates())
                    .map(|c| posterior.p[c] * model.truth(look.question, c)[choice])
                    .sum();
                let mut after = answers.to_vec();
                after.push(Answer { question: look.question, told: Told::OneOf(vec![choice]), sure: true });
                (p > 0.0).then(|| self.grow(guide, plan, &after, share * p))
            })
            .collect();
        self.entries[at].leads = leads;
        Lead::Entry(at)
    }

    /// The key as a page.
    pub(crate) fn html(&self, guide: &Guide) -> String {
        let core = &guide.core;
        let mut html = String::from(HEAD);
        let _ = write!(
            html,
            "<h1>{}: the printed key</h1>\n<p>Begin at 1. Take the answer that fits and go on at its number. It takes {} \
             questions on the average; answered without a mistake the first kind named is right for {} pieces. It \
             cannot weigh a misread answer as the program does. Kinds are leanings, never proof; old paint may hold lead, \
             and an old iron is never heated or plugged in to test it.</p>\n",
            escaped(&core.head.name),
            tenths(self.steps),
            chance(self.right),
        );
        for (i, entry) in self.entries.iter().enumerate() {
            let q = &core.questions[entry.question];
            let _ = write!(html, "<section id=\"k{0}\"><h2>{0}. {1}</h2>\n<ul>\n", i + 1, escaped(&q.ask));
            for (choice, lead) in q.choices.iter().zip(&entry.leads) {
                let Some(lead) = lead else { continue };
                let _ = writeln!(html, "<li>{}: {}</li>", escaped(&choice.label), words(lead, guide));
            }
            html.push_str("</ul></section>\n");
        }
        let _ = writeln!(
            html,
            "<p class=\"small\">{}, edition of {}, {}.</p>\n<p><a class=\"key\" href=\"./\">Back to the program</a></p>\n</main>\n</body>\n</html>",
            escaped(&core.head.name),
            escaped(&core.head.edition),
            escaped(&core.head.licence)
        );
        html
    }
}

const HEAD: &str = "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" \
    content=\"width=device-width, initial-scale=1\">\n<title>The printed key \u{2013} Pressmark</title>\n<link \
    rel=\"stylesheet\" href=\"styles.css\">\n</head>\n<body class=\"printed\">\n<main>\n";

/// The kinds that stand at one in six or more, three at most; always the first.
fn named(kinds: &[f64]) -> Vec<(usize, f64)> {
    let mut list: Vec<(usize, f64)> = kinds.iter().copied().enumerate().collect();
    list.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mut list: Vec<(usize, f64)> = list.into_iter().take(3).collect();
    let first = list[0];
    list.retain(|k| k.1 >= 1.0 / 6.0 || k.0 == first.0);
    list
}

fn words(lead: &Lead, guide: &Guide) -> String {
    match lead {
        Lead::Entry(at) => format!("<a href=\"#k{0}\">go on at {0}</a>", at + 1),
        Lead::Kinds(kinds) => {
            let named: Vec<String> = kinds
                .iter()
                .map(|(k, p)| format!("<b>{}</b>, {}", escaped(&guide.core.kinds[*k].name), chance(*p)))
                .collect();
            named.join("; or ")
        }
    }
}

/// A pack's text may hold anything that looks like markup; here it is text.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// `4.2`.
fn tenths(x: f64) -> String {
    format!("{x:.1}")
}
