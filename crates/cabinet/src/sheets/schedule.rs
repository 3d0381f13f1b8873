//! A list for an insurer: what is owned, what it is worth by which measure, and the sums.

use super::sheet::{NO_APPRAISAL, Sheet, called, described, pieces, value};
use super::totals::totals;
use crate::record::{Date, Record, Standing, Value, deal_in_words, is_old};

/// The schedule of all owned pieces, in the order in which they are given.
#[must_use]
pub fn schedule(records: &[&Record], today: Date) -> Sheet {
    let owned: Vec<&Record> = records.iter().copied().filter(|r| r.standing == Standing::Owned).collect();
    let mut sheet = Sheet::new(format!("Schedule of a collection, {}", today.shown()));
    sheet.says(format!("{}.", pieces(owned.len())));
    let row = |r: &&Record| {
        let came = r.acquired.as_ref().map_or_else(String::new, |d| deal_in_words(d, true));
        vec![called(r), described(r), r.features.clone(), came, value(r), r.photos.len().to_string()]
    };
    sheet.table(
        &["piece", "description", "told by", "came", "value", "photographs"],
        owned.iter().map(row).collect(),
    );
    sheet.heading("Sums");
    sheet.sums(&totals(&owned));
    let named = |holds: &dyn Fn(&Record) -> bool| {
        owned.iter().filter(|r| holds(r)).map(|r| format!("{}.", called(r))).collect()
    };
    sheet.list("Without a value, and in no sum", named(&|r| r.valued().is_none()));
    sheet.list("Valued more than three years ago: ask again", named(&|r| is_old(r, today)));
    sheet.list("Without a photograph", named(&|r| r.photos.is_empty()));
    sheet.says(NO_APPRAISAL);
    sheet.says("Keep a copy of this list and of the photographs in another house.");
    sheet
}
