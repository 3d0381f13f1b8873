//! The years of a finding, whatever year it is.

use crate::common::{SEED, YEAR, irons_in, walked};
use consult::{Body, Guide, Msg, Screen, State, YearsView, update, view};
use reason::Random;

fn years(guide: &Guide, state: &State) -> YearsView {
    let shown = update(guide, state.clone(), Msg::Show(Screen::Finding)).0;
    match view(guide, &shown).body {
        Body::Finding(f) => f.years,
        other => unreachable!("the finding was asked for: {other:?}"),
    }
}

/// Every number of four digits in a text.
fn named(text: &str) -> Vec<i16> {
    let digits = text.split(|c: char| !c.is_ascii_digit()).filter(|run| run.len() == 4);
    digits.map(|run| run.parse().expect("four digits are a year")).collect()
}

#[test]
fn no_year_lies_behind_this_year() {
    for this_year in [1600, 1601, 1750, 1899, 1960, 1999, YEAR, 2100] {
        let guide = irons_in(this_year);
        let latest =
            guide.core.kinds.iter().flat_map(|k| k.makes.iter().flatten()).map(|m| m.period.latest).max();
        assert!(this_year >= YEAR || latest > Some(this_year), "a kind is made later than {this_year}");
        let mut random = Random::seeded(SEED);
        for steps in 0..25 {
            let mut n = || random.bits() as u16;
            let taps: Vec<_> = (0..steps % 8).map(|_| ((n() % 20) as u8, n(), n(), n())).collect();
            let y = years(&guide, &walked(&guide, &taps));
            let all = [named(&y.half), named(&y.nine), named(&y.edtf), vec![y.from, y.to]].concat();
            assert!(all.iter().all(|year| (1600..=this_year).contains(year)), "{this_year}: {all:?}");
            for runs in [&y.half_runs, &y.nine_runs] {
                assert!(
                    !runs.is_empty() && runs.iter().all(|(a, b)| y.from <= *a && a <= b && *b <= y.to),
                    "{runs:?}"
                );
                assert!(runs.windows(2).all(|w| w[0].1 + 1 < w[1].0), "runs in order and apart: {runs:?}");
            }
            let width = usize::try_from(y.to - y.from).expect("from before to") + 1;
            assert_eq!(y.heights.len(), width);
            assert_eq!(y.heights.iter().max(), Some(&1000), "the tallest fills the height");
            assert!(!y.half.is_empty() && !y.nine.is_empty() && y.basis.ends_with("no marks read yet."));
        }
    }
}

/// The grid of years begins with 1600; a clock before that counts as 1600 and nothing breaks.
#[test]
fn a_clock_that_stands_wrong_does_no_harm() {
    for this_year in [i16::MIN, -1, 0, 1, 1599] {
        let guide = irons_in(this_year);
        assert_eq!(guide.this_year, 1600);
        assert_eq!(years(&guide, &State::default()).nine, "about 1600");
    }
    let far = years(&irons_in(i16::MAX), &State::default());
    assert!(far.from >= 1600 && far.to > far.from);
}
