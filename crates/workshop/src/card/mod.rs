//! The field card: the first looks, what is most often mixed up, and a rule, on one side of paper.

mod rule;

use crate::markup::escaped;
use consult::Guide;
use pack::Standing;
use reason::{Answer, Told, weigh};
use std::fmt::Write;
use survey::quality::{pairs, stated_check};

/// What the card looks like; it stands beside the page, since the site allows nothing inline.
pub(crate) const STYLES: &str = include_str!("card.css");
/// So many kinds are named behind an answer, when at least so many of a hundred pieces with it are of that kind.
const LEANS: usize = 4;
const LEAST: f64 = 0.045;
/// Digits of the digest that are enough to tell two editions apart.
const DIGITS: usize = 12;
/// What fits on the smaller of the two papers: lines of both columns, and letters of a line.
const LINES: usize = 134;
const LETTERS: usize = 56;
/// A heading with the room above it, in lines.
const HEADING: usize = 2;

/// The card as a page.
pub(crate) fn html(guide: &Guide, digest: &str) -> String {
    let head = &guide.core.head;
    let mut page = String::from(HEAD);
    let _ = writeln!(page, "<h1>{}: field card</h1>", escaped(&head.name));
    let notice =
        if head.notice.is_empty() { String::new() } else { format!("<b>{}</b> ", escaped(&head.notice)) };
    let _ = writeln!(
        page,
        "<p class=\"edition\">{notice}Edition of {}, {}, digest {}. Leanings, never proof, and no appraisal. \
         Print at 100&nbsp;%.</p>\n<div class=\"columns\">",
        escaped(&head.edition),
        escaped(&head.licence),
        escaped(&digest.chars().take(DIGITS).collect::<String>())
    );
    let (looks, care) = (looks(guide), cautions(guide));
    let left = LINES.saturating_sub(looks.lines + care.lines);
    for part in [looks, confusions(guide, left), care] {
        page.push_str(&part.html);
    }
    page.push_str("</div>\n");
    page.push_str(&rule::svg());
    page.push_str("</main>\n</body>\n</html>\n");
    page
}

const HEAD: &str = "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" \
    content=\"width=device-width, initial-scale=1\">\n<title>Field card \u{2013} Pressmark</title>\n<link \
    rel=\"stylesheet\" href=\"card.css\">\n<link rel=\"icon\" type=\"image/svg+xml\" href=\"icon.svg\">\n</head>\n<body>\n<main>\n";

/// A part of the card, and about how many lines it takes.
#[derive(Default)]
struct Part {
    html: String,
    lines: usize,
}

impl Part {
    fn heading(&mut self, text: &str) {
        let _ = writeln!(self.html, "<h2>{}</h2>", escaped(text));
        self.lines += HEADING;
    }

    /// A line of a part: what stands bold, what behind it.
    fn line(&mut self, bold: &str, text: &str) {
        let bold_shown = if bold.is_empty() { String::new() } else { format!("<b>{}:</b> ", escaped(bold)) };
        // A number stays with the name before it.
        let _ = writeln!(self.html, "<p>{bold_shown}{}</p>", escaped(text).replace('\u{a0}', "&nbsp;"));
        self.lines += lines(bold, text);
    }
}

fn lines(bold: &str, text: &str) -> usize {
    (bold.chars().count() + text.chars().count() + 2).div_ceil(LETTERS)
}

/// The opening, and what each answer alone leans to.
fn looks(guide: &Guide) -> Part {
    let core = &guide.core;
    let mut part = Part::default();
    part.heading("The first looks, and what answers lean to");
    part.line(
        "",
        "The number behind a kind: of 100 pieces with this answer so many are of that kind. Take all looks together, never one \
         alone.",
    );
    for question in core.opening.iter().map(|q| usize::from(*q)) {
        let q = &core.questions[question];
        let _ = writeln!(part.html, "<h3>{}</h3>", escaped(&q.ask));
        part.lines += HEADING;
        for (choice, c) in q.choices.iter().enumerate() {
            part.line(&c.label, &leans(guide, question, choice));
        }
    }
    part
}

