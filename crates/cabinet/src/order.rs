//! Sorting by the one small sort of the house.

use units::{arranged, order};

/// The items in order.
pub(crate) fn sorted<T: Ord>(items: Vec<T>) -> Vec<T> {
    let by = order(items.len(), &|a, b| items[a].cmp(&items[b]));
    arranged(items, &by)
}
