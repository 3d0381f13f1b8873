//! Do I have this already? The nearest own pieces to the one in the hand, for the finding.

use cabinet::find::{Alike, Card, Looks, nearest};
use cabinet::record::Standing;
use units::{arranged, order};

/// The most that are named. Basis: practice.
const MOST: usize = 3;

/// What the finding says of them.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Own {
    /// `You own two like this.`
    pub says: String,
    /// Each: what it is called, and its address in the cabinet.
    pub pieces: Vec<(String, String)>,
}

/// Adds cards as they are kept to those for [`own`]: few at a time, so that nothing waits for them. Pieces that were passed
/// over are among them: to have seen one before is worth knowing.
pub fn know(among: &mut Alike, cards: &[String]) {
    let there = |c: &Card| !c.gone && c.standing != Standing::Wanted;
    for card in cards.iter().filter_map(|c| Card::read(c)).filter(there) {
        among.push(card);
    }
}

/// The pieces that are like one in the hand; nothing when there are none.
#[must_use]
pub fn own(among: &Alike, piece: &Looks) -> Option<Own> {
    let like = nearest(among, piece, MOST, None);
    let cards: Vec<&Card> = like.iter().map(|l| among.card(l.at)).collect();
    let owned = cards.iter().filter(|c| c.standing == Standing::Owned).count();
    let first = *cards.first()?;
    let says = match (owned, first.standing) {
        (0, Standing::Sold) => "You had one like this.".to_string(),
        (0, _) => "You passed over one like this.".to_string(),
        (1, _) => "You own one like this.".to_string(),
        (2, _) => "You own two like this.".to_string(),
        _ => "You own three or more like this.".to_string(),
    };
    // Own ones first, the nearest of each first.
    let by = order(cards.len(), &|a, b| cards[a].standing.cmp(&cards[b].standing).then(a.cmp(&b)));
    let pieces =
        arranged(cards, &by).into_iter().map(|c| (called(c), format!("cabinet.html#piece/{}", c.id)));
    Some(Own { says, pieces: pieces.collect() })
}

/// `2026.4, Small flat iron, 98 mm (sold)`.
fn called(card: &Card) -> String {
    let mut out = crate::list::title(card);
    if let Some(number) = &card.number {
        out = format!("{}, {out}", number.text());
    }
    if let Some(length) = card.length {
        out.push_str(&format!(", {} mm", (length + 5) / 10));
    }
    if card.standing != Standing::Owned {
        out.push_str(&format!(" ({})", card.standing.word()));
    }
    out
}
