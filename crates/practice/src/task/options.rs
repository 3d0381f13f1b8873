//! The answers of a task: the right one among wrong ones, in an order that tells nothing.

use super::{OPTIONS, Offer};
use reason::Random;

/// Lays out the right answer and wrong ones, the best wrong ones first; those that read like one that is there are left
/// out. The offers, and the place of the right one.
pub(super) fn laid_out(
    right: Offer,
    wrong: impl Iterator<Item = Offer>,
    random: &mut Random,
) -> (Vec<Offer>, usize) {
    let mut offers = vec![right];
    for offer in wrong {
        let reads = offer.label.to_lowercase();
        if offers.len() < OPTIONS && offers.iter().all(|o| o.label.to_lowercase() != reads) {
            offers.push(offer);
        }
    }
    let at = random.below(offers.len());
    let right = offers.remove(0);
    // The wrong ones are turned as well: the nearest must not always come first.
    let turn = random.below(offers.len());
    offers.rotate_left(turn);
    offers.insert(at.min(offers.len()), right);
    let at = at.min(offers.len() - 1);
    (offers, at)
}