fn leans(guide: &Guide, question: usize, choice: usize) -> String {
    let core = &guide.core;
    let one = |question: usize, set: Vec<usize>| Answer { question, told: Told::OneOf(set), sure: true };
    let gate = core.questions[question].gate.iter();
    let mut answers: Vec<Answer> = gate
        .map(|g| one(usize::from(g.question), g.choices.iter().map(|c| usize::from(*c)).collect()))
        .collect();
    answers.push(one(question, vec![choice]));
    let kinds = weigh(&guide.model, 0, &answers).kinds(&guide.model);
    let known = kinds.iter().enumerate().filter(|(k, _)| core.kinds[*k].standing != Standing::Unknown);
    let mut list: Vec<(usize, f64)> = known.map(|(k, p)| (k, *p)).collect();
    list.sort_by(|a, b| b.1.total_cmp(&a.1));
    let first = list.first().map(|l| l.0);
    list.retain(|l| l.1 >= LEAST || Some(l.0) == first);
    let named: Vec<String> = list
        .iter()
        .take(LEANS)
        .map(|(k, p)| format!("{}\u{a0}{:.0}", core.kinds[*k].short, 100.0 * p))
        .collect();
    named.join(", ")
}

/// The pairs that are met and mixed up most often, with the check that decides, as many as there is room for.
fn confusions(guide: &Guide, room: usize) -> Part {
    let core = &guide.core;
    let prior = weigh(&guide.model, 0, &[]).kinds(&guide.model);
    let mut list: Vec<(f64, usize, usize, &str)> = pairs(guide)
        .iter()
        .filter_map(|p| {
            let (a, b) = p.kinds;
            // The chance to take one for the other is at most the root of the product of their odds times this.
            let often = (prior[a] * prior[b]).sqrt() * libm::exp(-p.distance);
            Some((often, a, b, stated_check(guide, a, b)?))
        })
        .collect();
    list.sort_by(|x, y| y.0.total_cmp(&x.0));
    let mut part = Part::default();
    for (_, a, b, check) in list {
        let names = format!("{} or {}", core.kinds[a].short, inside(&core.kinds[b].short));
        let heading = if part.lines == 0 { HEADING } else { 0 };
        if part.lines + heading + lines(&names, check) > room {
            break;
        }
        if part.lines == 0 {
            part.heading("Most often mixed up, and what decides");
        }
        part.line(&names, check);
    }
    part
}

/// A name within a sentence.
fn inside(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

fn cautions(guide: &Guide) -> Part {
    let mut part = Part::default();
    if !guide.core.cautions.is_empty() {
        part.heading("Care");
        guide.core.cautions.iter().for_each(|c| part.line("", &c.text));
    }
    part
}

#[cfg(test)]
mod tests {
    use super::*;

    fn golden() -> Guide {
        let core = include_bytes!("../../../../tests/golden/format-4/core.pack");
        let book = include_bytes!("../../../../tests/golden/format-4/book.pack");
        Guide::from_bytes(core, book, 2026).expect("the golden pack")
    }

    #[test]
    fn a_card_says_what_it_was_made_of() {
        let page = html(&golden(), "0123456789abcdef0123");
        for holds in [
            "digest 0123456789ab.",
            "All figures of this pack are invented.",
            "<h2>Most often mixed up, and what decides</h2>\n<p><b>Bar toy or wire grip:</b> Is the grip one piece with the body?</p>",
            "<h2>Care</h2>",
        ] {
            assert!(page.contains(holds), "{holds} is missing in\n{page}");
        }
        // Under the policy of the site: nothing inline.
        assert!(!page.contains("style=") && !page.contains("<style") && !page.contains("<script"));
    }

    #[test]
    fn pairs_give_way_when_the_rest_is_long() {
        let mut guide = golden();
        let caution = guide.core.cautions[0].clone();
        guide.core.cautions =
            vec![pack::Caution { text: "Old paint may hold lead. ".repeat(40), ..caution }; 12];
        let page = html(&guide, "0");
        assert!(!page.contains("Most often mixed up") && page.contains("<h2>Care</h2>"), "{page}");
    }

    #[test]
    fn texts_of_a_pack_stay_texts() {
        let mut guide = golden();
        guide.core.cautions[0].text = "<script>alert(1)</script>".to_string();
        guide.core.kinds[0].short = "<b onclick=\"x\">".to_string();
        let page = html(&guide, "0");
        assert!(!page.contains("<script") && !page.contains("<b onclick"), "{page}");
        assert!(page.contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
    }
}
