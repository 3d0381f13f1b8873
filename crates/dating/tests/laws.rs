//! What must hold of any marks: a lost character keeps the truth, hard bounds are never softened by more marks, dates of
//! issue are days of issue.

use crate::common::make::{Maker, Random, Truth, found};
use crate::common::{YEAR, tables};
use dating::{Curve, FIRST_YEAR, Flag, Kind, Mark, Measure, Measured, Read, Reading, Verdict, calendar};
use pack::marks::Proof;
use units::{Length, Mass, Period};

const SEED: u64 = 20_261_124;

/// `text` with the character at this place lost.
fn without(text: &str, at: usize) -> String {
    text.chars().enumerate().map(|(i, c)| if i == at { '?' } else { c }).collect()
}

#[test]
fn a_lost_character_keeps_the_true_reading() {
    let t = tables();
    let maker = Maker::new(&t);
    let mut random = Random(SEED);
    let (mut tried, mut missed) = (0, Vec::new());
    for _ in 0..400 {
        let made = maker.make(&mut random);
        // The words that describe a diamond are the person's own: they are never lost.
        let own = made.text.starts_with("diamond");
        for (at, c) in made.text.chars().enumerate() {
            let part_of_word =
                |i: usize| made.text.chars().nth(i).is_some_and(|c| c.is_ascii_lowercase() || c == ' ');
            if own && (c == ' ' || part_of_word(at)) {
                continue;
            }
            let text = without(&made.text, at);
            let read = t.read(&text, Measured::default());
            for truth in &made.truths {
                tried += 1;
                if found(&read, truth).is_none() {
                    missed.push(format!("{text}  <- {} {truth:?}", made.text));
                }
            }
        }
    }
    println!("figure: one character lost: {tried} marks, {} without the true reading", missed.len());
    assert!(missed.is_empty(), "{} of {tried}:\n{}", missed.len(), missed.join("\n"));
}

#[test]
fn every_wording_survives_the_loss_of_a_letter() {
    let t = tables();
    let mut missed = Vec::new();
    for (m, mark) in t.marks().marks.iter().enumerate() {
        for text in &mark.writes {
            // Of two letters one is left: that is no wording.
            for at in (0..text.chars().count()).filter(|_| text.chars().filter(|c| *c != ' ').count() > 2) {
                let text = without(text, at);
                if found(&t.read(&text, Measured::default()), &Truth::Words(m)).is_none() {
                    missed.push(format!("{text} <- {}", mark.id));
                }
            }
        }
    }
    assert!(missed.is_empty(), "{}", missed.join("\n"));
}

/// Years in which all readings of a mark are within their hard bounds, and those in which none is.
fn sides(mark: &Mark) -> (Vec<usize>, Vec<usize>) {
    let (mut inside, mut outside) = (Vec::new(), Vec::new());
    for (i, year) in (FIRST_YEAR..=YEAR).enumerate() {
        let spans = || {
            let rest = mark.rest.iter().map(|(_, e)| e);
            mark.readings.iter().map(|r| &r.evidence).chain(rest).flat_map(|e| &e.spans)
        };
        let hard = |s: &dating::Span| s.hard(year, true) > 0.5;
        if spans().all(|(_, s)| hard(s)) {
            inside.push(i);
        } else if !spans().any(|(_, s)| hard(s)) {
            outside.push(i);
        }
    }
    (inside, outside)
}

#[test]
fn a_mark_never_raises_the_odds_of_a_year_outside_its_bounds() {
    let t = tables();
    let maker = Maker::new(&t);
    let mut random = Random(SEED + 1);
    let mut checked = 0;
    for _ in 0..600 {
        // One to five marks of any sort, worn or not; the last is the one that is added.
        let n = 2 + random.below(4);
        let mut marks: Vec<Mark> = Vec::new();
        for _ in 0..n {
            let made = maker.make(&mut random);
            let lost = random.below(3);
            let text = maker.worn(&mut random, &made.text, lost, true);
            marks.extend(
                t.read(&text, Measured::default())
                    .marks
                    .into_iter()
                    .filter(Mark::dates)
                    .map(|m| Mark { same_as: None, ..m }),
            );
        }
        let Some(added) = marks.last().cloned() else { continue };
        let (before, after) = (t.together(&marks[..marks.len() - 1]), t.together(&marks));
        let (inside, outside) = sides(&added);
        for lists in [(&before.period, &after.period), (&before.later, &after.later)] {
            for (i, o) in
                inside.iter().step_by(7).flat_map(|i| outside.iter().step_by(11).map(move |o| (*i, *o)))
            {
                let odds = |l: &[f64]| libm::log(l[o]) - libm::log(l[i]);
                checked += 1;
                // Rounding apart.
                assert!(odds(lists.1) <= odds(lists.0) + 1e-9, "{} {o} {i}: {marks:?}", added.text);
            }
        }
    }
    println!("figure: odds of a year outside a hard bound: {checked} pairs of years compared");
    assert!(checked > 100_000, "{checked}");
}

