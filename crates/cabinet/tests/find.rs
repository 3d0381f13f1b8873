//! Finding again, among few pieces and among five thousand.

use crate::common::make::{text, version};
use crate::common::{Random, deep};
use cabinet::find::{Alike, Card, Filter, Index, Looks, Query, Sort, nearest, words_of};
use cabinet::record::{Date, Mark, Measurement, Number, Record, Size, Standing, Value, Version};
use proptest::prelude::*;
use std::time::Instant;

const TODAY: Date = Date { year: 2026, month: 11, day: 29 };

fn words(words: &str) -> Query {
    Query { words: words.to_string(), ..Query::default() }
}

/// A piece with a link of so many answers, drawn so that some are rare.
fn piece(random: &mut Random, n: usize) -> Version {
    let mut version = version(random);
    let record = &mut version.record;
    let choice = |random: &mut Random| 1 + random.below(6).min(random.below(6));
    let answers: Vec<String> = (1..=30).map(|q| format!("{q}.{}", choice(random))).collect();
    record.answers = format!("1/irons/{}/f~abcd", answers.join("/"));
    record.number = Number::new(&format!("{}.{}", 1990 + n / 999, 1 + n % 999));
    record.description = text(random, 60);
    let size = |what: &str, value: String| Measurement {
        what: what.to_string(),
        value: Size::read(&value).ok(),
        ..Measurement::default()
    };
    record.measurements = vec![
        size("length", format!("{} mm", 30 + random.below(120))),
        size("weight", format!("{} g", 40 + random.below(700))),
    ];
    record.marks = vec![Mark { text: format!("No {}", random.below(9)), ..Mark::default() }];
    record.outline = (0..16).map(|_| random.below(1000) as i32).collect();
    version
}

fn ordered<T: PartialOrd>(list: &[T], backwards: bool) -> bool {
    list.windows(2).all(|w| if backwards { w[0] >= w[1] } else { w[0] <= w[1] })
}

fn alike(versions: &[&Version]) -> Alike {
    let mut all = Alike::default();
    versions.iter().for_each(|v| all.push(Card::new(v, 0)));
    all
}

proptest! {
    #[test]
    fn what_is_found(seed: u64, asked in "(swan|iron|grip|No|bugel|3| ){0,3}") {
        let mut random = Random(seed);
        let mut versions: Vec<Version> = (0..20).map(|_| version(&mut random)).collect();
        versions[3].record.title = "Bügeleisen".to_string();
        let all: Vec<&Version> = versions.iter().collect();
        let found = Index::new(&all, TODAY).find(&words(&asked));
        for (at, version) in versions.iter().enumerate() {
            // All words in any value, by another way: the record as text.
            let text = cabinet::find::folded(&cabinet::text::write(version));
            let every = cabinet::find::folded(&asked).split_whitespace().all(|w| text.contains(w));
            prop_assert!(!found.contains(&at) || every, "{} in {}", asked, text);
            if version.record.title.to_lowercase().contains(asked.trim()) {
                prop_assert!(found.contains(&at));
            }
        }
    }

    #[test]
    fn a_card_comes_back_from_its_text(seed: u64, against in 0..3_usize) {
        let mut version = version(&mut Random(seed));
        version.record = version.record.tidied();
        let card = Card::new(&version, against);
        prop_assert_eq!(Card::read(&card.write()), Some(card.clone()));
        prop_assert_eq!(card.looks(), Looks::of(&version.record));
        prop_assert_eq!(Card::read(&card.write().replacen('1', "2", 1)), None);
    }

    #[test]
    fn an_order_is_an_order(seed: u64, backwards: bool) {
        let mut random = Random(seed);
        let versions: Vec<Version> = (0..15).map(|_| version(&mut random)).collect();
        let all: Vec<&Version> = versions.iter().collect();
        let index = Index::new(&all, TODAY);
        for sort in [Sort::Number, Sort::Title, Sort::Date, Sort::Length, Sort::Weight, Sort::Saved, Sort::Value] {
            let found = index.find(&Query { sort, backwards, ..Query::default() });
            let mut places = found.clone();
            places.sort_unstable();
            prop_assert_eq!(places, (0..15).collect::<Vec<_>>());
            let times: Vec<i64> = found.iter().map(|at| versions[*at].stamp.time.0).collect();
            if sort == Sort::Saved {
                prop_assert!(ordered(&times, backwards));
            }
            if sort == Sort::Length {
                let lengths: Vec<Option<u32>> =
                    found.iter().map(|at| versions[*at].record.measured("length").and_then(|m| m.value?.length()).map(|l| l.0)).collect();
                let there: Vec<u32> = lengths.iter().flatten().copied().collect();
                prop_assert!(lengths[..there.len()].iter().all(Option::is_some), "what lacks it stands last");
                prop_assert!(ordered(&there, backwards));
            }
        }
    }

    #[test]
    fn nothing_is_nearer_than_itself(seed: u64) {
        let mut random = Random(seed);
        let versions: Vec<Version> = (0..60).map(|n| piece(&mut random, n)).collect();
        let all: Vec<&Version> = versions.iter().collect();
        let index = alike(&all);
        let at = random.below(60);
        let like = nearest(&index, &Looks::of(&versions[at].record), 3, None);
        prop_assert_eq!(like.first().map(|l| l.at), Some(at));
        prop_assert!(like[0].likeness > 800 && like[0].likeness <= 1000);
        prop_assert!(like.windows(2).all(|w| w[0].likeness >= w[1].likeness));
        // The piece itself can be left out.
        let id = versions[at].stamp.id;
        prop_assert!(nearest(&index, &Looks::of(&versions[at].record), 3, Some(id)).iter().all(|l| l.id != id));
    }
}

