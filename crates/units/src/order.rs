//! Sorting by index. One small merge sort serves the whole page: the library's sort is made for long lists and costs
//! five to eight kilobytes of wasm for each sort of item.

use alloc::vec::Vec;
use core::cmp::Ordering;

/// The indices `0..n`, sorted by `compare`; equal ones stay in order.
#[must_use]
#[inline(never)]
pub fn order(n: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut from: Vec<usize> = (0..n).collect();
    let mut width = 1;
    while width < n {
        let mut to = Vec::with_capacity(n);
        for start in (0..n).step_by(2 * width) {
            let (middle, end) = ((start + width).min(n), (start + 2 * width).min(n));
            let (mut left, mut right) = (start, middle);
            while left < middle || right < end {
                let take_right =
                    left == middle || (right < end && compare(from[right], from[left]) == Ordering::Less);
                let next = if take_right { &mut right } else { &mut left };
                to.push(from[*next]);
                *next += 1;
            }
        }
        from = to;
        width *= 2;
    }
    from
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

    proptest::proptest! {
        #[test]
        fn as_the_library_sorts(values in proptest::collection::vec(0_u8..20, 0..80)) {
            let mut expected: Vec<usize> = (0..values.len()).collect();
            expected.sort_by_key(|i| values[*i]);
            proptest::prop_assert_eq!(order(values.len(), &|a, b| values[a].cmp(&values[b])), expected);
        }
    }
}
