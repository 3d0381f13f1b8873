//! The contact sheet: every drawing of a pack on one page without any program. Each choice under its question, each kind
//! from three sides, then every word that a drawing can use; light and dark, and light alone on paper.

use crate::markup::escaped;
use compile::Compiled;
use consult::Guide;
use pack::Says;
use practice::{Maker, Of, Sight};
use sketch::{Art, Drawing, KEYS, Look};
use std::fmt::Write;

/// As on the page of the program: the colours and strokes of `www/styles`. Choices are 120 wide, the smallest that the
/// program shows.
const STYLE: &str = "\
body{margin:0;font:14px/1.3 system-ui,sans-serif;background:#f6f1e6;color:#1a1510}
header,nav,section{padding:8px 16px}nav a{margin-right:1em;color:inherit}
h1{font-size:22px;margin:8px 0}h2{font-size:17px;margin:14px 0 4px}h2 small{font-weight:400}
.dark,.light{display:flex;flex-wrap:wrap;gap:8px;padding:8px;border-radius:8px}
.light{--starch:#fffdf7;--ink:#1a1510;--iron:#2a2520;--body:#e3ddd0;--scorch:#7a3007;--hole:#2a2520;--day:#fffdf7;--yellow:#eccb63;--brown:#d99a6c;--seam:#85755c}
.dark{--starch:#221d18;--ink:#f5eee0;--iron:#e8dfcf;--body:#3a332b;--scorch:#ffb68c;--hole:#070504;--day:#f5eee0;--yellow:#8a6c1c;--brown:#85492a;--seam:#8b7c68;background:#171310}
figure{margin:0;padding:6px;width:120px;background:var(--starch);color:var(--ink);border:1.5px solid var(--seam);border-radius:12px}
figure.wide{width:330px}figcaption{font-weight:600;line-height:1.15;padding-top:3px;overflow-wrap:anywhere}
figcaption small{display:block;font-weight:400;padding-top:2px}
svg{display:block;width:100%}
path{fill:none;stroke:var(--iron);stroke-width:2.2px;vector-effect:non-scaling-stroke;stroke-linejoin:round;stroke-linecap:round}
.b,.e{fill:var(--body)}.t{stroke-width:1.2px}.a,.e,.n{stroke:var(--scorch);stroke-width:3px}.n{stroke-width:1.6px}
.h{fill:var(--hole);stroke:var(--hole);stroke-width:1px}.d{fill:var(--day);stroke-width:1px}.y{fill:var(--yellow)}.r{fill:var(--brown)}
@media print{body{background:#fff}nav,.dark{display:none}.light{padding:0;gap:6px}figure{break-inside:avoid;width:88px;padding:4px}
figure.wide{width:206px}h2{break-after:avoid}figcaption small{display:none}figcaption{font-size:11px}
path{stroke-width:1.3px}.t,.h,.d{stroke-width:.7px}.a,.e{stroke-width:1.9px}.n{stroke-width:1px}}
";

/// The page.
///
/// # Errors
/// A line that the art cannot draw, as a sentence.
pub(crate) fn page(pack: &Compiled, figures: &[compile::Figure]) -> Result<String, String> {
    let art = Art::new(figures.iter().map(|f| (f.name.as_str(), f.strokes.as_str(), f.says.as_str())));
    let core = &pack.core;
    let mut html = format!(
        "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" \
         content=\"width=device-width, initial-scale=1\">\n<title>{1}: all drawings</title>\n<style>\n{STYLE}</style>\n\
         </head>\n<body>\n<header><h1>{1}: all drawings</h1>\n<p>Edition of {2}, {3}. What a question asks about is in the \
         accent. A kind is drawn as a typical one of its usual length.</p></header>\n<nav><a href=\"#questions\">Questions</a>\
         <a href=\"#kinds\">Kinds</a><a href=\"#words\">Words</a></nav>\n",
        escaped(&core.head.language),
        escaped(&core.head.name),
        escaped(&core.head.edition),
        escaped(&core.head.licence),
    );
    html.push_str("<section id=\"questions\">\n");
    for question in &core.questions {
        let mut row = String::new();
        for choice in question.choices.iter().filter(|c| !c.draw.is_empty()) {
            let drawing = Drawing::parse(&choice.draw).map_err(String::from)?;
            figure(&mut row, &drawing, &art, &choice.label, &choice.draw)?;
        }
        part(&mut html, &question.ask, &question.id, &row);
    }
    html.push_str("</section>\n<section id=\"kinds\">\n");
    let mut row = String::new();
    for (at, (kind, text)) in core.kinds.iter().zip(&pack.book.kinds).enumerate() {
        if !text.draw.is_empty() {
            let drawing = Drawing::parse(&text.draw).map_err(String::from)?.around(long(core, at));
            figure(&mut row, &drawing, &art, &kind.name, &text.draw)?;
        }
    }
    part(&mut html, "Kinds", "", &row);
    html.push_str("</section>\n<section id=\"words\">\n");
    words(&mut html, &art, figures)?;
    html.push_str("</section>\n</body>\n</html>\n");
    Ok(html)
}

/// How many pieces are on the page of pieces.
const PIECES: u64 = 40;

/// Pieces as a learner is handed them, each from all sides.
///
/// # Errors
/// A line that the art cannot draw, as a sentence.
pub(crate) fn pieces(guide: &Guide, figures: &[compile::Figure], seed: u64) -> Result<String, String> {
    let art = Art::new(figures.iter().map(|f| (f.name.as_str(), f.strokes.as_str(), f.says.as_str())));
    let sight = Sight::new(guide);
    let maker = Maker::new(guide, &sight);
    let of = Of { kinds: maker.kinds(), period: None };
    let mut html = format!(
        "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n<title>Pieces of {1}</title>\n<style>\n\
         {STYLE}</style>\n</head>\n<body>\n<header><h1>Pieces drawn from the tables of {1}, from seed {seed}</h1></header>\n",
        escaped(&guide.core.head.language),
        escaped(&guide.core.head.name),
    );
    for at in 0..PIECES {
        let piece = maker.hand(&of, seed.wrapping_mul(PIECES).wrapping_add(at));
        let mut row = String::new();
        let views = sight.views(guide, &piece).all;
        for view in views.iter().filter(|v| !v.close) {
            let drawing = Drawing::parse(&view.draw).map_err(String::from)?;
            told(&mut row, &drawing, &art, (&view.name, &view.says), &view.draw)?;
        }
        let (kind, make) = (&guide.core.kinds[piece.kind].name, &guide.core.makes[piece.make].name);
        part(&mut html, kind, make, &row);
    }
    html.push_str("</body>\n</html>\n");
    Ok(html)
}

/// Every value of every key, in each view that draws it.
fn words(html: &mut String, art: &Art, figures: &[compile::Figure]) -> Result<(), String> {
    for key in &KEYS {
        let values = figures.iter().filter_map(|f| f.name.strip_prefix(key.name)?.strip_prefix('.'));
        let values: Vec<&str> = if key.name == "size" { LENGTHS.to_vec() } else { values.collect() };
        // What is laid out of other views is shown for bodies and lengths alone.
        let laid_out = |v: &&str| *v != "both" && (*v != "three" || ["body", "size"].contains(&key.name));
        for view in key.views.split_whitespace().filter(laid_out) {
            // What belongs to one sort of body is drawn on it.
            let body = match key.name {
                "cord" => " body=electric",
                "vents" | "chimney" => " body=ember",
                _ => "",
            };
            let mut row = String::new();
            for value in &values {
                let line = format!("view={view} {0}={value} ask={0}{body}", key.name);
                let drawing = Drawing::parse(&line).map_err(String::from)?;
                figure(&mut row, &drawing, art, value, "")?;
            }
            part(html, key.name, &format!("view={view}"), &row);
        }
    }
    Ok(())
}

/// Lengths of which each changes something: shorter or longer than a card, or than there is room for.
const LENGTHS: [&str; 6] = ["30", "54", "86", "102", "150", "240"];

/// A heading and its drawings, in light and in dark.
fn part(html: &mut String, heading: &str, small: &str, row: &str) {
    if !row.is_empty() {
        let _ = writeln!(
            html,
            "<h2>{} <small>{}</small></h2>\n<div class=\"light\">\n{row}</div>\n<div class=\"dark\" aria-hidden=\"true\">\n{row}</div>",
            escaped(heading),
            escaped(small)
        );
    }
}

fn figure(
    row: &mut String,
    drawing: &Drawing<'_>,
    art: &Art,
    caption: &str,
    line: &str,
) -> Result<(), String> {
    told(row, drawing, art, (caption, &drawing.alt(art)), line)
}

/// The same with other words for those who cannot see it.
fn told(
    row: &mut String,
    drawing: &Drawing<'_>,
    art: &Art,
    (caption, says): (&str, &str),
    line: &str,
) -> Result<(), String> {
    drawing.check(art)?;
    let scene = drawing.shapes(art).ok_or_else(|| format!("{line}: a figure is missing."))?;
    let (w, h) = scene.view_box;
    let wide = if w > 2000 { " class=\"wide\"" } else { "" };
    let alt = escaped(says);
    let _ = write!(row, "<figure{wide}><svg viewBox=\"0 0 {w} {h}\" role=\"img\" aria-label=\"{alt}\">");
    for shape in &scene.shapes {
        let _ = write!(row, "<path class=\"{}\" d=\"{}\"/>", class(shape.look), shape.path);
    }
    let _ = writeln!(row, "</svg><figcaption>{}<small>{alt}</small></figcaption></figure>", escaped(caption));
    Ok(())
}

/// How long a kind's first candidate is on the average, mm; 80 where nothing asks for the length.
fn long(core: &pack::Core, kind: usize) -> u32 {
    let row = || {
        let at = core.questions.iter().position(|q| q.form == pack::Form::Length)?;
        let candidate = core.candidates.iter().find(|c| usize::from(c.kind) == kind)?;
        match core.questions[at].rows.get(usize::from(*candidate.rows.get(at)?))?.says {
            Says::Spread { mean, .. } => u32::try_from(mean / 10).ok(),
            Says::Shares(_) => None,
        }
    };
    row().unwrap_or(80)
}

fn class(look: Look) -> &'static str {
    match look {
        Look::Body => "b",
        Look::Line => "l",
        Look::Thin => "t",
        Look::Asked => "a",
        Look::AskedThin => "n",
        Look::AskedBody => "e",
        Look::Hole => "h",
        Look::Day => "d",
        Look::Yellow => "d y",
        Look::Brown => "d r",
    }
}