#[test]
fn dates_of_issue_are_days_of_issue() {
    let t = tables();
    let mut random = Random(SEED + 2);
    let extra = calendar::day(1849, 3, 10);
    let mut seen = 0;
    let months = [
        "JAN", "FEB", "MARCH", "APR", "MAY", "JUNE", "JULY", "AUG", "SEPT", "OCT", "NOV", "DEC", "M??", "J*",
    ];
    for _ in 0..1_500 {
        let (month, day, year) = (random.pick(&months), 1 + random.below(31), 1840 + random.below(130));
        let mut text = format!("PAT. {month} {day} {year}");
        for _ in 0..random.below(4) {
            let at = 5 + random.below(text.chars().count() - 5);
            text = without(&text, at);
        }
        for r in t.read(&text, Measured::default()).marks.iter().flat_map(|m| &m.readings) {
            let Some(issue) = r.issues.first().filter(|i| i.from == i.to) else { continue };
            let day = issue.from;
            let span = calendar::day(1850, 1, 1) <= Some(day) && Some(day) <= calendar::day(1960, 12, 31);
            match r.kind {
                Kind::Dated(_) if span => {
                    seen += 1;
                    let exception = Some(day) == extra || r.flags.contains(&Flag::NoIssue);
                    assert!(calendar::weekday(day) == 1 || exception, "{text}: {}", r.reads);
                }
                Kind::Date => {
                    assert!(r.flags.contains(&Flag::NoIssue), "{text}: {}", r.reads);
                    assert!(r.says.contains("No patent was issued on that day"), "{text}: {}", r.says);
                }
                _ => {}
            }
        }
    }
    assert!(seen > 1_500, "only {seen} dates");
}

/// A kind's years as a pack has them.
fn years(earliest: i16, likely_from: i16, likely_to: i16, latest: i16) -> Curve {
    Curve::of_periods(&[(1.0, Period { earliest, likely_from, likely_to, latest })], YEAR)
}

#[test]
fn an_old_date_neither_acquits_nor_condemns_a_copy() {
    let t = tables();
    let (period, later) = (years(1865, 1880, 1910, 1930), years(1960, 1975, 2010, 2026));
    let odds = |text: &str| {
        let read = t.read(text, Measured::default());
        let w = t.together(&read.marks).weigh(&period, &later);
        libm::log10(w.later / w.period)
    };
    // Basis of the bounds: a recast carries its pattern's lettering, so its date is as likely as the pattern's; a tenth
    // of a power of ten is what no scale of support counts. A bar code cannot be on a piece of 1900.
    for text in ["PAT. MAY 23 1871", "PAT'D JUNE 6 1882", "No 174465", "D.R.G.M. 104040", "MADE IN GERMANY"] {
        assert!(odds(text).abs() < 0.1, "{text}: {}", odds(text));
    }
    for text in ["BAR CODE", "MADE IN TAIWAN", "IL 60601", "MADE IN CHINA"] {
        assert!(odds(text) > 0.5, "{text}: {}", odds(text));
    }
    // A later make with an old date is still dated by its own years.
    let read = t.read("PAT. MAY 23 1871", Measured::default());
    let w = t.together(&read.marks).weigh(&period, &later);
    assert!(w.later_years.densest(0.5).iter().all(|(from, _)| *from > 1950));
}

