//! Sorting by index. One compiled sort serves the whole page: each further instance of the library's sort costs some
//! eight kilobytes of wasm.

use alloc::vec::Vec;
use core::cmp::Ordering;

/// The indices `0..n`, sorted by `compare`; equal ones stay in order.
#[must_use]
#[inline(never)]
pub fn order(n: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut indices: Vec<usize> = (0..n).collect();
    indices.sort_by(|a, b| compare(*a, *b));
    indices
}

/// The indices of `values`, greatest value first; equal ones stay in order.
#[must_use]
pub fn descending(values: &[f64]) -> Vec<usize> {
    order(values.len(), &|a, b| values[b].total_cmp(&values[a]))
}

/// The items in the order of their indices. An index that is out of range or named twice is passed over.
#[must_use]
pub fn arranged<T>(items: Vec<T>, order: &[usize]) -> Vec<T> {
    let mut items: Vec<Option<T>> = items.into_iter().map(Some).collect();
    order.iter().filter_map(|i| items.get_mut(*i)?.take()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::vec;

    #[test]
    fn greatest_first_and_stable() {
        let values = [0.2, 0.5, 0.2, 0.9];
        let order = descending(&values);
        assert_eq!(order, [3, 1, 0, 2]);
        assert_eq!(arranged(vec!['a', 'b', 'c', 'd'], &order), ['d', 'b', 'a', 'c']);
        assert_eq!(arranged(vec![1, 2], &[1, 1, 7]), [2]);
    }
}
