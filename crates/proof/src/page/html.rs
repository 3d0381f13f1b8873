//! The page as HTML with its style inside: it is read from a disk.

use super::{Grid, Line, Page, Section, figure, kept, plot, verdict};

const STYLE: &str = "\
:root{color-scheme:light dark;--ink:light-dark(#1d1f21,#e8e6e3);--soft:light-dark(#5d6166,#a5a19b);\
--ground:light-dark(#fbfaf8,#17181a);--rule:light-dark(#dcd8d2,#38393c);--good:light-dark(#1c6b3c,#7fd19b);\
--bad:light-dark(#a3271b,#ff9c8f)}\
body{font:16px/1.5 system-ui,sans-serif;color:var(--ink);background:var(--ground);max-width:74rem;margin:2rem auto;padding:0 1rem}\
h1{font-size:1.6rem;margin:0 0 .5rem}h2{font-size:1.2rem;margin:2.5rem 0 .25rem;border-top:1px solid var(--rule);padding-top:1rem}\
p{max-width:48rem;margin:.4rem 0}nav{color:var(--soft);margin:.6rem 0}nav a{color:inherit;margin-right:1rem}\
div.wide{overflow-x:auto}table{border-collapse:collapse;margin:.6rem 0 1.2rem;font-size:.9rem}\
caption{text-align:left;color:var(--soft);padding:.2rem 0}\
th,td{text-align:right;padding:.15rem .7rem;border-bottom:1px solid var(--rule);font-variant-numeric:tabular-nums;white-space:nowrap}\
th:first-child,td:first-child{text-align:left;padding-left:0;white-space:normal;min-width:16rem}\
th{font-weight:600;color:var(--soft)}td.met{color:var(--good)}td.not{color:var(--bad);font-weight:600}\
figure{display:inline-block;margin:.5rem 1.5rem 1rem 0;vertical-align:top}figcaption{color:var(--soft);font-size:.9rem}\
svg text{font:12px system-ui,sans-serif;fill:var(--soft)}svg .frame{stroke:var(--rule);fill:none}";

/// The whole page.
pub(super) fn page(page: &Page) -> String {
    let (met, all) = kept(page);
    let notes: String = page.notes.iter().map(|n| format!("<p>{}</p>\n", escaped(n))).collect();
    let links: String = (page.sections.iter().enumerate())
        .map(|(i, s)| format!("<a href=\"#s{i}\">{}</a> ", escaped(&s.title)))
        .collect();
    let sections: String = page.sections.iter().enumerate().map(|(i, s)| section(i, s)).collect();
    let title = escaped(&page.title);
    format!(
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\
         <meta name=\"viewport\" content=\"width=device-width\"><title>{title}</title><style>{STYLE}</style></head>\n\
         <body><h1>{title}</h1>\n<p><strong>{met} of {all} limits met.</strong></p>\n{notes}<nav>{links}</nav>\n{sections}</body></html>\n"
    )
}

fn section(at: usize, section: &Section) -> String {
    let mut out = format!("<h2 id=\"s{at}\">{}</h2>\n", escaped(&section.title));
    for paragraph in section.text.split('\n').filter(|p| !p.is_empty()) {
        out.push_str(&format!("<p>{}</p>\n", escaped(paragraph)));
    }
    if !section.rows.is_empty() {
        out.push_str(&limits(&section.rows));
    }
    out.extend(section.plots.iter().map(plot::svg));
    out.extend(section.tables.iter().map(grid));
    out
}

fn limits(rows: &[Line]) -> String {
    let mut body = String::new();
    for row in rows {
        let class = match row.met {
            Some(true) => " class=\"met\"",
            Some(false) => " class=\"not\"",
            None => "",
        };
        body.push_str(&format!(
            "<tr><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td{class}>{}</td></tr>\n",
            escaped(&row.what),
            figure(row.ours),
            figure(row.peer),
            escaped(&row.limit),
            figure(row.ratio),
            verdict(row.met)
        ));
    }
    format!(
        "<div class=\"wide\"><table><thead><tr><th>What</th><th>Ours</th><th>Peer</th><th>Limit</th><th>Ratio</th><th></th></tr></thead>\n\
         <tbody>{body}</tbody></table></div>\n"
    )
}

fn grid(grid: &Grid) -> String {
    let cells = |row: &[String], tag: &str| -> String {
        row.iter().map(|c| format!("<{tag}>{}</{tag}>", escaped(c))).collect()
    };
    let body: String = grid.rows.iter().map(|r| format!("<tr>{}</tr>\n", cells(r, "td"))).collect();
    format!(
        "<div class=\"wide\"><table><caption>{}</caption><thead><tr>{}</tr></thead>\n<tbody>{body}</tbody></table></div>\n",
        escaped(&grid.caption),
        cells(&grid.head, "th")
    )
}

/// Text that stands for itself.
pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_escaped_and_limits_counted() {
        let line = |met| Line {
            what: "a < b & c".to_owned(),
            ours: 0.5,
            peer: f64::NAN,
            limit: "\"at most\" 1".to_owned(),
            ratio: 1e-9,
            met,
        };
        let rows = vec![line(Some(true)), line(Some(false)), line(None)];
        let found = page(&Page {
            title: "T".to_owned(),
            notes: vec![],
            sections: vec![Section { title: "S".to_owned(), rows, ..Section::default() }],
        });
        assert!(found.contains("1 of 2 limits met"));
        assert!(found.contains("a &lt; b &amp; c") && found.contains("&quot;at most&quot; 1"));
        assert!(found.contains("<td>–</td>") && found.contains("1.0e-9"));
        assert_eq!(found.matches("class=\"not\"").count(), 1);
    }
}