#[test]
fn what_cannot_both_be_right_is_said() {
    let t = tables();
    let clash = |text: &str| {
        let read = t.read(text, Measured::default());
        let all = t.together(&read.marks);
        let words = dating::clash_in_words(&read.marks, &all);
        all.clashes.first().map(|c| {
            let name = |m: usize| read.marks[m].text.clone();
            assert!(words[0].contains(&name(c.marks.0)) && words[0].contains(&name(c.marks.1)), "{words:?}");
            (name(c.marks.0), name(c.marks.1))
        })
    };
    let pair = |a: &str, b: &str| Some((a.to_string(), b.to_string()));
    // Occupied Japan ends in 1952 (scapin); the other bounds begin later.
    assert_eq!(clash("MADE IN OCCUPIED JAPAN, IL 60601"), pair("MADE IN OCCUPIED JAPAN", "IL 60601"));
    assert_eq!(clash("BAR CODE, LTD, OCCUPIED JAPAN"), pair("BAR CODE", "OCCUPIED JAPAN"));
    for text in [
        "MADE IN JAPAN PAT. NO. 2046343",
        "PAT. MAY 23 1871 & JUNE 6 1882",
        "OCCUPIED JAPAN PAT. 1871",
        "NIPPON",
    ] {
        assert_eq!(clash(text), None, "{text}");
    }
}

#[test]
fn number_and_date_of_one_patent_are_one_source() {
    let t = tables();
    let read = t.read("PAT. APR 4 1871 No 113448", Measured::default());
    let alone = t.read("PAT. APR 4 1871", Measured::default());
    let (both, one) = (t.together(&read.marks), t.together(&alone.marks));
    assert_eq!((both.sources.len(), one.sources.len()), (1, 1));
    // Intersected, not multiplied: the habit of use falls no faster.
    for (i, (b, o)) in both.period.iter().zip(&one.period).enumerate().skip(275) {
        assert!((b / both.period[272]) / (o / one.period[272]) > 0.9, "{}", 1600 + i);
    }
    // Each resolves the other: 1?4465 alone may be of ten years, with the date it is of one.
    let read = t.read("PAT. MAR 7 187? No 17?465", Measured::default());
    let dates = read.marks.iter().flat_map(|m| m.readings.first());
    for r in dates {
        assert!(r.chance > 0.95 && r.years().iter().any(|(y, s)| *y == 1876 && *s > 0.95), "{r:?}");
    }
    // A number of 1890 and a date of 1871 are two patents.
    let two = t.read("PAT. APR 4 1871 PAT. NO. 420000", Measured::default());
    assert!(two.marks.iter().all(|m| m.same_as.is_none()));
    assert_eq!(t.together(&two.marks).sources.len(), 2);
}

#[test]
fn soft_sources_are_tempered_and_hard_bounds_are_not() {
    let t = tables();
    let read = t.read("ENGLAND", Measured::default());
    let one = &read.marks[0];
    assert_eq!(one.readings[0].evidence.proof, Proof::Habit);
    let soft = |n: usize| t.together(&vec![one.clone(); n]).period[(1880 - FIRST_YEAR) as usize];
    // Published: the power -0.7 (loire-dates). Of n alike sources n * n^-0.7 = n^0.3 counts.
    for n in [2_usize, 3, 5] {
        let expected = libm::log(soft(1)) * libm::pow(n as f64, 0.3);
        assert!(
            (libm::log(soft(n)) - expected).abs() < 0.05 * expected.abs(),
            "{n}: {} {expected}",
            libm::log(soft(n))
        );
    }
    // A hard bound counts in full each time.
    let read = t.read("BAR CODE", Measured::default());
    let hard = |n: usize| t.together(&vec![read.marks[0].clone(); n]).later[(1960 - FIRST_YEAR) as usize];
    assert!((libm::log(hard(3)) - 3.0 * libm::log(hard(1))).abs() < 1e-9);
}

