//! The printed key: a fixed tree of questions, each chosen as the one that tells most together with the next.

mod bound;
mod grow;

pub(crate) use grow::Key;

use crate::markup::escaped;
use consult::{Guide, chance};
use grow::Lead;
use std::fmt::Write;

impl Key {
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
                "Begin at 1. Take the answer that fits and go on at its number. It takes {} questions on the average; no key \
                 that tells as much can do with fewer than {}. Answered without a mistake the first kind named is right \
                 for {} pieces. It cannot weigh a misread answer as the program does.",
                tenths(self.steps),
                tenths(self.fewest),
                chance(self.right)
            ),
            lead => {
                format!("No look would tell much more than is known beforehand: {}.", words(lead, guide))
            }
        };
        let _ = writeln!(html, "<p>{how} Kinds are leanings, never proof.</p>");
        let grave = core.cautions.iter().filter(|c| c.grave);
        grave.for_each(|c| {
            let _ = writeln!(html, "<p><b>Take care:</b> {}</p>", escaped(&c.text));
        });
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
            "<p class=\"small\">{}, edition of {}, {}.</p>\n<p><a class=\"key\" href=\"./\">Back to the program</a> <a class=\"key\" href=\"card.html\">The field card, one side of paper</a></p>\n</main>\n</body>\n</html>",
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

/// `4.2`.
fn tenths(x: f64) -> String {
    format!("{x:.1}")
}

#[cfg(test)]
mod tests;
