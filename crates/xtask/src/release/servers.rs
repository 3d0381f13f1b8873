//! The table of headers as the settings of common web servers: examples to copy, one of which the tests run. The frames of
//! the examples stand beside this file; what follows from the table is put in the place of the words in capitals.

use crate::headers::{self, Files};

/// For nginx: what stands inside of `http`.
pub(super) fn nginx() -> String {
    let (mut maps, mut lines) = (Vec::new(), Vec::new());
    for (at, (header, values)) in headers::table().into_iter().enumerate() {
        if let [(Files::Every, value)] = values.as_slice() {
            lines.push(format!("        add_header {header} \"{value}\";"));
            continue;
        }
        // The first that has a file counts, here as in the table.
        maps.push(format!("map $uri $pressmark_{at} {{"));
        maps.extend(values.iter().map(|(files, value)| match files {
            Files::Every => format!("    default \"{value}\";"),
            _ => format!("    \"~{}\" \"{value}\";", files.pattern()),
        }));
        maps.push("}".to_owned());
        lines.push(format!("        add_header {header} $pressmark_{at};"));
    }
    let types = headers::TYPES.map(|(ending, media)| format!("            {media} {ending};"));
    let texts = headers::TYPES.iter().map(|(_, media)| *media).filter(|media| media.starts_with("text/"));
    filled(
        include_str!("nginx.conf"),
        &[
            ("MAPS", maps.join("\n")),
            ("TEXTS", texts.collect::<Vec<_>>().join(" ")),
            ("TYPES", types.join("\n")),
            ("HEADERS", lines.join("\n")),
        ],
    )
}

/// For Apache: a `.htaccess` for the folder.
pub(super) fn apache() -> String {
    let mut lines = Vec::new();
    for (header, values) in headers::table() {
        // Later ones take the place of earlier ones here.
        for (files, value) in values.iter().rev() {
            let change = if value.is_empty() {
                format!("unset {header}")
            } else {
                format!("set {header} \"{value}\"")
            };
            if *files == Files::Every {
                lines.push(format!("    Header {change}"));
                continue;
            }
            // By then a packed copy has taken the place of the file.
            let pattern = files.pattern().replace('$', "([.](br|gz))?$");
            lines.push(format!(
                "    <If \"%{{REQUEST_URI}} =~ m#{pattern}#\">\n        Header {change}\n    </If>"
            ));
        }
    }
    let types = headers::TYPES.map(|(ending, _)| format!("    AddType \"{}\" .{ending}", media_type(ending)));
    let packed = |encoding: &str, packing: &str| {
        headers::TYPES.map(|(ending, _)| {
            format!(
                "    <FilesMatch \"[.]{ending}[.]{packing}$\">\n        ForceType \"{}\"\n        \
                 Header set Content-Encoding {encoding}\n        Header append Vary Accept-Encoding\n    </FilesMatch>",
                media_type(ending)
            )
        })
    };
    filled(
        include_str!("apache.htaccess"),
        &[
            ("TYPES", types.join("\n")),
            ("HEADERS", lines.join("\n")),
            ("PACKED", [packed("br", "br"), packed("gzip", "gz")].concat().join("\n")),
        ],
    )
}

/// For Caddy.
pub(super) fn caddy() -> String {
    let mut lines = Vec::new();
    for (at, (header, values)) in headers::table().into_iter().enumerate() {
        if let [(Files::Every, value)] = values.as_slice() {
            lines.push(format!("        header {header} \"{value}\""));
            continue;
        }
        // The first that has a file counts, so each leaves out those before it.
        let mut before = String::new();
        for (place, (files, value)) in values.iter().enumerate() {
            let pattern = files.pattern();
            let own = match files {
                Files::Every => String::new(),
                _ => format!("            path_regexp {pattern}\n"),
            };
            if !value.is_empty() {
                let name = format!("@p{at}_{place}");
                lines.push(format!("        {name} {{\n{own}{before}        }}"));
                lines.push(format!("        header {name} {header} \"{value}\""));
            }
            before.push_str(&format!("            not path_regexp {pattern}\n"));
        }
    }
    let types = headers::TYPES.map(|(ending, _)| {
        let media = media_type(ending);
        format!("        @{ending} path *.{ending}\n        header @{ending} Content-Type \"{media}\"")
    });
    filled(include_str!("Caddyfile"), &[("HEADERS", lines.join("\n")), ("TYPES", types.join("\n"))])
}

/// With its encoding where it is text.
fn media_type(ending: &str) -> String {
    headers::media_type(&format!(".{ending}"))
}

fn filled(frame: &str, places: &[(&str, String)]) -> String {
    places.iter().fold(frame.to_owned(), |text, (place, content)| text.replacen(place, content, 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_has_every_header_and_no_place_for_a_sign_that_would_end_its_value() {
        for (name, text) in [("nginx", nginx()), ("apache", apache()), ("caddy", caddy())] {
            for place in ["MAPS", "TEXTS", "TYPES", "HEADERS", "PACKED"] {
                assert!(!text.contains(place), "{name}: {place}");
            }
            for (header, values) in headers::table() {
                assert!(text.contains(header), "{name}: {header}");
                for (_, value) in values {
                    assert!(!value.contains(['"', '\\', '$', '{']), "{header}: {value}");
                    assert!(text.contains(&value), "{name}: {value}");
                }
            }
        }
    }
}
