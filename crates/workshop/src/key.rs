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
    /// Where it begins: at an entry, unless nothing needs to be asked.
    begin: Lead,
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
        let mut key = Key { begin: Lead::Kinds(Vec::new()), entries: Vec::new(), steps: 0.0, right: 0.0 };
        key.begin = key.grow(guide, &plan, &[], 1.0);
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
        let _ = writeln!(html, "<h1>{}: the printed key</h1>", escaped(&core.head.name));
        if !core.head.notice.is_empty() {
            let _ = writeln!(html, "<p><b>{}</b></p>", escaped(&core.head.notice));
        }
        let how = match &self.begin {
            Lead::Entry(_) => format!(
                "Begin at 1. Take the answer that fits and go on at its number. It takes {} questions on the average; \
                 answered without a mistake the first kind named is right for {} pieces. It cannot weigh a misread answer \
                 as the program does.",
                tenths(self.steps),
                chance(self.right)
            ),
            lead => {
                format!("No look would tell much more than is known beforehand: {}.", words(lead, guide))
            }
        };
        let _ = writeln!(
            html,
            "<p>{how} Kinds are leanings, never proof; old paint may hold lead, and an old iron is never heated or plugged \
             in to test it.</p>"
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
    rel=\"stylesheet\" href=\"styles.css\">\n<link rel=\"icon\" type=\"image/svg+xml\" href=\"icon.svg\">\n</head>\n<body class=\"printed\">\n<main>\n";

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
pub(crate) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// `4.2`.
fn tenths(x: f64) -> String {
    format!("{x:.1}")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The golden pack with every text of the question path replaced by one that means harm; its figures are invented.
    fn hostile(text: &str) -> Guide {
        let core = include_bytes!("../../../tests/golden/format-2/core.pack");
        let book = include_bytes!("../../../tests/golden/format-2/book.pack");
        let guide = Guide::from_bytes(core, Some(book), 2026).expect("the golden pack");
        let mut core = guide.core;
        let head = &mut core.head;
        for t in [&mut head.name, &mut head.edition, &mut head.licence, &mut head.notice, &mut head.language]
        {
            *t = text.to_string();
        }
        for q in &mut core.questions {
            (q.ask, q.look) = (text.to_string(), text.to_string());
            q.choices.iter_mut().for_each(|c| c.label = text.to_string());
        }
        core.kinds.iter_mut().for_each(|k| k.name = text.to_string());
        // Both kinds as common as each other, so that something must be asked.
        core.candidates.iter_mut().for_each(|c| c.prior.fill(1000));
        Guide::new(core, 2026).expect("a sound core")
    }

    #[test]
    fn nothing_of_a_pack_becomes_markup() {
        let plain = Key::of(&hostile("Plain")).html(&hostile("Plain"));
        for (text, shown) in [
            ("<script>alert(1)</script>", "&lt;script&gt;alert(1)&lt;/script&gt;"),
            ("</li><img src=x onerror=alert(1)>", "&lt;/li&gt;&lt;img src=x onerror=alert(1)&gt;"),
            ("\"><b onclick=\"x", "&quot;&gt;&lt;b onclick=&quot;x"),
            ("&lt;b&gt; & <!--", "&amp;lt;b&amp;gt; &amp; &lt;!--"),
            ("</main></body>", "&lt;/main&gt;&lt;/body&gt;"),
        ] {
            let guide = hostile(text);
            let page = Key::of(&guide).html(&guide);
            assert!(page.contains("<h2>1. ") && page.contains("<li>"), "something is asked:\n{page}");
            // Escaped wherever it stands, and the page is otherwise the one of a pack that means well.
            assert_eq!(page, plain.replace("Plain", shown));
            assert!(!page.contains(text), "{page}");
        }
    }

    #[test]
    fn a_pack_that_needs_no_question_says_so() {
        let mut core = hostile("Plain").core;
        core.candidates.iter_mut().for_each(|c| c.prior.fill(if c.kind == 0 { 1000 } else { 1 }));
        let guide = Guide::new(core, 2026).expect("a sound core");
        let page = Key::of(&guide).html(&guide);
        assert!(
            page.contains("is known beforehand: <b>Plain</b>, over 99 in 100. Kinds are leanings"),
            "{page}"
        );
        assert!(!page.contains("Begin at 1.") && !page.contains("<h2>"), "{page}");
    }
}
