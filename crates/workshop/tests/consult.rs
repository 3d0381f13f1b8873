//! `try` and `print key` as a writer of packs meets them.

use crate::common::workshop;
use serde_json::Value;
use std::fs;
use std::path::Path;

/// The sound pack of the compiler's tests.
fn good() -> String {
    shown(&crate::common::good())
}

/// The bundled pack.
fn irons() -> String {
    shown(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/packs/irons"))
}

fn shown(path: &Path) -> String {
    path.to_str().expect("a path of text").to_string()
}

/// A file of answers.
fn answers(name: &str, text: &str) -> String {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("answers-{name}.txt"));
    fs::write(&path, text).expect("a file can be written");
    shown(&path)
}

/// A copy of the sound pack, with one line changed.
fn changed(name: &str, file: &str, from: &str, to: &str) -> String {
    shown(&crate::common::changed(&format!("consult-{name}"), file, from, to))
}

const TOLD: &str = "# an invented piece\ngrip = bar\nlength = 64 mm calipers\nskin = dark ?\nplace = dug\n";

#[test]
fn try_prints_the_finding() {
    let (code, out, err) = workshop(&["try", &good(), "--answers", &answers("text", TOLD), "--year", "2026"]);
    assert_eq!((code, err.as_str()), (Some(0), ""));
    // A pack of invented figures says so on every finding.
    for line in ["All figures of this pack are invented.", "Toy iron with a bar"] {
        assert!(out.lines().any(|l| l == line), "{line} is missing in:\n{out}");
    }
    for (begin, holds) in [
        ("What  ", "Made as toy: "),
        ("Old or later  ", "leans towards period piece, "),
        ("When  ", " even chances; "),
        ("Worth  ", "Price evidence, not an appraisal"),
        ("Settled: ", "nine in ten"),
        ("Link: #1/tiny/p2/3.1/1.640c/5.1u/f~", ""),
    ] {
        let found = out.lines().any(|l| l.starts_with(begin) && l.contains(holds));
        assert!(found, "{begin}... {holds} is missing in:\n{out}");
    }
}

#[test]
fn try_speaks_json() {
    let told = answers("json", TOLD);
    let words = ["try", &good(), "--answers", &told, "--year", "2026", "--json"];
    let (code, out, err) = workshop(&words);
    assert_eq!((code, err.as_str()), (Some(0), ""));
    assert_eq!(workshop(&words).1, out, "the same twice");
    let json: Value = serde_json::from_str(&out).expect("JSON");
    let fields = [
        "grave",
        "cautions",
        "title",
        "draw",
        "likely",
        "share",
        "made_as",
        "outside",
        "make",
        "roles",
        "years",
        "worth",
        "money",
        "next",
        "standing",
        "clues",
        "change",
        "second",
        "kinds",
        "seller",
        "notes",
        "sources",
        "purpose",
        "pack_notice",
    ];
    for field in fields {
        assert!(json.get(field).is_some(), "{field} is missing");
    }
    assert_eq!(json["title"], "Toy iron with a bar");
    assert_eq!(json["pack_notice"], "All figures of this pack are invented.");
    let share = json["share"].as_u64().expect("per mille");
    assert!((900..=1000).contains(&share), "{share}");
    assert_eq!(json["kinds"][0][2].as_u64().map(|s| s <= share), Some(true));
    let years = &json["years"];
    let year = |name: &str| years[name].as_i64().expect("a year");
    let heights = years["heights"].as_array().map(Vec::len);
    assert_eq!(heights.map(|n| n as i64), Some(year("to") - year("from") + 1));
    let worth = &json["worth"]["Ok"];
    assert_eq!(
        (worth["currency"].as_str(), worth["quantiles"].as_array().map(Vec::len)),
        (Some("USD"), Some(5))
    );
    // Three answers speak; the unsure one says so.
    let clues = json["clues"].as_array().expect("clues");
    let unsure: Vec<&Value> = clues.iter().filter(|c| c["unsure"] == true).collect();
    assert_eq!((clues.len(), unsure.len()), (3, 1));
    assert_eq!(unsure[0]["text"], "The metal is dark");
}

#[test]
fn try_goes_by_the_year_it_is_given() {
    let told = answers("year", "skin = bright\n");
    for year in ["1900", "1965", "2026"] {
        let (code, out, _) = workshop(&["try", &good(), "--answers", &told, "--year", year, "--json"]);
        let json: Value = serde_json::from_str(&out).expect("JSON");
        let to = json["years"]["to"].as_i64().expect("a year");
        assert_eq!((code, to <= year.parse().expect("a year")), (Some(0), true), "{to} in {year}");
    }
}

#[test]
fn try_lists_what_is_wrong_with_the_answers() {
    let told = answers("faults", "grip = bar\ngripp = wire\n\nlength = sixty\nplace = moon\n");
    let (code, out, err) = workshop(&["try", &good(), "--answers", &told]);
    assert_eq!((code, out.as_str()), (Some(1), ""));
    let lines: Vec<&str> = err.lines().collect();
    assert_eq!(lines.len(), 3, "{err}");
    for (line, begins) in lines.iter().zip(["line 2: ", "line 4: ", "line 5: "]) {
        assert!(line.starts_with(begins) && line.ends_with('.'), "{line}");
    }
}

#[test]
fn faults_of_the_pack_end_with_one() {
    let pack = changed("faults", "kinds/cast.toml", "bar always", "barr always");
    let told = answers("pack-faults", TOLD);
    for words in [vec!["try", &pack, "--answers", &told], vec!["print", "key", &pack]] {
        let (code, out, err) = workshop(&words);
        assert_eq!((code, out.as_str()), (Some(1), ""), "{words:?}");
        assert!(err.starts_with("kinds/cast.toml:28: looks.grip: "), "{err}");
    }
}

