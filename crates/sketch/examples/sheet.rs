//! Writes a contact sheet of every value of every key, light and dark, as one HTML page:
//! `cargo run -p sketch --example sheet -- out.html [keys]`, or `- < lines` for lines of your own.

#[path = "../tests/art/mod.rs"]
mod art;

use art::{art, values};
use sketch::{Drawing, KEYS, Look};
use std::fmt::Write;

const STYLE: &str = "body{margin:0;font:13px system-ui;display:flex}section{width:50%;padding:8px;box-sizing:border-box;background:#f7f2e8;color:#1b1611;\
--starch:#fffdf8;--iron:#2b2622;--scorch:#7b3208;--hole:#2b2622;--day:#fffdf8}\
section.dark{background:#171310;color:#f5eee0;--starch:#221d18;--iron:#e6dccb;--scorch:#ffb58a;--hole:#0b0907;--day:#f5eee0}\
div{display:flex;flex-wrap:wrap;gap:6px}figure{margin:0;background:var(--starch);border:1px solid #8a7a60;border-radius:8px;padding:6px;width:150px}\
figure.wide{width:330px}svg{width:100%;display:block}figcaption{padding-top:2px}h2{font-size:14px;margin:8px 0 2px}\
path{stroke:var(--iron);stroke-width:22;fill:none;stroke-linejoin:round;stroke-linecap:round}\
.body,.askedbody{fill:color-mix(in srgb,var(--iron) 13%,var(--starch))}.thin,.askedthin{stroke-width:13}\
.asked,.askedbody{stroke:var(--scorch);stroke-width:32}.askedthin{stroke:var(--scorch);stroke-width:18}.hole{fill:var(--hole)}.day{fill:var(--day)}";

fn class(look: Look) -> &'static str {
    match look {
        Look::Body => "body",
        Look::Line => "line",
        Look::Thin => "thin",
        Look::Asked => "asked",
        Look::AskedThin => "askedthin",
        Look::AskedBody => "askedbody",
        Look::Hole => "hole",
        Look::Day | Look::Yellow | Look::Brown => "day",
    }
}

fn figure(out: &mut String, line: &str, caption: &str) -> Result<(), String> {
    let drawing = Drawing::parse(line)?;
    drawing.check(art())?;
    let scene = drawing.shapes(art()).ok_or("A figure is missing.")?;
    let (w, h) = scene.view_box;
    let wide = if w > 2000 { " class=wide" } else { "" };
    let alt = drawing.alt(art());
    let _ = write!(out, "<figure{wide} title=\"{alt}\"><svg viewBox=\"0 0 {w} {h}\">");
    for shape in &scene.shapes {
        let _ = write!(out, "<path class={} d=\"{}\"/>", class(shape.look), shape.path);
    }
    let _ = write!(out, "</svg><figcaption>{caption}</figcaption></figure>");
    Ok(())
}

fn sheet(only: &[String]) -> Result<String, String> {
    let mut out = String::new();
    if only == ["-"] {
        out.push_str("<div>");
        for line in std::io::stdin().lines().map_while(Result::ok) {
            figure(&mut out, &line, &line)?;
        }
        out.push_str("</div>");
        return Ok(out);
    }
    for key in &KEYS {
        if !only.is_empty() && !only.iter().any(|o| o == key.name) {
            continue;
        }
        for view in key.views.split_whitespace() {
            let _ = write!(out, "<h2>{} in {view}</h2><div>", key.name);
            let sizes = ["54", "86", "102", "120", "150", "170", "30"];
            let names: Vec<&str> =
                if key.usual.is_empty() { sizes.to_vec() } else { values(key.name).collect() };
            for name in names {
                let more = match (key.name, view) {
                    ("cord", "side" | "both") => " body=electric",
                    ("vents" | "chimney", _) => " body=ember",
                    _ => "",
                };
                let line = format!("view={view} {0}={name} ask={0}{more}", key.name);
                figure(&mut out, &line, name)?;
            }
            out.push_str("</div>");
        }
    }
    Ok(out)
}

fn main() -> Result<(), String> {
    let mut args = std::env::args().skip(1);
    let path = args.next().ok_or("Say where to write the sheet: sheet out.html [keys]")?;
    let body = sheet(&args.collect::<Vec<_>>())?;
    let page = format!(
        "<!doctype html><meta charset=utf-8><title>Sheet</title><style>{STYLE}</style><section>{body}</section><section class=dark>{body}</section>"
    );
    std::fs::write(&path, page).map_err(|e| format!("{path}: {e}"))
}