#[test]
fn filters() {
    let mut random = Random(2);
    let mut plain = |standing, class: &str, materials: &[&str]| {
        let mut version = version(&mut random);
        version.record = Record {
            standing,
            class: class.to_string(),
            materials: materials.iter().map(|m| (*m).to_string()).collect(),
            ..Record::default()
        };
        version
    };
    let versions = [
        plain(Standing::Owned, "toy", &["cast iron", "wood"]),
        plain(Standing::Wanted, "Toy", &[]),
        plain(Standing::Owned, "trivet", &["Cast Iron"]),
    ];
    let all: Vec<&Version> = versions.iter().collect();
    let mut index = Index::new(&all, TODAY);
    let find = |index: &Index, filters: &[Filter]| {
        index.find(&Query { filters: filters.to_vec(), ..Query::default() })
    };
    assert_eq!(find(&index, &[Filter::Class("toy".to_string())]), [0, 1]);
    assert_eq!(find(&index, &[Filter::Class("toy".to_string()), Filter::Standing(Standing::Owned)]), [0]);
    assert_eq!(find(&index, &[Filter::Material("cast iron".to_string())]), [0, 2]);
    assert_eq!(find(&index, &[Filter::Length(1, 9_000)]), Vec::<usize>::new());
    assert_eq!(find(&index, &[Filter::NoPhoto]).len(), 3);
    assert_eq!(words_of(&all, &|r| r.materials.clone()).len(), 3);
    // A record that was changed takes its place.
    let mut changed = versions[1].clone();
    changed.record.class = "trivet".to_string();
    index.put(Card::new(&changed, 0), TODAY);
    assert_eq!(find(&index, &[Filter::Class("trivet".to_string())]), [1, 2]);
}

#[test]
fn a_difference_counts() {
    let mut random = Random(8);
    let mut versions: Vec<Version> = (0..40).map(|n| piece(&mut random, n)).collect();
    let looks = Looks::of(&versions[0].record);
    // A twin but for its size; a twin but for one answer; the same size alone.
    versions[1].record = versions[0].record.clone();
    versions[1].record.measurements[0].value = Size::read("400 mm").ok();
    versions[2].record = versions[0].record.clone();
    versions[2].record.answers = versions[0].record.answers.replace("/1.", "/1.9");
    versions[3].record.measurements = versions[0].record.measurements.clone();
    let all: Vec<&Version> = versions.iter().collect();
    let like = nearest(&alike(&all), &looks, 9, None);
    let places: Vec<usize> = like.iter().map(|l| l.at).collect();
    assert_eq!(places[..3], [0, 2, 1], "{like:?}");
    assert!(!places.contains(&3));
    assert_eq!(like[1].answers, (29, 30));
    // Nothing known of the piece: nothing is like it.
    assert!(nearest(&alike(&all), &Looks::default(), 9, None).is_empty());
}

#[test]
fn among_five_thousand() {
    let mut random = Random(20_261_129);
    let versions: Vec<Version> = (0..5_000).map(|n| piece(&mut random, n)).collect();
    let all: Vec<&Version> = versions.iter().collect();
    let start = Instant::now();
    let index = Index::new(&all, TODAY);
    let built = start.elapsed();
    let start = Instant::now();
    let likes = alike(&all);
    let likes_built = start.elapsed();
    let least = |what: &mut dyn FnMut()| {
        let rounds = if deep() { 30 } else { 9 };
        let time = |what: &mut dyn FnMut()| {
            let start = Instant::now();
            what();
            start.elapsed()
        };
        (0..rounds).map(|_| time(what)).min().unwrap_or_default()
    };
    let looks = Looks::of(&versions[77].record);
    let word = least(&mut || assert!(!index.find(&words("swan wire")).is_empty()));
    let none = least(&mut || assert!(index.find(&words("zeppelin")).is_empty()));
    let sorted =
        least(&mut || assert_eq!(index.find(&Query { sort: Sort::Title, ..Query::default() }).len(), 5_000));
    let near = least(&mut || assert_eq!(nearest(&likes, &looks, 5, None)[0].at, 77));
    println!(
        "figure: of 5,000 records: made ready {built:?}, for likeness {likes_built:?}, two words {word:?}, a word that is nowhere {none:?}, by title {sorted:?}, nearest {near:?}"
    );
    // A search may take 100 ms on a phone four times as slow as this; unoptimised code may take that here.
    for took in [word, none, sorted, near] {
        assert!(took.as_millis() < 100, "{took:?}");
    }
}
