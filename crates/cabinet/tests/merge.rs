//! Merging: a union, whatever the order, and what disagrees.

use crate::common::Random;
use crate::common::make::{record, version};
use cabinet::merge::{Shelf, differences};
use cabinet::record::{Moment, Stamp, Uuid, Version};
use proptest::prelude::*;

/// Versions of few records, some after others, some with one id and two contents, some that name each other.
fn tangle(random: &mut Random, count: usize) -> Vec<Version> {
    let ids: Vec<Uuid> = (0..3).map(|_| random.uuid()).collect();
    let mut all: Vec<Version> = Vec::new();
    for _ in 0..count {
        let mut next = version(random);
        next.stamp.id = *random.pick(&ids);
        next.stamp.time = Moment(1 + random.below(5) as i64);
        let mine: Vec<&Version> = all.iter().filter(|v| v.stamp.id == next.stamp.id).collect();
        next.stamp.after = mine.iter().filter(|_| random.one_in(2)).map(|v| v.stamp.version).collect();
        if let Some(known) = mine.first().filter(|_| random.one_in(4)) {
            next.stamp.version = known.stamp.version;
            next.stamp.after.retain(|id| *id != known.stamp.version);
        }
        let name = next.stamp.version;
        if random.one_in(6)
            && let Some(last) = all.last_mut()
            && last.stamp.version != name
        {
            last.stamp.after.push(name);
        }
        all.push(next);
    }
    all
}

fn some(random: &mut Random, all: &[Version]) -> Shelf {
    Shelf::of(all.iter().filter(|_| random.one_in(2)).cloned().collect())
}

proptest! {
    #[test]
    fn a_union(seed: u64, count in 0_usize..14) {
        let mut random = Random(seed);
        let all = tangle(&mut random, count);
        let [a, b, c] = [(); 3].map(|()| some(&mut random, &all));
        prop_assert_eq!(a.merged(&b), b.merged(&a));
        prop_assert_eq!(a.merged(&b).merged(&c), a.merged(&b.merged(&c)));
        prop_assert_eq!(a.merged(&a), a.clone());
        let both = a.merged(&b);
        prop_assert_eq!(both.merged(&b), both.clone());
        // The conflicts follow from the set, so they do not depend on the order either.
        prop_assert_eq!(both.conflicts(), b.merged(&a).conflicts());
        // Nothing is lost, nothing is made up, and what is new is told.
        for version in a.versions().iter().chain(b.versions()) {
            prop_assert!(both.versions().contains(version));
        }
        prop_assert!(both.versions().iter().all(|v| a.versions().contains(v) || b.versions().contains(v)));
        let new: Vec<Version> = a.new_in(&b).into_iter().cloned().collect();
        prop_assert_eq!(a.merged(&Shelf::of(new)), both.clone());
        // Every record is shown, once, and what is not past is shown or listed.
        let records = both.records();
        let mut ids: Vec<Uuid> = both.versions().iter().map(|v| v.stamp.id).collect();
        ids.dedup();
        prop_assert_eq!(records.iter().map(|k| k.shown.stamp.id).collect::<Vec<_>>(), ids);
        for version in both.versions() {
            let later = |v: &&Version| v.stamp.time > version.stamp.time;
            let named =
                both.versions().iter().filter(later).any(|v| v.stamp.after.contains(&version.stamp.version));
            let told = records.iter().any(|k| {
                let same = |v: &Version| v.record == version.record && v.stamp.deleted == version.stamp.deleted;
                k.shown.stamp.id == version.stamp.id && (same(k.shown) || k.against.iter().any(|v| same(v)))
            });
            prop_assert!(named || told);
        }
    }
}

fn stamp(random: &mut Random, id: Uuid, time: i64) -> Stamp {
    Stamp { id, version: random.uuid(), time: Moment(time), ..Stamp::default() }
}

#[test]
fn two_devices() {
    let mut random = Random(11);
    let id = random.uuid();
    let first = Version::after(&[], stamp(&mut random, id, 1), &record(&mut random));
    let mut changed = first.record.clone();
    changed.title = "On the phone".to_string();
    let phone = Version::after(&[&first], stamp(&mut random, id, 2), &changed);
    let again = Version::after(&[&phone], stamp(&mut random, id, 3), &changed);
    // What came after, even by a version that is not here, is no conflict.
    let shelf = Shelf::of(vec![first.clone(), again.clone()]);
    assert!(shelf.conflicts().is_empty());
    assert_eq!(shelf.records()[0].shown, &again);
    // A change of the same state elsewhere is one, and the later one is shown with the other beside it.
    changed.title = "On the desk".to_string();
    let desk = Version::after(&[&first], stamp(&mut random, id, 9), &changed);
    let shelf = shelf.merged(&Shelf::of(vec![desk.clone()]));
    let kept = &shelf.records()[0];
    assert_eq!((kept.shown, kept.against.as_slice()), (&desk, [&again].as_slice()));
    let differ = differences(&desk.record, &again.record);
    assert_eq!(differ, [("title".to_string(), "On the desk".to_string(), "On the phone".to_string())]);
    // A decision ends it.
    let decided = Version::after(&[&desk, &again], stamp(&mut random, id, 10), &changed);
    let shelf = shelf.merged(&Shelf::of(vec![decided.clone()]));
    assert!(shelf.conflicts().is_empty());
    assert_eq!(shelf.records()[0].shown, &decided);
}

#[test]
fn deleted_here_and_changed_there() {
    let mut random = Random(12);
    let id = random.uuid();
    let first = Version::after(&[], stamp(&mut random, id, 1), &record(&mut random));
    let gone = Stamp { deleted: true, ..stamp(&mut random, id, 9) };
    let gone = Version::after(&[&first], gone, &first.record);
    assert!(Shelf::of(vec![first.clone(), gone.clone()]).records()[0].is_gone());
    let mut changed = first.record.clone();
    changed.notes = "Still here".to_string();
    let changed = Version::after(&[&first], stamp(&mut random, id, 5), &changed);
    let shelf = Shelf::of(vec![gone.clone(), first, changed.clone()]);
    let kept = &shelf.records()[0];
    assert_eq!((kept.shown, kept.against.as_slice()), (&changed, [&gone].as_slice()));
}

#[test]
fn versions_that_name_each_other() {
    // Made by hand: a later one that is named by an earlier one stands all the same, and so does a stranger.
    let mut random = Random(13);
    let id = random.uuid();
    let mut all: Vec<Version> =
        (1..=4).map(|time| Version::after(&[], stamp(&mut random, id, time), &record(&mut random))).collect();
    let names: Vec<Uuid> = all.iter().map(|v| v.stamp.version).collect();
    // A ring of three, and one beside it.
    for at in 0..3 {
        all[at].stamp.after = vec![names[(at + 1) % 3], names[(at + 2) % 3]];
    }
    let shelf = Shelf::of(all.clone());
    let kept = &shelf.records()[0];
    assert_eq!((kept.shown, kept.against.as_slice()), (&all[3], [&all[2]].as_slice()));
}

#[test]
fn a_clock_that_is_behind() {
    let mut random = Random(14);
    let id = random.uuid();
    let first = Version::after(&[], stamp(&mut random, id, 1_000), &record(&mut random));
    let next = Version::after(&[&first], stamp(&mut random, id, 5), &record(&mut random));
    assert_eq!(next.stamp.time, Moment(1_001));
    let shelf = Shelf::of(vec![first, next.clone()]);
    assert!(shelf.conflicts().is_empty());
    assert_eq!(shelf.records()[0].shown, &next);
}