#[test]
fn a_measure_tells_sizes_apart() {
    let t = tables();
    // The first reading, and what its measure says.
    let first = |text: &str, mm: Option<u32>, grams: Option<u32>| {
        let measured = Measured { length: mm.map(|l| Length(l * 10)), mass: grams.map(|m| Mass(m * 10)) };
        let read = t.read(text, measured);
        let r = read.marks[0].readings[0].clone();
        let held = r.flags.iter().find_map(|f| match f {
            Flag::Held(held) => Some(held.verdict),
            _ => None,
        });
        match r.kind {
            Kind::Size(s) => (t.marks().sizes[s].id.clone(), held),
            other => (format!("{other:?}"), held),
        }
    };
    // Published: sole of 150 mm marked 16, 160 to 170 mm marked 17, 170 mm marked 18 (roscheider-toe); goose of 267 mm
    // marked 24 (grey-roots-1959); hatter's iron of 160 mm and 3.5 kg marked 4 (chapeau-986-1-296).
    for (text, mm) in [("16", 150), ("17", 165), ("18", 170)] {
        assert_eq!(
            first(text, Some(mm), None),
            ("toe-centimetres".to_string(), Some(Verdict::For)),
            "{text}"
        );
    }
    for (mm, grams) in [(Some(267), None), (None, Some(10_886)), (Some(267), Some(10_886))] {
        assert_eq!(
            first("24", mm, grams),
            ("pounds-goose".to_string(), Some(Verdict::For)),
            "{mm:?} {grams:?}"
        );
    }
    // A sole of 233 mm fits 24 at the toe as well as a goose of 24 pounds: the scales shift the odds either way, tenfold.
    // Basis of the bound: ten times is what scales of support call moderate (practice).
    let odds = |grams: Option<u32>| {
        let measured = Measured { length: Some(Length(2_330)), mass: grams.map(|m| Mass(m * 10)) };
        let read = t.read("24", measured);
        let chance = |id: &str| {
            let is = |r: &&Reading| matches!(r.kind, Kind::Size(s) if t.marks().sizes[s].id == id);
            read.marks.iter().flat_map(|m| &m.readings).find(is).map_or(0.0, |r| r.chance)
        };
        chance("pounds-goose") / chance("toe-centimetres")
    };
    assert!(odds(Some(10_886)) > 2.0 * odds(None), "{} {}", odds(Some(10_886)), odds(None));
    assert!(odds(Some(3_000)) < 0.1 * odds(None), "{} {}", odds(Some(3_000)), odds(None));
    let (id, held) = first("4", Some(160), Some(3_500));
    assert!(id == "weight-class" && held == Some(Verdict::For), "{id} {held:?}");
}

#[test]
fn a_measure_never_raises_what_it_speaks_against() {
    let t = tables();
    let mut random = Random(SEED + 4);
    let mut seen = [0_usize; 3];
    for _ in 0..2_000 {
        let text = (1 + random.below(30)).to_string();
        let mass = Mass(200 + random.below(120_000) as u32);
        let measured = Measured { length: None, mass: Some(mass) };
        let (plain, weighed) = (t.read(&text, Measured::default()), t.read(&text, measured));
        let readings = |read: &Read| read.marks.iter().flat_map(|m| m.readings.clone()).collect::<Vec<_>>();
        let free = |all: &[Reading]| {
            all.iter().find(|r| matches!(r.kind, Kind::Number(_))).map(|r| (r.kind, r.chance))
        };
        let (before, after) = (readings(&plain), readings(&weighed));
        let Some((kind, chance)) = free(&before) else { continue };
        let Some(beside) = after.iter().find(|r| r.kind == kind).map(|r| r.chance) else { continue };
        for r in &after {
            let Some(verdict) = r.flags.iter().find_map(|f| match f {
                Flag::Held(h) if h.measure == Measure::Mass => Some(h.verdict),
                _ => None,
            }) else {
                continue;
            };
            let Some(old) = before.iter().find(|o| o.kind == r.kind && o.reads == r.reads) else { continue };
            // Its odds beside a reading that no measure touches.
            let change = (r.chance / beside) / (old.chance / chance);
            match verdict {
                Verdict::For => {
                    seen[0] += 1;
                    assert!(change > 1.0, "{text} {mass:?} {}: {change}", r.name);
                }
                Verdict::Against => {
                    seen[1] += 1;
                    assert!(change < 1.0, "{text} {mass:?} {}: {change}", r.name);
                }
                _ => seen[2] += 1,
            }
        }
    }
    println!(
        "figure: masses beside numbers: {} bear out, {} speak against, {} leave open",
        seen[0], seen[1], seen[2]
    );
    assert!(seen[0] > 100 && seen[1] > 1_000, "{seen:?}");
}
