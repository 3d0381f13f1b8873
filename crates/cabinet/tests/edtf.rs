//! EDTF against published vectors: the specification's own examples, and lists that other programs are held against.

use cabinet::edtf::{End, read};

/// The rows of a file of vectors.
fn rows(text: &str) -> Vec<Vec<&str>> {
    text.lines().filter(|l| !l.starts_with('#')).map(|l| l.split('\t').collect()).collect()
}

/// What differs from a file: the text, what is expected, what was found.
fn differing(text: &str) -> (usize, Vec<String>) {
    let rows = rows(text);
    let mut out = Vec::new();
    for row in &rows {
        let found = read(row[0]).map_or("x".to_string(), |s| s.level.to_string());
        // A text that stands under two levels belongs to the lower one.
        let lower = rows.iter().filter(|r| r[0] == row[0]).map(|r| r[1]).min();
        if Some(found.as_str()) != lower {
            out.push(format!("{} {} {found}", row[0], row[1]));
        }
    }
    (rows.len(), out)
}

#[test]
fn the_specification() {
    // Published: every example of the specification, with its level.
    let (n, differ) = differing(include_str!("edtf/specification.tsv"));
    assert_eq!((n, differ), (66, vec![]));
}

#[test]
fn the_libraries() {
    // Each that differs, with the level there and here. A date at one end at least: the specification has no example
    // without; a doubtful season is level 1 like any date; mixed precisions are compared by the first day and the last
    // possible one; the year -61000 is before the year -2000.
    let (n, differ) = differing(include_str!("edtf/libraries.tsv"));
    let known = [
        "/.. 1 x",
        "../ 1 x",
        "../.. 1 x",
        "2011-23~ 2 1",
        "0000-01-03/0000-01 x 0",
        "0000-02/0000 x 0",
        "Y-61000/-2000 x 1",
        "2004-06-11%/2004-%06 x 2",
        "2004-06-11%/2004-06~ x 1",
    ];
    assert_eq!((n, differ), (262, known.map(String::from).to_vec()));
}

#[test]
fn the_peers() {
    // A sign of doubt before a lone year qualifies a component: level 2 in the specification, level 1 among the peers.
    let (n, differ) = differing(include_str!("edtf/peers.tsv"));
    let known = ["?2001", "?1945", "~1945", "%1945", "?1945/1959", "~1945/1959", "%1945/1959"];
    assert_eq!((n, differ), (228, known.map(|t| format!("{t} 1 2")).to_vec()));
}

#[test]
fn the_bounds() {
    let end = |end: End, open: &str| match end {
        End::Unknown => "-".to_string(),
        End::Open => open.to_string(),
        End::At(d) => format!("{:04}-{:02}-{:02}", d.year, d.month, d.day),
    };
    let mut compared = 0;
    for row in rows(include_str!("edtf/bounds.tsv")) {
        let span = read(row[0]);
        let level = span.map_or("x".to_string(), |s| s.level.to_string());
        // "On or before" within an interval is in ISO 8601-2 and not in the specification: not read.
        if row[0] == "..2004-06-01/2004-06-20.." {
            assert_eq!(span, None);
            continue;
        }
        assert_eq!(level, row[1], "{}", row[0]);
        // The peer's calendar ends before years of nine figures, and it gives no bounds to a year wholly lost.
        if row[2].is_empty() || (row[2] == "-" && row[3] == "-") {
            continue;
        }
        let found = span.map(|s| [end(s.earliest, "-infinity"), end(s.latest, "infinity")]);
        assert_eq!(found, Some([row[2].to_string(), row[3].to_string()]), "{}", row[0]);
        compared += 1;
    }
    assert!(compared > 40, "{compared}");
}

#[test]
fn what_the_house_writes() {
    // The writer of years in another room, and the short forms of this program's own advice.
    for (text, years) in [
        (dating::edtf(&[(1865, 1905)]), Some((1865, 1905))),
        (dating::edtf(&[(1901, 1901)]), Some((1901, 1901))),
        (dating::edtf_bounds(Some((1871, 1871)), None), None),
        (dating::edtf_bounds(Some((1881, 1889)), Some(1952)), Some((1881, 1952))),
        ("188X".to_string(), Some((1880, 1889))),
        ("18XX".to_string(), Some((1800, 1899))),
        ("[1876,1877]".to_string(), Some((1876, 1877))),
    ] {
        let span = read(&text);
        assert!(span.is_some(), "{text}");
        assert_eq!(span.and_then(|s| s.years()), years, "{text}");
    }
    // What people type and what is none by the grammar of the specification.
    // Leap years of the Gregorian calendar.
    assert!(read("2000-02-29").is_some() && read("1904-02-29").is_some() && read("1900-02-29").is_none());
    for text in
        ["190O", "c1880", "1880-1910", "1880s", "1876-13", "1910/1880", "1876-5-18", "18760518", "", "n.d."]
    {
        assert_eq!(read(text), None, "{text}");
    }
}

proptest::proptest! {
    #[test]
    fn any_text_is_answered(text in "[-0-9X?~%/.,TSYE:Z{}\\[\\]]{0,40}") {
        if let Some(span) = read(&text) && let (End::At(a), End::At(b)) = (span.earliest, span.latest) {
            proptest::prop_assert!(a <= b, "{}", text);
        }
    }
}
