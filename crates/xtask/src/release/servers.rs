//! The table of headers as the settings of common web servers: examples to copy, one of which the tests run.

use super::FOLDER;
use crate::headers::{self, Files};

/// With its encoding where it is text.
fn media_type(ending: &str) -> String {
    headers::media_type(&format!(".{ending}"))
}

/// For nginx: what stands inside of `http`.
pub(super) fn nginx() -> String {
    let mut maps = String::new();
    let mut lines = String::new();
    for (at, (header, values)) in headers::table().into_iter().enumerate() {
        if let [(Files::Every, value)] = values.as_slice() {
            lines.push_str(&format!("        add_header {header} \"{value}\";\n"));
            continue;
        }
        let variable = format!("$pressmark_{at}");
        maps.push_str(&format!("map $uri {variable} {{\n"));
        for (files, value) in &values {
            match files {
                Files::Every => maps.push_str(&format!("    default \"{value}\";\n")),
                _ => maps.push_str(&format!("    \"~{}\" \"{value}\";\n", files.pattern())),
            }
        }
        maps.push_str("}\n");
        lines.push_str(&format!("        add_header {header} {variable};\n"));
    }
    let types: String =
        headers::TYPES.iter().map(|(ending, media)| format!("            {media} {ending};\n")).collect();
    let texts: Vec<&str> =
        headers::TYPES.iter().map(|(_, media)| *media).filter(|media| media.starts_with("text/")).collect();
    format!(
        "# Pressmark on nginx. The maps belong into http, the location into the server of your site; change root to the folder\n\
         # that holds the folder \"{FOLDER}\". A header with an empty value is not sent.\n\
         {maps}\n\
         server {{\n    listen 80;\n    root /var/www/html;\n\n    location /{FOLDER}/ {{\n        index index.html;\n        \
         # The packed copies that lie beside the files. With the module for brotli also: brotli_static on;\n        \
         gzip_static on;\n        gzip_vary on;\n        etag on;\n        charset utf-8;\n        charset_types {};\n        \
         types {{\n{types}        }}\n        default_type application/octet-stream;\n{lines}    }}\n}}\n",
        texts.join(" ")
    )
}

/// For Apache: a `.htaccess` for the folder.
pub(super) fn apache() -> String {
    let mut text = String::from(
        "# Pressmark on Apache. Copy this into the folder under the name .htaccess. Should the site then answer with\n\
         # \"500 Internal Server Error\", your host does not allow it: take it away again, and Pressmark works without.\n\
         <IfModule mod_mime.c>\n",
    );
    for (ending, _) in headers::TYPES {
        text.push_str(&format!("    AddType \"{}\" .{ending}\n", media_type(ending)));
    }
    text.push_str("</IfModule>\n<IfModule mod_headers.c>\n");
    for (header, values) in headers::table() {
        // Later ones take the place of earlier ones here.
        for (files, value) in values.iter().rev() {
            let change = if value.is_empty() {
                format!("unset {header}")
            } else {
                format!("set {header} \"{value}\"")
            };
            match files {
                Files::Every => text.push_str(&format!("    Header {change}\n")),
                _ => text.push_str(&format!(
                    "    <If \"%{{REQUEST_URI}} =~ m#{}#\">\n        Header {change}\n    </If>\n",
                    // By then a packed copy has taken the place of the file.
                    files.pattern().replace('$', "([.](br|gz))?$")
                )),
            }
        }
    }
    text.push_str("</IfModule>\n");
    text.push_str(
        "# The packed copies that lie beside the files.\n<IfModule mod_rewrite.c>\n    RewriteEngine On\n",
    );
    for (accepts, ending) in [("br", "br"), ("gzip", "gz")] {
        text.push_str(&format!(
            "    RewriteCond %{{HTTP:Accept-Encoding}} {accepts}\n    RewriteCond %{{REQUEST_FILENAME}}.{ending} -f\n    \
             RewriteRule ^(.+)$ $1.{ending} [L]\n"
        ));
    }
    text.push_str("</IfModule>\n<IfModule mod_headers.c>\n");
    for (encoding, ending) in [("br", "br"), ("gzip", "gz")] {
        for (plain, _) in headers::TYPES {
            text.push_str(&format!(
                "    <FilesMatch \"[.]{plain}[.]{ending}$\">\n        ForceType \"{}\"\n        Header set Content-Encoding {encoding}\n        \
                 Header append Vary Accept-Encoding\n    </FilesMatch>\n",
                media_type(plain)
            ));
        }
    }
    text.push_str("</IfModule>\n");
    text
}

/// For Caddy.
pub(super) fn caddy() -> String {
    let mut text = format!(
        "# Pressmark on Caddy. Change the name of the site, and root to the folder that holds the folder \"{FOLDER}\".\n\
         club.example {{\n    root * /var/www/html\n    handle /{FOLDER}/* {{\n"
    );
    for (at, (header, values)) in headers::table().into_iter().enumerate() {
        // The first that has a file counts, so each leaves out those before it.
        let mut before: Vec<String> = Vec::new();
        for (place, (files, value)) in values.iter().enumerate() {
            if values.len() == 1 && *files == Files::Every {
                text.push_str(&format!("        header {header} \"{value}\"\n"));
                continue;
            }
            let mut lines = String::new();
            if *files != Files::Every {
                lines.push_str(&format!("            path_regexp {}\n", files.pattern()));
            }
            for other in &before {
                lines.push_str(&format!("            not path_regexp {other}\n"));
            }
            if !value.is_empty() {
                let name = format!("@p{at}_{place}");
                text.push_str(&format!(
                    "        {name} {{\n{lines}        }}\n        header {name} {header} \"{value}\"\n"
                ));
            }
            before.push(files.pattern());
        }
    }
    for (ending, _) in headers::TYPES {
        let media = media_type(ending);
        text.push_str(&format!(
            "        @{ending} path *.{ending}\n        header @{ending} Content-Type \"{media}\"\n"
        ));
    }
    text.push_str("        file_server {\n            precompressed br gzip\n        }\n    }\n}\n");
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_has_every_header_and_no_place_for_a_sign_that_would_end_its_value() {
        for (name, text) in [("nginx", nginx()), ("apache", apache()), ("caddy", caddy())] {
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
