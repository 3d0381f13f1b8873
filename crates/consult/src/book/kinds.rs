//! All kinds, grouped by what they look like, by what they were made as, or by name.

use super::Pages;
use super::page::{Grouping, Page};
use super::sheet::{Block, Card, Sheet, Tone, toned};
use super::tables::top;
use pack::Form;
use units::order;

impl Pages {
    /// Whether kinds can be grouped by the answers to a look.
    pub(super) fn groups_by(&self, question: usize) -> bool {
        self.core.questions.get(question).is_some_and(|q| q.form == Form::Choice && q.gate.is_none())
    }

    /// The look by which kinds are grouped when nothing was asked for: the first of the opening that can.
    fn usual_look(&self) -> Option<usize> {
        let mut opening = self.core.opening.iter().map(|q| usize::from(*q));
        opening.find(|q| self.groups_by(*q))
    }

    /// The choice that a kind shows most often at a look.
    pub(super) fn mostly_shows(&self, kind: usize, question: usize) -> Option<(usize, f64)> {
        let shown = self.shown(&self.sort(kind, self.main_make(kind)), question)?;
        let choice = top(&shown.shares);
        Some((choice, *shown.shares.get(choice)?))
    }
}

pub(super) fn sheet(pages: &Pages, by: Grouping) -> Sheet {
    let by = match (by, pages.usual_look()) {
        (Grouping::Usual, Some(q)) => Grouping::Look(q),
        (Grouping::Usual, None) => Grouping::Name,
        (by, _) => by,
    };
    let many = pages.kinds().count();
    let how = match by {
        Grouping::Look(q) => {
            format!("{many} kinds, each by the answer that it shows most. {}", pages.core.questions[q].ask)
        }
        Grouping::Role => format!("{many} kinds, each by what it was made as most."),
        _ => format!("{many} kinds, by name."),
    };
    Sheet {
        title: "All kinds".to_string(),
        lead: vec![Block::Keys(ways(pages, by)), toned(Tone::Hint, how)],
        body: groups(pages, by),
        keys: pages.usual_keys(),
    }
}

/// The ways of grouping: the looks of the opening, what it was made as, by name.
fn ways(pages: &Pages, by: Grouping) -> Vec<(String, String, bool)> {
    let way = |grouping: Grouping, says: String| (pages.to(&Page::Kinds(grouping)), says, grouping == by);
    let looks = pages.core.opening.iter().map(|q| usize::from(*q)).filter(|q| pages.groups_by(*q));
    let mut ways: Vec<_> = looks.map(|q| way(Grouping::Look(q), pages.part(q))).collect();
    // A look that was asked for by a link stands among the others.
    if let Grouping::Look(q) = by
        && ways.iter().all(|w| !w.2)
    {
        ways.push(way(by, pages.part(q)));
    }
    ways.push(way(Grouping::Role, "Made as".to_string()));
    ways.push(way(Grouping::Name, "A to Z".to_string()));
    ways
}

fn groups(pages: &Pages, by: Grouping) -> Vec<Block> {
    let card = |kind: usize| pages.kind_card(kind, &Page::Kind(kind));
    let kinds: Vec<usize> = pages.kinds().collect();
    if by == Grouping::Name {
        let name = |at: usize| super::fold::fold(&pages.core.kinds[kinds[at]].short);
        let names: Vec<String> = (0..kinds.len()).map(name).collect();
        let sorted = order(kinds.len(), &|a, b| names[a].cmp(&names[b]));
        return vec![Block::Cards(sorted.into_iter().map(|at| card(kinds[at])).collect())];
    }
    // What each kind belongs to, and the names of all groups in their order.
    let (belongs, names): (Vec<Option<usize>>, Vec<&str>) = match by {
        Grouping::Look(q) => (
            kinds.iter().map(|k| pages.mostly_shows(*k, q).map(|m| m.0)).collect(),
            pages.core.questions[q].choices.iter().map(|c| c.label.as_str()).collect(),
        ),
        _ => (
            kinds.iter().map(|k| Some(top(&pages.roles(&pages.sort(*k, pages.main_make(*k)))))).collect(),
            pages.core.roles.iter().map(|r| r.name.as_str()).collect(),
        ),
    };
    let mut blocks = Vec::new();
    for (group, name) in names.iter().enumerate() {
        let cards: Vec<Card> =
            kinds.iter().zip(&belongs).filter(|(_, b)| **b == Some(group)).map(|(k, _)| card(*k)).collect();
        if !cards.is_empty() {
            blocks.push(Block::Group((*name).to_string(), vec![Block::Cards(cards)]));
        }
    }
    blocks
}