#[test]
fn what_is_not_understood_ends_with_two() {
    let (good, told) = (good(), answers("usage", TOLD));
    for words in [
        vec!["try"],
        vec!["try", &good],
        vec!["try", &good, "--answers"],
        vec!["try", &good, "--answers", "no/such/file"],
        vec!["try", "no/such/folder", "--answers", &told],
        vec!["try", &good, "--answers", &told, "--year", "soon"],
        vec!["try", &good, "--answers", &told, "--year", "99999"],
        vec!["try", &good, "--answers", &told, "--jsn"],
        vec!["print"],
        vec!["print", "book", &good],
        vec!["print", "key"],
        vec!["print", "key", "no/such/folder"],
        vec!["print", "key", &good, "--out"],
    ] {
        let (code, out, err) = workshop(&words);
        assert_eq!((code, out.as_str()), (Some(2), ""), "{words:?}");
        assert!(err.contains("workshop "), "{words:?} is not told how it goes: {err}");
    }
    for words in
        [vec!["try", "--help"], vec!["try", "-h"], vec!["print", "--help"], vec!["print", "key", "--help"]]
    {
        let (code, out, err) = workshop(&words);
        assert_eq!((code, err.as_str()), (Some(0), ""), "{words:?}");
        assert!(out.starts_with(&format!("workshop {}", words[0])), "{words:?}: {out}");
    }
}

/// The tags of a page, in order, without their angles.
fn tags(page: &str) -> Vec<&str> {
    page.split('<').skip(1).map(|t| t.split('>').next().expect("a tag ends")).collect()
}

/// What a printed key must hold to, whatever the pack.
fn sound_key(page: &str) {
    assert!(page.starts_with("<!doctype html>\n") && page.ends_with("</html>\n"));
    let mut open: Vec<&str> = Vec::new();
    for tag in tags(page) {
        let name = tag.split(' ').next().expect("a name");
        match name.strip_prefix('/') {
            Some(closed) => assert_eq!(open.pop(), Some(closed), "closed in order"),
            None if ["!doctype", "meta", "link"].contains(&name) => {}
            None => {
                let known = [
                    "html", "head", "title", "body", "main", "h1", "h2", "p", "section", "ul", "li", "a", "b",
                ];
                assert!(known.contains(&name), "<{tag}>");
                open.push(name);
            }
        }
        // It works on paper and under a strict policy: no program, no style of its own, nothing from elsewhere.
        assert!(!tag.contains("style=") && !tag.contains(" on") && !tag.contains("//"), "<{tag}>");
    }
    assert_eq!(open, Vec::<&str>::new());
    // Every number that is named is there, and every one but the first is gone to.
    let ids: Vec<&str> = tags(page).iter().filter_map(|t| t.strip_prefix("section id=\"")).collect();
    let gone: Vec<&str> = tags(page).iter().filter_map(|t| t.strip_prefix("a href=\"#")).collect();
    assert!(gone.iter().all(|g| ids.contains(g)), "{gone:?} of {ids:?}");
    assert!(ids.iter().skip(1).all(|id| gone.iter().filter(|g| *g == id).count() == 1), "{ids:?}");
}

#[test]
fn the_printed_key_of_the_bundled_pack_leads_from_number_to_number() {
    let (code, page, err) = workshop(&["print", "key", &irons()]);
    assert_eq!((code, err.as_str()), (Some(0), ""));
    sound_key(&page);
    assert!(
        page.matches("<section").count() > 20 && page.contains("<p>Begin at 1. "),
        "a key of some length"
    );
    assert_eq!(workshop(&["print", "key", &irons()]).1, page, "the same twice");
    let lower = page.to_lowercase();
    assert!(!lower.contains("genuine") && !lower.contains("authentic"));
}

#[test]
fn the_field_card_comes_with_its_styles() {
    let to = crate::common::fresh("card");
    fs::create_dir_all(&to).expect("a folder can be made");
    let (code, out, err) = workshop(&["print", &good(), "--card", &shown(&to.join("card.html"))]);
    assert_eq!((code, out.as_str(), err.as_str()), (Some(0), "", ""));
    let page = fs::read_to_string(to.join("card.html")).expect("the card");
    assert!(
        page.contains("href=\"card.css\"") && page.contains("<h1>Tiny test irons: field card</h1>"),
        "{page}"
    );
    assert!(fs::read_to_string(to.join("card.css")).expect("its styles").contains("@page"));
    // One thing at a time, and into a folder that is there.
    for words in [
        vec!["print", "key", &good(), "--card", "x.html"],
        vec!["print", &good(), "--card", "no/such/folder/card.html"],
    ] {
        assert_eq!(workshop(&words).0, Some(2), "{words:?}");
    }
}

#[test]
fn texts_of_a_pack_stay_texts_in_the_printed_key() {
    let pack = changed("signs", "pack.toml", "Tiny test irons", "Irons & <3 > 2 'x' &lt;b&gt;");
    let (code, page, _) = workshop(&["print", "key", &pack]);
    assert_eq!(code, Some(0));
    sound_key(&page);
    assert_eq!(page.matches("Irons &amp; &lt;3 &gt; 2 'x' &amp;lt;b&amp;gt;").count(), 2, "{page}");
    assert!(page.contains("<p><b>All figures of this pack are invented.</b></p>"), "{page}");
}
