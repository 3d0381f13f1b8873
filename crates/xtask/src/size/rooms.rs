//! `cargo xtask size --rooms`: which room or crate the code of the page comes from, and its largest functions.
//! Before the optimiser, so larger than what is sent, but in proportion.

use super::wasm_names::Function;
use std::collections::BTreeMap;

/// How many functions are shown.
const SHOWN: usize = 25;

/// Prints both lists. `rooms` are the project's own; a function of another crate that was made for one of them
/// (a generic of yew over a component) counts to that other crate.
pub(super) fn print(functions: &[Function]) {
    let mut rooms: BTreeMap<String, usize> = BTreeMap::new();
    for function in functions {
        let path = path(&function.name);
        let room = path.split("::").next().unwrap_or_default().trim_start_matches('<').to_owned();
        *rooms.entry(room).or_default() += function.bytes;
    }
    let mut rooms: Vec<(String, usize)> = rooms.into_iter().filter(|(_, bytes)| *bytes >= 500).collect();
    rooms.sort_by_key(|(_, bytes)| std::cmp::Reverse(*bytes));
    println!("\ncode by room, before the optimiser");
    for (room, bytes) in rooms {
        println!("{bytes:>10}  {room}");
    }
    let mut largest: Vec<&Function> = functions.iter().collect();
    largest.sort_by_key(|function| std::cmp::Reverse(function.bytes));
    println!("\nlargest functions");
    for function in largest.into_iter().take(SHOWN) {
        println!("{:>10}  {}", function.bytes, path(&function.name));
    }
}

/// The path of a mangled name. Old mangling is undone; of the new one (used by the standard library) the words remain.
fn path(name: &str) -> String {
    let Some(mut rest) = name.strip_prefix("_ZN") else {
        return words(name);
    };
    let mut parts = Vec::new();
    while let Some((part, next)) = counted(rest) {
        parts.push(part);
        rest = next;
    }
    // The last part is a digest.
    parts.pop();
    let mut path = parts.join("::").replace("..", "::");
    for (code, sign) in [
        ("_$LT$", "<"),
        ("$LT$", "<"),
        ("$GT$", ">"),
        ("$u20$", " "),
        ("$u7b$", "{"),
        ("$u7d$", "}"),
        ("$C$", ", "),
        ("$RF$", "&"),
        ("$BP$", "*"),
        ("$u5b$", "["),
        ("$u5d$", "]"),
        ("$LP$", "("),
        ("$RP$", ")"),
        ("$u27$", "'"),
    ] {
        path = path.replace(code, sign);
    }
    path
}

/// A decimal count and that many characters.
fn counted(text: &str) -> Option<(&str, &str)> {
    let digits = text.find(|sign: char| !sign.is_ascii_digit())?;
    let count: usize = text.get(..digits)?.parse().ok()?;
    text.get(digits..)?.split_at_checked(count)
}

/// The identifiers in a name of the new mangling.
fn words(name: &str) -> String {
    let Some(mut rest) = name.strip_prefix("_R") else {
        return name.to_owned();
    };
    let mut words = Vec::new();
    while let Some(sign) = rest.chars().next() {
        let next = match (sign, counted(rest)) {
            (_, Some((word, next))) => {
                words.push(word.trim_start_matches('_'));
                next
            }
            // A number to tell crates or closures of one name apart: letters and digits up to a stroke.
            ('s', None) => rest.split_once('_').map_or("", |(_, next)| next),
            (_, None) => &rest[sign.len_utf8()..],
        };
        rest = next;
    }
    words.join("::")
}

#[cfg(test)]
mod tests {
    use super::path;

    #[test]
    fn mangled_names_become_paths() {
        assert_eq!(path("_ZN6reason4next4rank17h94c11c289c190a64E"), "reason::next::rank");
        assert_eq!(
            path("_ZN52_$LT$yew..scheduler..Run$u20$as$u20$core..fmt..X$GT$3run17h0123456789abcdefE"),
            "<yew::scheduler::Run as core::fmt::X>::run"
        );
        assert_eq!(
            path("_RNvMNtNtCsgXGp5Oqx2Ny_4core4char7methodsc16escape_debug_ext"),
            "core::char::methods::escape_debug_ext"
        );
        assert_eq!(path("main"), "main");
    }
}
